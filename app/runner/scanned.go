package runner

import (
	"lintel/app/words"
	"lintel/kits/barcode"
	"lintel/mesh"
	"lintel/requests"
)

// reading is what a scanned label says of the thing in the hand; zero: it was chosen.
type reading struct {
	is     bool
	lot    mesh.Label
	expiry uint32 // as 20271231; 0: the label has none
	noDay  bool
}

// Scanned takes a label as the item and lot of a read-back, of the request that is
// open or of the only one that this runner is fetching. How many is asked: no label
// says what is in the hand. False: nobody waits for a read-back. Call it on the UI
// goroutine.
func (s *Screen) Scanned(text string) bool {
	ref, wanted := s.fetching()
	if !wanted {
		return false
	}
	scan, err := barcode.Parse([]byte(text), s.opt.Now().Year())
	if err != nil {
		s.unread("runner.scan.bad", "runner.scan.bad-hint")
		return true
	}
	number, known := s.snap.labelled(scan.Names())
	if !known {
		s.unread("runner.scan.unknown", "runner.scan.unknown-hint")
		return true
	}
	s.list()
	s.hand.ref, s.hand.to, s.hand.item = ref, toReadBack, number
	s.hand.read = reading{is: true, lot: mesh.Label(scan.Lot), expiry: dayOf(scan.Expiry), noDay: scan.Expiry.Inferred}
	if s.hand.read.lot.Valid() != nil {
		s.hand.read.lot = ""
	}
	s.ask(stepCount)
	return true
}

// dayOf is a date as stock has it; 0: the label has none.
func dayOf(d barcode.Date) uint32 {
	if !d.Known() {
		return 0
	}
	return uint32(d.Year*10000 + d.Month*100 + d.Day)
}

// fetching is the request that a label would answer.
func (s *Screen) fetching() (ref mesh.Ref, found bool) {
	if r, known := s.snap.request(s.hand.ref); known && s.hand.step != stepList {
		return r.Ref, r.can(requests.ActReadBack)
	}
	for _, r := range s.snap.Requests {
		if !r.Mine || !r.can(requests.ActReadBack) {
			continue
		}
		if found {
			return mesh.Ref{}, false
		}
		ref, found = r.Ref, true
	}
	return ref, found
}

// labelled is the item that a label's names are of.
func (s Snapshot) labelled(names []string) (mesh.Number, bool) {
	for _, name := range names {
		for _, i := range s.Items {
			for _, code := range i.Codes {
				if string(code) == name {
					return i.Number, true
				}
			}
		}
	}
	return 0, false
}

// unread says over the list why a label was no read-back.
func (s *Screen) unread(said, hint string) {
	s.list()
	s.hand.fault = [2]string{s.opt.Words.Say(words.ID(said)), s.opt.Words.Say(words.ID(hint))}
	s.Paint()
}

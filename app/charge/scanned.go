package charge

import (
	"fmt"
	"slices"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/kits/barcode"
	"lintel/mesh"
)

// label is what a scanned label says, and whose it is.
type label struct {
	barcode.Scan
	item  kits.ItemLine
	known bool
}

// labels are the barcodes of the catalogue.
func labels(v station.View) map[mesh.Label]kits.ItemLine {
	out := map[mesh.Label]kits.ItemLine{}
	for _, i := range v.Ledger.Items() {
		for _, c := range i.Codes {
			out[c] = i
		}
	}
	return out
}

// Scanned takes what a scanner read. False: the open page has no use for a label.
// A label never says how many there are. Call it on the UI goroutine.
func (s *Screen) Scanned(text string) bool {
	at := s.hand.at
	at.Text = s.snap.For.Text // a label that was typed into the search was searched for, too
	if s.snap.For != at || !s.takesLabels() {
		return false
	}
	s.hand.fault = [2]string{}
	scan, err := barcode.Parse([]byte(text), s.opt.Now().Year())
	if err != nil {
		s.wrong("charge.scan.bad", "charge.scan.bad-hint")
		return true
	}
	l := label{Scan: scan}
	for _, name := range scan.Names() {
		if l.item, l.known = s.snap.Labels[mesh.Label(name)]; l.known {
			break
		}
	}
	s.labelled(l)
	return true
}

// takesLabels tells whether a page has a use for a label.
func (s *Screen) takesLabels() bool {
	switch s.hand.at.Page {
	case PageCatalogue, PageItem, PageRecall, PageRestock:
		return s.hand.step == stepNone
	case PageForm:
		switch s.hand.at.Form {
		case FormItem, FormReceive, FormIssue, FormTake:
			return true
		}
	}
	return false
}

// labelled does what a label means on the page that is open.
func (s *Screen) labelled(l label) {
	at := s.hand.at
	switch {
	case at.Page == PageForm && at.Form == FormItem:
		s.addCode(l)
	case at.Page == PageItem && !l.known:
		s.open(Wanted{Page: PageForm, Form: FormItem, Item: at.Item})
		s.hand.code = codeOf(l)
		s.begin()
	case at.Page == PageRecall && l.Lot != "" && (l.known || l.Item() == ""):
		if l.known {
			at.Item = l.item.Number
		}
		s.open(Wanted{Page: PageRecall, Item: at.Item, Lot: mesh.Label(l.Lot)})
	case !l.known:
		s.wrong("charge.scan.unknown", "charge.scan.unknown-hint")
	case at.Page == PageRestock:
		s.fetchedOf(l)
	case at.Page == PageForm && at.Form == FormTake:
		s.countedOf(l)
	case at.Page == PageForm:
		s.fill(l)
	default:
		s.open(Wanted{Page: PageItem, Item: l.item.Number})
	}
}

// codeOf is what a catalogue knows an item by.
func codeOf(l label) string {
	if names := l.Names(); len(names) > 0 {
		return names[0]
	}
	return ""
}

// addCode adds a barcode to the line that is filled in. It is written with it.
func (s *Screen) addCode(l label) {
	code := codeOf(l)
	switch {
	case code == "":
		s.wrong("charge.scan.bad", "charge.scan.bad-hint")
	case l.known && l.item.Number != s.hand.at.Item:
		s.wrong("charge.scan.taken", "charge.scan.unknown-hint", named(l.item))
	default:
		if !slices.Contains(s.hand.draft.values(fieldCodes), code) {
			s.put(fieldCodes, s.hand.draft.toggled(fieldCodes, code))
		}
		s.say("charge.scan.added")
	}
}

// say says what a label did.
func (s *Screen) say(id words.ID, blanks ...any) {
	s.hand.said, s.hand.last = s.opt.Words.Say(id, blanks...), mesh.Ref{}
	s.Paint()
}

// fill fills item, lot and last day in from a label, never how many there are.
func (s *Screen) fill(l label) {
	if s.hand.at.Form == FormIssue && !slices.ContainsFunc(s.snap.Items, func(i kits.ItemLine) bool { return i.Number == l.item.Number }) {
		s.wrong("charge.scan.not-here", "charge.scan.nothing", named(l.item))
		return
	}
	s.put(fieldItem, fmt.Sprint(l.item.Number))
	s.put(fieldLot, l.Lot)
	if s.hand.at.Form == FormReceive {
		s.put(fieldHow, "scanned")
		s.put(fieldExpiry, expiryText(l.Expiry))
		s.put("to", placeText(l.item.KeptAt))
	}
	s.ask(stepNone)
	s.say("charge.scan.filled")
}

// expiryText is a last day as forms keep it; without a day it is the month.
func expiryText(d barcode.Date) string {
	switch {
	case !d.Known():
		return ""
	case d.Inferred:
		return fmt.Sprintf("%04d%02d", d.Year, d.Month)
	}
	return fmt.Sprintf("%04d%02d%02d", d.Year, d.Month, d.Day)
}

// fetchedOf ticks the first line of the pick list that is of the item.
func (s *Screen) fetchedOf(l label) {
	all := picks(s.snap.Plan)
	n := slices.IndexFunc(all, func(x kits.RestockPick) bool { return x.Item.Number == l.item.Number })
	if n < 0 {
		s.wrong("charge.scan.not-here", "charge.scan.nothing", named(l.item))
		return
	}
	s.pick(pick{what: picksFetched, n: n})
}

// countedOf asks how many there are of the line that the label is of.
func (s *Screen) countedOf(l label) {
	n := slices.IndexFunc(s.snap.Form.Held, func(h Held) bool {
		return h.Item.Number == l.item.Number && (l.Lot == "" || string(h.Lot.Lot) == l.Lot)
	})
	if n < 0 {
		s.wrong("charge.scan.not-here", "charge.scan.nothing", named(l.item))
		return
	}
	s.pick(pick{what: picksField, text: takeID(n)})
}

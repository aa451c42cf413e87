package kits

import (
	"slices"

	"lintel/mesh"
)

// Bounds of one entry that Accept fills.
const (
	// EndPartsMax is how many parts Accept puts into one entry: one is left for who taps.
	EndPartsMax = mesh.PartsMax - 1
	// EndBytesMax bounds the bodies of one entry, so that it stays under mesh.EntryLenMax.
	EndBytesMax = mesh.EntryLenMax - 1024
	// EndLinesMax bounds the lines of one movement that Accept makes.
	EndLinesMax = 40
)

// EndEntry is what is written as one entry when ends are accepted: at most
// EndPartsMax bodies of together at most EndBytesMax bytes.
type EndEntry struct {
	Moved []Moved
	Left  []LeftWith
	Ended []Ended
	bytes int
}

func (e *EndEntry) parts() int { return len(e.Moved) + len(e.Left) + len(e.Ended) }

// endKey tells movements apart that cannot be one.
type endKey struct {
	from, to   Place
	why        mesh.Label
	issue      mesh.Ref
	inCase     mesh.Ref
	unit       mesh.Label
	receivedBy mesh.Tag
}

// Accept gives the entries that bring ends about, in the order of the list. What
// has no end, nothing in it or is below zero is left out, and so is a hand-over
// that is ended already; one that the ledger does not know is ended all the same,
// so that nothing is lost where its movement has not arrived yet. What is an
// exercise's ends in that exercise's case, all else in inCase.
func (l *Ledger) Accept(ends []ProposedEnd, inCase mesh.Ref) []EndEntry {
	return AcceptEnds(ends, l.HandOver, inCase)
}

// AcceptEnds is Ledger.Accept for whoever holds a proposal but no ledger:
// handOver tells what was known of a hand-over when it was proposed.
func AcceptEnds(ends []ProposedEnd, handOver func(mesh.Ref) (HandOver, bool), inCase mesh.Ref) []EndEntry {
	w := &endWriter{}
	groups := map[endKey][]Line{}
	var order []endKey
	for _, e := range ends {
		switch {
		case !e.HandOver.IsZero():
			h, known := handOver(e.HandOver)
			if !known {
				h.Ref = e.HandOver
			}
			if h.State != HandOverEnded {
				body := h.Settle(slices.Clone(e.Taken))
				w.room(&body)
				w.last().Ended = append(w.last().Ended, body)
			}
			continue
		case e.N <= 0 || e.To.Sort == 0 || e.To == e.Cell.Place:
			continue
		}
		k := endKey{e.Cell.Place, e.To, e.Why, e.Issue, inCase, e.Unit, e.ReceivedBy}
		if !e.Exercise.IsZero() {
			k.inCase = e.Exercise
		}
		if groups[k] == nil {
			order = append(order, k)
		}
		c := e.Cell
		groups[k] = append(groups[k], Line{c.Item, c.Lot, c.Syringe, Quantity{e.N, c.Measure}})
	}
	for _, k := range order {
		for lines := range slices.Chunk(groups[k], EndLinesMax) {
			w.carry(k, lines)
		}
	}
	return w.out
}

// endWriter fills entries.
type endWriter struct{ out []EndEntry }

func (w *endWriter) last() *EndEntry { return &w.out[len(w.out)-1] }

// room makes sure that the last entry has room for one more body.
func (w *endWriter) room(body any) {
	b, err := mesh.Encode(body)
	n := len(b)
	if err != nil {
		n = EndBytesMax // an entry of its own: whoever writes it hears why it cannot be
	}
	if len(w.out) == 0 || w.last().parts() == EndPartsMax || w.last().bytes+n > EndBytesMax {
		w.out = append(w.out, EndEntry{})
	}
	w.last().bytes += n
}

func (w *endWriter) carry(k endKey, lines []Line) {
	if k.to.Sort == LeftWithPatient {
		body := LeftWith{From: k.from, Lines: lines, Case: k.inCase, Unit: k.unit, ReceivedBy: k.receivedBy, Issue: k.issue}
		w.room(&body)
		w.last().Left = append(w.last().Left, body)
		return
	}
	body := Moved{From: k.from, To: k.to, Lines: lines, Case: k.inCase, Issue: k.issue, Why: k.why}
	w.room(&body)
	w.last().Moved = append(w.last().Moved, body)
}

package station

import (
	"lintel/kits"
	"lintel/mesh"
)

// Acts of the count and of stock-taking.
type (
	// AcceptCount brings about the ends of one entry of a count; AcceptEnds divides
	// a count into such acts.
	AcceptCount struct{ Entry kits.EndEntry }
	// CountPlace says what was seen at a place. The ledger computes what that
	// changes, by what this device knew when it was recorded.
	CountPlace struct {
		Place kits.Place
		Lines []kits.Line // a quantity of 0: none was there
		Whole bool        // everything at the place was counted
	}
	// Settle says how a hand-over really ended, in place of every end before.
	Settle struct {
		HandOver mesh.Ref
		Taken    []int64 // of each line
	}
	// Reverse takes a movement out, with a reason.
	Reverse struct {
		Movement mesh.Ref
		Why      mesh.Label
	}
)

// AcceptEnds divides the ends of a room's count into acts. A case that is left
// out is the one that is or was last in the room.
func (v View) AcceptEnds(room mesh.ID, of mesh.Ref, ends []kits.ProposedEnd) (out []Act) {
	if of.IsZero() {
		c, _ := v.CaseAt(room)
		of = c.Ref
	}
	for _, e := range v.Ledger.Accept(ends, of) {
		out = append(out, AcceptCount{Entry: e})
	}
	return out
}

func (a AcceptCount) parts(m *maker) error {
	e := a.Entry
	if len(e.Moved)+len(e.Left)+len(e.Ended) == 0 {
		return ErrNothing
	}
	for i := range e.Moved {
		m.add(kits.KindMoved, &e.Moved[i])
	}
	for i := range e.Left {
		m.add(kits.KindLeftWith, &e.Left[i])
	}
	for i := range e.Ended {
		m.add(kits.KindEnded, &e.Ended[i])
	}
	return nil
}

func (a CountPlace) parts(m *maker) error {
	if a.Place.Sort == 0 {
		return ErrNoPlace
	}
	if len(a.Lines) == 0 && !a.Whole {
		return ErrNothing
	}
	m.add(kits.KindCounted, &kits.Counted{
		Place: a.Place, Before: m.view.Ledger.LastCount(a.Place), Seen: m.view.Peer.Heads(), Lines: a.Lines, Whole: a.Whole,
	})
	return nil
}

func (a Settle) parts(m *maker) error {
	h, known := m.view.Ledger.HandOver(a.HandOver)
	if !known {
		return ErrNoHandOver
	}
	if len(a.Taken) != len(h.Lines) {
		return ErrCount
	}
	for _, n := range a.Taken {
		if n < 0 || n > kits.QuantityMax {
			return ErrCount
		}
	}
	m.ref = h.Ref
	body := h.Settle(a.Taken)
	m.add(kits.KindEnded, &body)
	return nil
}

func (a Reverse) parts(m *maker) error {
	mv, known := m.view.Ledger.Movement(a.Movement)
	switch {
	case !known:
		return ErrNoMovement
	case a.Why == "":
		return ErrNoReason
	case !mv.Counts():
		return ErrNothing
	}
	m.ref = mv.Ref
	body := mv.Reverse(a.Why)
	m.add(kits.KindReversed, &body)
	return nil
}

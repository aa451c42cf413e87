package station

import (
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

func (a Undo) parts(m *maker) error {
	if _, known := m.view.Board.RequestOf(a.Mark); !known {
		return m.undoOther(a)
	}
	r, err := m.request(a.Mark)
	if err != nil {
		return err
	}
	for _, x := range together(r, a.Mark) {
		m.add(requests.KindUndone, &requests.Undone{Names: x.Ref, Why: a.Why})
		switch x.Kind {
		case requests.KindAsked:
			if noted, is := m.rescueOf(x.Ref); is {
				m.add(requests.KindUndone, &requests.Undone{Names: noted, Why: a.Why})
			}
		case requests.KindAtDoor:
			m.reverse(x.Ref, a.Why)
		case requests.KindTakenIn, requests.KindTakenBack:
			m.reopen(x, a.Why)
		}
	}
	return nil
}

// undoOther takes back what is no mark of a request: a fact of a case, a
// movement that no mark brought about, a join, or a write of the unit's own lists.
func (m *maker) undoOther(a Undo) error {
	m.ref = a.Mark
	if mv, known := m.view.Ledger.Movement(a.Mark); known && mv.For.IsZero() {
		if !mv.Counts() {
			return ErrNothing
		}
		body := mv.Reverse(a.Why)
		m.add(kits.KindReversed, &body)
		return nil
	}
	if err := m.fact(a.Mark); err != nil && !m.canBeUndone(a.Mark) {
		return err
	}
	m.add(requests.KindUndone, &requests.Undone{Names: a.Mark, Why: a.Why})
	return nil
}

// canBeUndone looks through the log for a join or a write of a list by that
// name. It reads every entry; people undo those seldom.
func (m *maker) canBeUndone(ref mesh.Ref) (found bool) {
	m.view.Peer.EachItem(func(_ mesh.Order, it mesh.Item) {
		if found {
			return
		}
		e, err := mesh.DecodeEntry(it.Bytes)
		if err != nil || e.Ref(0) != ref.Sibling(0) || ref.Part() >= len(e.Parts) {
			return
		}
		switch e.Parts[ref.Part()].Kind {
		case requests.KindJoined, requests.KindJoinedCode, requests.KindHolds, requests.KindRoleLine, requests.KindRoomLine,
			requests.KindSetting, requests.KindListLine, requests.KindLayout:
			found = true
		}
	})
	return found
}

// together is the mark and, where one tap recorded that something was taken in
// and so must have been at the door, the other of the two.
func together(r requests.Request, mark mesh.Ref) (out []requests.Mark) {
	var undone requests.Mark
	for _, x := range r.Marks {
		if x.Ref == mark {
			undone = x
		}
	}
	for _, x := range r.Marks {
		names := x.Kind == requests.KindTakenIn && x.Names == mark
		named := undone.Kind == requests.KindTakenIn && x.Ref == undone.Names
		if x.Ref == mark || oneTap(x.Ref, mark) && (names || named) {
			out = append(out, x)
		}
	}
	return out
}

// oneTap tells whether two parts were written with one tap.
func oneTap(a, b mesh.Ref) bool { return a.Sibling(0) == b.Sibling(0) }

// reverse takes out the movements that went with a mark.
func (m *maker) reverse(mark mesh.Ref, why mesh.Label) {
	for _, mv := range m.view.Ledger.MovementsFor(mark) {
		if mv.Counts() {
			body := mv.Reverse(why)
			m.add(kits.KindReversed, &body)
		}
	}
}

// reopen takes back the ends of hand-overs that went with a mark.
func (m *maker) reopen(end requests.Mark, why mesh.Label) {
	for _, mv := range m.view.Ledger.MovementsFor(end.Names) {
		h, _ := m.view.Ledger.HandOver(mv.Ref)
		for _, x := range h.Ends {
			if oneTap(x.Ref, end.Ref) && len(x.Reopened) == 0 {
				body := x.Reopen(why)
				m.add(kits.KindReopened, &body)
			}
		}
	}
}

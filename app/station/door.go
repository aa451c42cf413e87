package station

import (
	"fmt"
	"slices"

	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// What happens at the door. Nobody is stopped from recording it: where earlier
// marks are missing the request is flagged as out of turn, and the stock
// follows all the same. No read-back is ever made up.

func (a PutAtDoor) parts(m *maker) error {
	r, err := m.request(a.Request)
	if err != nil {
		return err
	}
	door := a.Door
	if door == "" {
		door = r.Room
	}
	if door != r.Room && !a.Anyway {
		return &WrongDoorError{Read: door, For: r.Room}
	}
	names, t := m.brings(r)
	at := m.add(requests.KindAtDoor, &requests.AtDoor{Names: names, Door: door})
	m.handOver(r, t, at, door, placesMax, lotRead(r, names))
	return nil
}

func (a TakeIn) parts(m *maker) error {
	r, err := m.request(a.Request)
	if err != nil {
		return err
	}
	d, there := delivery(r)
	if _, held := m.held(r, unbrought(r)); !there && !held {
		d, there = lastTaken(r) // a second person says that it was taken in
	}
	if !there {
		return m.takeOutOfTurn(r, a.Count)
	}
	n, err := quantity(a.Count, d.Thing)
	if err != nil {
		return err
	}
	m.add(requests.KindTakenIn, &requests.TakenIn{Names: place(d), Count: n})
	m.endHandOver(d, n)
	m.settle(d)
	return nil
}

func (a TakeBack) parts(m *maker) error {
	r, err := m.request(a.Request)
	if err != nil {
		return err
	}
	d, there := delivery(r)
	if !there {
		d, there = lastTaken(r) // and somebody says that it was taken in: both stand
	}
	if !there {
		return ErrNotAtDoor
	}
	m.add(requests.KindTakenBack, &requests.TakenBack{Names: place(d), Why: a.Why})
	m.endHandOver(d, 0)
	m.settle(d)
	return nil
}

// takeOutOfTurn records what went in though nobody had put it at the door: with
// the crossing of the door that must have been, and its end.
func (m *maker) takeOutOfTurn(r requests.Request, count requests.Count) error {
	names, t := m.brings(r)
	n, err := quantity(count, t)
	if err != nil {
		return err
	}
	at := m.add(requests.KindAtDoor, &requests.AtDoor{Names: names, Door: r.Room})
	m.add(requests.KindTakenIn, &requests.TakenIn{Names: at, Count: n})
	for _, h := range m.handOver(r, t, at, r.Room, placesTakenMax, lotRead(r, names)) {
		body := kits.TakenIn(h.ref, share(h.lines, t.Count, n))
		m.add(kits.KindEnded, &body)
	}
	return nil
}

// quantity is how many of t were taken in; 0 means all of it. Only a slip of the
// finger is refused.
func quantity(n requests.Count, t requests.Thing) (requests.Count, error) {
	if n == 0 {
		n = t.Count
	}
	if n < 0 || t.Measure == mesh.Each && n > requests.CountMax {
		return 0, fmt.Errorf("%w: %d", ErrCount, n)
	}
	return n, nil
}

// brings is what is brought and the mark that states it: the newest read-back
// that was not brought yet, else the newest that stands, else what is wanted.
func (m *maker) brings(r requests.Request) (mesh.Ref, requests.Thing) {
	if h, ok := m.held(r, unbrought(r)); ok {
		return h.Ref, h.Thing
	}
	if h, ok := m.held(r, func(requests.ReadBack) bool { return true }); ok {
		return h.Ref, h.Thing
	}
	return want(r), r.Thing
}

// held is the newest read-back that still stands and fits, this device's own first.
func (m *maker) held(r requests.Request, fits func(requests.ReadBack) bool) (best requests.ReadBack, found bool) {
	for _, h := range r.InHand {
		if h.Live && fits(h) && (!found || h.Device() == m.self || best.Device() != m.self) {
			best, found = h, true
		}
	}
	return best, found
}

// lotRead is the lot of the label that was scanned for a read-back; empty: none.
func lotRead(r requests.Request, names mesh.Ref) mesh.Label {
	for _, h := range r.InHand {
		if h.Ref == names {
			return h.Lot
		}
	}
	return ""
}

// unbrought tells whether a read-back is not at the door and did not go in.
func unbrought(r requests.Request) func(requests.ReadBack) bool {
	return func(h requests.ReadBack) bool {
		return !slices.ContainsFunc(r.Deliveries, func(d requests.Delivery) bool {
			return d.Names == h.Ref && (d.Open || d.Disputed || d.Taken > 0)
		})
	}
}

// delivery is the earliest delivery that lies at the door, or of which nobody
// knows whether it does.
func delivery(r requests.Request) (d requests.Delivery, found bool) {
	for _, d := range r.Deliveries {
		if d.Open || d.Disputed {
			return d, true
		}
	}
	return d, false
}

// lastTaken is the newest delivery that was taken in.
func lastTaken(r requests.Request) (d requests.Delivery, found bool) {
	for _, d := range slices.Backward(r.Deliveries) {
		if d.Taken > 0 {
			return d, true
		}
	}
	return d, false
}

// place is the mark that the ends of a delivery name.
func place(d requests.Delivery) mesh.Ref {
	if d.Ref.IsZero() {
		return d.Names
	}
	return d.Ref
}

// begun is one hand-over that an entry begins.
type begun struct {
	ref   mesh.Ref
	lines []kits.Line
}

// handOver adds the movements to the door that go with an AtDoor, if the thing
// is stock: people are not, and neither is what was drawn up elsewhere. door is
// the one that was read, whatever room it was meant for; lot is that of the label
// that was scanned for the read-back, so that a recall finds what went in.
func (m *maker) handOver(r requests.Request, t requests.Thing, atDoor mesh.Ref, door mesh.ID, places int, lot mesh.Label) (out []begun) {
	for _, c := range m.contents(t, places) {
		for i := range c.lines {
			if c.lines[i].Item == t.Item {
				c.lines[i].Lot = lot
			}
		}
		body := kits.PutAtDoor(c.from, door, c.lines, r.Case, atDoor)
		if r.Direction == requests.Out {
			body = kits.PutOut(door, m.onward(t), c.lines, r.Case, atDoor)
		} else if len(c.lines) == 1 {
			body.Issue = m.unmoved(r.Case, c.lines[0].Item)
		}
		out = append(out, begun{m.add(kits.KindMoved, &body), c.lines})
	}
	return out
}

// share is what n of count things are of each line.
func share(lines []kits.Line, count, n requests.Count) []int64 {
	taken := make([]int64, len(lines))
	for i, x := range lines {
		taken[i] = x.Quantity.N / int64(max(count, 1)) * int64(n)
	}
	return taken
}

// endHandOver adds the ends of the hand-overs that go with a delivery: n things
// were taken, the rest went back. Ends that differ are overruled.
func (m *maker) endHandOver(d requests.Delivery, n requests.Count) {
	for _, mv := range m.view.Ledger.MovementsFor(place(d)) {
		h, ok := m.view.Ledger.HandOver(mv.Ref)
		if !ok {
			continue
		}
		taken := share(mv.Lines, d.Thing.Count, n)
		body := kits.TakenIn(mv.Ref, taken)
		if h.State == kits.HandOverConflict {
			body = h.Settle(taken)
		}
		m.add(kits.KindEnded, &body)
	}
}

// settle takes back the differing ends of a delivery, which the end just made
// overrules, as far as they fit into the entry.
func (m *maker) settle(d requests.Delivery) {
	if !d.Disputed {
		return
	}
	for _, e := range d.Ends {
		if len(m.made) < mesh.PartsMax {
			m.add(requests.KindUndone, &requests.Undone{Names: e.Ref, Why: "settled"})
		}
	}
}

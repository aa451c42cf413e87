package station

import (
	"errors"
	"fmt"

	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Errors of acts. Nothing was recorded. The words package has a sentence and a
// hint for each.
var (
	ErrNoRequest   = errors.New("there is no such request")
	ErrNoItem      = errors.New("the catalogue has no such item")
	ErrCount       = errors.New("the count is out of range")
	ErrNoRoom      = errors.New("no room was named")
	ErrNothingHeld = errors.New("nothing is in hand for this request")
	ErrNotAtDoor   = errors.New("nothing of this request lies at the door")
	ErrNoAnswer    = errors.New("there is nothing to answer")
	ErrSameRequest = errors.New("a request cannot be joined with itself")
	ErrNoRole      = errors.New("the unit has no such role")
	ErrAlternative = errors.New("there is no such alternative")
	ErrCode        = errors.New("the joining code is mistyped: its check digit does not fit")
	ErrNoDevice    = errors.New("there is no such device")
)

// maker collects the parts of one entry.
type maker struct {
	view View
	self mesh.Key
	tap  mesh.Tap
	by   mesh.By
	made []mesh.Part
	ref  mesh.Ref // what to answer with, if not part 1
	err  error    // the first part that could not be made
}

// add makes one part and returns its name.
func (m *maker) add(k mesh.Kind, body any) mesh.Ref {
	p, err := mesh.MakePart(k, body)
	if err != nil && m.err == nil {
		m.err = err
	}
	m.made = append(m.made, p)
	return mesh.MakeRef(m.self, m.tap, len(m.made)-1)
}

// request finds the request that a mark belongs to.
func (m *maker) request(ref mesh.Ref) (requests.Request, error) {
	if asked, ok := m.view.Board.RequestOf(ref); ok {
		ref = asked
	}
	r, ok := m.view.Board.Request(ref)
	if !ok {
		return r, ErrNoRequest
	}
	m.ref = r.Ref
	return r, nil
}

// thing checks what is asked for, held or offered. An item that the catalogue
// lacks is refused here, where it is a slip of the finger.
func (m *maker) thing(t requests.Thing) (requests.Thing, error) {
	item, ok := m.view.Ledger.Item(t.Item)
	if !ok || item.Value.Gone {
		return t, fmt.Errorf("%w: %d", ErrNoItem, t.Item)
	}
	if t.Measure == 0 {
		t.Measure = mesh.Each
	}
	if t.Strength == "" {
		t.Strength = item.Value.Detail
	}
	if t.Count < 1 || t.Measure == mesh.Each && t.Count > requests.CountMax {
		return t, fmt.Errorf("%w: %d", ErrCount, t.Count)
	}
	return t, nil
}

// want is the newest statement of what is wanted.
func want(r requests.Request) mesh.Ref {
	if len(r.Wants) > 0 {
		return r.Wants[0].Ref
	}
	return r.Ref
}

// held is the newest read-back that still stands, this device's own first.
func (m *maker) held(r requests.Request) (requests.ReadBack, error) {
	best := -1
	for i, h := range r.InHand {
		if h.Live && (best < 0 || h.Device() == m.self || r.InHand[best].Device() != m.self) {
			best = i
		}
	}
	if best < 0 {
		return requests.ReadBack{}, ErrNothingHeld
	}
	return r.InHand[best], nil
}

// delivery is the earliest delivery that lies at the door.
func delivery(r requests.Request) (requests.Delivery, error) {
	for _, d := range r.Deliveries {
		if d.Open || d.Disputed {
			return d, nil
		}
	}
	return requests.Delivery{}, ErrNotAtDoor
}

// handOver adds the movements to the door that go with an AtDoor, if the thing
// is stock: people are not, and neither is what was drawn up elsewhere.
func (m *maker) handOver(r requests.Request, t requests.Thing, atDoor mesh.Ref) {
	for _, c := range m.contents(t) {
		body := kits.PutAtDoor(c.from, r.Room, c.lines, r.Case, atDoor)
		if r.Direction == requests.Out {
			body = kits.PutOut(r.Room, m.onward(t), c.lines, r.Case, atDoor)
		}
		m.add(kits.KindMoved, &body)
	}
}

// fetched is lines of stock and where they are kept.
type fetched struct {
	from  kits.Place
	lines []kits.Line
}

// placesMax bounds the places that one hand-over is fetched from: an entry has
// mesh.PartsMax parts, of which passing in unasked needs four others.
const placesMax = mesh.PartsMax - 4

// contents turns a thing into lines of stock, by where they are kept. A bundle
// is what it consists of; of a rescue set, which lies in the room, only the
// lines that do not lie there cross the door.
func (m *maker) contents(t requests.Thing) (out []fetched) {
	if t.Measure != mesh.Each {
		return nil
	}
	b, bundle := m.view.Ledger.Bundle(t.Item)
	if !bundle {
		return m.fetch(out, kits.Place{}, t.Item, int64(t.Count))
	}
	for _, x := range b.Value.Lines {
		if b.Value.Rescue == "" || x.Where != kits.WhereInside {
			out = m.fetch(out, b.Value.LiesAt, x.Item, x.Count*int64(t.Count))
		}
	}
	return out
}

// fetch adds n of an item to what is fetched; without a place from where it is
// normally kept.
func (m *maker) fetch(out []fetched, from kits.Place, number mesh.Number, n int64) []fetched {
	item, ok := m.view.Ledger.Item(number)
	if !ok || item.Value.Has(kits.IsPerson) {
		return out
	}
	if from.Sort == 0 {
		from = placeOr(item.Value.KeptAt)
	}
	line := kits.Containers(number, n)
	for i := range out {
		if out[i].from == from || i == placesMax-1 {
			out[i].lines = append(out[i].lines, line)
			return out
		}
	}
	return append(out, fetched{from: from, lines: []kits.Line{line}})
}

// placeOr is where a thing is fetched from; the supplier if nobody said.
func placeOr(p kits.Place) kits.Place {
	if p.Sort == 0 {
		return kits.Place{Sort: kits.Supplier}
	}
	return p
}

// onward is where a thing that came out goes.
func (m *maker) onward(t requests.Thing) kits.Place {
	if item, ok := m.view.Ledger.Item(t.Item); ok && item.Value.Has(kits.Reprocessed) {
		return kits.Place{Sort: kits.Reprocessing}
	}
	return kits.Place{Sort: kits.Transit, ID: "out"}
}

// endHandOver adds the end of the hand-over that goes with a delivery: n of
// count things were taken, the rest went back.
func (m *maker) endHandOver(d requests.Delivery, t requests.Thing, n requests.Count) {
	for _, mv := range m.view.Ledger.MovementsFor(d.Ref) {
		h, ok := m.view.Ledger.HandOver(mv.Ref)
		if !ok {
			continue
		}
		taken := make([]int64, len(mv.Lines))
		for i, x := range mv.Lines {
			if t.Count > 0 {
				taken[i] = min(x.Quantity.N, x.Quantity.N/int64(t.Count)*int64(n))
			}
		}
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

// heldThing is what a delivery delivers, as it was read back.
func heldThing(r requests.Request, d requests.Delivery) requests.Thing {
	for _, h := range r.InHand {
		if h.Ref == d.Names {
			return h.Thing
		}
	}
	return r.Thing
}

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
	ErrNoRunner    = errors.New("that is no other runner")
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

	opened requests.CaseOpen // the case that this entry begins with what happened
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

// fetched is lines of stock and where they are kept.
type fetched struct {
	from  kits.Place
	lines []kits.Line
}

// Bounds of the places that one hand-over is fetched from: an entry has
// mesh.PartsMax parts. Passing in unasked needs four others. What is taken in
// without having been put at the door needs three others, and an end for each.
const (
	placesMax      = mesh.PartsMax - 4
	placesTakenMax = (mesh.PartsMax - 3) / 2
)

// contents turns a thing into lines of stock, by at most so many places where
// they are kept. A bundle
// is what it consists of; of a rescue set, which lies in the room, only the
// lines that do not lie there cross the door.
func (m *maker) contents(t requests.Thing, places int) (out []fetched) {
	if t.Measure != mesh.Each {
		return nil
	}
	b, bundle := m.view.Ledger.Bundle(t.Item)
	if !bundle {
		return m.fetch(out, kits.Place{}, t.Item, int64(t.Count), places)
	}
	for _, x := range b.Value.Lines {
		if b.Value.Rescue == "" || x.Where != kits.WhereInside {
			out = m.fetch(out, b.Value.LiesAt, x.Item, x.Count*int64(t.Count), places)
		}
	}
	return out
}

// fetch adds n of an item to what is fetched; without a place from where it is
// normally kept.
func (m *maker) fetch(out []fetched, from kits.Place, number mesh.Number, n int64, places int) []fetched {
	item, ok := m.view.Ledger.Item(number)
	if !ok || item.Value.Has(kits.IsPerson) {
		return out
	}
	if from.Sort == 0 {
		from = placeOr(item.Value.KeptAt)
	}
	line := kits.Containers(number, n)
	for i := range out {
		if out[i].from == from || i == places-1 {
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

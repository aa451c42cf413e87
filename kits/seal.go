package kits

import (
	"slices"

	"lintel/mesh"
)

// noted is one fact that is kept as it was written.
type noted[B any] struct {
	ref  mesh.Ref
	at   mesh.Order
	wall mesh.Wall // when it happened, as stated, else as recorded
	by   mesh.By
	body *B
}

func note[B any](f mesh.Fact, body *B) noted[B] {
	return noted[B]{ref: f.Ref, at: f.At, wall: f.When(), by: f.By, body: body}
}

func (n noted[B]) compare(o noted[B]) int {
	if c := n.at.Compare(o.at); c != 0 {
		return c
	}
	return n.ref.Compare(o.ref)
}

// inOrder is all in the order of entries, a copy.
func inOrder[B any](all []noted[B]) []noted[B] {
	out := slices.Clone(all)
	slices.SortFunc(out, noted[B].compare)
	return out
}

// refsOf are those of all, sorted.
func refsOf[B any](all []noted[B]) (out []mesh.Ref) {
	for _, n := range all {
		out = append(out, n.ref)
	}
	slices.SortFunc(out, mesh.Ref.Compare)
	return out
}

// trays is what the fold keeps of kits, orders and waste containers, in order
// of arrival: only the sets count. The Ledger owns it.
type trays struct {
	prepared  map[mesh.Ref]noted[Prepared]
	ofKit     map[mesh.ID][]noted[Prepared]
	sealed    map[mesh.Ref]noted[Sealed]
	seals     map[mesh.Ref][]noted[Sealed]     // by the Prepared that they name
	opened    map[mesh.Ref][]noted[SealOpened] // by the Sealed that they name; zero: none
	broken    map[mesh.Ref][]noted[BrokenDown] // by the Prepared that they name
	templates map[mesh.ID][]noted[Template]    // every write, also one that was replaced
	orders    map[mesh.Number][]noted[Ordered]
	boxes     []noted[WasteBox]
}

func newTrays() trays {
	return trays{
		prepared:  map[mesh.Ref]noted[Prepared]{},
		ofKit:     map[mesh.ID][]noted[Prepared]{},
		sealed:    map[mesh.Ref]noted[Sealed]{},
		seals:     map[mesh.Ref][]noted[Sealed]{},
		opened:    map[mesh.Ref][]noted[SealOpened]{},
		broken:    map[mesh.Ref][]noted[BrokenDown]{},
		templates: map[mesh.ID][]noted[Template]{},
		orders:    map[mesh.Number][]noted[Ordered]{},
	}
}

// add takes what is of kits, orders and waste containers; other bodies are left alone.
func (t *trays) add(f mesh.Fact, body any) {
	switch b := body.(type) {
	case *Prepared:
		t.prepared[f.Ref] = note(f, b)
		t.ofKit[b.Kit] = append(t.ofKit[b.Kit], note(f, b))
	case *Sealed:
		t.sealed[f.Ref] = note(f, b)
		t.seals[b.Names] = append(t.seals[b.Names], note(f, b))
	case *SealOpened:
		t.opened[b.Names] = append(t.opened[b.Names], note(f, b))
	case *BrokenDown:
		t.broken[b.Names] = append(t.broken[b.Names], note(f, b))
	case *Template:
		t.templates[b.ID] = append(t.templates[b.ID], note(f, b))
	case *Ordered:
		t.orders[b.Item] = append(t.orders[b.Item], note(f, b))
	case *WasteBox:
		t.boxes = append(t.boxes, note(f, b))
	}
}

package requests

import (
	"cmp"
	"maps"
	"slices"

	"lintel/mesh"
)

// Line is one line of a list that is data, as it stands.
type Line struct {
	ListLine
	TwoValues bool // people wrote it without knowing of each other; this is the one in use
}

// LayoutLine is the board layout as it stands.
type LayoutLine struct {
	Mark      // its acceptance
	Layout    // with its tiles
	TwoValues bool
}

// lineName is what a line of a list is known by.
type lineName struct{ list, id mesh.ID }

// listIndex finds lists and layouts. It belongs to the Board.
type listIndex struct {
	starter map[lineName]ListLine
	writes  map[lineName][]*fact
	names   map[mesh.ID][]mesh.ID // per list, the lines that were ever named, each once
	layouts []*fact

	views map[mesh.ID][]Line // derived: the lists as they stand
}

// newListIndex begins with the starter lists.
func newListIndex(starter []ListLine) listIndex {
	x := listIndex{
		starter: map[lineName]ListLine{}, writes: map[lineName][]*fact{},
		names: map[mesh.ID][]mesh.ID{}, views: map[mesh.ID][]Line{},
	}
	for _, line := range starter {
		name := lineName{line.List, line.ID}
		if _, twice := x.starter[name]; !twice {
			x.names[line.List] = append(x.names[line.List], line.ID)
		}
		x.starter[name] = line
	}
	return x
}

// add files a write of a line.
func (x *listIndex) add(n *fact, line *ListLine) {
	name := lineName{line.List, line.ID}
	_, fromStarter := x.starter[name]
	if len(x.writes[name]) == 0 && !fromStarter {
		x.names[line.List] = append(x.names[line.List], line.ID)
	}
	x.writes[name] = append(x.writes[name], n)
	delete(x.views, line.List)
}

// List returns the lines of a list by place, then id, without those that are
// gone. The slice is shared with the board and must not be changed.
func (b *Board) List(list mesh.ID) []Line {
	if view, known := b.lists.views[list]; known {
		return view
	}
	var out []Line
	for _, id := range b.lists.names[list] {
		if line, known := b.ListLine(list, id); known && !line.Gone {
			out = append(out, line)
		}
	}
	slices.SortFunc(out, func(x, y Line) int { return cmp.Or(cmp.Compare(x.Place, y.Place), cmp.Compare(x.ID, y.ID)) })
	b.lists.views[list] = out
	return out
}

// ListLine returns one line; false if nobody ever named it. A line that is gone
// is still found: what was ticked stays readable.
func (b *Board) ListLine(list, id mesh.ID) (Line, bool) {
	name := lineName{list, id}
	if stand := b.standing(b.lists.writes[name]); len(stand) > 0 {
		return Line{*stand[0].body.(*ListLine), len(stand) > 1}, true
	}
	line, known := b.lists.starter[name]
	return Line{ListLine: line}, known
}

// ListWrites are the standing writes of a line, the one in use first: what a
// new ListLine replaces.
func (b *Board) ListWrites(list, id mesh.ID) []mesh.Ref {
	return refsOf(b.standing(b.lists.writes[lineName{list, id}]))
}

// Layout returns the board layout as it stands; false if nobody accepted one. A
// Layout that names nobody who accepted it is a proposal, and never stands.
func (b *Board) Layout() (LayoutLine, bool) {
	stand := b.acceptedLayouts()
	if len(stand) == 0 {
		return LayoutLine{}, false
	}
	return LayoutLine{b.mark(stand[0]), *stand[0].body.(*Layout), len(stand) > 1}, true
}

// LayoutWrites are the layouts that stand, the one in use first: what a new
// Layout replaces.
func (b *Board) LayoutWrites() []mesh.Ref { return refsOf(b.acceptedLayouts()) }

func (b *Board) acceptedLayouts() []*fact {
	var accepted []*fact
	for _, n := range b.lists.layouts {
		if n.body.(*Layout).Accepted != "" {
			accepted = append(accepted, n)
		}
	}
	return b.standing(accepted)
}

func refsOf(facts []*fact) (refs []mesh.Ref) {
	for _, n := range facts {
		refs = append(refs, n.Ref)
	}
	return refs
}

// sortedLines lists the lines that were written, in one order.
func (x *listIndex) sortedLines() []lineName {
	return slices.SortedFunc(maps.Keys(x.writes), func(a, z lineName) int {
		return cmp.Or(cmp.Compare(a.list, z.list), cmp.Compare(a.id, z.id))
	})
}

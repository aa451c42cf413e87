package kits

import (
	"slices"

	"lintel/mesh"
)

// Containers is n containers of an item as supplied, of a lot that is not known.
func Containers(item mesh.Number, n int64) Line {
	return Line{Item: item, Quantity: Quantity{n, mesh.Each}}
}

// PutAtDoor is the body of a hand-over inwards: the lines go from a clean place
// to the room's door, and what is taken goes inside. mark is the request's mark
// that it belongs to, or zero.
func PutAtDoor(from Place, room mesh.ID, lines []Line, inCase, mark mesh.Ref) Moved {
	return Moved{From: from, To: Place{Door, room}, Then: Place{InRoom, room}, Lines: lines, Case: inCase, For: mark}
}

// PutOut is the body of a hand-over outwards: the lines go from inside to the
// door, and what is taken goes on to another place.
func PutOut(room mesh.ID, then Place, lines []Line, inCase, mark mesh.Ref) Moved {
	return Moved{From: Place{InRoom, room}, To: Place{Door, room}, Then: then, Lines: lines, Case: inCase, For: mark}
}

// TakenIn is the body that ends a hand-over: taken[i] of line i went on, the
// rest goes back where it came from.
func TakenIn(handOver mesh.Ref, taken []int64) Ended {
	return Ended{Names: handOver, Taken: slices.Clone(taken)}
}

// TakenBack is the body that ends a hand-over of so many lines with nothing taken.
func TakenBack(handOver mesh.Ref, lines int) Ended {
	return Ended{Names: handOver, Taken: make([]int64, lines)}
}

// Reopen is the body that takes back an end.
func (x HandOverEnd) Reopen(why mesh.Label) Reopened { return Reopened{Names: x.Ref, Why: why} }

// All is the taken counts of a hand-over of which everything was taken.
func (m Moved) All() []int64 {
	taken := make([]int64, len(m.Lines))
	for i, x := range m.Lines {
		taken[i] = x.Quantity.N
	}
	return taken
}

// Settle is the body that ends a hand-over and overrules every end that stands.
func (h HandOver) Settle(taken []int64) Ended {
	e := TakenIn(h.Ref, taken)
	for _, x := range h.Ends {
		if x.Stands {
			e.Settles = append(e.Settles, x.Ref)
		}
	}
	return e
}

// Reverse is the body that takes the movement out.
func (m Movement) Reverse(why mesh.Label) Reversed {
	to := m.To
	if m.Kind == KindDrawnUp {
		to = m.From
	}
	return Reversed{Names: m.Ref, From: m.From, To: to, Lines: m.Lines, Why: why}
}

// Witness is the body with which a second person repeats the movement.
func (m Movement) Witness(tag mesh.Tag, grade Grade) Witnessed {
	return Witnessed{Names: m.Ref, Lines: m.Lines, Tag: tag, Grade: grade}
}

// LinesMax bounds the lines of one movement that Opening makes, so that its
// entry stays well under mesh.EntryLenMax.
const LinesMax = 100

// Opening is what fills places from the supplier at the beginning: movements of
// at most LinesMax lines, one or more for each place, in the order of the list.
func Opening(stock []StockLine) []Moved {
	var out []Moved
	last := map[Place]int{} // index + 1 in out
	for _, s := range stock {
		if s.Opening == 0 {
			continue
		}
		at := last[s.Place]
		if at == 0 || len(out[at-1].Lines) == LinesMax {
			out = append(out, Moved{From: Place{Sort: Supplier}, To: s.Place, Why: "opening stock"})
			at = len(out)
			last[s.Place] = at
		}
		out[at-1].Lines = append(out[at-1].Lines, Containers(s.Item, s.Opening))
	}
	return out
}

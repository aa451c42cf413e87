package mesh

import "slices"

// Write is one write of a register: which part wrote it, where that part stands
// in the order of entries, and the earlier writes that its author saw and
// replaces. What was written stays with the caller, found by Ref.
type Write struct {
	Ref      Ref
	At       Order
	Replaces []Ref
}

// Standing returns the writes that no other write replaces, highest order
// first: the first is the value in use, and more than one means that people
// wrote without knowing of each other ("two values"). A write cannot replace
// itself, and a Ref that is not among writes replaces nothing. Where every
// write is replaced by another, which only a broken or hostile device can bring
// about, all of them stand: a register that was written never reads as unwritten.
//
// The result depends on the set of writes only, not on their order; a write
// that comes twice stands once. The given slice is left as it is.
func Standing(writes []Write) []Write {
	replaced := make(map[Ref]bool, len(writes))
	for _, w := range writes {
		for _, r := range w.Replaces {
			if r != w.Ref {
				replaced[r] = true
			}
		}
	}
	stand := make([]Write, 0, 1)
	for _, w := range writes {
		if !replaced[w.Ref] {
			stand = append(stand, w)
		}
	}
	if len(stand) == 0 {
		stand = append(stand, writes...)
	}
	slices.SortFunc(stand, compareWrites)
	return slices.CompactFunc(stand, func(a, b Write) bool { return a.Ref == b.Ref })
}

// compareWrites puts the highest order first; parts of one entry, which share
// its order, go by their refs, highest first.
func compareWrites(a, b Write) int {
	if c := b.At.Compare(a.At); c != 0 {
		return c
	}
	return b.Ref.Compare(a.Ref)
}

// Register keeps the writes of many registers of one sort, told apart by K, and
// what each wrote. The zero value is ready for use. It belongs to the fold that
// holds it, and is not safe for use from several goroutines.
type Register[K comparable, V any] struct {
	writes map[K][]Write
	values map[Ref]V
}

// Valued is a standing write together with what it wrote.
type Valued[V any] struct {
	Write
	Value V
}

// Add records a write of the register k. A Ref that is already there changes nothing.
func (r *Register[K, V]) Add(k K, w Write, v V) {
	if _, known := r.values[w.Ref]; known {
		return
	}
	if r.values == nil {
		r.writes, r.values = map[K][]Write{}, map[Ref]V{}
	}
	w.Replaces = slices.Clone(w.Replaces)
	r.writes[k] = append(r.writes[k], w)
	r.values[w.Ref] = v
}

// Standing returns the values of the register k that stand, the one in use
// first; none if it was never written.
func (r *Register[K, V]) Standing(k K) []Valued[V] {
	stand := Standing(r.writes[k])
	out := make([]Valued[V], len(stand))
	for i, w := range stand {
		out[i] = Valued[V]{w, r.values[w.Ref]}
	}
	return out
}

// Value returns the value in use of the register k, whether it was ever
// written, and whether other values stand beside it.
func (r *Register[K, V]) Value(k K) (v V, written, twoValues bool) {
	stand := r.Standing(k)
	if len(stand) == 0 {
		return v, false, false
	}
	return stand[0].Value, true, len(stand) > 1
}

// Keys returns the registers that were written, in no special order.
func (r *Register[K, V]) Keys() []K {
	keys := make([]K, 0, len(r.writes))
	for k := range r.writes {
		keys = append(keys, k)
	}
	return keys
}

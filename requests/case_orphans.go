package requests

import "slices"

// Orphans lists, in order, what names a case that was taken back: requests and what
// else was recorded for it. All of it is kept and counts for itself; a person who
// took back the wrong case sees what to record again.
func (b *Board) Orphans() (out []Mark) {
	var found []*fact
	for _, open := range b.cases.opens.all() {
		if !b.undone(open) {
			continue
		}
		for _, n := range b.cases.filed[open.Ref].all() {
			if !b.undone(n) {
				found = append(found, n)
			}
		}
	}
	slices.SortFunc(found, compareFacts)
	for _, n := range found {
		out = append(out, b.mark(n))
	}
	return out
}

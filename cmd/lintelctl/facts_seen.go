package main

import (
	"context"
	"slices"
	"strings"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// seenCase is what was printed of a case.
type seenCase struct {
	size  int // of its lists, when it was looked at
	facts map[factKey]factEvent
}

// factKey tells facts apart: one mark may leave out lines of several lists.
type factKey struct {
	ref  mesh.Ref
	list mesh.ID // of lines that were left out
}

func (e factEvent) key() factKey {
	if e.Kind == "skipped" {
		return factKey{e.mark.Ref, e.List}
	}
	return factKey{ref: e.mark.Ref}
}

// changedFacts words what is new in the cases, and what was taken back. The
// first look tells nothing.
func (s *session) changedFacts(v station.View) (out []event) {
	first := s.cases == nil
	if first {
		s.cases = map[mesh.Ref]seenCase{}
	}
	for _, c := range v.Board.Cases() {
		before, known := s.cases[c.Ref]
		size := caseSize(c)
		if known && c.Over && before.size == size {
			continue
		}
		now := seenCase{size: size, facts: map[factKey]factEvent{}}
		for _, e := range factsOf(s.w, v.Board, c) {
			if _, seen := before.facts[e.key()]; !first && !seen {
				out = append(out, e)
			}
			now.facts[e.key()] = e
		}
		if !first {
			out = append(out, takenBack(before.facts, now.facts)...)
		}
		s.cases[c.Ref] = now
	}
	return out
}

// takenBack are the facts that were there and are not any more. A newer tick of
// the same line, or role of the same person, stands in place of an older one.
func takenBack(before, now map[factKey]factEvent) (out []event) {
	var gone []factEvent
	for key, e := range before {
		if _, there := now[key]; !there && !replaced(e, now) {
			e.Undone = true
			gone = append(gone, e)
		}
	}
	slices.SortFunc(gone, func(a, b factEvent) int { return strings.Compare(a.Ref, b.Ref) })
	for _, e := range gone {
		out = append(out, e)
	}
	return out
}

// replaced tells whether another fact stands in place of e.
func replaced(e factEvent, now map[factKey]factEvent) bool {
	ticks := func(k words.ID) bool { return k == "tick" || k == "untick" }
	for _, n := range now {
		switch {
		case n.mark.At.Compare(e.mark.At) <= 0:
		case e.Kind == "role" && n.Kind == "role" && n.Tag == e.Tag,
			ticks(e.Kind) && ticks(n.Kind) && n.List == e.List && n.What == e.What,
			e.Kind == "answer" && n.Kind == "answer" && n.What == e.What:
			return true
		}
	}
	return false
}

// caseSize changes with whatever is recorded for a case.
func caseSize(c requests.Case) int {
	n := len(c.Shut) + len(c.Moves) + len(c.Roles) + len(c.Ticks) + len(c.PPE) + len(c.Skipped) + len(c.Tests) +
		len(c.Crossings) + len(c.Breaches) + len(c.Doffing) + len(c.Said) + len(c.Moments) + len(c.Charts) +
		len(c.Debriefs) + len(c.Answers) + len(c.Drills)
	for _, x := range c.Tests {
		n += len(x.Heard)
	}
	for _, x := range c.Breaches {
		n += len(x.Heard)
	}
	for _, x := range c.Said {
		n += len(x.Heard)
	}
	for _, x := range c.Moments {
		n += len(x.Fixes)
	}
	for _, x := range c.Drills {
		n += len(x.Injects) + len(x.Real)
	}
	return n
}

// fact reads the name of something that was recorded for a case: its code, or
// its whole ref. kinds are those that it can be; none: any.
func (s *session) fact(ctx context.Context, a *arguments, kinds ...words.ID) (ref mesh.Ref, err error) {
	name, more := a.next()
	if !more {
		return ref, a.bad()
	}
	err = s.view(ctx, func(v station.View) error {
		ref, err = findFact(s.w, v.Board, name, kinds...)
		return err
	})
	return ref, err
}

// findFact finds what a code or a whole ref names, also where no case was open.
func findFact(w words.Words, b *requests.Board, name string, kinds ...words.ID) (mesh.Ref, error) {
	name = strings.ToLower(name)
	var found []mesh.Ref
	fits := func(m requests.Mark) {
		if (requests.Code(m.Ref) == name || m.Ref.Hex() == name) && !slices.Contains(found, m.Ref) {
			found = append(found, m.Ref)
		}
	}
	for _, c := range b.Cases() {
		for _, e := range factsOf(w, b, c) {
			if len(kinds) == 0 || slices.Contains(kinds, e.Kind) {
				fits(e.mark)
			}
		}
	}
	for _, m := range b.Astray() {
		fits(m)
	}
	switch {
	case len(found) == 1:
		return found[0], nil
	case len(found) > 1:
		var list []string
		for _, r := range found {
			list = append(list, r.Hex())
		}
		return mesh.Ref{}, &fault{id: "fact-many", blanks: []any{name}, list: list}
	case len(name) == codeLen && strings.Trim(name, "0123456789") == "" && !mesh.DammFits(name):
		return mesh.Ref{}, &fault{id: "request-typo", blanks: []any{name}}
	}
	return mesh.Ref{}, &fault{id: "fact-none", blanks: []any{name}}
}

// inside tells whether this device is held in a role inside.
func (s *session) inside(ctx context.Context) (inside bool) {
	_ = s.lists(ctx, func(v station.View) error { // a device without lists is held nowhere
		r, _ := v.Board.Role(s.hold.Role)
		inside = r.Side == requests.Inside
		return nil
	})
	return inside
}

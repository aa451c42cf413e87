package kits

import (
	"slices"
	"strings"

	"lintel/mesh"
)

type witness struct {
	ref  mesh.Ref
	body *Witnessed
}

// Witness is one Witnessed that names a movement.
type Witness struct {
	Ref          mesh.Ref
	Tag          mesh.Tag
	Grade        Grade
	Repeats      bool // it says the same quantities
	SecondPerson bool // it is someone else than who recorded the movement
	Suffices     bool // both, and the site accepts the grade
}

// Witnesses lists who witnessed the movement r, in the order of the refs.
func (l *Ledger) Witnesses(r mesh.Ref) []Witness {
	m := l.moves.get(r)
	if m == nil || m.named == nil {
		return nil
	}
	var out []Witness
	for _, w := range m.named.witnesses {
		v := Witness{Ref: w.ref, Tag: w.body.Tag, Grade: w.body.Grade}
		v.Repeats = slices.Equal(w.body.Lines, m.lines)
		v.SecondPerson = m.otherPerson(w.body.Tag, w.ref.Author())
		v.Suffices = v.Repeats && v.SecondPerson && l.accepts(w.body.Grade)
		out = append(out, v)
	}
	slices.SortFunc(out, func(a, b Witness) int { return a.Ref.Compare(b.Ref) })
	return out
}

// otherPerson tells whether tag is someone else than who recorded m. Where
// nobody's tag was known, only another device speaks for another person.
func (m *move) otherPerson(tag mesh.Tag, device mesh.Key) bool {
	if tag == "" {
		return false
	}
	if m.by.Tag == "" {
		return device != m.ref.Author()
	}
	return tag != m.by.Tag
}

// SetSuffices says which grades of witness the site accepts from now on; empty:
// any. It is the site's choice and no part of State. Only the loop that calls
// Add may call it.
func (l *Ledger) SetSuffices(grades []Grade) { l.suffices = slices.Clone(grades) }

// ReadGrades reads a site's choice: words with blanks between, of own (the
// witness's own device), same (same device, second tag), glass (through the
// glass) and later (countersigned later). No word means any grade; ok is false
// for a word that is none of them.
func ReadGrades(text string) (out []Grade, ok bool) {
	for _, word := range strings.Fields(text) {
		g := Grade(1 + slices.Index([]string{"own", "same", "glass", "later"}, word))
		if g == 0 {
			return nil, false
		}
		if !slices.Contains(out, g) {
			out = append(out, g)
		}
	}
	return out, true
}

func (l *Ledger) accepts(g Grade) bool { return len(l.suffices) == 0 || slices.Contains(l.suffices, g) }

// needsWitness tells whether m carries a controlled drug to an end that a
// second person must have seen.
func (l *Ledger) needsWitness(m *move) bool {
	switch m.to.Sort {
	case Wasted, DestroyedUnopened, Broken, LeftWithPatient:
	default:
		return false
	}
	return !m.issue.IsZero() || slices.ContainsFunc(m.lines, func(x Line) bool {
		c, ok := l.Item(x.Item)
		return ok && c.Value.Has(Controlled)
	})
}

// witnessed tells whether m has a witness that suffices; for what left with the
// patient, whoever received it is one.
func (l *Ledger) witnessed(m *move) bool {
	if m.left != nil && m.left.ReceivedBy != "" && m.left.ReceivedBy != m.by.Tag {
		return true
	}
	return slices.ContainsFunc(l.Witnesses(m.ref), func(w Witness) bool { return w.Suffices })
}

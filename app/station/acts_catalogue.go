package station

import (
	"lintel/kits"
	"lintel/mesh"
)

// Catalogue is lines of the catalogue and what belongs to it: what exists, what
// is asked for together, what kits are prepared from, places and par levels. As
// an act it writes each of them in place of what stands there; Entries divides
// it into acts that fit.
type Catalogue struct {
	Items     []kits.ItemLine
	Bundles   []kits.BundleLine
	Templates []kits.Template
	Places    []kits.PlaceLine
	Pars      []kits.ParLine
}

// Len is the number of lines.
func (a Catalogue) Len() int {
	return len(a.Items) + len(a.Bundles) + len(a.Templates) + len(a.Places) + len(a.Pars)
}

func (a Catalogue) parts(m *maker) error {
	if a.Len() == 0 {
		return ErrNothing
	}
	l := m.view.Ledger
	for _, v := range a.Items {
		stands, _ := l.Item(v.Number)
		v.Replaces = stands.Writes
		m.add(kits.KindItemLine, &v)
	}
	for _, v := range a.Bundles {
		stands, _ := l.Bundle(v.Number)
		v.Replaces = stands.Writes
		m.add(kits.KindBundleLine, &v)
	}
	for _, v := range a.Templates {
		stands, _ := l.Template(v.ID)
		v.Replaces = stands.Writes
		m.add(kits.KindTemplate, &v)
	}
	for _, v := range a.Places {
		stands, _ := l.Place(v.Place)
		v.Replaces = stands.Writes
		m.add(kits.KindPlaceLine, &v)
	}
	for _, v := range a.Pars {
		stands, _ := l.Par(v.Place, v.Item)
		v.Replaces = stands.Writes
		m.add(kits.KindParLine, &v)
	}
	return nil
}

// Bytes of encoded lines. What is left of an entry is for its head, its By and
// the names of the writes that are replaced.
const (
	LineLenMax  = mesh.EntryLenMax * 3 / 4 // one line; a longer one is not written
	linesLenMax = mesh.EntryLenMax / 2     // of several together
)

// LineLen is how many bytes a line takes, or why it cannot be written: a text
// that is too long, a number out of range.
func LineLen(k mesh.Kind, line any) (int, error) {
	p, err := mesh.MakePart(k, line)
	return len(p.Body), err
}

// Entries divides the lines, in their order, into acts of one entry each.
func (a Catalogue) Entries() []Catalogue {
	d := division{}
	for _, v := range a.Items {
		last := d.room(kits.KindItemLine, &v)
		last.Items = append(last.Items, v)
	}
	for _, v := range a.Bundles {
		last := d.room(kits.KindBundleLine, &v)
		last.Bundles = append(last.Bundles, v)
	}
	for _, v := range a.Templates {
		last := d.room(kits.KindTemplate, &v)
		last.Templates = append(last.Templates, v)
	}
	for _, v := range a.Places {
		last := d.room(kits.KindPlaceLine, &v)
		last.Places = append(last.Places, v)
	}
	for _, v := range a.Pars {
		last := d.room(kits.KindParLine, &v)
		last.Pars = append(last.Pars, v)
	}
	return d.entries
}

// division is lines divided so far, and how much the last act holds.
type division struct {
	entries []Catalogue
	count   int
	size    int
}

// room gives the act that takes one more line.
func (d *division) room(k mesh.Kind, line any) *Catalogue {
	n, _ := LineLen(k, line) // one that cannot be written is refused by its act
	if len(d.entries) == 0 || d.count == LinesMax || d.size+n > linesLenMax {
		d.entries = append(d.entries, Catalogue{})
		d.count, d.size = 0, 0
	}
	d.count++
	d.size += n
	return &d.entries[len(d.entries)-1]
}

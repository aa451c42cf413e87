package table

import (
	"strconv"

	"lintel/kits"
	"lintel/mesh"
)

// holderRow is one line of a bundle or template with what is said of the whole,
// which has no lines here.
type holderRow[W any] struct {
	whole W
	line  kits.TemplateLine
}

type (
	bundleRow   = holderRow[kits.BundleLine]
	templateRow = holderRow[kits.Template]
)

// bundleLines and templateLines are where the lines of a whole stand.
func bundleLines(b *kits.BundleLine) *[]kits.TemplateLine { return &b.Lines }
func templateLines(t *kits.Template) *[]kits.TemplateLine { return &t.Lines }

// bundleList has one row for each line of a bundle.
func bundleList() list[bundleRow] {
	type row = bundleRow
	columns := []column[row]{
		{name: "number", write: func(v row) string { return numberText(v.whole.Number) }, read: func(c *cell, v *row) { v.whole.Number = c.spoken() }},
		{name: "name", write: func(v row) string { return string(v.whole.Name) }, read: func(c *cell, v *row) { v.whole.Name = c.label(); c.filled() }},
		{name: "rescue", write: func(v row) string { return string(v.whole.Rescue) }, read: func(c *cell, v *row) { v.whole.Rescue = c.id() }},
		{name: "lies_at", write: func(v row) string { return placeText(v.whole.LiesAt) }, read: func(c *cell, v *row) { v.whole.LiesAt = c.place() }},
		{name: "lies_words", write: func(v row) string { return string(v.whole.Words) }, read: func(c *cell, v *row) { v.whole.Words = c.label() }},
	}
	columns = append(columns, heldColumns(func(v *row) *kits.TemplateLine { return &v.line })...)
	columns = append(columns,
		column[row]{name: "source", write: func(v row) string { return string(v.whole.Source) }, read: func(c *cell, v *row) { v.whole.Source = c.label() }},
		column[row]{name: columnGone, more: true, write: func(v row) string { return yesNo(v.whole.Gone) }, read: func(c *cell, v *row) { v.whole.Gone = c.gone() }},
	)
	return list[row]{name: Bundles, columns: columns, keys: 1}
}

// templateList has one row for each line of a template.
func templateList() list[templateRow] {
	type row = templateRow
	columns := []column[row]{
		{name: "id", write: func(v row) string { return string(v.whole.ID) }, read: func(c *cell, v *row) { v.whole.ID = c.id(); c.filled() }},
		{name: "name", write: func(v row) string { return string(v.whole.Name) }, read: func(c *cell, v *row) { v.whole.Name = c.label(); c.filled() }},
	}
	columns = append(columns, heldColumns(func(v *row) *kits.TemplateLine { return &v.line })...)
	columns = append(columns,
		column[row]{name: "source", write: func(v row) string { return string(v.whole.Source) }, read: func(c *cell, v *row) { v.whole.Source = c.label() }},
		column[row]{name: columnGone, more: true, write: func(v row) string { return yesNo(v.whole.Gone) }, read: func(c *cell, v *row) { v.whole.Gone = c.gone() }},
	)
	return list[row]{name: Templates, columns: columns, keys: 1}
}

// heldColumns say what a bundle or template holds. All three empty: nothing.
func heldColumns[V any](line func(*V) *kits.TemplateLine) []column[V] {
	return []column[V]{
		{name: columnItem, write: func(v V) string { return numberText(line(&v).Item) }, read: func(c *cell, v *V) {
			if c.word() != "" {
				line(v).Item = c.spoken()
			}
		}},
		{name: "count", write: func(v V) string { return wholeText(line(&v).Count) }, read: func(c *cell, v *V) { line(v).Count = c.whole(kits.PiecesMax) }},
		{name: "where", write: func(v V) string { return string(line(&v).Where) }, read: func(c *cell, v *V) {
			line(v).Where = mesh.ID(c.word())
			switch line(v).Where {
			case "", kits.WhereInside, kits.WhereAtDoor, kits.WhereOutside:
			default:
				c.bad("where", c.word())
			}
		}},
	}
}

// placeList is what places are called.
func placeList() list[kits.PlaceLine] {
	type row = kits.PlaceLine
	return list[row]{name: Places, keys: 1, passed: []string{"source"}, columns: []column[row]{
		{name: "place", write: func(v row) string { return placeText(v.Place) }, read: func(c *cell, v *row) {
			if c.filled() {
				v.Place = c.place()
			}
		}},
		{name: "name", write: func(v row) string { return string(v.Name) }, read: func(c *cell, v *row) { v.Name = c.label(); c.filled() }},
		{name: "shelf", write: func(v row) string { return string(v.Shelf) }, read: func(c *cell, v *row) { v.Shelf = c.label() }},
		{name: columnGone, more: true, write: func(v row) string { return yesNo(v.Gone) }, read: func(c *cell, v *row) { v.Gone = c.gone() }},
	}}
}

// parList is how many of an item a place should hold.
func parList() list[kits.ParLine] {
	type row = kits.ParLine
	return list[row]{name: Pars, keys: 2, passed: []string{"opening", "source"}, columns: []column[row]{
		{name: "place", write: func(v row) string { return placeText(v.Place) }, read: func(c *cell, v *row) {
			if c.filled() {
				v.Place = c.place()
			}
		}},
		{name: columnItem, write: func(v row) string { return numberText(v.Item) }, read: func(c *cell, v *row) { v.Item = c.spoken() }},
		{name: "par", write: func(v row) string { return strconv.FormatInt(v.Par, 10) }, read: func(c *cell, v *row) {
			if c.filled() {
				v.Par = c.whole(kits.PiecesMax)
			}
		}},
		{name: columnGone, more: true, write: func(v row) string { return yesNo(v.Gone) }, read: func(c *cell, v *row) { v.Gone = c.gone() }},
	}}
}

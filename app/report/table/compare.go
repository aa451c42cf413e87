package table

import (
	"fmt"
	"slices"
	"strings"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
)

// compare plans the lines that differ from what stands. They lose what they
// replaced when they were written; the act fills in what they replace now.
func (r *reading) compare(f *lists) {
	w, l := &r.plan.Write, r.ledger
	for _, x := range f.items {
		before, stands := l.Item(x.v.Number)
		c := Change{List: Catalogue, Key: numberText(x.v.Number), Name: strings.TrimSpace(string(x.v.Name) + " " + string(x.v.Detail))}
		if r.differs(&c, x.row, stands, x.v.Gone, itemList().differ(before.Value, x.v)) && r.fits(c, kits.KindItemLine, &x.v) {
			w.Items = append(w.Items, x.v)
		}
	}
	for _, x := range f.bundles {
		before, stands := l.Bundle(x.v.Number)
		c := Change{List: Bundles, Key: numberText(x.v.Number), Name: string(x.v.Name)}
		columns := bundleList().differ(bundleRow{whole: before.Value}, bundleRow{whole: x.v})
		if r.differs(&c, x.row, stands, x.v.Gone, heldDiffer(columns, before.Value.Lines, x.v.Lines)) && r.fits(c, kits.KindBundleLine, &x.v) {
			w.Bundles = append(w.Bundles, x.v)
		}
	}
	for _, x := range f.templates {
		before, stands := l.Template(x.v.ID)
		c := Change{List: Templates, Key: string(x.v.ID), Name: string(x.v.Name)}
		columns := templateList().differ(templateRow{whole: before.Value}, templateRow{whole: x.v})
		if r.differs(&c, x.row, stands, x.v.Gone, heldDiffer(columns, before.Value.Lines, x.v.Lines)) && r.fits(c, kits.KindTemplate, &x.v) {
			w.Templates = append(w.Templates, x.v)
		}
	}
	for _, x := range f.places {
		before, stands := l.Place(x.v.Place)
		c := Change{List: Places, Key: x.v.Place.Words(), Name: string(x.v.Name)}
		if r.differs(&c, x.row, stands, x.v.Gone, placeList().differ(before.Value, x.v)) && r.fits(c, kits.KindPlaceLine, &x.v) {
			w.Places = append(w.Places, x.v)
		}
	}
	for _, x := range f.pars {
		before, stands := l.Par(x.v.Place, x.v.Item)
		c := Change{List: Pars, Key: x.v.Place.Words(), Name: numberText(x.v.Item)}
		if r.differs(&c, x.row, stands, x.v.Gone, parList().differ(before.Value, x.v)) && r.fits(c, kits.KindParLine, &x.v) {
			w.Pars = append(w.Pars, x.v)
		}
	}
}

// differs notes a change, if there is one. What was never there need not go.
func (r *reading) differs(c *Change, row *rowRead, stands, gone bool, columns []string) bool {
	if row.bad || len(columns) == 0 || !stands && gone {
		return false
	}
	c.Row, c.New, c.Columns = row.number, !stands, columns
	r.plan.Changes = append(r.plan.Changes, *c)
	return true
}

// heldDiffer adds the column item where what is held differs.
func heldDiffer(columns []string, before, after []kits.TemplateLine) []string {
	if !slices.Equal(before, after) {
		columns = append(columns, columnItem)
	}
	return columns
}

// fits notes a line that cannot be written as it is.
func (r *reading) fits(c Change, k mesh.Kind, line any) bool {
	n, err := station.LineLen(k, line)
	switch {
	case err != nil:
		r.complain(Problem{List: c.List, Row: c.Row, ID: "unfit"})
	case n > station.LineLenMax:
		r.complain(Problem{List: c.List, Row: c.Row, ID: "line-long", Blanks: []any{fmt.Sprint(n), station.LineLenMax}})
	default:
		return true
	}
	return false
}

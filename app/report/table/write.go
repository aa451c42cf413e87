package table

import (
	"lintel/app/station"
	"lintel/kits"
)

// Of is what stands in a ledger and is in use.
func Of(l *kits.Ledger) station.Catalogue {
	return station.Catalogue{Items: l.Items(), Bundles: l.Bundles(), Templates: l.Templates(), Places: l.Places(), Pars: l.Pars()}
}

// sheet is one list as texts; the first row is its heading.
type sheet struct {
	name string
	rows [][]string
}

// sheetsOf are all lists, in the order of Lists.
func sheetsOf(c station.Catalogue) []sheet {
	return []sheet{
		sheetOf(itemList(), c.Items),
		sheetOf(bundleList(), holderRows(c.Bundles, bundleLines)),
		sheetOf(templateList(), holderRows(c.Templates, templateLines)),
		sheetOf(placeList(), c.Places),
		sheetOf(parList(), c.Pars),
	}
}

func sheetOf[V any](l list[V], rows []V) sheet {
	heading := make([]string, len(l.columns))
	for i, c := range l.columns {
		heading[i] = c.name
	}
	s := sheet{name: l.name, rows: [][]string{heading}}
	for _, v := range rows {
		s.rows = append(s.rows, l.texts(v))
	}
	return s
}

// holderRows are the rows of bundles or templates; one that holds nothing has one
// row.
func holderRows[W any](all []W, lines func(*W) *[]kits.TemplateLine) (out []holderRow[W]) {
	for _, whole := range all {
		held := *lines(&whole)
		*lines(&whole) = nil
		if len(held) == 0 {
			held = []kits.TemplateLine{{}}
		}
		for _, line := range held {
			out = append(out, holderRow[W]{whole, line})
		}
	}
	return out
}

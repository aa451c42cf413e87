package table

import (
	"slices"

	"lintel/kits"
	"lintel/mesh"
)

// check holds the lists of a file against each other and against what stands.
func (r *reading) check(f *lists) {
	g := f.grids[Catalogue]
	numbers := unique(r, g, "number", f.items, func(v kits.ItemLine) mesh.Number { return v.Number })
	for _, x := range f.items {
		r.checkItem(g, x, numbers)
	}
	r.checkCodes(g, f.items)
	r.checkBundles(f, numbers)
	if g := f.grids[Templates]; g != nil {
		for _, x := range f.templates {
			r.checkLines(g, x.v.Lines, x.row, numbers)
		}
	}
	unique(r, f.grids[Places], "place", f.places, func(v kits.PlaceLine) kits.Place { return v.Place })
	type parKey struct {
		place kits.Place
		item  mesh.Number
	}
	unique(r, f.grids[Pars], columnItem, f.pars, func(v kits.ParLine) parKey { return parKey{v.Place, v.Item} })
	for _, x := range f.pars {
		if !r.knows(x.v.Item, numbers) {
			r.complainAt(f.grids[Pars], x.row, columnItem, "no-item", x.v.Item)
		}
	}
}

// unique notes what is there twice, and gives the first row of each.
func unique[K comparable, V any](r *reading, g *grid, column string, rows []placed[V], key func(V) K) map[K]*rowRead {
	first := map[K]*rowRead{}
	for _, x := range rows {
		if before, twice := first[key(x.v)]; twice {
			r.complainAt(g, x.row, column, "twice", before.number)
			continue
		}
		first[key(x.v)] = x.row
	}
	return first
}

// knows tells whether an item is in the file or stands.
func (r *reading) knows(item mesh.Number, numbers map[mesh.Number]*rowRead) bool {
	_, there := r.ledger.Item(item)
	return there || numbers[item] != nil
}

// checkItem notes what the columns of an item say together.
func (r *reading) checkItem(g *grid, x placed[kits.ItemLine], numbers map[mesh.Number]*rowRead) {
	if x.row.bad {
		return
	}
	v := x.v
	if v.Has(kits.IsDrug) && (v.Content.N == 0 || v.Detail == "") {
		r.complainAt(g, x.row, "content", "drug")
	}
	if v.CostMinor != 0 && v.Currency == "" {
		r.complainAt(g, x.row, "currency", "no-currency")
	}
	for _, a := range v.Alternatives {
		switch {
		case a == v.Number:
			r.complainAt(g, x.row, "alternatives", "itself")
		case !r.knows(a, numbers):
			r.complainAt(g, x.row, "alternatives", "no-item", a)
		}
	}
	if v.Waste != "" && !r.ledger.HasWaste(v.Waste) {
		r.complainAt(g, x.row, "waste", "no-waste", v.Waste)
	}
}

// checkCodes notes a barcode that two lines would have, of the file or of what
// stands and is not in it.
func (r *reading) checkCodes(g *grid, items []placed[kits.ItemLine]) {
	if g == nil {
		return
	}
	inFile := map[mesh.Number]bool{}
	owner := map[string]mesh.Number{}
	for _, x := range items {
		inFile[x.v.Number] = true
	}
	for _, v := range r.ledger.Items() {
		for _, code := range v.Codes {
			if !inFile[v.Number] {
				owner[sameCode(code)] = v.Number
			}
		}
	}
	for _, x := range items {
		if x.v.Gone {
			continue
		}
		for i, code := range x.v.Codes {
			before, taken := owner[sameCode(code)]
			if taken && (before != x.v.Number || slices.Contains(x.v.Codes[:i], code)) {
				r.complainAt(g, x.row, columnCodes, "code-twice", code, before)
			}
			owner[sameCode(code)] = x.v.Number
		}
	}
}

// checkBundles notes bundles whose number is something else's, whose set lies
// nowhere, or that hold what is in no list.
func (r *reading) checkBundles(f *lists, numbers map[mesh.Number]*rowRead) {
	g := f.grids[Bundles]
	items := map[mesh.Number]kits.ItemLine{}
	for _, x := range f.items {
		items[x.v.Number] = x.v
	}
	for _, x := range f.bundles {
		item, inFile := items[x.v.Number]
		if stands, ok := r.ledger.Item(x.v.Number); ok && !inFile {
			item = stands.Value
		}
		if item.Number != 0 && !item.Has(kits.IsBundle) {
			r.complainAt(g, x.row, "number", "no-bundle", x.v.Number)
		}
		if x.v.Rescue != "" && x.v.Words == "" {
			r.complainAt(g, x.row, "lies_words", "lies-nowhere")
		}
		r.checkLines(g, x.v.Lines, x.row, numbers)
	}
}

// checkLines notes what is held and in no list, at the row of each line. The
// rows of what holds them follow each other from first on.
func (r *reading) checkLines(g *grid, lines []kits.TemplateLine, first *rowRead, numbers map[mesh.Number]*rowRead) {
	at := slices.Index(g.rows, first)
	for i, line := range lines {
		if at+i < len(g.rows) && line.Item != 0 && !r.knows(line.Item, numbers) {
			r.complainAt(g, g.rows[at+i], columnItem, "no-item", line.Item)
		}
	}
}

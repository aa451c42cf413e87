package table

import (
	"bytes"
	"slices"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
)

// Limits of a file. More is refused with its position, before it is read.
const (
	FileLenMax = 16 << 20 // bytes of a file
	RowsMax    = 20_000   // rows of one list that are not empty
	ColumnsMax = 64       // columns of one list
)

// Plan is what a file would change, found without changing anything. While there
// is a problem there is nothing to write.
type Plan struct {
	Problems []Problem
	Notes    []Note
	Changes  []Change
	Rows     int               // rows that were read
	Write    station.Catalogue // the lines that differ from what stands
}

// Change is one line that would be written.
type Change struct {
	List    string
	Row     int    // where the line begins
	Key     string // its number, its id, its place …
	Name    string // what people call it
	New     bool   // nothing stands there yet
	Columns []string
}

// reading is one file while it is read.
type reading struct {
	plan    Plan
	ledger  *kits.Ledger
	guarded bool // apostrophes before formulas are taken away
}

func (r *reading) complain(p Problem) { r.plan.Problems = append(r.plan.Problems, p) }

func (r *reading) note(id words.ID, blanks ...any) {
	r.plan.Notes = append(r.plan.Notes, Note{ID: id, Blanks: blanks})
}

// File is a file taken apart, before it is held against what stands. It can be
// held against several ledgers.
type File struct {
	grids    []*grid
	problems []Problem
	notes    []Note
	guarded  bool
}

// Open takes a file apart, which is most of the work and needs no ledger. What
// the file holds is told by its first bytes; the name tells the list of a CSV
// file, where it is the name of one.
func Open(name string, file []byte) *File {
	r := &reading{}
	var grids []*grid
	switch {
	case len(file) == 0:
		r.complain(Problem{ID: "empty-file"})
	case len(file) > FileLenMax:
		r.complain(Problem{ID: "file-long", Blanks: []any{FileLenMax >> 20}})
	case bytes.HasPrefix(file, []byte(oleMark)):
		r.complain(Problem{ID: "old-spreadsheet"})
	case bytes.HasPrefix(file, []byte(zipMark)):
		grids = r.xlsxGrids(file)
	default:
		r.guarded = true
		if g := r.csvGrid(name, file); g != nil {
			grids = []*grid{g}
		}
	}
	return &File{grids, r.plan.Problems, r.plan.Notes, r.guarded}
}

// Against finds out what a file would change over what stands in a ledger.
// Nothing is written.
func (f *File) Against(l *kits.Ledger) Plan {
	r := &reading{ledger: l, guarded: f.guarded}
	r.plan.Problems, r.plan.Notes = slices.Clone(f.problems), slices.Clone(f.notes)
	grids := make([]*grid, len(f.grids))
	for i, g := range f.grids {
		grids[i] = g.fresh()
	}
	r.readGrids(grids)
	if len(r.plan.Problems) > 0 {
		r.plan.Write, r.plan.Changes = station.Catalogue{}, nil
	}
	return r.plan
}

// Read is Open and Against in one.
func Read(name string, file []byte, l *kits.Ledger) Plan { return Open(name, file).Against(l) }

// lists are the lines of a file, each list with the grid that it came from; nil
// where the file does not have the list.
type lists struct {
	grids     map[string]*grid
	items     []placed[kits.ItemLine]
	bundles   []placed[kits.BundleLine]
	templates []placed[kits.Template]
	places    []placed[kits.PlaceLine]
	pars      []placed[kits.ParLine]
}

// readGrids reads every list, holds them against each other and against what
// stands, and plans what differs.
func (r *reading) readGrids(grids []*grid) {
	f := lists{grids: map[string]*grid{}}
	for _, g := range grids {
		i := slices.IndexFunc(shapes(), func(s shape) bool { return s.name == g.list })
		r.readHeading(g, shapes()[i])
		if len(g.heading) > ColumnsMax {
			continue
		}
		f.grids[g.list] = g
		r.plan.Rows += len(g.rows)
		switch l := r.ledger; g.list {
		case Catalogue:
			f.items = readRows(r, g, itemList(), func(v kits.ItemLine) kits.ItemLine { return standing(v, v.Number, l.Item) })
		case Bundles:
			f.bundles = gather(r, g, bundleList(), func(v kits.BundleLine) mesh.Number { return v.Number },
				func(v kits.BundleLine) kits.BundleLine { return standing(v, v.Number, l.Bundle) }, bundleLines)
		case Templates:
			f.templates = gather(r, g, templateList(), func(v kits.Template) mesh.ID { return v.ID },
				func(v kits.Template) kits.Template { return standing(v, v.ID, l.Template) }, templateLines)
		case Places:
			f.places = readRows(r, g, placeList(), func(v kits.PlaceLine) kits.PlaceLine { return standing(v, v.Place, l.Place) })
		case Pars:
			f.pars = readRows(r, g, parList(), func(v kits.ParLine) kits.ParLine {
				if c, ok := l.Par(v.Place, v.Item); ok {
					v = c.Value
				}
				return v
			})
		}
	}
	r.check(&f)
	r.compare(&f)
}

// standing is the line that stands under a key; v itself if there is none.
func standing[K comparable, V any](v V, key K, look func(K) (kits.Chosen[V], bool)) V {
	if c, ok := look(key); ok {
		return c.Value
	}
	return v
}

// gather reads bundles or templates and puts their rows together. base gives what
// stands without its lines; lines are where those of a whole go.
func gather[W any, K comparable](r *reading, g *grid, l list[holderRow[W]], key func(W) K, base func(W) W, lines func(*W) *[]kits.TemplateLine) (out []placed[W]) {
	rows := readRows(r, g, l, func(v holderRow[W]) holderRow[W] {
		v.whole = base(v.whole)
		*lines(&v.whole) = nil
		return v
	})
	place := map[K]int{}
	var first holderRow[W]
	for _, x := range rows {
		r.checkHeld(g, x.row, x.v.line)
		at, old := place[key(x.v.whole)]
		switch {
		case !old:
			at = len(out)
			place[key(x.v.whole)] = at
			first = holderRow[W]{whole: x.v.whole}
			out = append(out, placed[W]{x.row, x.v.whole})
		case at != len(out)-1:
			r.complainAt(g, x.row, l.columns[0].name, "apart", out[at].row.number)
		default:
			r.repeats(g, x.row, l.differ(first, holderRow[W]{whole: x.v.whole}), out[at].row)
		}
		if x.v.line != (kits.TemplateLine{}) {
			held := lines(&out[at].v)
			*held = append(*held, x.v.line)
		}
	}
	return out
}

// complainAt notes a problem of one cell, by its column.
func (r *reading) complainAt(g *grid, row *rowRead, column string, id words.ID, blanks ...any) {
	p := g.where(row, column)
	p.ID, p.Blanks = id, blanks
	r.complain(p)
	row.bad = true
}

// repeats notes in which columns a row says something else of the whole than the
// first row did. Each row may have a source of its own; the first one's is kept.
func (r *reading) repeats(g *grid, row *rowRead, columns []string, first *rowRead) {
	for _, column := range columns {
		if column != "source" {
			r.complainAt(g, row, column, "two-ways", first.number)
		}
	}
}

// checkHeld notes what is missing of a line of a bundle or template.
func (r *reading) checkHeld(g *grid, row *rowRead, line kits.TemplateLine) {
	if row.bad || line == (kits.TemplateLine{}) {
		return
	}
	for _, x := range []struct {
		column  string
		missing bool
	}{{columnItem, line.Item == 0}, {"count", line.Count == 0}, {"where", line.Where == ""}} {
		if x.missing {
			r.complainAt(g, row, x.column, "empty")
		}
	}
}

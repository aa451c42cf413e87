package main

import (
	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/requests"
)

// Measures of the ways to all pages, in mm.
const (
	wayWide = 60.0 // least, with what is there
	wayHigh = 40.0 // most
	hasFrom = 30.0 // of height: there is room for what is there

	wayLeast  = look.SideOutside // of height
	wayNarrow = 34.0             // a long word does not fit
)

// newChoicePage is the page with the ways to all others, for clean and for
// gloved hands.
func newChoicePage(f *frame) *leaf {
	cells := map[look.Use][]*look.Tile{}
	var parts []fyne.CanvasObject
	add := func(u look.Use, pages []page) {
		for _, p := range pages {
			t := look.NewTile(f.look, u, func() { f.open(p) })
			cells[u], parts = append(cells[u], t), append(parts, t)
		}
	}
	add(look.UseInside, insideWays())
	add(look.UseOutside, outsideWays())
	paint := func(has, narrow bool) {
		for u, pages := range map[look.Use][]page{look.UseInside: insideWays(), look.UseOutside: outsideWays()} {
			for i, p := range pages {
				face := look.TileFace{Word: f.words.Say(p.word())}
				if short := p.word() + "-short"; narrow && f.words.Has(short) {
					face.Word = f.words.Say(short)
				}
				if has {
					face.Detail = f.words.Say(p.word() + "-has")
				}
				cells[u][i].Set(face)
			}
		}
	}
	lay := func(put look.Put, width, height float32) {
		u := look.UseOutside
		if f.sight.Side == requests.Inside {
			u = look.UseInside
		}
		area := look.At(barEdge, barEdge, width-2*barEdge, height-2*barEdge)
		columns, rows := min(3, look.Fitting(area.W, wayWide)), 0
		for high := float32(0); high < wayLeast && columns <= len(cells[u]); columns++ { // narrower where it is low
			rows = (len(cells[u]) + columns - 1) / columns
			if high = area.Cells(columns, rows)[0].H; high >= wayLeast {
				break
			}
		}
		area.H = min(area.H, float32(rows)*(wayHigh+look.GapMin)-look.GapMin)
		all := area.Cells(columns, rows)
		paint(all[0].H >= hasFrom, all[0].W < wayNarrow)
		for i, b := range all {
			if i < len(cells[u]) {
				b.Put(put, cells[u][i])
			}
		}
	}
	root := look.NewFree(f.look, lay, parts...)
	return &leaf{object: root, paint: func() { look.Arrange(root) }, set: func(sight) bool { look.Arrange(root); return true }}
}

package look

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// RowsMax is how many lines one page of Rows can have.
const RowsMax = 24

// RowsOptions make a list.
type RowsOptions struct {
	Use    Use
	High   float32                          // of one line, in mm; never less than a target's side
	Before string                           // on the tile that turns back
	After  string                           // on the tile that turns on
	Page   func(first, last, of int) string // said between them where there is room; lines count from 1
	Tapped func(n int)                      // line n, from 0, of all that were set
}

// Rows is a list of lines on pages of its own: nothing scrolls, a line stays
// where it is, and tiles below turn the page. Where all lines fit there are no
// such tiles.
type Rows struct {
	widget.BaseWidget
	writing
	opt           RowsOptions
	faces         []RowFace
	from, shown   int
	rows          []*Row
	before, after *Tile
	page          *lines
}

// NewRows makes an empty one.
func NewRows(l *Look, o RowsOptions) *Rows {
	o.High = max(o.High, o.Use.Side())
	w := newWriting(l)
	r := &Rows{writing: w, opt: o, page: w.lines(o.Use.Reads(), false, 1)}
	for i := range RowsMax {
		r.rows = append(r.rows, NewRow(l, o.Use, func() { r.tap(i) }))
	}
	r.before = NewTile(l, o.Use, func() { r.Turn(-1) })
	r.after = NewTile(l, o.Use, func() { r.Turn(1) })
	r.ExtendBaseWidget(r)
	return r
}

func (r *Rows) tap(i int) {
	if n := r.from + i; n < len(r.faces) && r.opt.Tapped != nil {
		r.opt.Tapped(n)
	}
}

// Set shows other lines. The page stays, as far as there are lines on it.
func (r *Rows) Set(faces []RowFace) {
	if slices.Equal(r.faces, faces) {
		return
	}
	r.faces = append(r.faces[:0], faces...)
	r.Refresh()
}

// Turn goes by so many pages, not beyond the first and the last.
func (r *Rows) Turn(by int) {
	r.from += by * max(1, r.shown)
	r.Refresh()
}

// Reveal turns to the page of line n, from 0.
func (r *Rows) Reveal(n int) {
	r.from = n
	r.Refresh()
}

// CreateRenderer is part of fyne.Widget.
func (r *Rows) CreateRenderer() fyne.WidgetRenderer {
	objects := []fyne.CanvasObject{}
	for _, row := range r.rows {
		objects = append(objects, row)
	}
	objects = append(objects, r.before, r.after)
	objects = append(objects, r.page.objects()...)
	return &painted{owner: r, objects: objects, lay: r.lay, least: func() fyne.Size {
		return fyne.NewSize(r.look.MM(2*r.opt.Use.Side()), r.look.MM(r.opt.High))
	}}
}

// lay puts the lines of the page, and the tiles below them where they are needed.
func (r *Rows) lay(size fyne.Size) {
	high, step := r.look.MM(r.opt.High), r.look.MM(r.opt.High+GapMin)
	fits := func(height float32) int { return min(max(1, int((height+r.look.MM(GapMin)+1)/step)), RowsMax) }
	r.shown = fits(size.Height)
	turns := len(r.faces) > r.shown
	side := r.look.MM(r.opt.Use.Side())
	if turns {
		r.shown = fits(size.Height - side - r.look.MM(GapMin))
	}
	r.from = min(max(0, r.from), max(0, len(r.faces)-1)) / r.shown * r.shown
	for i, row := range r.rows {
		if n := r.from + i; i < r.shown && n < len(r.faces) {
			row.Set(r.faces[n])
			place(row, 0, float32(i)*step, size.Width, high)
			row.Show()
		} else {
			row.Hide()
		}
	}
	r.layTurns(turns, side, size)
}

// turnMM is how wide, in mm, a tile that turns pages becomes where there is room.
const turnMM = 30

// layTurns puts the tiles that turn pages and, where it has room between them,
// which lines these are.
func (r *Rows) layTurns(turns bool, side float32, size fyne.Size) {
	if !turns {
		r.before.Hide()
		r.after.Hide()
		r.page.write("", ink{}, 0, 0, 0)
		return
	}
	last := min(r.from+r.shown, len(r.faces))
	r.before.Set(TileFace{Word: r.opt.Before, Off: r.from == 0})
	r.after.Set(TileFace{Word: r.opt.After, Off: last == len(r.faces)})
	r.before.Show()
	r.after.Show()
	gap, y := r.look.MM(GapMin), size.Height-side
	wide := min(r.look.MM(turnMM), (size.Width-gap)/2)
	place(r.before, 0, y, wide, side)
	place(r.after, size.Width-wide, y, wide, side)
	said := ""
	if r.opt.Page != nil {
		said = r.opt.Page(r.from+1, last, len(r.faces))
	}
	letter, room := r.look.Letters(r.opt.Use.Reads(), Small), size.Width-2*(wide+gap)
	if !r.page.whole(said, letter, room) {
		said = ""
	}
	k := ink{letter, r.look.palette.Quiet, fyne.TextAlignCenter}
	r.page.write(said, k, wide+gap, y+(side-lineHeight(letter, 1))/2, room)
}

package report

import (
	"image/color"
	"time"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// LabelContents is what stands on the label of one syringe. Times are in the zone
// of whoever sticks it on.
type LabelContents struct {
	Code    string      // of the syringe, as the record calls it
	Upper   []string    // the drug, its class, the amount in its volume, what 1 mL holds
	Lower   []string    // who drew it up and checked it, and when
	Band    color.NRGBA // of the drug's class; zero: no class
	Striped bool        // an antagonist
	Discard string      // after when it must not be given; empty: nobody said
	Dated   time.Time
}

// LabelOf words the label of a syringe. Known is false where nothing was drawn up
// under that ref.
func LabelOf(w words.Words, v station.View, ref mesh.Ref, zone *time.Location) (c LabelContents, known bool) {
	l, known := v.SyringeLabel(ref)
	if !known {
		return c, false
	}
	said := func(tag mesh.Tag) string {
		if tag == "" {
			return w.Say("list.nobody-said")
		}
		return string(tag)
	}
	clock := func(at mesh.Wall) string { return wall(at, zone).Format(time.DateTime) }
	c = LabelContents{
		Code: requests.Code(ref), Dated: wall(l.At, zone), Band: l.Colour, Striped: l.Striped,
		Upper: w.LabelText(l.Name, l.Class, l.Amount.Base, l.Amount.OverUL),
		Lower: []string{w.Say("label.people", said(l.DrawnBy), said(l.CheckedBy)), w.Say("label.made", clock(l.At))},
	}
	if l.DiscardAfter > 0 {
		c.Discard = w.Say("label.discard", clock(l.DiscardAfter))
	}
	return c, true
}

// Lines are the label as text, from its top.
func (c LabelContents) Lines() []string {
	out := append(append([]string{}, c.Upper...), c.Lower...)
	if c.Discard != "" {
		out = append(out, c.Discard)
	}
	return out
}

// Measures of a syringe's label, in mm: 24 of them are one A4 sheet of stickers.
const (
	labelWide   = 70.0
	labelHigh   = 37.0
	labelMargin = 3.0
	labelHead   = 5.6
	labelUpper  = 4.0
	labelLower  = 2.4
	labelLast   = 3.2
	labelBand   = 8.0
	labelEdge   = 1.5 // above the first line and below the last
	labelStep   = 1.2 // lines lie closer than on a page
)

// SyringeLabels draws one label on each page, as large as a sticker. Its size
// is the page's, so a label printer takes it as it is.
func SyringeLabels(w words.Words, all []LabelContents) ([]byte, error) {
	if len(all) == 0 {
		return nil, ErrPaper
	}
	s := newPaper(w.Say("label.title"), labelWide, labelHigh, all[0].Dated)
	for i, c := range all {
		if i > 0 {
			s.pdf.AddPage()
		}
		s.label(w, c)
	}
	return s.bytes()
}

// label draws one label on the page that is open.
func (s *sheet) label(w words.Words, c LabelContents) {
	const inner = labelWide - 2*labelMargin - labelBand
	s.band(c)
	y := labelEdge
	for i, text := range c.Upper {
		size := labelUpper
		if i == 0 {
			size = labelHead
		}
		s.line(labelMargin, y, inner, size, strong, text)
		y += size * labelStep
	}
	below := labelHigh - labelEdge
	if c.Discard != "" {
		below -= labelLast * labelStep
		s.line(labelMargin, below, inner, labelLast, strong, c.Discard)
	}
	for i := len(c.Lower) - 1; i >= 0; i-- {
		below -= labelLower * labelStep
		s.line(labelMargin, below, inner*0.68, labelLower, plain, c.Lower[i])
	}
	s.atEnd(labelMargin+inner*0.68, below, inner*0.32, labelLower, plain, w.Say("label.code", c.Code))
}

// band draws the colour of the class along the right edge; that of an antagonist
// has white stripes at 45°. It is never the only cue: the class stands in words.
func (s *sheet) band(c LabelContents) {
	if c.Band.A == 0 {
		return
	}
	const left, stripe = labelWide - labelBand, 2.0
	s.pdf.SetFillColor(int(c.Band.R), int(c.Band.G), int(c.Band.B))
	s.pdf.Rect(left, 0, labelBand, labelHigh, "F")
	if !c.Striped {
		return
	}
	s.pdf.ClipRect(left, 0, labelBand, labelHigh, false)
	s.pdf.SetDrawColor(0xff, 0xff, 0xff)
	s.pdf.SetLineWidth(stripe)
	for y := 0.0; y < labelHigh+labelBand; y += 3 * stripe {
		s.pdf.Line(left, y, labelWide, y-labelBand)
	}
	s.pdf.ClipEnd()
	s.pdf.SetDrawColor(0, 0, 0)
}

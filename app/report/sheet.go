package report

import (
	"bytes"
	"errors"
	"fmt"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"lintel/assets"
)

// ErrPaper says that a paper could not be made; the text says why.
var ErrPaper = errors.New("the paper could not be made")

// Paper of A4, in millimetres.
const (
	longEdge  = 297.0
	shortEdge = 210.0
	margin    = 10.0
)

// Faces of the papers' one family.
const (
	family = "plex"
	plain  = ""
	strong = "B"
)

// sheet is one paper while it is drawn. Positions are in millimetres from the
// top left.
type sheet struct {
	pdf  *fpdf.Fpdf
	wide float64
	high float64
}

// newSheet begins a paper; across lies it on its long edge. dated is the only
// date in it.
func newSheet(title string, across bool, dated time.Time) *sheet {
	if across {
		return newPaper(title, longEdge, shortEdge, dated)
	}
	return newPaper(title, shortEdge, longEdge, dated)
}

// newPaper begins a paper of any size, in mm.
func newPaper(title string, wide, high float64, dated time.Time) *sheet {
	orientation := "P"
	if wide > high {
		orientation = "L"
	}
	size := fpdf.SizeType{Wd: min(wide, high), Ht: max(wide, high)}
	p := fpdf.NewCustom(&fpdf.InitType{OrientationStr: orientation, UnitStr: "mm", Size: size})
	p.SetCatalogSort(true) // equal contents, equal bytes
	p.SetCreationDate(dated.UTC())
	p.SetModificationDate(dated.UTC())
	p.SetTitle(title, true)
	p.SetProducer("Lintel", true)
	p.SetAutoPageBreak(false, margin)
	p.AddUTF8FontFromBytes(family, plain, assets.FontPlain())
	p.AddUTF8FontFromBytes(family, strong, assets.FontStrong())
	p.AddPage()
	return &sheet{pdf: p, wide: wide, high: high}
}

// bytes ends the paper.
func (s *sheet) bytes() ([]byte, error) {
	var out bytes.Buffer
	if err := s.pdf.Output(&out); err != nil {
		return nil, fmt.Errorf("%w: %v", ErrPaper, err)
	}
	return out.Bytes(), nil
}

// Points per millimetre, and the share of a letter's size that lies above its
// base line.
const (
	pointsPerMM = 72 / 25.4
	ascent      = 0.76
)

// line writes one line of text with letters of the given size in mm at the top
// left (x, y), and makes them smaller until it is no wider than wide.
func (s *sheet) line(x, y, wide, size float64, style, text string) {
	size = s.fitting(wide, size, style, text)
	s.pdf.Text(x, y+size*ascent, text)
}

// centred is line in the middle of its width.
func (s *sheet) centred(x, y, wide, size float64, style, text string) {
	size = s.fitting(wide, size, style, text)
	s.pdf.Text(x+(wide-s.pdf.GetStringWidth(text))/2, y+size*ascent, text)
}

// atEnd is line that ends at the right of its width.
func (s *sheet) atEnd(x, y, wide, size float64, style, text string) {
	size = s.fitting(wide, size, style, text)
	s.pdf.Text(x+wide-s.pdf.GetStringWidth(text), y+size*ascent, text)
}

// sizeMin is the smallest letter that a paper may have, in mm.
const sizeMin = 1.8

// fitting sets the font in the largest size up to size at which text is no wider
// than wide, and returns it.
func (s *sheet) fitting(wide, size float64, style, text string) float64 {
	s.pdf.SetFont(family, style, size*pointsPerMM)
	if got := s.pdf.GetStringWidth(text); got > wide {
		size = max(sizeMin, size*wide/got)
		s.pdf.SetFont(family, style, size*pointsPerMM)
	}
	return size
}

// lineStep is how far lines of text are apart, of their size.
const lineStep = 1.35

// block writes text over as many lines as it needs and returns where it ends.
func (s *sheet) block(x, y, wide, size float64, style, text string) float64 {
	s.pdf.SetFont(family, style, size*pointsPerMM)
	for _, l := range s.pdf.SplitText(text, wide) {
		s.pdf.Text(x, y+size*ascent, l)
		y += size * lineStep
	}
	return y
}

// box draws a frame.
func (s *sheet) box(x, y, wide, high, stroke float64) {
	s.pdf.SetLineWidth(stroke)
	s.pdf.Rect(x, y, wide, high, "D")
}

// rule draws a line across.
func (s *sheet) rule(x, y, wide, stroke float64) {
	s.pdf.SetLineWidth(stroke)
	s.pdf.Line(x, y, x+wide, y)
}

// room makes sure that high mm are left below y, else it turns to a new page,
// and returns where to go on.
func (s *sheet) room(y, high float64) float64 {
	if y+high <= s.high-margin {
		return y
	}
	s.pdf.AddPage()
	return margin
}

package report

import (
	"strings"
	"time"

	"lintel/app/words"
)

// Record is a long text as a paper: A4, standing. A line behind an empty one is
// a heading; long lines are broken.
func Record(w words.Words, title, text string, dated time.Time) ([]byte, error) {
	s := newSheet(title, false, dated)
	inner := s.wide - 2*margin
	s.line(margin, margin, inner, headSize, strong, title)
	y := s.block(margin, margin+headSize*lineStep, inner, smallSize, plain, w.Say("record.caution"))
	heads := false
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		switch {
		case line == "":
			heads = true
		case heads:
			y, heads = s.section(y, line), false
		default:
			y = s.running(y, inner, line)
		}
	}
	return s.bytes()
}

// running writes one line of text over as many rows as it needs, and turns the
// page between them. What follows the first row is set in.
func (s *sheet) running(y, wide float64, text string) float64 {
	const in = 6.0
	s.pdf.SetFont(family, plain, bodySize*pointsPerMM)
	for i, row := range s.pdf.SplitText(text, wide-in) {
		y = s.room(y, bodySize*lineStep)
		s.pdf.SetFont(family, plain, bodySize*pointsPerMM) // a new page keeps it, a heading before does not
		x := margin
		if i > 0 {
			x += in
		}
		s.pdf.Text(x, y+bodySize*ascent, row)
		y += bodySize * lineStep
	}
	return y
}

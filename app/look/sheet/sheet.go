package sheet

import (
	"fyne.io/fyne/v2"

	"lintel/app/look"
)

// Bounds of what a Sheet has parts for.
const (
	LinesMax   = 24 // lines that are seen at once
	ChoicesMax = 24 // tiles that are seen at once
)

// Choice is a tile with what it means.
type Choice[P any] struct {
	Face look.TileFace
	Pick P
}

// Tile is a choice: what stands on it, and what it means.
func Tile[P any](f look.TileFace, p P) Choice[P] { return Choice[P]{Face: f, Pick: p} }

// Line is a sentence that may be tapped, with what that means.
type Line[P any] struct {
	Face  look.BannerFace // a tone only where it is Still: an edge that shows hands does not stand out from one
	Pick  P
	Still bool // it is only read
}

// Face is what a Sheet shows. Empty parts take no room.
type Face[P any] struct {
	Head    string
	Tell    look.BannerFace
	Word    look.BigWordFace
	Lines   []Line[P]
	Choices []Choice[P] // below lines: as few as fit in two rows
	Keys    *look.KeypadFace
}

// Options make a Sheet. All are needed, but Keys where nothing is typed.
type Options[P any] struct {
	Look    *look.Look
	Back    string                  // on the way back
	More    func(to, of int) string // on the way to what did not fit
	Next    string                  // the same where it is narrow
	Pick    func(P)                 // a choice or a line was tapped
	Leave   func()                  // the way back was tapped
	Changed func()                  // other choices are shown: lay it out again
	Keys    look.KeypadKeys         // what was typed is the screen's
}

// Sheet is the parts of one page. The UI goroutine owns it.
type Sheet[P any] struct {
	opt     Options[P]
	face    Face[P]
	from    int // the first line, or choice, that is seen
	shown   int // how many are seen; set by Lay
	narrow  bool
	tight   bool // lines and tiles have a page each; set by Lay
	head    *look.Banner
	title   *look.Banner // head where it is broad: read from 1 m
	tell    *look.Banner
	word    *look.BigWord
	typed   *look.BigWord
	back    *look.Tile
	turn    *look.Tile
	keys    *look.Keypad
	says    [LinesMax]*look.Banner
	lines   [LinesMax]*look.Press
	still   [LinesMax]*look.Banner
	choices [ChoicesMax]*look.Tile
}

// New makes an empty one.
func New[P any](o Options[P]) *Sheet[P] {
	l := o.Look
	s := &Sheet[P]{
		opt: o, shown: 1, head: look.NewBanner(l, look.DeskLine, headRows), title: look.NewBanner(l, look.RunnerLine, 1), tell: look.NewBanner(l, look.DeskLine, tellRows),
		word: look.NewBigWord(l, look.RunnerLine), typed: look.NewBigWord(l, look.RunnerLine),
	}
	s.back = look.NewTile(l, look.UseOutside, o.Leave)
	s.back.Set(look.TileFace{Word: o.Back})
	s.turn = look.NewTile(l, look.UseOutside, s.turnPage)
	s.keys = look.NewKeypad(l, look.UseOutside, o.Keys)
	for i := range s.lines {
		s.says[i] = look.NewBanner(l, look.DeskLine, lineRows)
		s.still[i] = look.NewBanner(l, look.DeskLine, lineRows)
		s.lines[i] = look.NewPress(l, look.UseOutside, s.says[i], func() { s.pickLine(i) })
	}
	for i := range s.choices {
		s.choices[i] = look.NewTile(l, look.UseOutside, func() { s.pickChoice(i) })
	}
	return s
}

// Objects are the parts in the order of painting, for look.NewFree.
func (s *Sheet[P]) Objects() (all []fyne.CanvasObject) {
	all = append(all, s.head, s.title, s.tell, s.word, s.typed, s.keys)
	for i, l := range s.lines {
		all = append(all, l, s.still[i])
	}
	for _, c := range s.choices {
		all = append(all, c)
	}
	return append(all, s.back, s.turn)
}

// Set shows another face from where it was; Begin shows it from its beginning.
func (s *Sheet[P]) Set(f Face[P]) {
	s.face = f
	if s.from >= s.paged() {
		s.from = 0 // what was shown there is gone
	}
	s.copy()
}

// Begin goes to the beginning of what is shown.
func (s *Sheet[P]) Begin() { s.from = 0 }

// copy puts the face into the parts; lines and tiles take theirs when they are
// put, so that nothing is painted that is not seen.
func (s *Sheet[P]) copy() {
	f := s.face
	s.head.Set(look.BannerFace{Sentence: f.Head})
	s.title.Set(look.BannerFace{Sentence: f.Head})
	s.tell.Set(f.Tell)
	s.word.Set(f.Word)
	s.typed.Set(f.Word)
	if f.Keys != nil {
		s.keys.Set(*f.Keys)
	}
	more := s.opt.More(min(s.from+s.shown, s.paged()), s.paged())
	if s.narrow {
		more = s.opt.Next
	}
	s.turn.Set(look.TileFace{Word: more})
}

// line and choice are which of the face stand on the i-th part. Only one of
// the two has more than one page.
func (s *Sheet[P]) line(i int) int { return s.from + i }

func (s *Sheet[P]) choice(i int) int {
	if len(s.face.Lines) > 0 {
		return i
	}
	return s.from + i
}

// paged is of how many things a part is shown.
func (s *Sheet[P]) paged() int {
	n := len(s.face.Lines)
	switch {
	case n == 0:
		return len(s.face.Choices)
	case s.tight:
		return n + 1
	}
	return n
}

func (s *Sheet[P]) pickLine(i int) {
	if n := s.line(i); n < len(s.face.Lines) && !s.face.Lines[n].Still {
		s.opt.Pick(s.face.Lines[n].Pick)
	}
}

func (s *Sheet[P]) pickChoice(i int) {
	if n := s.choice(i); n < len(s.face.Choices) {
		s.opt.Pick(s.face.Choices[n].Pick)
	}
}

// turnPage shows what did not fit, after the last the first.
func (s *Sheet[P]) turnPage() {
	last := len(s.face.Lines) // of tight pages, where the tiles are
	if next := s.from + s.shown; s.tight && s.from < last && next > last {
		s.from = last
	} else if s.from = next; s.from >= s.paged() {
		s.from = 0
	}
	s.copy()
	s.opt.Changed()
}

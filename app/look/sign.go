package look

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// SignFace is what a Sign says through the glass. Empty lines take no room.
type SignFace struct {
	Head   string // above: "not reached: use voice", a door; left out where the rest needs its place
	Word   string // the largest: the item, or an hour
	Detail string // size or strength and container; never cut before Word
	Count  string // how many, at the left below
	Code   string // the joining code, at the right below
	Foot   string // at the bottom, read from 1 m: an assumption, local policy
	Tone   Tone
}

// Sign fills the screen with letters that are read from 2 m through glass: an
// item with its count and code, or what stands on a door. No line is smaller
// than that allows, but the foot.
type Sign struct {
	widget.BaseWidget
	writing
	face                                  SignFace
	field, rule                           *canvas.Rectangle
	head, word, detail, count, code, foot *lines
}

// signRows is how many rows the largest words of a Sign may take.
const signRows = 4

// NewSign makes an empty one.
func NewSign(l *Look) *Sign {
	w := newWriting(l)
	s := &Sign{writing: w, field: canvas.NewRectangle(color.Transparent), rule: canvas.NewRectangle(color.Transparent)}
	s.head, s.foot = w.lines(WallWord, false, 2), w.lines(RunnerLine, false, signRows)
	s.word, s.detail = w.lines(WallWord, true, signRows), w.lines(WallWord, true, signRows)
	s.count, s.code = w.lines(WallWord, true, 1), w.lines(WallWord, true, 1)
	s.ExtendBaseWidget(s)
	return s
}

// Set says another thing.
func (s *Sign) Set(f SignFace) { setFace(&s.face, f, s.Refresh) }

// Face is what it says.
func (s *Sign) Face() SignFace { return s.face }

// CreateRenderer is part of fyne.Widget.
func (s *Sign) CreateRenderer() fyne.WidgetRenderer {
	objects := []fyne.CanvasObject{s.field, s.rule}
	for _, l := range []*lines{s.head, s.word, s.detail, s.count, s.code, s.foot} {
		objects = append(objects, l.objects()...)
	}
	return &painted{owner: s, objects: objects, lay: s.lay, least: func() fyne.Size {
		small := s.look.Letters(WallWord, Small)
		return fyne.NewSize(small*4, lineHeight(small, 2)+s.look.MM(2*paddingMM))
	}}
}

func (s *Sign) lay(size fyne.Size) {
	l, f, pad := s.look, s.face, s.look.MM(2*paddingMM)
	fill := l.palette.Fill(f.Tone)
	l.paintPanel(s.field, fill, size)
	small := l.Letters(WallWord, Small)
	k := ink{small, fill.Ink, fyne.TextAlignCenter}
	in := box{pad, pad, size.Width - 2*pad, size.Height - 2*pad}
	high := s.head.write(s.headFor(in), k, in.x, in.y, in.width)
	in.y, in.height = in.y+high, in.height-high
	near := l.Letters(RunnerLine, Small)
	in.height -= wrappedHeight(s.foot, f.Foot, near, in.width)
	s.foot.write(f.Foot, ink{near, fill.Ink, fyne.TextAlignCenter}, in.x, in.y+in.height, in.width)
	s.layWords(s.layBelow(in, fill), fill)
}

// headFor is the head if it and all the rest fit at the least size.
func (s *Sign) headFor(in box) string {
	f, least := s.face, s.look.Letters(WallWord, Small)
	rest := wrappedHeight(s.word, f.Word, least, in.width) + wrappedHeight(s.detail, f.Detail, least, in.width) + wrappedHeight(s.foot, f.Foot, s.look.Letters(RunnerLine, Small), in.width)
	if f.Count != "" || f.Code != "" {
		rest += lineHeight(least, 1)
	}
	if s.head.whole(f.Head, least, in.width) && wrappedHeight(s.head, f.Head, least, in.width)+rest <= in.height {
		return f.Head
	}
	return ""
}

// layBelow puts count and code side by side at the bottom, as large as their
// share of the height allows, and gives what is left above.
func (s *Sign) layBelow(in box, fill Fill) box {
	l, f := s.look, s.face
	s.rule.FillColor, s.rule.StrokeWidth = color.Transparent, 0
	place(s.rule, 0, 0, 0, 0)
	if f.Count == "" && f.Code == "" {
		s.count.write("", ink{size: 1}, 0, 0, 0)
		s.code.write("", ink{size: 1}, 0, 0, 0)
		return in
	}
	gap := l.MM(4)
	letter := max(l.Letters(WallWord, Small), in.height*0.25/lineShare)
	wide := func(letter float32) (count, code float32) {
		return s.count.measure(letter)(f.Count) + 1, s.code.measure(letter)(f.Code) + 1
	}
	count, code := wide(letter)
	if room := in.width - gap; count+code > room {
		letter = max(l.Letters(WallWord, Small), letter*room/(count+code)*0.98)
		count, code = wide(letter)
	}
	high := lineHeight(letter, 1)
	y := in.y + in.height - high
	align := func(other string, at fyne.TextAlign) fyne.TextAlign {
		if other == "" {
			return fyne.TextAlignCenter
		}
		return at
	}
	if f.Code == "" {
		count = in.width
	} else if f.Count == "" {
		code = in.width
	}
	s.count.write(f.Count, ink{letter, fill.Ink, align(f.Code, fyne.TextAlignLeading)}, in.x, y, count)
	s.code.write(f.Code, ink{letter, fill.Ink, align(f.Count, fyne.TextAlignTrailing)}, in.x+in.width-code, y, code)
	s.rule.FillColor = fill.Ink
	place(s.rule, in.x, y-l.MM(1), in.width, l.MM(edgeMM))
	in.height -= high + l.MM(2)
	return in
}

// layWords puts word and detail into the middle of the rest, as large as both
// fit; the detail is two thirds of the word.
func (s *Sign) layWords(in box, fill Fill) {
	l, f := s.look, s.face
	least := l.Letters(WallWord, Small)
	if !s.detail.whole(f.Detail, least, in.width) {
		f.Detail = strings.ReplaceAll(f.Detail, "\u00a0", " ") // better on two rows than broken
	}
	detailOf := func(word float32) float32 { return max(least, word*2/3) }
	high := func(word float32) float32 {
		return wrappedHeight(s.word, f.Word, word, in.width) + wrappedHeight(s.detail, f.Detail, detailOf(word), in.width)
	}
	word, most := least, max(least, in.height)
	for most-word > 1 {
		middle := (word + most) / 2
		if s.word.whole(f.Word, middle, in.width) && s.detail.whole(f.Detail, detailOf(middle), in.width) && high(middle) <= in.height {
			word = middle
		} else {
			most = middle
		}
	}
	detail := wrappedHeight(s.detail, f.Detail, detailOf(word), in.width)
	y := in.y + max(0, (in.height-high(word))/2)
	y += s.word.writeRows(f.Word, ink{word, fill.Ink, fyne.TextAlignCenter}, in.x, y, in.width, rowsIn(in.height-detail, word))
	s.detail.write(f.Detail, ink{detailOf(word), fill.Ink, fyne.TextAlignCenter}, in.x, y, in.width)
}

package look

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// BigClockFace is a time that runs, with the marks it passes.
type BigClockFace struct {
	Word    string           // what runs: "Pre-oxygenation"
	Elapsed time.Duration    // since it began; parts of a second are not shown
	Marks   [2]time.Duration // where it is looked at again; 0: none
	Done    string           // said beside Word, or in its place, once the last mark is passed
	Tone    Tone             // of the digits' field; TonePlain otherwise
}

// BigClock shows minutes and seconds in the largest digits that fit, which are
// read from 2 m, counting up; below them a bar that fills towards the last
// mark, with each mark's own time. Set it once a second: it is painted only
// when the seconds shown are others. It counts nothing by itself.
type BigClock struct {
	widget.BaseWidget
	writing
	face        BigClockFace
	field       *canvas.Rectangle
	track, fill *canvas.Rectangle
	ticks       [2]*canvas.Rectangle
	word, time  *lines
	marks       [2]*lines
}

// NewBigClock makes an empty one.
func NewBigClock(l *Look) *BigClock {
	w := newWriting(l)
	c := &BigClock{writing: w, word: w.lines(StripLine, false, 1), time: w.lines(WallWord, true, 1)}
	for _, r := range []**canvas.Rectangle{&c.field, &c.track, &c.fill, &c.ticks[0], &c.ticks[1]} {
		*r = canvas.NewRectangle(color.Transparent)
	}
	for i := range c.marks {
		c.marks[i] = w.lines(StripLine, false, 1)
	}
	c.ExtendBaseWidget(c)
	return c
}

// Set shows another time.
func (c *BigClock) Set(f BigClockFace) {
	f.Elapsed = max(f.Elapsed, 0).Truncate(time.Second)
	setFace(&c.face, f, c.Refresh)
}

// Face is what it shows.
func (c *BigClock) Face() BigClockFace { return c.face }

// CreateRenderer is part of fyne.Widget.
func (c *BigClock) CreateRenderer() fyne.WidgetRenderer {
	objects := []fyne.CanvasObject{c.field, c.track, c.fill, c.ticks[0], c.ticks[1]}
	for _, l := range []*lines{c.word, c.time, c.marks[0], c.marks[1]} {
		objects = append(objects, l.objects()...)
	}
	return &painted{owner: c, objects: objects, lay: c.lay, least: func() fyne.Size {
		l := c.look
		digits := l.Letters(WallWord, Small)
		high := lineHeight(digits, 1) + c.underHigh() + l.MM(2*paddingMM)
		if c.face.Word != "" {
			high += lineHeight(l.Letters(StripLine, Small), 1)
		}
		return fyne.NewSize(c.time.measure(digits)("88:88")+l.MM(2*paddingMM), high)
	}}
}

// barHighMM is the height of the bar in mm.
const barHighMM = 4

// last is the latest mark; 0 if there is none.
func (c *BigClock) last() time.Duration { return max(c.face.Marks[0], c.face.Marks[1]) }

// underHigh is what bar and marks take.
func (c *BigClock) underHigh() float32 {
	if c.last() <= 0 {
		return 0
	}
	return c.look.MM(barHighMM+1) + lineHeight(c.look.Letters(StripLine, Small), 1)
}

func (c *BigClock) lay(size fyne.Size) {
	l, f, pad := c.look, c.face, c.look.MM(paddingMM)
	fill := l.palette.Fill(f.Tone)
	l.paintPanel(c.field, fill, size)
	small := l.Letters(StripLine, Small)
	in := box{pad, pad, size.Width - 2*pad, size.Height - 2*pad}
	head := f.Word
	if last := c.last(); f.Done != "" && last > 0 && f.Elapsed >= last {
		head = f.Word + " · " + f.Done
		if !c.word.whole(head, small, in.width) {
			head = f.Done
		}
	}
	if head != "" {
		high := c.word.write(head, ink{small, fill.Ink, fyne.TextAlignCenter}, in.x, in.y, in.width)
		in.y, in.height = in.y+high, in.height-high
	}
	under := c.underHigh()
	digits := c.largest(in.width, in.height-under)
	c.time.write(ClockText(f.Elapsed), ink{digits, fill.Ink, fyne.TextAlignCenter},
		in.x, in.y+max(0, (in.height-under-lineHeight(digits, 1))/2), in.width)
	c.layBar(box{in.x, in.y + in.height - under, in.width, under}, fill)
}

// largest is the size of digits that fills a width and a height: all digits are
// equally wide, so it changes only when the time has one more.
func (c *BigClock) largest(width, height float32) float32 {
	least := c.look.Letters(WallWord, Small)
	one := c.time.measure(100)(ClockText(c.face.Elapsed)) / 100
	return max(least, min(height/lineShare, width/max(one, 0.1)*0.98))
}

// layBar draws how far it is to the last mark, and where each mark stands.
func (c *BigClock) layBar(in box, fill Fill) {
	l, f, last := c.look, c.face, c.last()
	high, none := l.MM(barHighMM), color.Transparent
	for _, r := range []*canvas.Rectangle{c.track, c.fill, c.ticks[0], c.ticks[1]} {
		r.FillColor, r.StrokeWidth = none, 0
		place(r, 0, 0, 0, 0)
	}
	for i := range c.marks {
		c.marks[i].write("", ink{size: l.Letters(StripLine, Small)}, 0, 0, 0)
	}
	if last <= 0 {
		return
	}
	c.track.FillColor, c.track.StrokeColor, c.track.StrokeWidth = l.palette.Ground, fill.Ink, l.MM(edgeMM)
	place(c.track, in.x, in.y, in.width, high)
	share := min(1, float32(f.Elapsed)/float32(last))
	c.fill.FillColor = fill.Ink
	place(c.fill, in.x, in.y, in.width*share, high)
	for i, at := range f.Marks {
		if at > 0 {
			c.layMark(i, in, float32(at)/float32(last), fill)
		}
	}
}

// layMark writes the time of a mark below where it stands on the bar.
func (c *BigClock) layMark(i int, in box, share float32, fill Fill) {
	l, letter := c.look, c.look.Letters(StripLine, Small)
	said := ClockText(c.face.Marks[i])
	x, wide := in.x+in.width*share, c.marks[i].measure(letter)(said)+1
	c.ticks[i].FillColor = fill.Ink
	place(c.ticks[i], min(x, in.x+in.width-l.MM(edgeMM*2)), in.y, l.MM(edgeMM*2), l.MM(barHighMM+1))
	left := min(max(in.x, x-wide/2), in.x+in.width-wide)
	c.marks[i].write(said, ink{size: letter, color: fill.Ink}, left, in.y+l.MM(barHighMM+1), wide)
}

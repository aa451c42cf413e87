package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// CardFace is one request for whoever fetches it.
type CardFace struct {
	Door   string // the largest word
	Count  string // how many, with its measure
	Word   string // the item
	Detail string // size or strength and container
	Place  string // where it is kept
	State  string // how far, and who is going
	Age    string
	Icon   Icon
	Band   Band // of a drug: a row above the item, with its word
	Tone   Tone // urgency; its word stands in State
}

// Card is read from 1 m: door and count on the left, item, strength, place and
// state beside them. On a narrow card the door stands above.
type Card struct {
	widget.BaseWidget
	writing
	face                                           CardFace
	field, bar                                     *canvas.Rectangle
	image                                          *canvas.Image
	band                                           *bandPart
	door, count, word, detail, place, state, since *lines
}

// DoorArcmin is how high the door's letters are, read from 1 m.
const DoorArcmin = 50.0

// NewCard makes an empty one.
func NewCard(l *Look) *Card {
	w := newWriting(l)
	c := &Card{
		writing: w, field: canvas.NewRectangle(color.Transparent), bar: canvas.NewRectangle(color.Transparent), image: newIconImage(),
		band: w.band(RunnerLine), door: w.lines(RunnerLine, true, 1), count: w.lines(RunnerLine, true, 1), word: w.lines(RunnerLine, true, 2),
		detail: w.lines(RunnerLine, true, 2), place: w.lines(RunnerLine, false, 3), state: w.lines(RunnerLine, false, 1), since: w.lines(RunnerLine, false, 1),
	}
	c.ExtendBaseWidget(c)
	return c
}

// Set shows another face.
func (c *Card) Set(f CardFace) { setFace(&c.face, f, c.Refresh) }

// Face is what it shows.
func (c *Card) Face() CardFace { return c.face }

// CreateRenderer is part of fyne.Widget.
func (c *Card) CreateRenderer() fyne.WidgetRenderer {
	objects := append([]fyne.CanvasObject{c.field, c.bar, c.image}, c.band.objects()...)
	for _, l := range []*lines{c.door, c.count, c.word, c.detail, c.place, c.state, c.since} {
		objects = append(objects, l.objects()...)
	}
	return &painted{owner: c, objects: objects, lay: c.lay, least: c.least}
}

// least holds the door, and below or beside it two rows for the item, one for
// its strength, one or two for its place, one for the state.
func (c *Card) least() fyne.Size {
	small, large, door := c.sizes()
	height := max(lineHeight(door, 1)+lineHeight(large, 1), lineHeight(small, 5))
	if c.narrow(c.Size().Width) {
		height = lineHeight(door, 1) + lineHeight(small, 6)
	}
	if c.face.Band != (Band{}) {
		height += c.bandHigh()
	}
	return fyne.NewSize(c.look.MM(45), height+c.look.MM(2*paddingMM))
}

// bandHigh is what a drug's band takes, with what parts it from the item.
func (c *Card) bandHigh() float32 {
	small, _, _ := c.sizes()
	return lineHeight(small, 1) + c.look.MM(1)
}

// narrowBelow is the width in mm under which the door stands above the item.
const narrowBelow = 110

func (c *Card) narrow(width float32) bool { return width < c.look.MM(narrowBelow) }

func (c *Card) sizes() (small, large, door float32) {
	l := c.look
	return l.Letters(RunnerLine, Small), l.Letters(RunnerLine, Large), l.scale.TextSize(CapHeight(RunnerLine.Distance(), DoorArcmin))
}

func (c *Card) lay(size fyne.Size) {
	l, f := c.look, c.face
	fill, pad := l.palette.Fill(TonePlain), l.MM(paddingMM)
	l.paintPanel(c.field, fill, size)
	left := l.paintBar(c.bar, f.Tone, true, size) + pad
	in := box{left, pad, size.Width - left - pad, size.Height - 2*pad}
	small, large, door := c.sizes()
	head := ink{size: door, color: fill.Ink}
	count := ink{size: large, color: fill.Ink}
	if c.narrow(size.Width) {
		wide := min(c.door.measure(door)(f.Door)+1, in.width*0.7)
		c.door.write(f.Door, head, in.x, in.y, wide)
		count.align = fyne.TextAlignTrailing
		wide += pad
		if !c.count.whole(f.Count, large, in.width-wide) {
			count.size = small
		}
		c.count.write(f.Count, count, in.x+wide, in.y+(lineHeight(door, 1)-lineHeight(count.size, 1))*0.8, in.width-wide)
		in.y, in.height = in.y+lineHeight(door, 1), in.height-lineHeight(door, 1)
	} else {
		column := max(c.door.measure(door)(f.Door), c.count.measure(large)(f.Count), l.MM(25)) + 1
		column = min(column, in.width*0.4)
		high := c.door.write(f.Door, head, in.x, in.y, column)
		c.count.write(f.Count, count, in.x, in.y+high, column)
		in.x, in.width = in.x+column+2*pad, in.width-column-2*pad
	}
	c.layLines(in)
}

// layLines puts item, strength and place from above, the state at the bottom.
func (c *Card) layLines(in box) {
	l, f := c.look, c.face
	small, large, _ := c.sizes()
	first, second := ink{size: large, color: l.palette.Ink}, ink{size: small, color: l.palette.Ink}
	c.band.lay(f.Band, f.Band.Word, "", small, box{in.x, in.y, in.width, lineHeight(small, 1)})
	if f.Band != (Band{}) {
		in.y, in.height = in.y+c.bandHigh(), in.height-c.bandHigh()
	}
	bottom := in.y + in.height - lineHeight(small, 1)
	if !c.word.whole(f.Word, large, in.width) || c.needs(in.width, large) > in.height {
		first.size = small
	}
	y := in.y + c.word.write(f.Word, first, in.x, in.y, in.width)
	y += c.detail.write(f.Detail, second, in.x, y, in.width)
	quiet := ink{size: small, color: l.palette.Quiet}
	c.place.writeRows(f.Place, quiet, in.x, y, in.width, rowsIn(bottom-y, small))
	l.paintIcon(c.image, f.Icon, l.palette.Ink)
	x, row := in.x, lineHeight(small, 1)
	if f.Icon != IconNone {
		place(c.image, x, bottom+row*0.08, row*0.9, row*0.9)
		x += row*0.9 + l.MM(1.5)
	}
	age := c.since.measure(small)(f.Age)
	c.since.write(f.Age, ink{small, l.palette.Quiet, fyne.TextAlignTrailing}, in.x+in.width-age, bottom, age+1)
	c.state.write(f.State, second, x, bottom, max(0, in.x+in.width-age-l.MM(2)-x))
}

// needs is the height of all lines with the item in a size.
func (c *Card) needs(width, letter float32) float32 {
	small, _, _ := c.sizes()
	return wrappedHeight(c.word, c.face.Word, letter, width) + wrappedHeight(c.detail, c.face.Detail, small, width) +
		wrappedHeight(c.place, c.face.Place, small, width) + lineHeight(small, 1)
}

package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// draw paints the picture for a size.
func (c *Chart) draw(size fyne.Size) {
	c.used.rects, c.used.rules, c.used.texts = 0, 0, 0
	c.drawn = append(c.drawn[:0], c.field)
	l, pad := c.look, c.look.MM(paddingMM)
	l.paintPanel(c.field, l.palette.Fill(TonePlain), size)
	p := c.place(size.Width)
	ink := ink{size: p.letter, color: l.palette.Ink}
	if len(p.lanes) == 0 {
		c.text(c.face.None, ink, pad, pad, size.Width-2*pad)
		return
	}
	bottom := pad + p.head
	for _, lane := range p.lanes {
		bottom += p.laneHigh(lane, l)
	}
	c.drawAxis(p, pad, bottom)
	y := pad + p.head
	for _, lane := range p.lanes {
		c.rule(pad, y, size.Width-pad, y, l.palette.Edge, l.MM(chartRuleMM))
		c.drawLane(p, lane, y+l.MM(chartLanePadMM))
		y += p.laneHigh(lane, l)
	}
}

// drawAxis draws ticks and their words; a word that would touch the one before
// it is left out, its tick stays.
func (c *Chart) drawAxis(p placedChart, top, bottom float32) {
	l, said := c.look, float32(-1e6)
	measure := c.ruler(p.letter)
	for _, tick := range c.face.Ticks {
		x := p.axis.at(tick.At)
		c.rule(x, top+p.level, x, bottom, l.palette.Edge, l.MM(chartRuleMM))
		wide := measure(tick.Word) + 1
		left := min(max(p.axis.left, x-wide/2), p.axis.right-wide)
		if left < said+l.MM(2) {
			continue
		}
		c.text(tick.Word, ink{size: p.letter, color: l.palette.Quiet}, left, top, wide)
		said = left + wide
	}
}

// drawLane draws a lane whose levels begin at y.
func (c *Chart) drawLane(p placedChart, lane chartLane, y float32) {
	l, pad := c.look, c.look.MM(paddingMM)
	name := ink{size: p.letter, color: l.palette.Quiet}
	if p.aboveBy > 0 {
		c.text(lane.word, name, pad, y, p.axis.right-pad)
		y += p.aboveBy
	} else {
		c.text(lane.word, name, pad, y, p.axis.left-pad-l.MM(1))
	}
	for _, m := range lane.marks {
		c.drawMark(p, m, y+p.level*float32(m.level))
	}
}

// drawMark draws a bar or a point with its word on a level that begins at y.
func (c *Chart) drawMark(p placedChart, m chartMark, y float32) {
	l := c.look
	row := lineHeight(p.letter, 1)
	high := p.level * chartMarkShare
	middle := y + row/2
	fill := l.palette.Fill(m.tone)
	if m.tone == TonePlain {
		fill = Fill{Ground: l.palette.Edge, Ink: l.palette.Ground, Edge: l.palette.Edge}
	}
	if m.high-m.low > m.to-m.from {
		c.rule(m.low, middle, m.high, middle, fill.Edge, l.MM(edgeMM))
	}
	r := c.rect()
	r.FillColor, r.StrokeColor, r.StrokeWidth = fill.Ground, fill.Edge, l.MM(chartRuleMM)
	step := fill.Ink
	if m.hollow {
		step = l.palette.Ink
		r.FillColor, r.StrokeWidth = l.palette.Surface, l.MM(edgeMM)
	}
	word := ink{size: p.letter, color: l.palette.Ink}
	if m.inside {
		place(r, m.from, y, m.to-m.from, row)
		if !m.hollow {
			word.color = c.onBar(m.tone, r)
		}
	} else {
		place(r, m.from, middle-high/2, m.to-m.from, high)
	}
	for _, x := range m.steps {
		c.rule(x, middle-high/2, x, middle+high/2, step, l.MM(chartStepMM))
	}
	if m.below {
		y += p.level
	}
	c.text(m.word, word, m.wordX, y, m.wide)
}

// onBar is what words on a bar are written in. A plain bar with words on it is
// a field with an edge, on which any ink can be read.
func (c *Chart) onBar(t Tone, r *canvas.Rectangle) color.NRGBA {
	fill := c.look.palette.Fill(t)
	if t == TonePlain {
		r.FillColor, r.StrokeColor, r.StrokeWidth = fill.Ground, fill.Edge, c.look.MM(edgeMM)
	}
	return fill.Ink
}

// rect, rule and text take the next one that is there, or make one.
func (c *Chart) rect() *canvas.Rectangle {
	if c.used.rects == len(c.rects) {
		c.rects = append(c.rects, canvas.NewRectangle(color.Transparent))
	}
	r := c.rects[c.used.rects]
	c.used.rects++
	c.drawn = append(c.drawn, r)
	return r
}

func (c *Chart) rule(x1, y1, x2, y2 float32, ink color.NRGBA, wide float32) {
	if c.used.rules == len(c.rules) {
		c.rules = append(c.rules, canvas.NewLine(color.Transparent))
	}
	r := c.rules[c.used.rules]
	c.used.rules++
	r.StrokeColor, r.StrokeWidth = ink, wide
	r.Position1, r.Position2 = fyne.NewPos(x1, y1), fyne.NewPos(x2, y2)
	c.drawn = append(c.drawn, r)
}

func (c *Chart) text(said string, k ink, x, y, width float32) {
	if said == "" {
		return
	}
	if c.used.texts == len(c.texts) {
		c.texts = append(c.texts, c.lines(DeskLine, false, 1))
	}
	t := c.texts[c.used.texts]
	c.used.texts++
	t.write(said, k, x, y, width)
	c.drawn = append(c.drawn, t.objects()...)
}

package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Chart draws a ChartFace for a desk. Words stand beside their marks, on as many
// levels as they need, so that none covers another; a lane is named at its
// left, or above it where the picture is narrow. It is as high as it needs to
// be for its width: put it into a scroll where that is more than there is.
type Chart struct {
	widget.BaseWidget
	writing
	face  ChartFace
	field *canvas.Rectangle
	drawn []fyne.CanvasObject // field first, in the order of painting
	rects []*canvas.Rectangle // used again for the next picture, as lines and texts are
	rules []*canvas.Line
	texts []*lines
	used  struct{ rects, rules, texts int }
}

// Measures of a Chart, in mm.
const (
	chartWordShare  = 0.22 // of the width, for the names of lanes
	chartNarrow     = 110  // under which names stand above their lanes
	chartLevelMM    = 1.5  // between the letters of one level and of the next
	chartSignMM     = 1.6  // width of a point
	chartMarkShare  = 0.62 // of a level, the height of its bars
	chartRuleMM     = 0.25 // width of a line along the axis
	chartStepMM     = 0.7  // width of a line across a bar
	chartLanePadMM  = 1    // above and below the levels of a lane
	chartWidthMinMM = 60
)

// NewChart makes an empty one.
func NewChart(l *Look) *Chart {
	c := &Chart{writing: newWriting(l), field: canvas.NewRectangle(color.Transparent)}
	c.ExtendBaseWidget(c)
	return c
}

// Set shows another picture. It is always painted: faces cannot be compared.
func (c *Chart) Set(f ChartFace) {
	c.face = f
	c.Refresh()
}

// High is how high the picture becomes in a width, both in mm.
func (c *Chart) High(width float32) float32 {
	return c.look.scale.Millimetres(c.place(c.look.MM(width)).high)
}

// CreateRenderer is part of fyne.Widget.
func (c *Chart) CreateRenderer() fyne.WidgetRenderer { return chartRenderer{c} }

// chartRenderer draws anew whatever the face needs.
type chartRenderer struct{ chart *Chart }

// Layout is part of fyne.WidgetRenderer.
func (r chartRenderer) Layout(size fyne.Size) { r.chart.draw(size) }

// MinSize is part of fyne.WidgetRenderer.
func (r chartRenderer) MinSize() fyne.Size {
	least := r.chart.look.MM(chartWidthMinMM)
	return fyne.NewSize(least, r.chart.place(max(least, r.chart.Size().Width)).high)
}

// Objects is part of fyne.WidgetRenderer.
func (r chartRenderer) Objects() []fyne.CanvasObject { return r.chart.drawn }

// Destroy is part of fyne.WidgetRenderer.
func (r chartRenderer) Destroy() {}

// Refresh is part of fyne.WidgetRenderer.
func (r chartRenderer) Refresh() {
	r.chart.draw(r.chart.Size())
	canvas.Refresh(r.chart)
}

// placedChart is a picture whose marks have their places, in dp.
type placedChart struct {
	axis    chartAxis
	lanes   []chartLane
	letter  float32
	level   float32 // height of a level
	head    float32 // height of the axis' words
	aboveBy float32 // height of a lane's name above it; 0: it stands at the left
	high    float32 // of all
}

// place puts everything for a width.
func (c *Chart) place(width float32) placedChart {
	l := c.look
	p := placedChart{letter: l.Letters(DeskLine, Small)}
	p.level = lineHeight(p.letter, 1) + l.MM(chartLevelMM)
	p.head = p.level + l.MM(1)
	pad := l.MM(paddingMM)
	measure := c.ruler(p.letter)
	left := pad
	if width < l.MM(chartNarrow) {
		p.aboveBy = p.level
	} else {
		left += c.names(width, measure) + l.MM(3)
	}
	p.axis = chartAxis{c.face.From, c.face.To, left, width - pad}
	r := chartRuler{measure: measure, gap: l.MM(2), sign: l.MM(chartSignMM), pad: l.MM(1)}
	p.high = p.head + 2*pad
	for _, lane := range c.face.Lanes {
		placed := r.plan(lane, p.axis)
		p.lanes = append(p.lanes, placed)
		p.high += p.laneHigh(placed, l)
	}
	if len(p.lanes) == 0 {
		p.high += p.level
	}
	return p
}

func (p placedChart) laneHigh(lane chartLane, l *Look) float32 {
	return p.aboveBy + p.level*float32(lane.levels) + l.MM(2*chartLanePadMM)
}

// names is how wide the names of the lanes are, at most their share.
func (c *Chart) names(width float32, measure func(string) float32) (widest float32) {
	for _, lane := range c.face.Lanes {
		widest = max(widest, measure(lane.Word)+1)
	}
	return min(widest, width*chartWordShare)
}

// ruler measures words in plain letters of a size.
func (c *Chart) ruler(letter float32) func(string) float32 {
	return func(text string) float32 {
		box, _ := fyne.CurrentApp().Driver().RenderedTextSize(text, letter, fyne.TextStyle{}, c.look.plain)
		return box.Width
	}
}

package look

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// ClockText writes a time that has passed: 0:05, 12:30, 1:02:03. Parts of a
// second are cut off, less than nothing is 0:00.
func ClockText(d time.Duration) string {
	s := int64(max(d, 0) / time.Second)
	if s < 3600 {
		return fmt.Sprintf("%d:%02d", s/60, s%60)
	}
	return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
}

// ClockFace is what a Clock shows: a time as ClockText writes it, or 14:05.
type ClockFace struct {
	Time string
	Tone Tone // TonePlain, or the ink of trouble for any other
}

// Clock shows a time in digits of one width, so that nothing jumps. Set it once
// a second: it paints only when the text is another one.
type Clock struct {
	widget.BaseWidget
	writing
	role   Role
	letter Letter
	face   ClockFace
	time   *lines
}

// NewClock makes an empty one in a size of a role.
func NewClock(l *Look, r Role, s Letter) *Clock {
	w := newWriting(l)
	c := &Clock{writing: w, role: r, letter: s, time: w.lines(r, s == Large, 1)}
	c.ExtendBaseWidget(c)
	return c
}

// Set shows another time.
func (c *Clock) Set(f ClockFace) { setFace(&c.face, f, c.Refresh) }

// CreateRenderer is part of fyne.Widget.
func (c *Clock) CreateRenderer() fyne.WidgetRenderer {
	return &painted{
		owner: c, objects: c.time.objects(),
		least: func() fyne.Size {
			size := c.look.Letters(c.role, c.letter)
			return fyne.NewSize(c.time.measure(size)(c.face.Time)+1, lineHeight(size, 1))
		},
		lay: func(size fyne.Size) {
			letter, col := c.look.Letters(c.role, c.letter), c.look.palette.Ink
			if c.face.Tone != TonePlain {
				col = c.look.palette.Alert
			}
			c.time.write(c.face.Time, ink{size: letter, color: col}, 0, (size.Height-lineHeight(letter, 1))/2, size.Width)
		},
	}
}

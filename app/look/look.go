package look

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
)

// Options say how a screen looks.
type Options struct {
	Density float32          // dp for 20 mm: a stored calibration, or DensityDesktop, DensityMobile
	Shade   Shade            // dark is easier behind a visor in a dim room
	Reads   Role             // how far away ordinary text is read
	Now     func() time.Time // for how long a finger has been down
}

// Defaults are for a screen nobody has calibrated.
func Defaults() Options {
	return Options{Density: DensityDesktop, Shade: Dark, Reads: InsideTile, Now: time.Now}
}

// Look is what the parts of one screen share. The UI goroutine owns it.
type Look struct {
	scale   Scale
	palette Palette
	reads   Role
	plain   fyne.Resource
	strong  fyne.Resource
	now     func() time.Time
	held    *touch // what the first finger is on
	typing  Typing // nil: keys act at once
	icons   map[iconKey]*drawing
}

// New checks the options. An error names the value that is out of bounds.
func New(o Options) (*Look, error) {
	scale, err := NewScale(o.Density)
	if err != nil {
		return nil, err
	}
	if o.Now == nil {
		return nil, fmt.Errorf("look: no clock was given")
	}
	l := &Look{scale: scale, reads: o.Reads, now: o.Now, plain: fontPlain(), strong: fontStrong(), icons: map[iconKey]*drawing{}}
	l.SetShade(o.Shade)
	return l, nil
}

// Scale turns millimetres into dp.
func (l *Look) Scale() Scale { return l.scale }

// MM gives dp for millimetres.
func (l *Look) MM(mm float32) float32 { return l.scale.MM(mm) }

// Letters is a text size in dp.
func (l *Look) Letters(r Role, s Letter) float32 { return l.scale.Letters(r, s) }

// Palette has the colours of the shade that is on.
func (l *Look) Palette() Palette { return l.palette }

// Reads is how far away ordinary text is read.
func (l *Look) Reads() Role { return l.reads }

// SetScale takes a calibration. Set the theme again, and every part follows.
func (l *Look) SetScale(s Scale) { l.scale = s }

// SetShade changes the colours. Set the theme again, and every part follows.
func (l *Look) SetShade(s Shade) { l.palette = PaletteOf(s) }

package main

import (
	"fmt"

	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/app/words"
)

// measurePage measures the screen with a bank card, for no system tells its
// true size. The window's goroutine owns it.
type measurePage struct {
	words words.Words
	look  *look.Look
	say   *look.Banner
	card  *look.Calibration
	step  *look.Stepper
	done  *look.Tile
	root  *fyne.Container
	width float32 // of the drawing, in dp
}

// measureWide is the least width of a screen on which a card can be measured, in mm.
const measureWide = look.CardWidth + 2*barEdge

// widthStep is one tap of the stepper, in dp.
const widthStep = 4

func newMeasurePage(l *look.Look, w words.Words, measured func(look.Scale)) *measurePage {
	p := &measurePage{words: w, look: l, width: l.CalibrationStart().WidthDP}
	p.say, p.card = look.NewBanner(l, look.DeskLine, 2), look.NewCalibration(l)
	p.step = look.NewStepper(l, look.UseOutside, func(by int) { p.widen(by) })
	p.done = look.NewTile(l, look.UseOutside, func() {
		if s, err := look.ScaleOfCard(p.width); err == nil {
			measured(s)
		}
	})
	p.say.Set(look.BannerFace{Sentence: w.Say("window.card")})
	p.done.Set(look.TileFace{Word: w.Say("window.card-done")})
	p.root = look.NewFree(l, p.lay, p.say, p.card, p.step, p.done)
	p.widen(0)
	return p
}

// widen makes the drawing wider or narrower, as far as a screen can be.
func (p *measurePage) widen(by int) {
	width := p.width + float32(by*widthStep)
	if _, err := look.ScaleOfCard(width); err == nil {
		p.width = width
	}
	p.card.Set(look.CalibrationFace{WidthDP: p.width})
	p.step.Set(look.StepperFace{Value: fmt.Sprintf("%.0f", p.width)})
	p.root.Refresh()
}

// leaf is the page in its frame.
func (p *measurePage) leaf() *leaf {
	return &leaf{object: p.root, paint: func() { p.widen(0) }, set: func(sight) bool { return true }}
}

func (p *measurePage) lay(put look.Put, width, height float32) {
	const sayHigh, stepHigh = 14.0, 26.0
	put(p.say, barEdge, barEdge, width-2*barEdge, sayHigh)
	top := height - barEdge - stepHigh
	half := (width - 2*barEdge - barGap) / 2
	put(p.step, barEdge, top, half, stepHigh)
	put(p.done, barEdge+half+barGap, top, half, stepHigh)
	put(p.card, barEdge, barEdge+sayHigh+barGap, width-2*barEdge, top-2*barGap-barEdge-sayHigh)
}

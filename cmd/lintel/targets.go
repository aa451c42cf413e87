package main

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
)

// target is something that can be tapped, in pixels from the window's corner.
type target struct {
	Name   string `json:"name"`             // the words on it
	Beside string `json:"beside,omitempty"` // those that were painted before it and are no target: a line's, of its keys
	X      int    `json:"x"`
	Y      int    `json:"y"`
	W      int    `json:"w"`
	H      int    `json:"h"`
}

// targets lists what can be tapped on a canvas, in the order of painting. The
// window's goroutine calls it.
func targets(c fyne.Canvas) (all []target) {
	pixels := func(dp float32) int { return int(dp * c.Scale()) }
	var beside string
	plain := func(b *strings.Builder) string {
		return strings.TrimSpace(strings.ReplaceAll(b.String(), "\u00a0", " "))
	}
	var visit func(o fyne.CanvasObject, at fyne.Position, name *strings.Builder)
	visit = func(o fyne.CanvasObject, at fyne.Position, name *strings.Builder) {
		if o == nil || !o.Visible() {
			return
		}
		at = at.Add(o.Position())
		switch o := o.(type) {
		case *canvas.Text:
			if name != nil && o.Text != "" {
				name.WriteString(o.Text + " ")
			}
		case *fyne.Container:
			for _, child := range o.Objects {
				visit(child, at, name)
			}
		case *container.Scroll:
			visit(o.Content, at, name)
		case fyne.Widget:
			n := len(all)
			_, taps := o.(fyne.Tappable)
			words := name
			if taps || name == nil {
				words = &strings.Builder{}
			}
			if taps {
				size := o.Size()
				all = append(all, target{Beside: beside, X: pixels(at.X), Y: pixels(at.Y), W: pixels(size.Width), H: pixels(size.Height)})
			}
			for _, child := range test.WidgetRenderer(o).Objects() {
				visit(child, at, words)
			}
			switch {
			case taps:
				all[n].Name = plain(words)
			case name == nil && !o.Size().IsZero():
				beside = plain(words)
			}
		}
	}
	visit(c.Content(), fyne.Position{}, nil)
	return all
}

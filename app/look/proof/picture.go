package proof

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/software"

	"lintel/app/look"
)

// Picture draws a screen of a size in dp, with so many pixels for each dp. It
// sets the application's theme to the look's, and takes the screen out of
// whatever window it was in.
func Picture(l *look.Look, screen fyne.CanvasObject, size fyne.Size, scale float32) image.Image {
	c := software.NewCanvas()
	c.SetPadded(false)
	c.SetScale(scale)
	c.SetContent(screen)
	c.Resize(size)
	return software.RenderCanvas(c, l.Theme())
}

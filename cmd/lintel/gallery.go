package main

import (
	"errors"
	"fmt"
	"image"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/station"
	"lintel/app/words"
)

// glass is what a screen is drawn for.
type glass struct {
	name          string
	density       float32
	width, height float32 // mm
}

func glasses() []glass {
	return []glass{
		{"phone", look.DensityMobile, 70, 148},
		{"tablet", look.DensityDesktop, 256, 160},
		{"desktop", look.DensityDesktop, 320, 180},
	}
}

// picture is one screen of the gallery.
type picture struct {
	name  string
	reads look.Role
	draw  func(g gallery, l *look.Look) (fyne.CanvasObject, error)
	taps  []string // what is tapped before the picture is taken, by its first words
	least float32  // mm of width: it is not shown on smaller ones
	most  float32  // and not on wider ones; 0: on all
}

// on tells whether a glass shows it.
func (p picture) on(size glass) bool {
	return size.width >= p.least && (p.most == 0 || size.width <= p.most)
}

// gallery draws every screen from invented cases, without a display.
type gallery struct {
	words   words.Words
	starter station.Starter
	noted   func(station.Act) // is told of every act that is tapped; nil: nobody is
}

// drawGallery writes every picture into a folder.
func drawGallery(w words.Words, dir string, stdout io.Writer) error {
	starter, err := station.ReadStarter()
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return &fault{id: "gallery", blanks: []any{dir}}
	}
	g := gallery{words: w, starter: starter}
	drawn, failed := 0, make(chan error)
	go func() { // joined by the receive below: the toolkit's test application stands on the main goroutine
		failed <- g.all(dir, &drawn)
	}()
	if err := <-failed; err != nil {
		return err
	}
	fmt.Fprintln(stdout, w.Say("window.pictures", drawn, dir))
	return nil
}

// drawn is a picture on its way into a file.
type drawn struct {
	path  string
	image image.Image
}

// writingMax bounds the pictures that wait to be written.
const writingMax = 4

// all draws everything and counts. Pictures are written beside.
func (g gallery) all(dir string, n *int) error {
	files, failed := make(chan drawn, writingMax), make(chan error, 1)
	go func() { failed <- writeAll(files) }() // joined by the receive below
	err := g.each(func(p picture, size glass, shade look.Shade, name string) error {
		x, err := g.one(p, size, shade)
		if err == nil {
			files <- drawn{filepath.Join(dir, p.name+"-"+size.name+"-"+name+".png"), x}
			*n++
		}
		return err
	})
	close(files)
	return errors.Join(err, <-failed)
}

// each visits every picture on every glass, dark and light.
func (g gallery) each(visit func(p picture, size glass, shade look.Shade, name string) error) error {
	for _, p := range pictures(g.words) {
		for _, size := range glasses() {
			if !p.on(size) {
				continue
			}
			for name, shade := range map[string]look.Shade{shadeDark: look.Dark, shadeLight: look.Light} {
				if err := visit(p, size, shade, name); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// writeAll writes pictures until there are no more. The first failure is told,
// and what comes after it is not written.
func writeAll(files <-chan drawn) (failed error) {
	e := png.Encoder{CompressionLevel: png.BestSpeed}
	for f := range files {
		if failed != nil {
			continue
		}
		file, err := os.Create(f.path)
		if err == nil {
			err = errors.Join(e.Encode(file, f.image), file.Close())
		}
		if err != nil {
			failed = &fault{id: "gallery", blanks: []any{f.path}}
		}
	}
	return failed
}

// one draws one screen for one glass.
func (g gallery) one(p picture, size glass, shade look.Shade) (image.Image, error) {
	l, o, window, err := g.make(p, size, shade)
	if err != nil {
		return nil, err
	}
	for _, name := range p.taps {
		g.tap(l, o, window, name) // a small glass may have it elsewhere: then it is drawn as it is
	}
	return proof.Picture(l, o, window, 1), nil
}

// make makes one screen for one glass.
func (g gallery) make(p picture, size glass, shade look.Shade) (*look.Look, fyne.CanvasObject, fyne.Size, error) {
	l, err := look.New(look.Options{Density: size.density, Shade: shade, Reads: p.reads, Now: func() time.Time { return time.UnixMilli(int64(cannedAt)) }})
	if err != nil {
		return nil, nil, fyne.Size{}, err
	}
	o, err := p.draw(g, l)
	return l, o, fyne.NewSize(l.MM(size.width), l.MM(size.height)), err
}

// turnsMax is how often a page is turned to find what is tapped.
const turnsMax = 12

// tap taps what begins with a name, turning pages until it is there, and tells
// how many were turned; false: it never was.
func (g gallery) tap(l *look.Look, o fyne.CanvasObject, window fyne.Size, name string) (turned int, there bool) {
	line, key, beside := strings.Cut(name, besideSign)
	for turned = range turnsMax {
		if beside && proof.TapBeside(l, o, window, line, key) || !beside && proof.Tap(l, o, window, name) {
			return turned, true
		}
		if !proof.Tap(l, o, window, g.words.Say("list.after")) {
			break
		}
	}
	return turned, false
}

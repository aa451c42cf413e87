package main

import (
	"errors"
	"fmt"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"

	"lintel/app/inside"
	"lintel/app/join"
	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/runner"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
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
}

// gallery draws every screen from an invented case, without a display.
type gallery struct {
	words   words.Words
	starter station.Starter
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

// all draws everything and counts.
func (g gallery) all(dir string, n *int) error {
	for _, p := range pictures(g.words) {
		for _, size := range glasses() {
			if size.width < p.least {
				continue
			}
			for name, shade := range map[string]look.Shade{shadeDark: look.Dark, shadeLight: look.Light} {
				if err := g.one(p, size, shade, filepath.Join(dir, p.name+"-"+size.name+"-"+name+".png")); err != nil {
					return err
				}
				*n++
			}
		}
	}
	return nil
}

// one draws one screen for one glass.
func (g gallery) one(p picture, size glass, shade look.Shade, path string) error {
	l, err := look.New(look.Options{Density: size.density, Shade: shade, Reads: p.reads, Now: func() time.Time { return time.UnixMilli(int64(cannedAt)) }})
	if err != nil {
		return err
	}
	o, err := p.draw(g, l)
	if err != nil {
		return err
	}
	window := fyne.NewSize(l.MM(size.width), l.MM(size.height))
	for _, name := range p.taps {
		proof.Tap(l, o, window, name) // a small glass may have it elsewhere: then it is drawn as it is
	}
	file, err := os.Create(path)
	if err != nil {
		return &fault{id: "gallery", blanks: []any{path}}
	}
	err = errors.Join(png.Encode(file, proof.Picture(l, o, window, 1)), file.Close())
	if err != nil {
		return &fault{id: "gallery", blanks: []any{path}}
	}
	return nil
}

// pictures lists the screens with what is on them.
func pictures(w words.Words) (all []picture) {
	board := func(name, chapter string, taps ...string) {
		all = append(all, picture{"inside-" + name, look.InsideTile, func(g gallery, l *look.Look) (fyne.CanvasObject, error) { return g.inside(l, chapter) }, taps, 0})
	}
	list := func(name, chapter string, taps ...string) {
		all = append(all, picture{"runner-" + name, look.RunnerLine, func(g gallery, l *look.Look) (fyne.CanvasObject, error) { return g.runner(l, chapter) }, taps, 0})
	}
	device := func(name string, unit bool, taps ...string) {
		all = append(all, picture{"join-" + name, look.DeskLine, func(g gallery, l *look.Look) (fyne.CanvasObject, error) { return g.join(l, unit) }, taps, 0})
	}
	board("calm", "calm")
	board("going", "going")
	board("matches", "matches", w.Say("inside.answer"))
	board("differs", "differs", w.Say("inside.answer"))
	board("offered", "offered", w.Say("inside.answer"))
	board("rescue", "lies", "C")
	board("other", "other", w.Say("inside.other"))
	board("cut-off", "cut off")
	board("sign", "cut off", w.Say("inside.sign"))
	list("calm", "calm")
	list("list", "list")
	list("asked", "asked")
	list("read-back", "read-back", w.Say("runner.act.read-back"))
	list("count", "read-back", w.Say("runner.act.read-back"), "7.5")
	device("alone", false)
	device("devices", true)
	device("who", true, w.Say("join.who"))
	device("code", true, w.Say("join.invite"))
	all = append(all, picture{"measure", look.DeskLine, func(g gallery, l *look.Look) (fyne.CanvasObject, error) {
		return newMeasurePage(l, g.words, func(look.Scale) {}).root, nil
	}, nil, measureWide})
	return all
}

// stillTaps takes taps and lets nothing follow.
type stillTaps struct{}

// Tap is part of the screens' Taps.
func (stillTaps) Tap(mesh.By, station.Act, func(station.Result, error)) bool { return true }

// stillUnits shows one code and does nothing else.
type stillUnits struct{}

// Found is part of join.Unit.
func (stillUnits) Found(mesh.Label, func(error)) {}

// Join is part of join.Unit.
func (stillUnits) Join(string, string, func(error)) {}

// Invite is part of join.Unit.
func (stillUnits) Invite(done func(join.Invitation, error)) {
	done(join.Invitation{Code: "572 043 4", Until: cannedAt + 120_000}, nil)
}

// Cancel is part of join.Unit.
func (stillUnits) Cancel() {}

func (g gallery) explain(err error) (string, string) { return explainHere(g.words, err) }

func (g gallery) inside(l *look.Look, chapter string) (fyne.CanvasObject, error) {
	c, err := newCanned()
	if err != nil {
		return nil, err
	}
	snap := c.insideStory(chapter)
	s := inside.New(inside.Options{
		Look: l, Words: g.words, Taps: stillTaps{}, Board: g.starter.Board, Explain: g.explain,
		Now: func() time.Time { return time.UnixMilli(int64(snap.Now)) },
	})
	s.Set(snap)
	return s.Object(), c.err
}

func (g gallery) runner(l *look.Look, chapter string) (fyne.CanvasObject, error) {
	c, err := newCanned()
	if err != nil {
		return nil, err
	}
	snap := c.runnerStory(chapter)
	s := runner.New(runner.Options{
		Look: l, Words: g.words, Taps: stillTaps{}, Explain: g.explain, Now: func() time.Time { return time.UnixMilli(int64(snap.Now)) },
	})
	s.Set(snap)
	return s.Object(), c.err
}

func (g gallery) join(l *look.Look, unit bool) (fyne.CanvasObject, error) {
	c, err := newCanned()
	if err != nil {
		return nil, err
	}
	snap := join.Snapshot{Now: cannedAt, Name: "runner phone", Address: "192.0.2.22:29460"}
	if unit {
		snap = c.unitStory()
	}
	s := join.New(join.Options{Look: l, Words: g.words, Unit: stillUnits{}, Taps: stillTaps{}, Explain: g.explain})
	s.Set(snap)
	return s.Object(), c.err
}

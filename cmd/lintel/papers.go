package main

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"lintel/app/debrief"
	"lintel/app/report"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// papersFolder is where papers are written, in the folder of the device.
const papersFolder = "papers"

// papers writes what a page asks for on paper, one after another, beside the
// window. What a paper says is read between two steps of the device; it is drawn
// and written outside of them.
type papers struct {
	worker  *worker
	words   words.Words
	post    func(func())
	errands errands
}

func newPapers(w *worker, said words.Words, post func(func())) *papers {
	return &papers{worker: w, words: said, post: post, errands: newErrands()}
}

// paper is one paper that is not written yet.
type paper struct {
	name string // of its file
	draw func() ([]byte, error)
}

// exposure is door.Options.Paper: a sheet for each person of a case.
func (p *papers) exposure(of mesh.Ref, done func(where string, err error)) {
	p.write(done, func(v station.View) (all []paper) {
		c, _ := v.Board.Case(of)
		for _, tag := range tagsOf(c) {
			if e, found := report.ExposureOf(p.words, v, c, tag, time.Local); found {
				name := "exposure-" + string(tag) + "-" + requests.Code(c.Ref) + ".pdf"
				all = append(all, paper{name, func() ([]byte, error) { return report.ExposureSheet(p.words, e) }})
			}
		}
		return all
	})
}

// record is debrief.Options.Paper: the record of a case.
func (p *papers) record(kind string, of mesh.Ref, done func(where string, err error)) {
	p.write(done, func(v station.View) []paper {
		s := debrief.Look(v, of)
		dated := time.Local
		code := requests.Code(s.Of)
		return []paper{{kind + "-" + code + ".pdf", func() ([]byte, error) {
			title, text := debrief.Record(p.words, s, dated)
			return report.Record(p.words, title, text, time.UnixMilli(int64(s.Now)).In(dated))
		}}}
	})
}

// write reads, draws and writes, and says where the papers are: the file, or
// the folder when there are several.
func (p *papers) write(done func(string, error), read func(station.View) []paper) {
	p.errands.take(func(ctx context.Context) {
		where, err := p.make(ctx, read)
		p.post(func() { done(where, err) })
	}, func(err error) { done("", err) })
}

func (p *papers) make(ctx context.Context, read func(station.View) []paper) (where string, err error) {
	st, err := p.worker.dev.Station()
	if err != nil {
		return "", err
	}
	var all []paper
	if err := st.Look(ctx, func(v station.View) { all = read(v) }); err != nil {
		return "", err
	}
	folder := filepath.Join(p.worker.dir, papersFolder)
	if len(all) == 0 {
		return "", &fault{id: "no-paper"}
	}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", &fault{id: "window-paper", blanks: []any{folder}}
	}
	for _, x := range all {
		where = filepath.Join(folder, fileName(x.name))
		b, err := x.draw()
		if err == nil {
			err = os.WriteFile(where, b, 0o600)
		}
		if err != nil {
			return "", &fault{id: "window-paper", blanks: []any{where}}
		}
	}
	if len(all) > 1 {
		where = folder
	}
	return where, nil
}

// fileName keeps what every system takes in the name of a file.
func fileName(name string) string {
	return strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '.' {
			return r
		}
		return '_'
	}, name)
}

// tagsOf are the tags of whom something was recorded in a case.
func tagsOf(c requests.Case) (out []mesh.Tag) {
	for _, p := range c.People {
		out = append(out, p.Tag)
	}
	for _, p := range c.PPE {
		out = append(out, p.Wearer)
	}
	for _, b := range c.Breaches {
		out = append(out, b.Tag)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

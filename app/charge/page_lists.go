package charge

import (
	"path/filepath"
	"slices"
	"strings"

	"lintel/app/look"
	"lintel/app/look/sheet"
	"lintel/app/station"
	"lintel/app/words"
)

// Lists reads and writes the unit's lists as files: spreadsheets, or one list as
// CSV. It does not wait; done is called later, on the UI goroutine.
type Lists interface {
	// ReadLists finds out what a file would change, and changes nothing.
	ReadLists(path string, done func(Import, error))
	// WriteLists writes what is in use into a file, and says where it is.
	WriteLists(path string, done func(where string, err error))
}

// Import is what a file would change, in sentences that say where. While there
// is a problem, Write is empty.
type Import struct {
	Problems, Notes, Changes []string
	Write                    station.Catalogue
}

// fileEndings are those of files that may hold lists.
func fileEndings() []string { return []string{".csv", ".xlsx"} }

// listsPage shows what a file would change, and takes it with one tap.
func listsPage(w words.Words, h hand) View {
	v := View{
		Head: look.BannerFace{Icon: look.IconList, Sentence: w.Say("charge.lists.head"), Hint: filepath.Base(h.path)}, Tell: look.BannerFace{Sentence: w.Say("charge.lists.tell")},
		Empty: w.Say("charge.lists.none"),
	}
	if h.path == "" {
		v.Head.Hint = ""
	}
	if x := h.imported; x != nil {
		v.Tell.Sentence, v.Empty = w.Say("charge.lists.dry", w.Count("charge.lists.change", len(x.Changes))), w.Say("charge.lists.same")
		if n := len(x.Problems); n > 0 {
			v.Tell = look.BannerFace{Sentence: w.Count("charge.lists.problem", n), Tone: look.ToneNow}
		}
		for _, text := range x.Problems {
			v.line(look.RowFace{Word: text, Tone: look.ToneNow}, pick{})
		}
		for _, text := range slices.Concat(x.Notes, x.Changes) {
			v.line(look.RowFace{Word: text}, pick{})
		}
		if len(x.Problems) == 0 && x.Write.Len() > 0 {
			v.button(w.Say("charge.lists.take"), pick{what: picksTake})
		}
	}
	v.button(w.Say("charge.lists.read"), pick{what: picksStep, step: stepRead})
	v.button(w.Say("charge.lists.write"), pick{what: picksStep, step: stepFile})
	return v
}

// pathQuestion asks where a file is, or where it shall be.
func pathQuestion(w words.Words, h hand) face {
	f := face{Head: w.Say("charge.lists.where"), Tell: look.BannerFace{Sentence: w.Say("charge.lists.where-tell")}}
	if h.step == stepFile {
		f.Head = w.Say("charge.lists.to")
	}
	if h.typed != "" {
		f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: filepath.Base(h.typed), Detail: w.Say("charge.form.typed")}, pick{what: picksPath, text: h.typed}))
	}
	return f
}

// Dropped takes a file that was dropped on the window. False: it is no file of
// lists, or this screen does not read any. Nothing is changed by it: what it
// would change is shown. Call it on the UI goroutine.
func (s *Screen) Dropped(path string) bool {
	if s.opt.Lists == nil || !slices.Contains(fileEndings(), strings.ToLower(filepath.Ext(path))) {
		return false
	}
	s.open(Wanted{Page: PageLists})
	s.read(path)
	return true
}

// read has a file read.
func (s *Screen) read(path string) {
	s.hand.path, s.hand.imported = path, nil
	s.ask(stepNone)
	s.opt.Lists.ReadLists(path, func(x Import, err error) {
		if s.hand.path != path {
			return // another one was asked for since
		}
		if err != nil {
			s.fail(err)
			return
		}
		s.hand.imported = &x
		s.Paint()
	})
}

// lists takes a tap on the page of files.
func (s *Screen) lists(p pick) {
	switch {
	case s.opt.Lists == nil || s.slipped(p):
	case p.what == picksTake && s.hand.imported != nil:
		s.take(s.hand.imported.Write.Entries())
	case s.hand.step == stepRead:
		s.read(p.text)
	case s.hand.step == stepFile:
		s.ask(stepNone)
		s.opt.Lists.WriteLists(p.text, func(where string, err error) {
			if err != nil {
				s.fail(err)
				return
			}
			s.say("charge.lists.written", where)
		})
	}
}

// take records what a file changes.
func (s *Screen) take(all []station.Catalogue) {
	var acts []station.Act
	for _, x := range all {
		acts = append(acts, x)
	}
	s.hand.imported = nil // what is there from now on is another thing to compare with
	s.each(acts)
}

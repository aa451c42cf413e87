package scribe

import (
	"time"

	"lintel/app/look"
	"lintel/app/look/sheet"
	"lintel/app/words"
	"lintel/mesh"
)

// step is the question that stands on the screen.
type step int

const (
	stepHome   step = iota
	stepElse        // what has no tile on a phone's first page
	stepTyped       // a time of day
	stepTurn        // the monitor turns to the next minute
	stepNoted       // what was noted
	stepMoment      // one of them
	stepRoom        // which door
)

// intent is what a typed time is for.
type intent int

const (
	toLate intent = iota
	toCorrect
	toMonitor
)

// hand is what the person at this device is doing. The UI goroutine owns it.
type hand struct {
	room   mesh.ID
	step   step
	to     intent
	digits string
	late   time.Duration // the next tap counts so much earlier
	at     mesh.Wall     // the next tap counts as then; 0: no time was typed
	moment mesh.Ref
	fault  [2]string
	last   mesh.Ref
	said   string
	until  time.Time
}

// what a tap means.
type what int

const (
	picksStep what = iota
	picksLate
	picksType
	picksMoment
	picksShift
	picksUndo
	picksTurn
	picksRoom
)

// pick is one choice, as data.
type pick struct {
	what what
	step step
	to   intent
	by   time.Duration // earlier; below 0: later
	ref  mesh.Ref
	id   mesh.ID
}

type (
	choice = sheet.Choice[pick]
	line   = sheet.Line[pick]
	face   = sheet.Face[pick]
)

// page decides what is asked; the first page is none.
func page(w words.Words, s Snapshot, h hand, zone *time.Location) face {
	r, _ := s.room(h.room)
	switch h.step {
	case stepElse:
		return elsePage(w, s)
	case stepTyped:
		return typedPage(w, h)
	case stepTurn:
		hours, minutes, _ := clockOf(h.digits)
		turn := hhmm(minuteAfter(hours, minutes))
		return face{
			Head: w.Say("scribe.monitor-clock"), Tell: look.BannerFace{Sentence: w.Say("scribe.tell-turn", turn)}, Word: look.BigWordFace{Word: turn},
			Choices: []choice{sheet.Tile(look.TileFace{Word: w.Say("scribe.turned")}, pick{what: picksTurn})},
		}
	case stepMoment:
		return momentPage(w, r, h, zone)
	case stepRoom:
		f := face{Head: w.Say("scribe.which")}
		for _, x := range s.Rooms {
			f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: string(x.ID), Icon: look.IconDoor}, pick{what: picksRoom, id: x.ID}))
		}
		return f
	}
	return notedPage(w, s, r, zone)
}

// elsePage has what a small first page has no room for.
func elsePage(w words.Words, s Snapshot) face {
	f := face{Head: w.Say("scribe.else")}
	for _, d := range lateBy() {
		f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: w.Say("scribe.minus", int(d.Minutes()))}, pick{what: picksLate, by: d}))
	}
	f.Choices = append(f.Choices,
		sheet.Tile(look.TileFace{Word: w.Say("scribe.typed")}, pick{what: picksType, to: toLate}),
		sheet.Tile(look.TileFace{Word: w.Say("scribe.noted")}, pick{what: picksStep, step: stepNoted}))
	return f
}

// typedPage is a time of day, digit by digit.
func typedPage(w words.Words, h hand) face {
	id := map[intent]words.ID{toLate: "late", toCorrect: "correct", toMonitor: "monitor"}[h.to]
	f := face{Head: w.Say("scribe.type." + id), Tell: look.BannerFace{Sentence: w.Say("scribe.tell." + id)}, Word: look.BigWordFace{Word: typedTime(h.digits)}}
	_, _, ok := clockOf(h.digits)
	if len(h.digits) == timeDigits && !ok {
		f.Tell = look.BannerFace{Sentence: w.Say("scribe.no-time"), Tone: look.ToneFault}
	}
	f.Keys = &look.KeypadFace{
		Erase: w.Say("keys.erase-short"), Done: w.Say("keys.done-short"), DigitsOff: len(h.digits) >= timeDigits, DoneOff: !ok,
	}
	return f
}

// notedPage lists what was noted, the newest first.
func notedPage(w words.Words, s Snapshot, r Room, zone *time.Location) face {
	f := face{Head: joined(string(r.ID), w.Count("scribe.noted-times", len(r.Noted)))}
	if r.Tied {
		f.Head = joined(f.Head, w.Say("scribe.tied"))
	}
	for _, m := range r.Noted {
		f.Lines = append(f.Lines, line{Face: notedFace(w, m, zone), Pick: pick{what: picksMoment, ref: m.Ref}})
	}
	if !r.Case.IsZero() {
		f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: w.Say("scribe.monitor-clock")}, pick{what: picksType, to: toMonitor}))
	}
	if len(s.Rooms) > 1 {
		f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: w.Say("scribe.other-door"), Icon: look.IconDoor}, pick{what: picksStep, step: stepRoom}))
	}
	return f
}

// momentPage is one noted time, and how it can be put right.
func momentPage(w words.Words, r Room, h hand, zone *time.Location) face {
	m, _ := r.moment(h.moment)
	f := face{Head: m.words(w), Tell: notedFace(w, m, zone)}
	f.Tell.Sentence = placed(w, m.On, zone)
	if m.First != 0 {
		f.Tell.Sentence = w.Say("scribe.corrected", f.Tell.Sentence, clockAt(m.First, zone))
	}
	for _, d := range []time.Duration{time.Minute, 2 * time.Minute, 5 * time.Minute, -time.Minute} {
		word := w.Say("scribe.earlier", int(d.Minutes()))
		if d < 0 {
			word = w.Say("scribe.later", int(-d.Minutes()))
		}
		f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: word}, pick{what: picksShift, by: d, ref: m.Ref}))
	}
	f.Choices = append(f.Choices,
		sheet.Tile(look.TileFace{Word: w.Say("scribe.typed")}, pick{what: picksType, to: toCorrect}),
		sheet.Tile(look.TileFace{Word: w.Say("scribe.take-back"), Icon: look.IconUndo}, pick{what: picksUndo, ref: m.Ref}))
	return f
}

package scribe

import (
	"strings"
	"time"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
)

// Rows is the first page, decided and worded.
type Rows struct {
	Head   look.BannerFace
	Undo   look.BannerFace // empty sentence: nothing to take back
	Tiles  []look.TileFace
	Lines  []look.BannerFace // the same times, where there is less room
	Clocks []Running
	Late   []look.TileFace // as lateBy, then a typed time
}

// Running is a clock that runs.
type Running struct {
	Label look.BannerFace
	Clock look.BigClockFace
}

// lateBy is how much earlier the next time can be noted, one tile each.
func lateBy() []time.Duration { return []time.Duration{time.Minute, 2 * time.Minute, 5 * time.Minute} }

// rows decides the first page.
func rows(w words.Words, s Snapshot, h hand, now time.Time, zone *time.Location) Rows {
	r, known := s.room(h.room)
	out := Rows{Head: heading(w, s, r, known, h, zone)}
	if !h.last.IsZero() && now.Before(h.until) {
		out.Undo = look.BannerFace{Icon: look.IconUndo, Sentence: w.Say("scribe.undo"), Hint: h.said}
	}
	for _, t := range s.Times {
		tile := timeFace(w, r, t, zone)
		out.Tiles = append(out.Tiles, tile)
		line := look.BannerFace{Sentence: tile.Word, Hint: notedAt(w, r, t, zone)}
		if t.Aerosol {
			line.Hint = joined(w.Say("scribe.aerosol"), line.Hint)
		}
		out.Lines = append(out.Lines, line)
	}
	for _, m := range s.running(r) {
		out.Clocks = append(out.Clocks, running(w, s, m))
	}
	for _, d := range lateBy() {
		face := look.TileFace{Word: w.Say("scribe.minus", int(d.Minutes())), Tone: look.ToneNext, Chosen: h.late == d}
		out.Late = append(out.Late, face)
	}
	out.Late = append(out.Late, look.TileFace{Word: w.Say("scribe.typed"), Tone: look.ToneNext, Chosen: h.at != 0})
	return out
}

// heading is what the next tap counts as, or the door and what was noted last.
func heading(w words.Words, s Snapshot, r Room, known bool, h hand, zone *time.Location) look.BannerFace {
	switch {
	case !known:
		return look.BannerFace{Icon: look.IconDoor, Sentence: w.Say("scribe.no-room")}
	case h.at != 0:
		return look.BannerFace{Icon: look.IconClock, Sentence: w.Say("scribe.next-at", shortAt(h.at, zone)), Tone: look.ToneNext}
	case h.late != 0:
		return look.BannerFace{Icon: look.IconClock, Sentence: w.Say("scribe.next-earlier", int(h.late.Minutes())), Tone: look.ToneNext}
	case s.InMemory:
		return look.BannerFace{Icon: look.IconNotSaved, Sentence: string(r.ID), Hint: w.Say("scribe.memory"), Tone: look.ToneFault}
	case len(r.Noted) > 0:
		m := r.Noted[0]
		f := look.BannerFace{Icon: look.IconDoor, Sentence: joined(string(r.ID), m.words(w)), Hint: clockAt(m.On.Wall, zone)}
		if len(m.Against) > 0 {
			f = look.BannerFace{Icon: look.IconUrgent, Sentence: m.words(w), Hint: w.Say("scribe.noted-before", m.Against[0]), Tone: look.ToneNext}
		}
		return f
	case !r.Open:
		return look.BannerFace{Icon: look.IconDoor, Sentence: string(r.ID), Hint: w.Say("scribe.no-case")}
	}
	return look.BannerFace{Icon: look.IconDoor, Sentence: string(r.ID), Hint: r.Label}
}

// longWord is how many letters need three rows of a tile.
const longWord = 21

// timeFace is a time that can be noted, with when that was done last.
func timeFace(w words.Words, r Room, t Time, zone *time.Location) look.TileFace {
	f := look.TileFace{Word: t.Words}
	if t.Counts {
		f.Word = w.Say("scribe.attempt", t.Words, r.attempt(t.ID))
	}
	if t.Aerosol {
		f.Icon = look.IconAir
	}
	if f.Note = notedAt(w, r, t, zone); f.Note != "" {
		f.Tone = look.ToneBefore
	}
	switch {
	case len(f.Word) > longWord:
		f.Note = "" // its place is needed for the word; the bar still says that it was noted
	case f.Note == "":
		f.Note = "–"
	}
	return f
}

// notedAt is when something was noted last, with the number of that attempt;
// empty: not yet.
func notedAt(w words.Words, r Room, t Time, zone *time.Location) string {
	m, noted := r.last(t.ID)
	switch {
	case !noted:
		return ""
	case t.Counts:
		return w.Say("scribe.before", m.Attempt, shortAt(m.On.Wall, zone))
	}
	return shortAt(m.On.Wall, zone)
}

// words are what was noted, with the number of the attempt.
func (m Moment) words(w words.Words) string {
	if m.Attempt == 0 {
		return m.Words
	}
	return w.Say("scribe.attempt", m.Words, m.Attempt)
}

// against says what should have come before.
func against(w words.Words, m Moment) string {
	if len(m.Against) == 0 {
		return ""
	}
	return w.Say("scribe.against", strings.Join(m.Against, ", "))
}

// running is one clock; that of pre-oxygenation says
// which mark it passed, and fills towards the last.
func running(w words.Words, s Snapshot, m Moment) Running {
	elapsed := time.Duration(max(s.Now-m.Here, 0)) * time.Millisecond
	out := Running{Label: look.BannerFace{Icon: look.IconClock, Sentence: m.words(w)}, Clock: look.BigClockFace{Elapsed: elapsed}}
	if m.Least {
		out.Label.Hint = w.Say("scribe.at-least")
	}
	if m.What != preOxygenation {
		return out
	}
	out.Clock.Marks[0] = max(s.Marks[0], s.Marks[1])
	for _, mark := range s.Marks {
		if mark > 0 && elapsed >= mark {
			out.Label.Hint = w.Say("scribe.passed", look.ClockText(mark))
		}
	}
	return out
}

// notedFace is a line of what was noted. What was entered late stands apart by
// its icon and its word, what is out of order by both as well.
func notedFace(w words.Words, m Moment, zone *time.Location) look.BannerFace {
	f := look.BannerFace{Sentence: joined(placed(w, m.On, zone), m.words(w))}
	hint := []string{string(m.By)}
	if m.Aerosol {
		f.Icon = look.IconAir
		hint = append([]string{w.Say("scribe.aerosol")}, hint...)
	}
	if m.Late {
		f.Icon = look.IconClock
		f.Sentence = w.Say("scribe.late", f.Sentence)
	}
	if m.Monitor != nil {
		hint = append(hint, w.Say("scribe.monitor", placed(w, *m.Monitor, time.UTC)))
	}
	if len(m.Against) > 0 {
		f.Icon = look.IconUrgent
		hint = append([]string{against(w, m)}, hint...)
	}
	f.Hint = joined(hint...)
	return f
}

// joined puts the parts that are there side by side.
func joined(parts ...string) string {
	var all []string
	for _, p := range parts {
		if p != "" {
			all = append(all, p)
		}
	}
	return strings.Join(all, " · ")
}

// happened is when the next time is said to have been; 0: now.
func (h hand) happened(now mesh.Wall) mesh.Wall {
	switch {
	case h.at != 0:
		return h.at
	case h.late != 0:
		return now - mesh.Wall(h.late.Milliseconds())
	}
	return 0
}

package inside

import (
	"time"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
)

// preOxygenation is the time whose clock has marks.
const preOxygenation mesh.ID = "pre-oxygenation"

// timesPage are the times that are noted with one tap, and the clock that was
// started last. Late and corrected times are entered on the scribe's own page.
func timesPage(w words.Words, s Snapshot, now time.Time) *Page {
	p := &Page{Clock: &look.BigClockFace{}, Tell: look.BannerFace{Icon: look.IconClock, Sentence: w.Say("inside.no-clock")}}
	var running Time
	for _, t := range s.Times {
		face := look.TileFace{Word: t.Words}
		switch {
		case t.Last != 0:
			face.Note = w.Say("inside.noted", look.ClockText(since(now, t.Last)))
		case t.Clock:
			face.Icon = look.IconClock
		}
		if t.Clock && t.Last > running.Last {
			running = t
		}
		p.Choices = append(p.Choices, Choice{face, pick{does: picksTime, id: t.ID}})
	}
	if running.Last == 0 {
		return p
	}
	p.Clock.Elapsed, p.Tell.Sentence = since(now, running.Last), running.Words
	if running.ID == preOxygenation {
		p.Clock.Marks = [2]time.Duration{s.Limits.MarkOne, s.Limits.MarkTwo}
		p.Tell.Hint = passed(w, s.Limits, p.Clock.Elapsed)
	}
	return p
}

// passed says which mark of pre-oxygenation was reached last.
func passed(w words.Words, l Limits, gone time.Duration) string {
	switch {
	case l.MarkTwo > 0 && gone >= l.MarkTwo:
		return w.Say("inside.clock-at", look.ClockText(l.MarkTwo))
	case l.MarkOne > 0 && gone >= l.MarkOne:
		return w.Say("inside.clock-at", look.ClockText(l.MarkOne))
	}
	return ""
}

func since(now time.Time, at mesh.Wall) time.Duration {
	return max(0, time.Duration(mesh.Wall(now.UnixMilli())-at)*time.Millisecond)
}

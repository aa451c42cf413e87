package debrief

import (
	"fmt"
	"strings"
	"time"

	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Record is the case that is looked at as a text for paper: its course, its
// figures with their methods, and its answers, in the words of the pages. A line
// behind an empty one is a heading. Times are on the common clock, in zone.
func Record(w words.Words, s Snapshot, zone *time.Location) (title, text string) {
	c, there := s.looked()
	if !there {
		return w.Say("debrief.no-case"), ""
	}
	var b strings.Builder
	say := func(line ...any) { fmt.Fprintln(&b, line...) }
	h := head(w, c, s.Course, zone)
	say(h.Sentence)
	if h.Hint != "" {
		say(h.Hint)
	}
	for _, lane := range lanes(w, s.Course, zone) {
		say()
		for _, line := range lane {
			say(line)
		}
	}
	say()
	say(w.Say("debrief.figures"))
	for _, f := range figures(w, c.Figures, c, s.Course.lists(w, zone)) {
		say(joined(f.Label+": "+f.Value, f.Method))
	}
	say()
	say(w.Say("debrief.questions"))
	for _, q := range s.Questions {
		answer := q.Answer
		if answer == "" {
			answer = w.Say("debrief.unanswered-yet")
		}
		say(q.Words + " " + answer)
	}
	return w.Say("record.title", requests.Code(s.Of), c.Room), b.String()
}

// lanes are the lanes of the picture as lists, each behind its heading.
func lanes(w words.Words, c Course, zone *time.Location) (out [][]string) {
	at := func(after time.Duration) string {
		return time.UnixMilli(int64(c.Start.Wall + mesh.Wall(after.Milliseconds()))).In(zone).Format(clockLong)
	}
	for _, lane := range picture(w, c, c.whole(), zone, roomFor(true)).Lanes {
		lines := []string{lane.Word}
		for _, b := range lane.Bars {
			to := at(b.To)
			if b.Open {
				to = ""
			}
			lines = append(lines, strings.TrimSpace(at(b.From)+" – "+to)+" "+b.Word)
		}
		for _, p := range lane.Points {
			lines = append(lines, at(p.At)+" "+p.Word)
		}
		out = append(out, lines)
	}
	return out
}

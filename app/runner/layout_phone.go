package runner

import "lintel/app/look"

// Measures of a phone, in mm.
const (
	topTall    = 18.0 // the door, what can be said, the way to what is open besides
	topLow     = 15.0
	actTall    = 16.0
	actLow     = 15.0
	alertTall  = 32.0
	alertLow   = 23.0 // and on a wide list
	turnWide   = 17.2
	faultPhone = 50.0 // what went wrong and what to do, five rows
	sayPhone   = 17.0
	tileTall   = 40.0 // of a thing's words, size and state, where it is kept stands below it
)

// layPhone puts one request: its door, what and how many, what comes next. What
// is said above everything takes the room of the door's words.
func (s *Screen) layPhone(put look.Put, a areas) {
	p, area := &s.parts, a.main
	top, act := float32(topLow), float32(actLow)
	if a.tall && (s.seen.entry < 0 || s.rows.Entries[s.seen.entry].Drug.Name == "") {
		top, act = topTall, actTall
	}
	if a.notice.H > 0 {
		s.layAlert(put, a.notice)
	}
	if s.seen.door >= 0 {
		s.layTop(put, take(&area, top))
	}
	if s.seen.entry < 0 {
		low := look.At(area.X, area.Y+area.H-act, area.W, act)
		low.Put(put, p.passed)
		low.Y -= act + gap
		low.Put(put, p.voice)
		area.H -= 2 * (act + gap)
		if a.tall && s.seen.door >= 0 {
			take(&area, twoRows).Put(put, p.heads[0].about)
		}
		put(p.empty, area.X, area.Y, area.W, min(area.H, threeRows))
		return
	}
	drug := s.rows.Entries[s.seen.entry].Drug.Name != ""
	e := &p.entries[0]
	put(e.primary, area.X, area.Y+area.H-act, area.W, act)
	area.H -= act + gap
	if a.tall && a.notice.H == 0 {
		take(&area, headHigh).Put(put, p.heads[0].aboutLow)
	}
	e.layPhone(put, area, drug)
}

// layPhone puts a drug's label with how far it is, or a tile with where it is kept.
func (e *entryParts) layPhone(put look.Put, area look.Box, drug bool) {
	left := area.H - labelHigh - gap
	switch {
	case drug && left >= threeRows:
		put(e.lines, area.X, area.Y+area.H-threeRows, area.W, threeRows)
		area.H -= threeRows + gap
		area.Put(put, e.drug)
		return
	case drug && left >= headHigh:
		put(e.brief, area.X, area.Y+area.H-headHigh, area.W, headHigh)
		area.H -= headHigh + gap
		area.Put(put, e.drug)
		return
	case area.H >= tileTall+gap+threeRows:
		put(e.low, area.X, area.Y+area.H-threeRows, area.W, threeRows)
		area.H -= threeRows + gap
	}
	area.Put(put, e.tile)
}

// layAlert puts what is said above everything, in the words of a tile.
func (s *Screen) layAlert(put look.Put, box look.Box) {
	if s.parts.fault.Face().Sentence != "" {
		box.Put(put, s.parts.fault)
		return
	}
	box.Put(put, s.parts.alert)
}

// layTop puts the door, what can be said there, and the way to the others.
func (s *Screen) layTop(put look.Put, row look.Box) {
	h := &s.parts.heads[0]
	right := row.X + row.W
	if s.seen.pages > 1 {
		right -= turnWide
		put(s.parts.turn, right, row.Y, turnWide, row.H)
		right -= gap
	}
	right -= sayPhone
	put(h.say, right, row.Y, sayPhone, row.H)
	put(h.door, row.X, row.Y, right-gap-row.X, row.H)
}

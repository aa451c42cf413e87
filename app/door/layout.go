package door

import "lintel/app/look"

// Measures of the screen, in mm.
const (
	edge        = 2.5
	phoneEdge   = 1.5
	gap         = look.GapMin
	broadFrom   = 130.0
	topHigh     = 27.0 // the door, or what was said inside, and what can be done about it
	phoneTop    = 13.0
	rowHigh     = 13.0
	sideWide    = 46.0 // of a tile beside the top
	undoWide    = 60.0
	personWide  = 60.0 // least
	personHigh  = 33.0 // least: three rows
	personsMin  = 6    // as many as stand on tiles, or else on lines
	personLine  = 13.0
	personMost  = 36.0
	peopleMin   = 0.55 // the people's share of a broad screen
	allActsWide = 100.0
	actHigh     = look.SideOutside
	tallFrom    = 105.0 // height of a phone that has more acts on its first page
	tellHigh    = 23.0  // of what the sign takes for granted
	briefHigh   = 21.5
	headHigh    = 8.0
	lineHigh    = 7.5
	signLeast   = 43.0
	signWide    = 66.8 // least, of a part that is read from 2 m
	bothHigh    = 63.0 // of three rows that are read from 2 m
	faultHigh   = 23.0
)

// lay puts the first page, the sign, or the question that is asked.
func (s *Screen) lay(put look.Put, width, height float32) {
	rim := float32(edge)
	if width < broadFrom {
		rim = phoneEdge
	}
	area := look.At(rim, rim, width-2*rim, height-2*rim)
	if s.parts.fault.Face().Sentence != "" && s.hand.step != stepHome {
		put(s.parts.fault, area.X, area.Y, area.W, faultHigh)
		area.Y, area.H = area.Y+faultHigh+1, area.H-faultHigh-1
	}
	switch {
	case s.hand.step == stepAir:
		s.laySign(put, area)
	case s.hand.step != stepHome:
		s.sheet.Lay(put, area)
	case width < broadFrom:
		s.layPhone(put, area)
	default:
		s.layBroad(put, area)
	}
}

// layBroad puts the people on the left and what the observer does on the right.
func (s *Screen) layBroad(put look.Put, area look.Box) {
	s.layTop(put, look.At(area.X, area.Y, area.W, topHigh))
	rest := look.At(area.X, area.Y+topHigh+gap, area.W, area.H-topHigh-gap)
	left := look.At(rest.X, rest.Y, (rest.W-gap)*peopleMin, rest.H)
	right := look.At(rest.X+left.W+gap, rest.Y, rest.W-left.W-gap, rest.H)
	s.layPeople(put, left)
	s.layActs(put, right)
}

// layActs puts what the observer does: all where there is room, else the first
// and the way to the others.
func (s *Screen) layActs(put look.Put, area look.Box) {
	p := &s.parts
	if area.W >= allActsWide {
		for i, b := range area.Cells(2, actsMax/2) {
			if i < len(s.rows.Acts) {
				b.Put(put, p.acts[i])
			}
		}
		return
	}
	s.hand.front = look.Fitting(area.H, actHigh) - 1
	tiles := append(append([]*look.Tile{}, p.acts[:s.hand.front]...), p.others)
	for i, b := range area.Cells(1, len(tiles)) {
		if len(s.rows.Acts) > 0 {
			b.Put(put, tiles[i])
		}
	}
}

// layTop puts the door or what was said, with what can be done about it and
// the way to take back what was tapped last.
func (s *Screen) layTop(put look.Put, top look.Box) {
	p := &s.parts
	side := func(t *look.Tile, wide float32) {
		put(t, top.X+top.W-wide, top.Y, wide, top.H)
		top.W -= wide + gap
	}
	switch {
	case s.rows.Notice:
		both := look.At(top.X+top.W-sideWide, top.Y, sideWide, top.H).Cells(1, 2)
		both[0].Put(put, p.heard)
		both[1].Put(put, p.relief)
		top.W -= sideWide + gap
	case s.rows.Undo.Word != "":
		side(p.undo, undoWide)
	}
	if p.fault.Face().Sentence != "" {
		top.Put(put, p.fault)
		return
	}
	top.Put(put, p.head)
}

// layPeople puts as many people as fit, on tiles where there is room for some,
// and the way to the others.
func (s *Screen) layPeople(put look.Put, area look.Box) {
	p, n := &s.parts, len(s.rows.People)
	if n == 0 {
		put(p.empty, area.X, area.Y, area.W, min(area.H, personMost))
		return
	}
	columns, rows := look.Fitting(area.W, personWide), look.Fitting(area.H, personHigh)
	most, lines := float32(personMost), columns*rows < personsMin
	if lines {
		rows, most = look.Fitting(area.H, personLine), personLine+2
	}
	area.H = min(area.H, float32(rows)*(most+gap)-gap)
	cells := area.Cells(columns, rows)
	s.shown = min(len(cells), peopleMax)
	if n > s.shown && s.shown > 1 {
		s.shown--
		p.turn.Set(look.TileFace{Word: s.opt.Words.Say("door.turn", min(s.from+s.shown, n), n)})
		cells[s.shown].Put(put, p.turn)
	}
	for i := range min(s.shown, n-s.from) {
		if lines {
			p.says[i].Set(s.rows.Lines[s.from+i])
			cells[i].Put(put, p.lines[i])
			continue
		}
		p.people[i].Set(s.rows.People[s.from+i].Face)
		cells[i].Put(put, p.people[i])
	}
}

// layPhone puts the people, or what was said in their place, over the acts.
func (s *Screen) layPhone(put look.Put, area look.Box) {
	p := &s.parts
	rows := float32(2)
	if area.H >= tallFrom {
		rows = 4
	}
	high := rows*(actHigh+gap) - gap
	low := look.At(area.X, area.Y+area.H-high, area.W, high)
	s.layActs(put, low)
	area.H -= low.H + gap
	switch {
	case p.fault.Face().Sentence != "":
		put(p.fault, area.X, area.Y, area.W, faultHigh)
		area.Y, area.H = area.Y+faultHigh+gap, area.H-faultHigh-gap
	case s.rows.Notice:
		put(p.notice, area.X, area.Y, area.W, area.H-rowHigh-gap)
		b := look.At(area.X, area.Y+area.H-rowHigh, area.W, rowHigh).Cells(2, 1)
		b[0].Put(put, p.heard)
		b[1].Put(put, p.relief)
		return
	case s.rows.Undo.Word != "":
		put(p.undo, area.X, area.Y, area.W, 2*rowHigh)
		area.Y, area.H = area.Y+2*rowHigh+gap, area.H-2*rowHigh-gap
	default:
		put(p.place, area.X, area.Y, area.W, phoneTop)
		area.Y, area.H = area.Y+phoneTop+1, area.H-phoneTop-1
	}
	s.layPeople(put, area)
}

// laySign puts the sign for the air: both shares where there is room to say
// which is which, else the larger one.
func (s *Screen) laySign(put look.Put, area look.Box) {
	p := &s.parts
	put(p.leave, area.X, area.Y+area.H-rowHigh, min(sideWide, area.W), rowHigh)
	area.H -= rowHigh + gap
	head := look.At(area.X, area.Y, area.W, headHigh)
	area.Y, area.H = area.Y+headHigh+1, area.H-headHigh-1
	tell, high := p.brief, float32(briefHigh)
	both := area.W >= broadFrom && area.H-tellHigh-1 >= bothHigh
	if both {
		tell, high = p.tell, tellHigh
	}
	put(tell, area.X, area.Y+area.H-high, area.W, high)
	area.H -= high + 1
	if both && s.sign.Nearly.Word != "" {
		head.Put(put, p.signHead)
		cells := area.Cells(2, 1)
		cells[0].Put(put, p.nearly)
		cells[1].Put(put, p.clear)
		return
	}
	head.Put(put, p.alone)
	if room := area.H - lineHigh - 1; room >= signLeast && s.sign.Before.Sentence != "" {
		put(p.before, area.X, area.Y+room+1, area.W, lineHigh)
		area.H = room
	}
	if area.W < signWide {
		area.Put(put, p.until)
		return
	}
	area.Put(put, p.clear)
}

package join

import "lintel/app/look"

// Measures of joining, in mm.
const (
	edge       = 2.0
	headHigh   = 11.5
	tellHigh   = 16.5
	faultHigh  = 21.0
	lineHigh   = 16.5 // three rows
	narrowLine = 26.0 // on a phone: five rows
	rowHigh    = 13.0 // one row on a tile
	entryHigh  = 14.0
	choiceWide = 58.0 // least
	choiceHigh = 22.5 // two rows
	choiceMost = 34.0
	longHigh   = 33.0 // three rows, on a phone
	longFrom   = 20   // letters that need them
	hostFrom   = 12   // letters of a host that need them
	keysWide   = 75.0
	broadFrom  = 130.0
)

// lay puts the question that is asked.
func (s *Screen) lay(put look.Put, width, height float32) {
	p := &s.parts
	area := look.At(edge, edge, width-2*edge, height-2*edge)
	if s.page.Keys != nil && area.W >= broadFrom {
		keys := look.At(area.X+area.W-keysWide, area.Y, keysWide, area.H)
		keys.Put(put, p.keys)
		area.W -= keysWide + look.GapMin
	}
	area = s.layHead(put, area)
	switch {
	case s.page.Keys != nil && width >= broadFrom:
		area.Put(put, p.typed)
	case s.page.Keys != nil:
		put(p.typed, area.X, area.Y, area.W, headHigh)
		put(p.keys, area.X, area.Y+headHigh+1, area.W, area.H-headHigh-1)
	case len(s.page.Lines) > 0:
		s.layDevices(put, area)
	default:
		s.layQuestion(put, area)
	}
}

// layHead puts what stands over every question, and gives what is left.
func (s *Screen) layHead(put look.Put, area look.Box) look.Box {
	p := &s.parts
	take := func(high float32) look.Box {
		b := look.At(area.X, area.Y, area.W, high)
		area.Y, area.H = area.Y+high+1, area.H-high-1
		return b
	}
	faulty := p.fault.Face().Sentence != ""
	if !faulty || s.page.Keys == nil {
		take(headHigh).Put(put, p.head)
	}
	switch {
	case faulty:
		take(faultHigh).Put(put, p.fault)
	case s.page.Tell.Sentence != "" && (s.page.Keys == nil && s.page.Word == "" || area.W >= broadFrom/2):
		take(tellHigh).Put(put, p.tell)
	}
	return area
}

// layQuestion puts a code or a text to type, and choices.
func (s *Screen) layQuestion(put look.Put, area look.Box) {
	p := &s.parts
	if s.page.Entry {
		put(p.entry, area.X, area.Y, area.W, entryHigh)
		area.Y, area.H = area.Y+entryHigh+look.GapMin, area.H-entryHigh-look.GapMin
	}
	if s.page.Word != "" {
		under := float32(choiceHigh)
		if area.W < broadFrom {
			under = rowHigh
		}
		high := area.H - under - look.GapMin
		word := p.word
		if area.W < broadFrom {
			word = p.rows
		}
		put(word, area.X, area.Y, area.W, high)
		area.Y, area.H = area.Y+high+look.GapMin, under
	}
	s.layChoices(put, area, len(s.page.Choices))
}

// layChoices puts as many choices as fit, and the way to the others.
func (s *Screen) layChoices(put look.Put, area look.Box, all int) {
	p := &s.parts
	columns := look.Fitting(area.W, choiceWide)
	least := float32(choiceHigh)
	if columns == 1 && area.H < 3*choiceHigh {
		least = look.SideOutside
	}
	for _, c := range s.page.Choices {
		if columns == 1 && (c.Face.Detail != "" && len(c.Face.Word) > hostFrom || len(c.Face.Word) > longFrom) {
			least = longHigh
		}
	}
	rows := min(look.Fitting(area.H, least), (all+columns-1)/columns)
	rows = max(rows, min(2, (all+columns-1)/columns)) // the way to the others is never alone
	area.H = min(area.H, float32(rows)*(choiceMost+look.GapMin)-look.GapMin)
	cells := area.Cells(columns, rows)
	s.shown = min(len(cells), choicesMax)
	if all > s.shown {
		s.shown--
		cells[s.shown].Put(put, p.turn)
	}
	for i := range min(s.shown, all-s.hand.from) {
		cells[i].Put(put, p.choices[i])
	}
}

// layDevices puts the unit's devices, and what can be done about them below.
func (s *Screen) layDevices(put look.Put, area look.Box) {
	p := &s.parts
	high, under := float32(lineHigh), float32(choiceHigh)
	narrow := area.W < broadFrom
	if narrow {
		high, under = narrowLine, 2*rowHigh+look.GapMin
	}
	below := look.At(area.X, area.Y+area.H-under, area.W, under)
	room := area.H - under - look.GapMin
	s.shown = max(1, min(int((room+1)/(high+1)), linesMax))
	for i := range min(s.shown, len(s.page.Lines)-s.hand.from) {
		put(p.lines[i], area.X, area.Y+float32(i)*(high+1), area.W, high)
	}
	tiles := []*look.Tile{p.choices[0], p.choices[1]}
	if len(s.page.Lines) > s.shown {
		tiles = append(tiles, p.turn)
	}
	if narrow {
		rows := below.Cells(1, 2)
		rows[0].Put(put, tiles[0])
		below, tiles = rows[1], tiles[1:]
	}
	for i, b := range below.Cells(len(tiles), 1) {
		b.Put(put, tiles[i])
	}
}

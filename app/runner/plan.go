package runner

import "lintel/app/look"

// seen is which doors and requests stand where, on the page of the list that
// is shown. It follows from the size alone, and from what there is.
type seen struct {
	pages int
	heads []headSlot
	slots []slot
	ends  float32 // the lower edge of the lowest of them, in mm
	door  int     // on a phone: the door that is shown; -1: none
	entry int     // on a phone: its request; -1: none is open there
}

// headSlot is where a door's head stands.
type headSlot struct {
	door int
	box  look.Box
}

// slot is where a request stands, in full or in few words.
type slot struct {
	entry int
	full  bool
	box   look.Box
}

// Heights of what stands in a column, in mm.
const (
	headTall  = 21.0 // two rows beside the door
	headLow   = 15.0 // one row
	fullHigh  = cardHigh + gap + rowHigh
	shortHigh = 32.0
	tallFrom  = headTall + gap + fullHigh // height of a column from which heads have two rows
)

// Bounds of what one page shows: there are parts for no more.
const (
	columnsMax = 3
	piecesMax  = 4
)

// piece is one thing of a column before it has a place.
type piece struct {
	door, entry int // entry -1: the door's head
	full        bool
	y, high     float32
}

// columnsOf fills columns of a height from above: a door's head, then its
// requests; the first of them in full, and others in full as far as there is
// room. Where a column ends within a door the next begins with its head again.
func columnsOf(r Rows, high float32) (out [][]piece) {
	head := float32(headTall)
	if high < tallFrom {
		head = headLow
	}
	var column []piece
	y := float32(0)
	add := func(p piece) {
		if p.y = y; y > 0 {
			p.y += gap
		}
		y = p.y + p.high
		column = append(column, p)
	}
	full := func() bool { return len(column) >= piecesMax }
	next := func() {
		if len(column) > 0 {
			out = append(out, column)
		}
		column, y = nil, 0
	}
	for d := range r.Doors {
		begun := false
		for i, e := range r.Entries {
			if e.Door != d {
				continue
			}
			form, left := piece{door: d, entry: i, high: shortHigh}, high-y
			if begun {
				if left < shortHigh+gap || full() {
					next()
					begun = false
				}
			} else if y > 0 && left < head+shortHigh+2*gap || full() {
				next()
			}
			first := !begun
			if first {
				add(piece{door: d, entry: -1, high: head})
				begun = true
			}
			if high-y-gap >= fullHigh {
				form.full, form.high = true, fullHigh
			}
			add(form)
		}
		if !begun {
			if y > 0 && high-y < head+gap || full() {
				next()
			}
			add(piece{door: d, entry: -1, high: head})
		}
	}
	next()
	return out
}

// plan chooses what a page of a wide list shows, and where.
func plan(r Rows, area look.Box, page int) (s seen) {
	s.door, s.entry = -1, -1
	all := columnsOf(r, area.H)
	columns := min(columnsMax, look.Fitting(area.W, cardWide))
	s.pages = max(1, (len(all)+columns-1)/columns)
	page %= s.pages
	cells := area.Cells(columns, 1)
	for i := page * columns; i < min(len(all), (page+1)*columns); i++ {
		c := cells[i-page*columns]
		for _, p := range all[i] {
			box := look.At(c.X, c.Y+p.y, c.W, p.high)
			s.ends = max(s.ends, box.Y+box.H)
			if p.entry < 0 {
				s.heads = append(s.heads, headSlot{p.door, box})
			} else {
				s.slots = append(s.slots, slot{p.entry, p.full, box})
			}
		}
	}
	return s
}

// planPhone shows one request at a time, then the doors where none is open.
func planPhone(r Rows, page int) (s seen) {
	s = seen{door: -1, entry: -1, pages: len(r.Entries)}
	var quiet []int
	for d := range r.Doors {
		open := false
		for _, e := range r.Entries {
			open = open || e.Door == d
		}
		if !open {
			quiet = append(quiet, d)
		}
	}
	s.pages = max(1, len(r.Entries)+len(quiet))
	switch page %= s.pages; {
	case page < len(r.Entries):
		s.door, s.entry = r.Entries[page].Door, page
	case page-len(r.Entries) < len(quiet):
		s.door = quiet[page-len(r.Entries)]
	}
	return s
}

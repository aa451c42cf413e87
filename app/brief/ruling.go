package brief

import (
	"math"
	"strings"
	"unicode/utf8"

	"lintel/app/look"
)

// Measures of letters, in shares of their size and in mm.
const (
	lineShare     = 1.16 // from one line of letters to the next
	letterShare   = 0.62 // how wide a letter is on average, and a little: a word goes whole to the next row
	padding       = 2.0  // around the letters of a part
	narrowLetters = 7    // on a row of a narrow button
	wideLetters   = 10   // and of a wide one
	iconLetters   = 3    // that an icon takes the room of
	stateApart    = 2.0  // mm between a row's words and its state
)

// ruling is how the rows of a page stand.
type ruling struct {
	columns  int
	wide     float32 // of one column, in mm
	row, all float32 // how high a row is, and with what stands under it
	states   bool    // rows with their state at the right; else sentences
	long     bool    // sentences that need the room of long ones
	overfull bool    // a row has more words than it can show
	side     float32 // how wide it is what stands beside a row, in mm; 0: it stands under it
}

// rowsHigh is how high a part of so many rows of letters is.
func (s *Screen) rowsHigh(n int) float32 { return s.letter()*lineShare*float32(n) + padding }

// tapHigh is the same for a part that is tapped.
func (s *Screen) tapHigh(n int) float32 { return max(s.rowsHigh(n), s.use().Side()) }

// sideOf is how wide it is what stands beside the rows of this page; 0: it needs
// more room than there is, and stands under them.
func (s *Screen) sideOf(wide float32) float32 {
	switch {
	case s.roomy:
		return sideRoomy
	case wide >= sideFrom:
		return sideNear
	}
	for _, x := range s.page.Rows {
		if widthOf(x.Side) > narrowTap {
			return 0
		}
	}
	return narrowTap
}

// letter is the size of the page's letters in mm.
func (s *Screen) letter() float32 {
	l := s.opt.Look
	return l.Scale().Millimetres(l.Letters(s.reads(), look.Small))
}

// ruled decides how the rows of this page stand in a width: in several columns
// where their words fit, with their state at the right where there is room.
func (s *Screen) ruled(width float32) ruling {
	most := look.Fitting(width, columnWide)
	if len(s.page.Rows) < 4 {
		most = 1
	}
	if s.roomy {
		for columns := most; columns >= 1; columns-- {
			if r := s.ruleStates(width, columns); !r.overfull {
				return r
			}
		}
	}
	return s.ruleSentences(width, most)
}

func column(width float32, columns int) float32 {
	return (width - look.GapMin*float32(columns-1)) / float32(columns)
}

// ruleStates rules rows of a word, a detail and a state.
func (s *Screen) ruleStates(width float32, columns int) ruling {
	r := ruling{columns: columns, wide: column(width, columns), states: true, side: sideRoomy}
	per, most := s.letter()*letterShare, 1
	for _, x := range s.page.Rows {
		here := r.wide - 2*padding
		if x.Does.what != picksNothing {
			here -= r.side + look.GapMin
		}
		if x.Face.Icon != look.IconNone {
			here -= s.letter()*lineShare + padding
		}
		if x.Face.Tone != look.TonePlain {
			here -= 3
		}
		if n := utf8.RuneCountInString(x.Face.State); n > 0 {
			here -= min(float32(n)*per, here*look.StateShareMax) + stateApart
		}
		word, detail := rowsOf(x.Face.Word, here/per), rowsOf(x.Face.Detail, here/per)
		r.overfull = r.overfull || word > shortRows || detail > shortRows
		most = max(most, word+detail)
	}
	if r.row = s.tapHigh(most); most > shortRows {
		r.row++ // a row has more around its letters than a sentence
	}
	r.all = r.row
	return r
}

// ruleSentences rules rows that are one sentence, with what stands under them.
func (s *Screen) ruleSentences(width float32, columns int) ruling {
	r := ruling{columns: columns, wide: column(width, columns)}
	r.side = s.sideOf(r.wide)
	most, under := shortRows, false
	for _, x := range s.page.Rows {
		here := r.wide
		if x.Does.what != picksNothing {
			if under = under || r.side == 0; r.side > 0 {
				here -= r.side + look.GapMin
			}
		}
		f := look.BannerFace{Icon: x.Face.Icon, Sentence: x.Face.Word, Hint: joined(x.Face.State, x.Face.Detail)}
		rows, long := s.textRows(f, here)
		most, r.long = max(most, rows), r.long || long
	}
	if r.long {
		most = max(most, longRows)
	}
	r.row = s.tapHigh(most)
	if r.all = r.row; under {
		r.all += look.GapMin + s.tapHigh(shortRows)
	}
	return r
}

// rowsOf is how many rows of so many letters a text needs.
func rowsOf(text string, perRow float32) int {
	per := max(1, int(perRow))
	return (utf8.RuneCountInString(text) + per - 1) / per
}

// textRows is how many rows of letters a sentence needs with what stands behind
// it, and whether one of both needs the room of a long one.
func (s *Screen) textRows(f look.BannerFace, width float32) (rows int, long bool) {
	width -= 2 * padding
	if f.Icon != look.IconNone {
		width -= s.letter()*lineShare + padding
	}
	per := width / (s.letter() * letterShare)
	if rowsOf(f.Sentence+"   "+f.Hint, per) <= 1 {
		return shortRows, false
	}
	sentence, hint := rowsOf(f.Sentence, per), rowsOf(f.Hint, per)
	rows = max(sentence+hint, shortRows)
	if long = sentence > shortRows || hint > shortRows; long {
		rows = max(rows, longRows)
	}
	return rows, long
}

// widthOf is how wide a button has to be for its words on two rows.
func widthOf(f look.BannerFace) float32 {
	said := strings.TrimSpace(f.Sentence + " " + f.Hint)
	room := 0
	if f.Icon != look.IconNone {
		room = iconLetters
	}
	for _, x := range []struct {
		letters int
		wide    float32
	}{{narrowLetters, narrowTap}, {wideLetters, wideTap}} {
		if wraps(said, x.letters-room) <= shortRows {
			return x.wide
		}
	}
	return fullTap
}

// wraps is how many rows of so many letters a text needs, broken at its spaces;
// more than any button has when a word is longer than a row.
func wraps(text string, letters int) int {
	rows, used := 1, 0
	for _, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case n > letters:
			return math.MaxInt
		case used == 0:
			used = n
		case used+1+n <= letters:
			used += 1 + n
		default:
			rows, used = rows+1, n
		}
	}
	return rows
}

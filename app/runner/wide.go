package runner

import (
	"strings"

	"lintel/app/look"
)

// Widths of letters of the shipped font, in hundredths of its size, roughly:
// words are chosen by whether they fit before there is anything to measure them
// with. What does not fit all the same ends with "…", and a test finds it.
const (
	wideSpace  = 27
	wideThin   = 30
	wideNarrow = 38
	wideDigit  = 61
	wideBig    = 68
	wideBroad  = 88
	wideOther  = 57
)

// letterMM is the size of the runner's small letters, in mm.
func letterMM() float32 {
	const capShare = 0.698 // of capitals in the size, as look measured it
	return float32(look.CapHeight(look.RunnerLine.Distance(), look.Small.Arcmin()) / capShare)
}

// wide is how much room a text takes on one row, in mm.
func wide(text string) float32 {
	sum := 0
	for _, r := range text {
		switch {
		case r == ' ' || r == '\u00a0':
			sum += wideSpace
		case strings.ContainsRune("iljI.,:;'|!·", r):
			sum += wideThin
		case strings.ContainsRune("tfr()-", r):
			sum += wideNarrow
		case r >= '0' && r <= '9':
			sum += wideDigit
		case strings.ContainsRune("mwMW%", r):
			sum += wideBroad
		case r >= 'A' && r <= 'Z':
			sum += wideBig
		default:
			sum += wideOther
		}
	}
	return float32(sum) / 100 * letterMM()
}

// widest is how much room the widest word of a text takes, in mm; what is held
// together by a space that does not break is one word.
func widest(text string) (most float32) {
	for _, word := range strings.Split(text, " ") {
		most = max(most, wide(word))
	}
	return most
}

// rowsOf is how many rows of a width in mm a text takes, broken at spaces.
func rowsOf(text string, width float32) int {
	rows, used := 1, float32(0)
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' }) {
		n := wide(word)
		switch {
		case used == 0:
			used = n
			if n > width {
				rows++ // it is broken
			}
		case used+wide(" ")+n <= width:
			used += wide(" ") + n
		default:
			rows, used = rows+1, n
		}
	}
	return rows
}

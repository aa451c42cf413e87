package picture

import (
	"bytes"
	"fmt"
)

// LenMax bounds every picture, in bytes.
const LenMax = 256 << 10

// Kind is what a picture is.
type Kind uint8

// The kinds.
const (
	KindPhoto Kind = iota + 1
	KindOutline
	KindMap
)

// Why says why bytes are no picture; the words package has a sentence for each.
type Why string

// The reasons.
const (
	WhyUnknown   Why = "unknown"   // neither photo nor outline nor map
	WhyLong      Why = "long"      // too many bytes
	WhyPixels    Why = "pixels"    // too many pixels, or none
	WhyBroken    Why = "broken"    // it cannot be decoded
	WhyHidden    Why = "hidden"    // it holds more than the picture
	WhyOutline   Why = "outline"   // an SVG of another form than ours
	WhyHeading   Why = "heading"   // the first two rows of a map
	WhyRow       Why = "row"       // a row of a map with other than five cells
	WhyWords     Why = "words"     // a box without words, or with too many
	WhyTwice     Why = "twice"     // words that another box has
	WhyNumber    Why = "number"    // no whole number, or one that leaves the map
	WhyEmpty     Why = "empty"     // a map without boxes
	WhyBoxes     Why = "boxes"     // too many of them
	WhyNotAPhoto Why = "not-photo" // of an item: a map
	WhyNotAMap   Why = "not-map"   // of a place: a photo or an outline
)

// Refused says why bytes are not taken, and of a map where.
type Refused struct {
	Why    Why
	Row    int    // of a map, from 1; else 0
	Column string // of a map: its heading
	Cell   string // what stands there, or the shape of an outline
}

// Error is for logs; people read a sentence of the program.
func (e *Refused) Error() string {
	said := "no picture: " + string(e.Why)
	if e.Row > 0 {
		said = fmt.Sprintf("%s: row %d, column %s", said, e.Row, e.Column)
	}
	if e.Cell != "" {
		said = fmt.Sprintf("%s: %q", said, e.Cell)
	}
	return said
}

// KindOf tells what bytes claim to be, by how they begin; 0: none.
func KindOf(b []byte) Kind {
	switch {
	case bytes.HasPrefix(b, []byte("\xFF\xD8\xFF")):
		return KindPhoto
	case bytes.HasPrefix(b, []byte("<svg ")):
		return KindOutline
	case bytes.HasPrefix(b, []byte(mapMark+",")):
		return KindMap
	}
	return 0
}

// Check tells what a picture is; bytes that are none give a *Refused.
func Check(b []byte) (Kind, error) {
	if len(b) > LenMax {
		return 0, &Refused{Why: WhyLong}
	}
	k := KindOf(b)
	var err error
	switch k {
	case KindPhoto:
		err = checkPhoto(b)
	case KindOutline:
		err = checkOutline(b)
	case KindMap:
		_, err = ReadMap(b)
	default:
		err = &Refused{Why: WhyUnknown}
	}
	if err != nil {
		return 0, err
	}
	return k, nil
}

// OfItem makes the picture of an item from a file: an outline stays as it is, a
// photo is made small and loses everything but what is seen. Errors: *Refused.
func OfItem(file []byte) ([]byte, error) {
	switch KindOf(file) {
	case KindMap:
		return nil, &Refused{Why: WhyNotAPhoto}
	case KindOutline:
		_, err := Check(file)
		return file, err
	}
	return Photo(file)
}

// OfPlace takes the map of a place from a file. Errors: *Refused.
func OfPlace(file []byte) ([]byte, error) {
	file = bytes.TrimPrefix(file, []byte("\uFEFF")) // spreadsheets begin with it
	if k := KindOf(file); k == KindPhoto || k == KindOutline {
		return nil, &Refused{Why: WhyNotAMap}
	}
	if _, err := ReadMap(file); err != nil {
		return nil, err
	}
	return file, nil
}

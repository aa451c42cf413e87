package mesh

import (
	"errors"
	"fmt"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// ErrText says that a text is too long, not NFC, or holds control characters.
var ErrText = errors.New("the text cannot be stored")

// Lengths of the text types, in bytes of UTF-8.
const (
	IDLenMax    = 40
	TagLenMax   = 16
	LabelLenMax = 160
	TextLenMax  = 2000
)

// ID is a name for programs: lower-case letters, digits and - . _ (roles,
// settings, zones, places). A room's ID may use capitals, as on its door.
type ID string

// Tag is what stands on a person's gown (R2, L1). Never a person's name.
type Tag string

// Label is one line for people.
type Label string

// Text is free text for people. It never holds who the patient is.
type Text string

// Valid reports an ID with anything but letters, digits, '-', '.', '_'.
func (s ID) Valid() error {
	if len(s) > IDLenMax {
		return fmt.Errorf("%w: an id of %d bytes, at most %d", ErrText, len(s), IDLenMax)
	}
	for _, r := range s {
		if r >= utf8.RuneSelf || !inID(byte(r)) {
			return fmt.Errorf("%w: %q in an id", ErrText, r)
		}
	}
	return nil
}

// inID tells whether a character may stand in an ID.
func inID(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '.' || c == '_'
}

// Valid reports a tag over TagLenMax or with control characters.
func (s Tag) Valid() error { return validText(string(s), TagLenMax) }

// Valid reports a label over LabelLenMax or with control characters.
func (s Label) Valid() error { return validText(string(s), LabelLenMax) }

// Valid reports a text over TextLenMax or with control characters.
func (s Text) Valid() error { return validText(string(s), TextLenMax) }

// misleads tells whether a character is not shown itself but changes how others
// are: control characters, line separators, marks that turn the direction of
// writing around, the byte order mark and annotation marks.
func misleads(r rune) bool {
	switch {
	case unicode.IsControl(r), r == 0x2028, r == 0x2029, r == 0xfeff:
		return true
	case r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069, r >= 0xfff9 && r <= 0xfffb:
		return true
	}
	return false
}

// CleanText brings what a person typed into the stored form: valid UTF-8, NFC,
// control characters and the like turned into spaces. It does not shorten.
func CleanText(s string) string {
	out := make([]rune, 0, len(s))
	for _, r := range s {
		if misleads(r) {
			r = ' '
		}
		out = append(out, r)
	}
	return norm.NFC.String(string(out))
}

// isPlain tells whether a text is printable ASCII alone, which needs no closer look.
func isPlain[T string | []byte](s T) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

func validText(s string, lenMax int) error {
	if len(s) <= lenMax && isPlain(s) {
		return nil
	}
	switch {
	case len(s) > lenMax:
		return fmt.Errorf("%w: %d bytes, at most %d", ErrText, len(s), lenMax)
	case !utf8.ValidString(s):
		return fmt.Errorf("%w: it is not UTF-8", ErrText)
	case !norm.NFC.IsNormalString(s):
		return fmt.Errorf("%w: it is not in Unicode form NFC", ErrText)
	}
	for _, r := range s {
		if misleads(r) {
			return fmt.Errorf("%w: character %U", ErrText, r)
		}
	}
	return nil
}

package barcode

import "fmt"

// Code names what is wrong with a scan; app/words has a sentence and a hint for
// each. Codes never change.
type Code string

// What can be wrong with a scan as a whole.
const (
	Empty       Code = "empty"        // nothing, or nothing behind the prefix
	TooLong     Code = "too-long"     // more than ScanLenMax bytes
	TooMany     Code = "too-many"     // more than ElementsMax elements, or scans
	BadYear     Code = "year"         // the reference year is none of YearMin to YearMax
	BadPrefix   Code = "prefix"       // begins with ] and has no symbology identifier
	NotKnown    Code = "not-known"    // no form that is read here
	Mixed       Code = "mixed"        // scans that cannot belong to one label
	LinkDiffers Code = "link-differs" // HIBC: the link character is another item's
)

// What can be wrong with an element.
const (
	UnknownID     Code = "unknown-id"     // no identifier begins here
	ValueShort    Code = "value-short"    // the value is too short, or empty
	ValueLong     Code = "value-long"     // the value is too long
	BadCharacter  Code = "character"      // a byte that may not stand there
	CheckDigit    Code = "check-digit"    // check digit, or check characters, do not fit
	BadMonth      Code = "month"          // no month 01 to 12
	BadDay        Code = "day"            // no such day in that month, or year
	BadHour       Code = "hour"           // no hour 00 to 23
	BadMinute     Code = "minute"         // no minute, or second, 00 to 59
	BadValue      Code = "value"          // a value that this identifier does not take
	BadClosing    Code = "bracket"        // printed form: a bracket is missing
	BadEscape     Code = "escape"         // Digital Link: no two hexadecimal digits behind %
	NoKey         Code = "no-key"         // Digital Link: no primary key in the path
	BadPath       Code = "path"           // Digital Link: qualifiers that do not follow this key, or out of order
	NotInQuery    Code = "not-in-query"   // Digital Link: an element that stands in the path only
	RepeatDiffers Code = "repeat-differs" // the same identifier again with another value
	Excluded      Code = "excluded"       // two elements that exclude each other
	Incomplete    Code = "incomplete"     // an element without one that it needs beside it
)

// Codes lists every code.
func Codes() []Code {
	return []Code{
		Empty, TooLong, TooMany, BadYear, BadPrefix, NotKnown, Mixed, LinkDiffers,
		UnknownID, ValueShort, ValueLong, BadCharacter, CheckDigit, BadMonth, BadDay, BadHour, BadMinute,
		BadValue, BadClosing, BadEscape, NoKey, BadPath, NotInQuery, RepeatDiffers, Excluded, Incomplete,
	}
}

// Error is what Parse and ParseLabel return: what is wrong, and where.
type Error struct {
	Code     Code
	Position int    // byte of the scan, from 0
	Part     int    // of ParseLabel: which of the scans
	ID       string // the identifier it is about; empty: none
	Other    string // Excluded: the other identifier; Incomplete: what is needed, as in identifiers.txt
}

// Error is for tests; people see a sentence.
func (e *Error) Error() string {
	return fmt.Sprintf("%s (%s) at byte %d of scan %d", e.Code, e.ID, e.Position, e.Part)
}

// Doubt names a warning; app/words has a sentence for each. Doubts never change.
type Doubt string

// What is valid and yet doubtful.
const (
	LostSeparator     Doubt = "lost-separator"     // inside a value begins what looks like the element At
	NeedlessSeparator Doubt = "needless-separator" // tolerated
	Repeated          Doubt = "repeated"           // the same element twice
	TwoExpiries       Doubt = "two-expiries"       // two dates; the earlier one is taken
	AboutPerson       Doubt = "about-person"       // says who somebody is, and belongs in no record of ours
)

// Doubts lists every doubt.
func Doubts() []Doubt {
	return []Doubt{LostSeparator, NeedlessSeparator, Repeated, TwoExpiries, AboutPerson}
}

// Warning is a doubt, and where it arose.
type Warning struct {
	Doubt    Doubt
	Position int    // byte of the scan, from 0
	Part     int    // of ParseLabel: which of the scans
	ID       string // the identifier whose value or place is doubtful
	Other    string // LostSeparator: the identifier that seems to begin there
}

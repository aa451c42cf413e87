package barcode

import "strings"

// Bounds of what is read.
const (
	ScanLenMax  = 4_096 // bytes
	ElementsMax = 64
	PartsMax    = 8 // scans of one label
)

// Separator ends an element whose length is not known beforehand: the byte that
// scanners send for the symbols' function character 1.
const Separator = 0x1D

// Scheme is the form of what was read.
type Scheme string

// Schemes.
const (
	GS1         Scheme = "gs1"
	DigitalLink Scheme = "digital-link"
	HIBC        Scheme = "hibc"
	Plain       Scheme = "plain" // nothing but an item's number
)

// Element is one element of a label, in the order of the scan.
type Element struct {
	ID       string // application identifier; HIBC: LIC, PCN, UM, QTY, EXP, MFD, LOT, SERIAL; Plain: GTIN
	Title    string // as it is printed beside it
	Value    string // as it was read, escapes of addresses and of the printed form undone
	Position int    // byte of the scan where the identifier begins (HIBC and Plain: the value), from 0
	Part     int    // of ParseLabel: which of the scans
	Date     Date   // of elements that are dates
	Amount   string // measures and prices: the value with its decimal point
}

// Scan is what a label says.
type Scan struct {
	AsScanned []byte // the (first) scan, with its prefix
	Symbology string // its symbology identifier, as ]d2; empty: the scanner sent none
	Scheme    Scheme
	Elements  []Element
	GTIN14    string // the item's number in 14 digits; empty: the label has none
	Lot       string
	Serial    string
	Expiry    Date
	Quantity  int64 // of pieces; only where Counted
	Counted   bool
	Link      string // HIBC secondary: the check character of its primary
	Check     string // HIBC: check character
	Warnings  []Warning

	primary string // HIBC: + and primary data, without check character
	bare    string // HIBC: the scan without prefix; Plain: the number as it was scanned
}

// Item is what tells the item from others: its number in 14 digits, or HIBC's
// primary data with + and without check character. Empty: the label says lot,
// expiry or package only.
func (s Scan) Item() string {
	if s.GTIN14 != "" {
		return s.GTIN14
	}
	return s.primary
}

// Names lists what a catalogue may know the item by, the surest first: Item, of
// HIBC also with its check character, of Plain the digits as they were scanned.
func (s Scan) Names() (names []string) {
	if s.Item() == "" {
		return nil
	}
	names = []string{s.Item()}
	if check, ok := CheckCharacterOf(s.primary); ok && s.primary != "" {
		names = append(names, s.primary+string(check))
	}
	if s.Scheme == Plain && s.bare != s.GTIN14 {
		names = append(names, s.bare)
	}
	return names
}

// String is the printed form: identifiers in brackets. Of HIBC it is the first
// scan without its prefix, of Plain the number as it was scanned.
func (s Scan) String() string {
	if s.Scheme != GS1 && s.Scheme != DigitalLink {
		return s.bare
	}
	var b strings.Builder
	for _, e := range s.Elements {
		b.WriteString("(" + e.ID + ")" + strings.ReplaceAll(e.Value, "(", `\(`))
	}
	return b.String()
}

// ElementString is what a GS1 symbol carries, without prefix, with a separator
// only where one is needed. Of HIBC and Plain it is empty.
func (s Scan) ElementString() []byte {
	if s.Scheme != GS1 && s.Scheme != DigitalLink {
		return nil
	}
	var b []byte
	for i, e := range s.Elements {
		b = append(b, e.ID+e.Value...)
		if id, _ := lookUp(e.ID); !id.predefined && i+1 < len(s.Elements) {
			b = append(b, Separator)
		}
	}
	return b
}

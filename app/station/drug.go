package station

import (
	"image/color"
	"strconv"
	"strings"

	"lintel/kits"
	"lintel/mesh"
)

// Lists and the setting that say how a drug's label looks.
const (
	// ListLabels has a line for each class of drugs: its words are the colour
	// of the class on a screen as #rrggbb, its marks LabelStriped or none.
	ListLabels mesh.ID = "drug-label"
	// ListSpelling, with the name of a table behind it, has a line for each
	// name that is written in tall-man letters: its id is the name as SpellingID
	// writes it, its words are the spelling.
	ListSpelling mesh.ID = "tall-man-"
	// SettingSpelling names the table that the unit uses.
	SettingSpelling mesh.ID = "spelling"
	// LabelStriped marks an antagonist: 45° stripes of white and its colour.
	LabelStriped = 1
	// ClassOther is the class of a drug whose class nobody stated.
	ClassOther mesh.ID = "other"
)

// Drug is how a drug item is shown. Its class is a word wherever its colour is
// shown; the word stands under "drug-class." in the words.
type Drug struct {
	Name      string // tall-man letters by the unit's table, never all capitals
	Strength  string // "50 mg/mL"
	Volume    string // of one container, "10 mL"; empty: not stated
	Class     mesh.ID
	Colour    color.NRGBA // of the class, follows ISO 26825; black can be read on it
	Striped   bool        // an antagonist
	HighAlert bool
	LookAlike bool
	Counted   bool // a controlled drug here: how many is asked, never assumed
}

// Drug tells how an item is shown; false if it is no drug or not known.
func (v View) Drug(item mesh.Number) (Drug, bool) {
	line, known := v.Ledger.Item(item)
	x := line.Value
	if !known || x.Flags&kits.IsDrug == 0 {
		return Drug{}, false
	}
	d := Drug{
		Name: v.spelled(x), Class: x.LabelClass, HighAlert: x.Flags&kits.HighAlert != 0,
		LookAlike: x.Flags&kits.LookAlike != 0, Counted: x.Flags&kits.Controlled != 0,
	}
	strength, volume, _ := strings.Cut(string(x.Detail), ",")
	d.Strength, d.Volume = strength, strings.TrimSpace(volume)
	d.Class, d.Colour, d.Striped = v.label(x.LabelClass)
	return d, true
}

// spelled is the item's name: as its own line spells it, else as the unit's table does.
func (v View) spelled(x kits.ItemLine) string {
	if x.TallMan != "" {
		return string(x.TallMan)
	}
	table, _ := v.Board.Setting(SettingSpelling)
	line, known := v.Board.ListLine(ListSpelling+mesh.ID(table), SpellingID(string(x.Name)))
	if !known || line.Gone || line.Words == "" {
		return string(x.Name)
	}
	return string(line.Words)
}

// label is the colour of a class; a class without one is shown as other.
func (v View) label(class mesh.ID) (mesh.ID, color.NRGBA, bool) {
	for _, id := range []mesh.ID{class, ClassOther} {
		line, known := v.Board.ListLine(ListLabels, id)
		if c, ok := ParseColour(string(line.Words)); known && ok && !line.Gone {
			return id, c, line.Marks&LabelStriped != 0
		}
	}
	return ClassOther, color.NRGBA{R: 0xFF, G: 0xFF, B: 0xFF, A: 0xFF}, false
}

// SpellingID is the id under which a name stands in a spelling table: small
// letters, and a hyphen for whatever an id cannot have.
func SpellingID(name string) mesh.ID {
	return mesh.ID(strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			return r
		}
		return '-'
	}, strings.ToLower(name)))
}

// ParseColour reads a colour written #rrggbb.
func ParseColour(s string) (color.NRGBA, bool) {
	digits, hash := strings.CutPrefix(s, "#")
	n, err := strconv.ParseUint(digits, 16, 32)
	if !hash || err != nil || len(digits) != 6 {
		return color.NRGBA{}, false
	}
	return color.NRGBA{R: uint8(n >> 16), G: uint8(n >> 8), B: uint8(n), A: 0xFF}, true
}

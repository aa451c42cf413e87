package kits

import (
	"strings"

	"lintel/mesh"
)

// sortWord is a sort of place as lists and commands write it; empty for a
// number that is no sort.
func (s PlaceSort) word() string {
	switch s {
	case Supplier:
		return "supplier"
	case Store:
		return "store"
	case Trolley:
		return "trolley"
	case Kit:
		return "kit"
	case Door:
		return "door"
	case InRoom:
		return "inside"
	case Transit:
		return "transit"
	case Used:
		return "used"
	case Given:
		return "given"
	case Wasted:
		return "wasted"
	case DestroyedUnopened:
		return "destroyed"
	case Broken:
		return "broken"
	case Quarantined:
		return "quarantine"
	case Reprocessing:
		return "reprocessing"
	case Returned:
		return "returned"
	case LeftWithPatient:
		return "left"
	case DrawnOff:
		return "drawn"
	case Difference:
		return "difference"
	}
	return ""
}

// Words is a place as lists and commands write it: trolley/airway, inside/A1,
// supplier. ParsePlace reads it again.
func (p Place) Words() string {
	if p.ID == "" {
		return p.Sort.word()
	}
	return p.Sort.word() + "/" + string(p.ID)
}

// ParsePlace reads what Words wrote. The two sorts that only the fold makes are
// no places to name.
func ParsePlace(s string) (p Place, ok bool) {
	word, id, _ := strings.Cut(s, "/")
	p.ID = mesh.ID(id)
	for sort := Supplier; sort <= LeftWithPatient; sort++ {
		if word != "" && sort.word() == word {
			p.Sort = sort
			return p, p.ID.Valid() == nil
		}
	}
	return Place{}, false
}

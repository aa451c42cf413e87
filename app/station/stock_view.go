package station

import (
	"cmp"

	"lintel/kits"
	"lintel/mesh"
)

// Names of settings about stock.
const (
	settingSoon    mesh.ID = "expires-soon"
	settingCountry mesh.ID = "waste-country"
)

// Proposal is what is proposed for what is inside a room, line by line: what came
// in for an exercise ends in it, whatever case the count belongs to.
func (v View) Proposal(room mesh.ID) []kits.ProposedEnd {
	return v.Ledger.ProposalApart(room, v.Training())
}

// SoonMonths is how many months before its last day something is watched.
func (v View) SoonMonths() uint32 { return uint32(max(0, v.Board.Number(settingSoon))) }

// WasteQuestion asks for the unit's waste in the codes that it chose, exercises
// apart.
func (v View) WasteQuestion() kits.WasteQuestion {
	country, _ := v.Board.Setting(settingCountry)
	return kits.WasteQuestion{Drill: v.Training(), Country: cmp.Or(mesh.ID(country), kits.WasteEU)}
}

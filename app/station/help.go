package station

import (
	"strconv"
	"strings"

	"lintel/mesh"
	"lintel/requests"
)

// timeRescue is the line of the list of times for a tap on a rescue set.
const timeRescue mesh.ID = "rescue"

// noteRescue notes, with the tap on a rescue set, that it was wanted and when: the
// timeline of its case has it as a time. Where no case is open the request alone
// says it.
func (m *maker) noteRescue(tapped requests.Asked) {
	b, known := m.view.Ledger.Bundle(tapped.Thing.Item)
	if known && b.Value.Rescue != "" && tapped.Direction != requests.Out && !tapped.Case.IsZero() {
		m.add(requests.KindTime, &requests.Time{Case: tapped.Case, What: timeRescue, Words: mesh.Text(b.Value.Name)})
	}
}

// rescueOf is the time that was noted with the tap on a rescue set, if it stands.
func (m *maker) rescueOf(asked mesh.Ref) (mesh.Ref, bool) {
	of, _ := m.view.Board.CaseOf(asked)
	c, _ := m.view.Board.Case(of)
	for _, x := range c.Moments {
		if x.What == timeRescue && oneTap(x.Ref, asked) {
			return x.Ref, true
		}
	}
	return mesh.Ref{}, false
}

// callHelp asks, with the tap on a rescue set, for the persons that the unit
// chose to be called with it. Each is a request of its own.
func (m *maker) callHelp(tapped requests.Asked) {
	b, known := m.view.Ledger.Bundle(tapped.Thing.Item)
	if !known || b.Value.Rescue == "" || tapped.Direction == requests.Out {
		return
	}
	chosen, _ := m.view.Board.Setting("rescue-calls")
	for _, word := range strings.Fields(string(chosen)) {
		n, err := strconv.ParseUint(word, 10, 32)
		if err != nil || len(m.made) >= mesh.PartsMax-1 { // one part is left for a joining code
			continue
		}
		who, err := m.thing(requests.Thing{Item: mesh.Number(n), Count: 1})
		if err != nil {
			continue // the setting names nobody whom the catalogue has; the set is asked for all the same
		}
		call := tapped
		call.Thing, call.Bundle = who, tapped.Thing.Item
		m.add(requests.KindAsked, &call)
	}
}

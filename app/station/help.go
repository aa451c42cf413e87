package station

import (
	"strconv"
	"strings"

	"lintel/mesh"
	"lintel/requests"
)

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

package integration

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
	"lintel/mesh/meshtest"
	"lintel/requests"
)

// accountsApart says where the board and the ledger of one device tell another
// story of one delivery: it is open or disputed on the board if and only if one
// of its hand-overs is open or in conflict in the ledger, and what went in is
// the same; and whatever lies at a door in the ledger lies there on the board.
// Left out are deliveries that
//   - moved no stock: a person, or an item that no catalogue has;
//   - are of an AtDoor that was taken back after people said how it ended. The
//     board keeps what people took in; the ledger takes the movement out and
//     lists it as ended although reversed, for somebody to look at;
//   - lead to no request, because its author was removed and it lies above the
//     cut. The board lists their marks as loose; the stock was moved all the same.
func accountsApart(v station.View) (apart []string) {
	lying := map[mesh.Ref]bool{}
	for _, r := range v.Board.Requests() {
		for _, d := range r.Deliveries {
			lying[d.Ref] = d.Open || d.Disputed
			moved := handOvers(v.Ledger, d.Ref)
			if d.Ref.IsZero() || len(moved) == 0 {
				continue
			}
			lies, taken := false, requests.Count(0)
			for _, h := range moved {
				lies = lies || h.State == kits.HandOverOpen || h.State == kits.HandOverConflict
				if h.State == kits.HandOverEnded {
					taken = requests.Count(h.Taken[0])
				}
			}
			if lies != (d.Open || d.Disputed) || taken != d.Taken {
				apart = append(apart, fmt.Sprintf("%s of %s: %+v, in the ledger %+v", d.Ref, requests.Code(r.Ref), d, moved))
			}
		}
	}
	for _, h := range v.Ledger.AtDoor("") {
		if _, leads := v.Board.RequestOf(h.For); leads && !lying[h.For] {
			apart = append(apart, fmt.Sprintf("in the ledger alone: %+v", h))
		}
	}
	return apart
}

// handOvers are those that belong to a mark.
func handOvers(l *kits.Ledger, mark mesh.Ref) (out []kits.HandOver) {
	for _, m := range l.MovementsFor(mark) {
		if h, ok := l.HandOver(m.Ref); ok {
			out = append(out, h)
		}
	}
	return out
}

// Goal: the comparison above would notice a story told in two ways. Method:
// take in, then undo it on the board alone, as a faulty device would.
func TestAnEndUndoneOnTheBoardAloneIsFound(t *testing.T) {
	s := meshtest.NewSim(meshtest.Options{Seed: 1, Devices: 1, NewFold: newWorlds(t)})
	asked := do(t, s, 0, station.Ask{Room: "A1", Thing: requests.Thing{Item: 1007, Count: 1}, Urgency: requests.RightNow})
	do(t, s, 0, station.PutAtDoor{Request: asked})
	taken := do(t, s, 0, station.TakeIn{Request: asked})
	s.RunFor(time.Second)
	require.Empty(t, accountsApart(view(s, 0)))
	tap, parts, err := compose(s, 0, station.Undo{Mark: taken})
	require.NoError(t, err)
	s.Tap(0, tap, slices.DeleteFunc(parts, func(p mesh.Part) bool { return p.Kind == kits.KindReopened }))
	s.RunFor(time.Second)
	require.Len(t, accountsApart(view(s, 0)), 1)
}

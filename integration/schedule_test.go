package integration

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
	"lintel/mesh/meshtest"
	"lintel/requests"
)

// someAct is something a person might do on device i, given what it shows.
func someAct(s *meshtest.Sim, i int) station.Act {
	b := view(s, i).Board
	all := b.Requests()
	if len(all) == 0 || s.IntN(4) == 0 {
		return freshAct(s)
	}
	r := all[s.IntN(len(all))]
	switch s.IntN(13) {
	case 0, 1:
		return station.Go{Request: r.Ref}
	case 2, 3:
		t := r.Thing
		if s.IntN(4) == 0 {
			t.Count++
		}
		return station.ReadBack{Request: r.Ref, Thing: t, How: requests.Chosen}
	case 4, 5:
		return station.PutAtDoor{Request: r.Ref, Door: []mesh.ID{"", "A1", "A2"}[s.IntN(3)]}
	case 6:
		return station.TakeIn{Request: r.Ref, Count: requests.Count(s.IntN(int(r.Thing.Count) + 2))}
	case 7:
		return station.TakeBack{Request: r.Ref}
	case 8:
		return station.Withdraw{Request: r.Ref}
	case 9:
		return station.Offer{Request: r.Ref, Things: []requests.Thing{someThing(s), someThing(s)}}
	case 10:
		return station.Agree{Request: r.Ref, Which: uint8(s.IntN(3))}
	case 11:
		return station.Join{One: r.Ref, Other: all[s.IntN(len(all))].Ref}
	}
	return station.Undo{Mark: r.Marks[s.IntN(len(r.Marks))].Ref}
}

func freshAct(s *meshtest.Sim) station.Act {
	rooms := []mesh.ID{"A1", "A2"}
	room := rooms[s.IntN(len(rooms))]
	switch s.IntN(5) {
	case 0:
		return station.PassIn{Room: room, Thing: someThing(s)}
	case 1:
		return station.Ask{Room: room, Thing: someThing(s), Urgency: requests.NextOpening, Origin: requests.AskedByVoice}
	case 2:
		return station.Move{Movements: []kits.Moved{{
			From: kits.Place{Sort: kits.Supplier}, To: kits.Place{Sort: kits.Store, ID: "main"},
			Lines: []kits.Line{kits.Containers(1007, int64(1+s.IntN(20)))},
		}}}
	}
	return station.Ask{Room: room, Thing: someThing(s), Urgency: requests.RightNow}
}

func someThing(s *meshtest.Sim) requests.Thing {
	items := []mesh.Number{1007, 1010, 1029, 229}
	return requests.Thing{Item: items[s.IntN(len(items))], Count: requests.Count(1 + s.IntN(3)), Measure: mesh.Each}
}

// Goal: requests and stock, too, end the same on every device and keep every
// promise, whatever goes wrong. Method: seeded schedules of faults in which
// people do what the screens would let them, through the real folds; the
// checks of meshtest, among them that folding again in another order changes
// nothing. Every hundredth schedule signs with Ed25519.
func TestRequestsAndStockSurviveEverySchedule(t *testing.T) {
	fold := newWorlds(t)
	for seed := range seedsAsked(200) {
		s := meshtest.NewSim(meshtest.Options{Seed: seed, Devices: 5, NewFold: fold, Real: seed%100 == 99})
		s.RunSchedule(meshtest.Plan{Entries: 120, Faults: 10, Span: 100 * time.Second, Tap: func(s *meshtest.Sim, i int) (mesh.Tap, []mesh.Part) {
			tap, parts, err := compose(s, i%s.Devices(), someAct(s, i))
			if err != nil {
				return mesh.Tap{}, nil // what a screen would not let them do
			}
			return tap, parts
		}})
		if b := s.Broken(); len(b) > 0 {
			t.Fatalf("seed %d: %d promises broken, the first: %s", seed, len(b), b[0])
		}
		for i := range s.Devices() {
			require.Empty(t, accountsApart(view(s, i)), "seed %d, device %d", seed, i)
		}
	}
}

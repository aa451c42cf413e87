package integration

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/mesh/meshtest"
	"lintel/requests"
)

// insideDevices and outsideDevices are the two sides of the door in the cut.
const (
	lead, assistant = 0, 1
	runner          = 2
	cutDevices      = 5
)

// serve carries a request through the loop on the runner's device; taken says
// who takes it in.
func serve(t *testing.T, s *meshtest.Sim, request mesh.Ref, taken int) {
	t.Helper()
	r, ok := view(s, runner).Board.Request(request)
	require.True(t, ok)
	do(t, s, runner, station.Go{Request: request})
	do(t, s, runner, station.ReadBack{Request: request, Thing: r.Thing, How: requests.Chosen})
	do(t, s, runner, station.PutAtDoor{Request: request})
	s.RunFor(time.Second)
	do(t, s, taken, station.TakeIn{Request: request})
}

// Goal: after a cut nothing that was already served rings again, and nothing is
// brought twice. Method: four requests are asked inside while the door cuts the
// radio for five minutes; two are shown on the glass with their joining codes,
// entered by the runner as asked by voice, and served. Watch the runner's board
// after every step of the heal; then serve what still rings.
func TestACutBringsFourDeliveriesAndServedOnesNeverRing(t *testing.T) {
	for seed := range uint64(25) {
		s := meshtest.NewSim(meshtest.Options{Seed: seed, Devices: cutDevices, NewFold: newWorlds(t)})
		for i := range cutDevices {
			holds := requests.Holds{Role: people(i).Role, Tag: people(i).Tag, Rooms: []mesh.ID{"A1"}}
			do(t, s, i, station.Hold{Holds: holds})
		}
		settled(t, s, cutDevices)
		s.Cut(lead, assistant)
		asked := []mesh.Ref{}
		for i, item := range []mesh.Number{1007, 1010, 1029, 1032} {
			asked = append(asked, do(t, s, i%2, station.Ask{
				Room: "A1", Thing: requests.Thing{Item: item, Count: 1}, Urgency: requests.RightNow,
			}))
		}
		for i, item := range []mesh.Number{1007, 1010} {
			code := mesh.Label(requests.Code(asked[i]))
			heard := do(t, s, runner, station.Ask{
				Room: "A1", Thing: requests.Thing{Item: item, Count: 1}, Urgency: requests.RightNow,
				Origin: requests.AskedByVoice, Tag: "L1", Code: code,
			})
			serve(t, s, heard, runner) // seen through the glass
		}
		s.RunFor(5 * time.Minute)
		s.Heal()
		for range 100 {
			s.RunFor(100 * time.Millisecond)
			for i := range cutDevices {
				for _, ref := range asked[:2] {
					if r, here := view(s, i).Board.Request(ref); here && i >= runner {
						require.False(t, view(s, i).Board.Ringing(r), "seed %d: device %d rings for what was served", seed, i)
					}
				}
			}
		}
		settled(t, s, cutDevices)
		ringing := 0
		for _, r := range view(s, runner).Board.Open() {
			if view(s, runner).Board.Ringing(r) {
				ringing++
				serve(t, s, r.Ref, lead)
			}
		}
		require.Equal(t, 2, ringing, "seed %d", seed)
		settled(t, s, cutDevices)
		for i := range cutDevices {
			require.Equal(t, 4, view(s, i).Board.Delivered(), "seed %d, device %d", seed, i)
			require.Len(t, view(s, i).Board.Needs(), 4)
		}
		require.Empty(t, s.Broken())
	}
}

package device

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// running starts a device on a loopback port and ends it with the test.
func running(t *testing.T, dir, name string) *Device {
	t.Helper()
	d, err := Open(Options{Dir: dir, Name: mesh.Label(name), Listen: "127.0.0.1:0"})
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- d.Run(ctx) }() // awaited in the cleanup
	t.Cleanup(func() {
		stop()
		<-ended
	})
	<-d.Ready()
	return d
}

// joined lets b join a's unit.
func joined(t *testing.T, a, b *Device) {
	t.Helper()
	done := make(chan error, 1)
	code, _, err := a.Invite(t.Context(), mesh.By{}, func(_ mesh.Key, err error) { done <- err })
	require.NoError(t, err)
	require.NoError(t, b.Join(t.Context(), a.Address(), code))
	require.NoError(t, <-done)
}

func stationOf(t *testing.T, d *Device) *station.Station {
	t.Helper()
	s, err := d.Station()
	require.NoError(t, err)
	return s
}

// hash is the device's state hash and the number of its requests.
func hash(t *testing.T, d *Device) (h mesh.Hash, n int) {
	t.Helper()
	require.NoError(t, stationOf(t, d).Look(t.Context(), func(v station.View) {
		h, n = v.StateHash(), len(v.Board.Requests())
	}))
	return h, n
}

// Goal: the whole way works: two folders, two sockets, one code, one request,
// the same state. Method: found, invite, join, ask on one side and wait until
// the other has it and both states are equal.
func TestARequestReachesTheDeviceThatJoined(t *testing.T) {
	a := running(t, t.TempDir(), "inside tablet")
	b := running(t, t.TempDir(), "runner phone")
	require.NoError(t, a.Found("Invented unit"))
	joined(t, a, b)
	by := mesh.By{Role: "lead", Tag: "L1"}
	r, err := stationOf(t, a).Do(t.Context(), by, station.Ask{
		Room: "A1", Thing: requests.Thing{Item: 1007, Count: 1}, Urgency: requests.RightNow,
	})
	require.NoError(t, err)
	require.True(t, r.Saved)
	require.Eventually(t, func() bool {
		ha, _ := hash(t, a)
		hb, n := hash(t, b)
		return n == 1 && ha == hb
	}, 10*time.Second, 20*time.Millisecond)
}

// Goal: nothing recorded before joining is lost. Method: record on a device
// that belongs to no unit, join, and find the request in the other's state.
func TestWhatWasRecordedAloneIsEnteredAgain(t *testing.T) {
	a := running(t, t.TempDir(), "a")
	b := running(t, t.TempDir(), "b")
	require.NoError(t, a.Found("Invented unit"))
	require.NoError(t, b.FoundAlone())
	r, err := stationOf(t, b).Do(t.Context(), mesh.By{Tag: "L1"}, station.Ask{
		Room: "A1", Thing: requests.Thing{Item: 1007, Count: 2}, Urgency: requests.NextOpening,
	})
	require.NoError(t, err)
	joined(t, a, b)
	require.Eventually(t, func() (there bool) {
		require.NoError(t, stationOf(t, a).Look(t.Context(), func(v station.View) { _, there = v.Board.Request(r.Ref) }))
		return there
	}, 10*time.Second, 20*time.Millisecond)
	require.ErrorIs(t, b.Join(t.Context(), a.Address(), "000 000 0"), ErrHasUnit)
}

// Goal: a start goes on where the last one ended. Method: end a device and
// open its folder again; the state is the same.
func TestAStartFindsEverythingAgain(t *testing.T) {
	dir := t.TempDir()
	d, err := Open(Options{Dir: dir, Name: "a", Listen: "127.0.0.1:0"})
	require.NoError(t, err)
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- d.Run(ctx) }() // awaited below
	<-d.Ready()
	require.NoError(t, d.Found("Invented unit"))
	_, err = stationOf(t, d).Do(ctx, mesh.By{}, station.Ask{Room: "A1", Thing: requests.Thing{Item: 1007, Count: 1}, Urgency: requests.RightNow})
	require.NoError(t, err)
	before, _ := hash(t, d)
	stop()
	<-ended
	after, n := hash(t, running(t, dir, "a"))
	require.Equal(t, before, after)
	require.Equal(t, 1, n)
}

package disk

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// crashSeeds is how many histories the simulation plays.
const crashSeeds = 1000

// history plays the lives of one log: what was acknowledged, and what was only tried.
type history struct {
	t     *testing.T
	f     *Faulty
	rng   *rand.Rand
	acked []string // records whose Append returned nil, in order
	tried []string // those of the append that failed last
	count int
}

// Goal: whatever happens, everything whose Append returned nil is found again,
// in order; an append that failed is found whole or not at all; a store that
// failed takes nothing more; a crash alone never looks like damage. Method: for
// each seed six lives of one log, each ended by a kill, a power cut, a failed
// sync or a full disk at a random change, opening included.
func TestNothingAcknowledgedIsLost(t *testing.T) {
	for seed := range uint64(crashSeeds) {
		h := &history{t: t, f: NewFaulty(seed), rng: rand.New(rand.NewPCG(seed, 1))}
		for life := range 6 {
			if t.Failed() {
				return
			}
			h.live(fmt.Sprintf("seed %d, life %d", seed, life))
		}
		h.check(fmt.Sprintf("seed %d, at the end", seed))
	}
}

// live opens the log under a fault to come, appends until it comes, and ends.
func (h *history) live(where string) {
	switch h.rng.IntN(4) {
	case 0:
		h.f.CrashAfter(1 + h.rng.IntN(40))
	case 1:
		h.f.FailSync(1 + h.rng.IntN(20))
	case 2:
		h.f.SetSpace(int64(h.rng.IntN(4000)))
	}
	s, found, err := Open(options(h.f))
	if err == nil {
		h.compare(where, found)
		if found.NotWritable == nil {
			h.write(where, s, found.Newest)
		} else {
			require.Error(h.t, s.Append(mesh.Append{Batch: found.Newest + 1}), where)
		}
		if h.rng.IntN(3) == 0 {
			_ = s.Close()
		}
	} else {
		require.ErrorIs(h.t, err, ErrCrashed, where)
	}
	if h.rng.IntN(2) == 0 {
		h.f.Restart()
	} else if !h.down() {
		h.f.Kill()
	} else {
		h.f.Restart()
	}
}

func (h *history) down() bool {
	_, err := h.f.ReadDir("/")
	return errors.Is(err, ErrCrashed)
}

// write appends up to twelve batches, and three more after a failure.
func (h *history) write(where string, s *Store, newest uint64) {
	for range 12 {
		newest++
		a := mesh.Append{Batch: newest}
		var texts []string
		for range h.rng.IntN(4) {
			h.count++
			text := fmt.Sprintf("record %d", h.count)
			texts = append(texts, text)
			a.Records = append(a.Records, record(text+strings.Repeat(".", h.rng.IntN(700)), h.rng.IntN(2) == 0))
		}
		if h.rng.IntN(9) == 0 {
			s.full = true // a new segment, without writing 8 MiB
		}
		if err := s.Append(a); err != nil {
			h.tried = texts
			for range 3 {
				require.Equal(h.t, ErrPoisoned, s.Append(a), where)
			}
			return
		}
		h.acked = append(h.acked, texts...)
	}
}

// compare checks what was found, and takes over what was tried and is there.
func (h *history) compare(where string, found *Found) {
	require.Empty(h.t, found.Damage, where)
	var texts []string
	for _, r := range found.Records {
		texts = append(texts, strings.TrimRight(string(r.Item.Bytes), "."))
	}
	if len(texts) > len(h.acked) {
		require.Equal(h.t, append(h.acked[:len(h.acked):len(h.acked)], h.tried...), texts, where)
		if found.NotWritable == nil {
			h.acked, h.tried = texts, nil // it was made durable, so from now on it must stay
		}
		return
	}
	require.Equal(h.t, h.acked, texts, where)
	if found.NotWritable == nil {
		h.tried = nil // it is gone, and its number is given again
	}
}

func (h *history) check(where string) {
	s, found, err := Open(options(h.f))
	require.NoError(h.t, err, where)
	h.compare(where, found)
	require.NoError(h.t, s.Close(), where)
}

// Goal: the simulated disk is as treacherous as a real one, so that the test
// above can fail: believing a sync that is tried again after it failed loses
// bytes. Method: write, fail a sync, sync again with success, cut the power; over
// some seeds the bytes must be gone.
func TestASyncTriedAgainIsNotToBeBelieved(t *testing.T) {
	lost := 0
	for seed := range uint64(100) {
		f := NewFaulty(seed)
		file, err := f.Open("/x", true, 0o600)
		require.NoError(t, err)
		require.NoError(t, file.Sync())
		require.NoError(t, f.SyncDir("/"))
		_, err = file.WriteAt([]byte("acknowledged"), 0)
		require.NoError(t, err)
		f.FailSync(1)
		require.Error(t, file.Sync())
		require.NoError(t, file.Sync())
		require.Equal(t, "acknowledged", string(f.Bytes("/x")), "programs see it")
		f.Restart()
		if string(f.Bytes("/x")) != "acknowledged" {
			lost++
		}
	}
	require.Greater(t, lost, 20)
	require.Less(t, lost, 100)
}

// Goal: a batch that was seen after a failed sync, and not on the disk, is on
// the disk once the log was opened. Method: fail the sync of an append, kill the
// process, open (which shows the record), cut the power, open again.
func TestOpeningMakesDurableWhatItShows(t *testing.T) {
	shown := 0
	for seed := range uint64(100) {
		f := NewFaulty(seed)
		three(t, options(f))
		s, _, err := Open(options(f))
		require.NoError(t, err)
		f.FailSync(1)
		require.Error(t, s.Append(mesh.Append{Batch: 4, Records: []mesh.Record{record("seen", false)}}))
		f.Kill()
		_, found, err := Open(options(f))
		require.NoError(t, err)
		before := len(found.Records)
		require.Equal(t, 7, before)
		f.Restart()
		_, found, err = Open(options(f))
		require.NoError(t, err)
		require.Len(t, found.Records, before, "seed %d", seed)
		shown++
	}
	require.Equal(t, 100, shown)
}

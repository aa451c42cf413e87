package station

import (
	"context"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// doer notes the acts in the order in which they are carried out.
type doer struct {
	acts []Act
	hold chan struct{} // nil: answers at once
}

func (d *doer) Do(ctx context.Context, _ mesh.By, act Act) (Result, error) {
	if d.hold != nil {
		select {
		case <-d.hold:
		case <-ctx.Done():
			return Result{}, ctx.Err()
		}
	}
	d.acts = append(d.acts, act)
	return Result{Saved: true}, nil
}

// TestTapsAreCarriedOutInOrderAndASlipCountsOnce taps, slips, and taps the same
// again later: three acts, answered in order through the posting function.
func TestTapsAreCarriedOutInOrderAndASlipCountsOnce(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		ctx, stop := context.WithCancel(t.Context())
		d, posted := &doer{}, 0
		taps := NewTaps(d, func(f func()) { posted++; f() }, time.Now)
		ended := make(chan error, 1)
		go func() { ended <- taps.Run(ctx) }() // joined by the receive below
		answered := 0
		done := func(r Result, err error) {
			require.NoError(t, err)
			require.True(t, r.Saved)
			answered++
		}
		one, other := Go{Request: mesh.Ref{1}}, Go{Request: mesh.Ref{2}}
		require.True(t, taps.Tap(mesh.By{}, one, done))
		require.False(t, taps.Tap(mesh.By{}, one, done), "a slip")
		require.True(t, taps.Tap(mesh.By{}, other, done))
		time.Sleep(AgainAfter)
		require.True(t, taps.Tap(mesh.By{}, other, done), "meant")
		synctest.Wait()
		stop()
		require.ErrorIs(t, <-ended, context.Canceled)
		require.Equal(t, []Act{one, other, other}, d.acts)
		require.Equal(t, 3, answered)
		require.Equal(t, 3, posted)
	})
}

// TestAFullQueueOfTapsRefuses holds the disk still and taps until nothing more
// is taken; a person has to be told, and nothing is forgotten in silence.
func TestAFullQueueOfTapsRefuses(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		ctx, stop := context.WithCancel(t.Context())
		taps := NewTaps(&doer{hold: make(chan struct{})}, func(f func()) { f() }, time.Now)
		ended := make(chan error, 1)
		go func() { ended <- taps.Run(ctx) }() // joined by the receive below
		n := byte(0)
		for ; n < 100; n++ {
			synctest.Wait()
			var refused error
			require.True(t, taps.Tap(mesh.By{}, Go{Request: mesh.Ref{n}}, func(_ Result, err error) { refused = err }))
			if refused != nil {
				require.ErrorIs(t, refused, ErrBusy)
				break
			}
		}
		require.EqualValues(t, tapsMax+1, n, "one is under way, the others wait")
		stop()
		<-ended
	})
}

// TestLayoutsAreReadOrRefusedByRow reads the starter layout and bad ones.
func TestLayoutsAreReadOrRefusedByRow(t *testing.T) {
	starter, err := ReadStarter()
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(starter.Board.Tiles), 20)
	require.NotEmpty(t, starter.Board.Name)
	v := empty(t)
	seen := map[mesh.Number]bool{}
	for i, tile := range starter.Board.Tiles {
		require.Equal(t, i+1, tile.Place)
		item, known := v.Ledger.Item(tile.Item)
		require.True(t, known, tile.Item)
		require.False(t, item.Value.Gone)
		require.False(t, seen[tile.Item], "%d has two places", tile.Item)
		seen[tile.Item] = true
	}
	head := "layout,place,item,word,source\n"
	for _, bad := range []string{
		"", head, "layout,place\n", head + "a,2,1108,Bougie,x\n", head + "a,1,1109,Bougie,x\n", head + "a,1,,Bougie,x\n",
		head + "a,1,1108,,x\n", head + "a,1,1108,Bougie,x\nb,2,1029,Tube,x\n", head + "a,1,1108,Bougie\n",
	} {
		_, err := ReadLayout([]byte(bad))
		require.ErrorIs(t, err, ErrLayout, bad)
	}
}

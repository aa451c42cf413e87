package show

import (
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/require"
)

// queue is what waits for a UI goroutine that takes its time.
type queue struct {
	waiting chan func()
	most    int // how many were waiting at once
}

func (q *queue) do(f func()) {
	q.waiting <- f
	q.most = max(q.most, len(q.waiting))
}

// Goal: a slow screen shows the newest, and work never piles up. Method: in a
// bubble a thousand snapshots come every millisecond to a screen that needs
// 100 ms for each paint; look at what was painted and when it was over.
func TestTheNewestWinsAndOnePaintIsQueued(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		q := &queue{waiting: make(chan func(), 10)}
		var painted []int
		c := New(q.do, func(n int) { painted = append(painted, n) })
		var ui sync.WaitGroup
		ui.Go(func() {
			for f := range q.waiting {
				time.Sleep(100 * time.Millisecond)
				f()
			}
		})
		began := time.Now()
		for n := range 1000 {
			c.Bring(n)
			time.Sleep(time.Millisecond)
		}
		close(q.waiting)
		ui.Wait()
		require.Equal(t, 999, painted[len(painted)-1], "the last one was not shown")
		require.IsIncreasing(t, painted)
		require.LessOrEqual(t, len(painted), 11)
		require.Equal(t, 1, q.most)
		require.Less(t, time.Since(began), 1200*time.Millisecond)
	})
}

// Goal: a screen that keeps up shows everything. Method: paints that run at once.
func TestAScreenThatKeepsUpShowsEverySnapshot(t *testing.T) {
	var painted []int
	c := New(func(f func()) { f() }, func(n int) { painted = append(painted, n) })
	for n := range 5 {
		c.Bring(n)
	}
	require.Equal(t, []int{0, 1, 2, 3, 4}, painted)
}

// Goal: nothing is lost or torn when a snapshot comes while another is being
// painted. Method: the race detector watches one goroutine bring 10,000 while
// another paints; the last one must be seen.
func TestBringingWhilePaintingLosesNotTheLast(t *testing.T) {
	q := &queue{waiting: make(chan func(), 10)}
	var last [2]int
	c := New(func(f func()) { q.waiting <- f }, func(pair [2]int) { last = pair })
	var ui sync.WaitGroup
	ui.Go(func() {
		for f := range q.waiting {
			f()
		}
	})
	for n := range 10_000 {
		c.Bring([2]int{n, n})
	}
	close(q.waiting)
	ui.Wait()
	require.Equal(t, [2]int{9999, 9999}, last)
}

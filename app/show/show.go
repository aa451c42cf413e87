// Package show carries snapshots from whatever goroutine has them to the one
// that paints. The newest wins: a screen that is slow shows fewer of them, and
// never an old one after a newer. It knows nothing of what it carries.
//
//	carrier := show.New(fyne.Do, board.Set)   // in cmd; tests hand in a function of their own
//	carrier.Bring(rows(snapshot))             // from any goroutine; worded before it gets here
package show

import "sync/atomic"

// Carrier holds at most one snapshot on its way, and at most one paint queued.
type Carrier[S any] struct {
	newest atomic.Pointer[S] // written by Bring, emptied by the paint
	do     func(func())
	paint  func(S)
}

// New makes a carrier. do queues a function for the UI goroutine and runs them
// one after the other; it may drop them when the program ends. paint runs there
// and must not wait. Nothing durable belongs in it.
func New[S any](do func(func()), paint func(S)) *Carrier[S] {
	return &Carrier[S]{do: do, paint: paint}
}

// Bring hands a snapshot over. It blocks no longer than do does, and replaces
// one that was not painted yet. Snapshots brought from several goroutines at
// once have no order: let one goroutine bring.
func (c *Carrier[S]) Bring(s S) {
	if c.newest.Swap(&s) != nil {
		return // the paint already queued will take this one
	}
	c.do(func() { c.paint(*c.newest.Swap(nil)) })
}

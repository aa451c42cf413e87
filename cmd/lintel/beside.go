package main

import (
	"context"
	"io"
	"sync"

	"fyne.io/fyne/v2"

	"lintel/app/station"
)

// beside is everything that runs beside the window. All of it ends before the
// window's goroutine does, so that nobody is left who paints.
type beside struct {
	worker *worker
	window *window
	taps   *station.Taps
	units  *units
	papers *papers
	noise  *programSounder
	post   func(func()) // runs a function on the window's goroutine, until everything ends
	stdin  io.Reader
	stdout io.Writer

	steering sync.Mutex    // held while a line is obeyed, and for good at the end
	ended    chan struct{} // closed when everything has ended
	failed   error         // why the device ended; to be read after ended
}

// begin starts everything. When ctx ends it waits for all of it and then quits.
func (b *beside) begin(ctx context.Context, quit func()) {
	b.ended = make(chan struct{})
	var all sync.WaitGroup
	all.Go(func() { _ = b.taps.Run(ctx) }) // it ends because ctx did
	all.Go(func() { b.units.errands.run(ctx) })
	all.Go(func() { b.papers.errands.run(ctx) })
	all.Go(func() { b.noise.run(ctx) })
	all.Go(func() {
		b.failed = b.worker.run(ctx, func() {
			if b.window.opt.steer {
				go b.steer(ctx) // ends with its input, or with the process: a read cannot be broken off
			}
		})
		if b.failed != nil {
			b.worker.bring(sight{Fault: about(b.failed, b.window.opt.dir)})
		}
	})
	go func() { // joined by whoever waits for ended
		<-ctx.Done()
		all.Wait()
		b.steering.Lock()
		close(b.ended)
		fyne.Do(quit)
	}()
}

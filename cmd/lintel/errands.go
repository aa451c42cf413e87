package main

import (
	"context"
	"errors"
)

// errands are done one after another, beside the window.
type errands chan func(context.Context)

// errandsMax bounds what waits for the network, or for a paper. A page asks for
// one thing at a time; beyond it nothing more is taken, and the page says so.
const errandsMax = 4

// errBusy says that too much waits.
var errBusy = errors.New("too much waits")

func newErrands() errands { return make(errands, errandsMax) }

// run does errands until ctx ends.
func (e errands) run(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case errand := <-e:
			errand(ctx)
		}
	}
}

// take queues an errand and never waits.
func (e errands) take(errand func(context.Context), full func(error)) {
	select {
	case e <- errand:
	default:
		full(errBusy)
	}
}

package main

import (
	"context"
	"errors"
	"net/netip"
	"time"

	"lintel/mesh/lan"
)

// A join without an address, said right after the start, waits until something
// is found or a typed address answers.
const (
	joinWithin = 5 * time.Second // then it fails
	joinAgain  = 250 * time.Millisecond
)

// joining is one attempt to join wherever somebody shows the code.
type joining struct {
	typed  []string        // addresses given with -peer
	looks  bool            // the device looks for others, so that more may turn up
	nearby func() []string // addresses of devices that are in a unit
	join   func(ctx context.Context, addr string) error
}

// joiningBy makes one for a session.
func (s *session) joiningBy(code string) joining {
	own, err := netip.ParseAddrPort(s.dev.Address())
	return joining{
		typed: s.peers, looks: s.find && (err != nil || !own.Addr().IsLoopback()),
		nearby: func() (all []string) {
			for _, c := range s.dev.Nearby() {
				if c.InUnit {
					all = append(all, c.Address)
				}
			}
			return all
		},
		join: func(ctx context.Context, addr string) error { return about(s.dev.Join(ctx, addr, code), addr) },
	}
}

// run tries every address in turn, and again while somebody may still answer.
// It goes on to the next only where nobody there could have heard the code.
func (j joining) run(ctx context.Context) error {
	var failed error = &fault{id: "no-peer"}
	done := map[string]bool{} // shows no code, or is this device itself
	over := time.NewTimer(joinWithin)
	defer over.Stop()
	for {
		waits := j.looks
		for _, addr := range append(j.typed[:len(j.typed):len(j.typed)], j.nearby()...) {
			if done[addr] {
				continue
			}
			failed = j.join(ctx, addr)
			switch {
			case errors.Is(failed, lan.ErrNoInvitation), errors.Is(failed, lan.ErrOwnAddress):
				done[addr] = true
			case errors.Is(failed, lan.ErrNoAnswer):
				waits = true
			default:
				return failed
			}
		}
		if !waits {
			return failed
		}
		select {
		case <-ctx.Done():
			return &fault{id: "interrupted"}
		case <-over.C:
			return failed
		case <-time.After(joinAgain):
		}
	}
}

package main

import (
	"context"
	"errors"

	"lintel/app/join"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/mesh/lan"
)

// units does what the page of the device asks about units, one thing after
// another, beside the window. Its loop owns code.
type units struct {
	worker  *worker
	post    func(func())
	errands errands
	joined  func(error)        // shows how an invitation ended; runs on the window's goroutine
	code    context.CancelFunc // ends the invitation that is shown; nil: none
}

func newUnits(w *worker, post func(func())) *units {
	return &units{worker: w, post: post, errands: newErrands(), joined: func(error) {}}
}

// Found is part of join.Unit.
func (u *units) Found(name mesh.Label, done func(error)) {
	u.errands.take(func(ctx context.Context) {
		err := u.worker.found(ctx, name)
		u.post(func() { done(err) })
	}, done)
}

// Join is part of join.Unit.
func (u *units) Join(address, code string, done func(error)) {
	u.errands.take(func(ctx context.Context) {
		err := u.worker.join(ctx, code, address)
		u.post(func() { done(err) })
	}, done)
}

// Invite is part of join.Unit.
func (u *units) Invite(done func(join.Invitation, error)) {
	u.errands.take(func(ctx context.Context) {
		u.endCode()
		ctx, u.code = context.WithCancel(ctx)
		code, until, err := u.worker.dev.Invite(ctx, u.worker.by(), func(_ mesh.Key, err error) {
			if !errors.Is(err, context.Canceled) {
				u.post(func() { u.joined(err) })
			}
		})
		u.post(func() { done(join.Invitation{Code: code, Until: mesh.Wall(until.UnixMilli())}, err) })
	}, func(err error) { done(join.Invitation{}, err) })
}

// Cancel is part of join.Unit.
func (u *units) Cancel() {
	u.errands.take(func(context.Context) { u.endCode() }, func(error) {})
}

func (u *units) endCode() {
	if u.code != nil {
		u.code()
		u.code = nil
	}
}

// near words the devices that were found on the network.
func near(w words.Words, all []lan.Candidate) (out []join.Near) {
	ways := []struct {
		bit lan.Ways
		id  words.ID
	}{{lan.ByTyping, "found.typed"}, {lan.ByMemory, "found.remembered"}, {lan.ByBeacon, "found.beacon"}, {lan.ByMDNS, "found.mdns"}, {lan.ByTelling, "found.told"}}
	for _, c := range all {
		n := join.Near{Address: c.Address}
		for _, way := range ways {
			if c.Ways&way.bit != 0 && n.Way == "" {
				n.Way = w.Say(way.id)
			}
		}
		out = append(out, n)
	}
	return out
}

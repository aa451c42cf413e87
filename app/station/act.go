package station

import (
	"context"

	"lintel/mesh"
)

// Act is something a person does with a tap. Its methods run in the loop.
type Act interface {
	// parts makes what the entry will say, the By apart. It changes nothing.
	parts(m *maker) error
}

// Result is what became of a tap.
type Result struct {
	Tap   mesh.Tap
	At    mesh.Order
	Saved bool     // it is on this device's disk
	Ref   mesh.Ref // what the act made or answered: a request's Asked, mostly
	Err   error    // nothing was recorded
}

// order is an act on its way into the loop.
type order struct {
	act    Act
	by     mesh.By
	answer chan Result
}

// Do records an act of whoever by names and waits until it is on the disk, or
// is known not to be. An error says that nothing was recorded, and why.
func (s *Station) Do(ctx context.Context, by mesh.By, act Act) (Result, error) {
	o := order{act: act, by: by, answer: make(chan Result, 1)}
	select {
	case s.acts <- o:
	case <-ctx.Done():
		return Result{}, ctx.Err()
	case <-s.stopped:
		return Result{}, ErrStopped
	}
	select {
	case r := <-o.answer:
		return r, r.Err
	case <-ctx.Done():
		return Result{}, ctx.Err()
	case <-s.stopped:
		return Result{}, ErrStopped
	}
}

// Enter records parts that were recorded before, under the tap that they had
// then, and waits like Do. Entering the same tap twice records it once.
func (s *Station) Enter(ctx context.Context, tap mesh.Tap, parts []mesh.Part) (Result, error) {
	return s.Do(ctx, mesh.By{}, again{tap: tap, made: parts})
}

// again is the act behind Enter.
type again struct {
	tap  mesh.Tap
	made []mesh.Part
}

func (a again) parts(m *maker) error {
	m.tap, m.made = a.tap, a.made
	return nil
}

// obey turns an act into an entry.
func (s *Station) obey(o order) {
	var tap mesh.Tap
	s.opt.Random(tap[:])
	m, err := compose(s.view(), s.opt.Self, tap, o.by, o.act)
	if err != nil {
		o.answer <- Result{Err: err}
		return
	}
	ref := m.ref
	if ref.IsZero() {
		ref = mesh.MakeRef(m.self, m.tap, 1)
	}
	s.waiting[m.tap] = waiter{answer: o.answer, ref: ref}
	s.step(mesh.Enter{Tap: m.tap, Parts: m.made})
}

// compose makes what the entry of an act says.
func compose(v View, self mesh.Key, tap mesh.Tap, by mesh.By, act Act) (*maker, error) {
	m := &maker{view: v, self: self, tap: tap, by: by}
	m.add(mesh.KindBy, &m.by)
	if err := act.parts(m); err != nil {
		return nil, err
	}
	return m, m.err
}

// Compose gives the parts that an act would write, seen from v, without
// writing them.
func Compose(v View, self mesh.Key, tap mesh.Tap, by mesh.By, act Act) ([]mesh.Part, error) {
	m, err := compose(v, self, tap, by, act)
	if err != nil {
		return nil, err
	}
	return m.made, nil
}

// waiter is who waits for a tap, and what the tap is about.
type waiter struct {
	answer chan Result // has room for the one answer
	ref    mesh.Ref
}

// answer tells whoever waits for a tap.
func (s *Station) answer(tap mesh.Tap, r Result) {
	if w, ok := s.waiting[tap]; ok {
		delete(s.waiting, tap)
		r.Ref = w.ref
		w.answer <- r
	}
}

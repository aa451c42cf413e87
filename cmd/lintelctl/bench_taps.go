package main

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"strings"
	"sync"
	"sync/atomic"

	"lintel/app/device"
	"lintel/mesh"
	"lintel/requests"
)

// Lines of debrief that taps and answers are written as.
const (
	lineWarm     mesh.ID = "bench-warm"
	lineMeasured mesh.ID = "bench"
	lineAnswer   mesh.ID = "bench-answer" // its Case names the part it answers
)

// benchParts makes what one tap writes: who, and size bytes of debrief line.
func benchParts(line mesh.ID, size int) ([]mesh.Part, error) {
	by, err := mesh.MakePart(mesh.KindBy, &mesh.By{Role: "scribe", Tag: "S1"})
	if err != nil {
		return nil, err
	}
	parts := []mesh.Part{by}
	for len(parts) == 1 || size > 0 {
		p, err := textPart(line, size)
		if err != nil {
			return nil, err
		}
		parts, size = append(parts, p), size-len(p.Body)
	}
	return parts, nil
}

// textPart makes a part whose body has about size bytes, as far as one can.
func textPart(line mesh.ID, size int) (mesh.Part, error) {
	body := requests.DebriefLine{Line: line}
	empty, err := mesh.Encode(&body)
	if err != nil {
		return mesh.Part{}, err
	}
	body.Words = mesh.Text(strings.Repeat("x", min(max(0, size-len(empty)), mesh.TextLenMax)))
	return mesh.MakePart(requests.KindDebriefLine, &body)
}

// tapAll makes N taps from as many goroutines as may be under way, each with
// parts of its own name, and waits for the end of each. It returns the first error.
func tapAll(ctx context.Context, o benchOrder, tap func(mesh.Tap, []mesh.Part, chan struct{}) error) error {
	parts, err := benchParts(o.Line, o.Plan.Size)
	if err != nil {
		return err
	}
	var left atomic.Int64
	left.Store(int64(o.Plan.N))
	workers := min(o.Plan.N, max(1, o.Plan.Outstanding))
	failed := make(chan error, workers)
	var working sync.WaitGroup // joined below
	for range workers {
		working.Go(func() {
			done := make(chan struct{}, 1)
			for left.Add(-1) >= 0 {
				if err := tapOne(ctx, parts, done, tap); err != nil {
					failed <- err
					return
				}
			}
		})
	}
	working.Wait()
	select {
	case err := <-failed:
		return err
	default:
		return nil
	}
}

// tapOne makes one tap and waits until it has ended.
func tapOne(ctx context.Context, parts []mesh.Part, done chan struct{}, tap func(mesh.Tap, []mesh.Part, chan struct{}) error) error {
	var name mesh.Tap
	if _, err := rand.Read(name[:]); err != nil {
		return fmt.Errorf("random: %w", err)
	}
	if err := tap(name, parts, done); err != nil {
		return err
	}
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-done:
		return nil
	}
}

// echo answers the taps of other devices with entries, and hands their answers
// to the tally.
type echo struct {
	tally   *tally
	answers bool
	self    func() mesh.Key
	heard   chan mesh.Ref // what is to be answered; what finds it full is not
}

// heardMax bounds what waits to be answered.
const heardMax = 4096

func newEcho(t *tally, answers bool, self func() mesh.Key) *echo {
	return &echo{tally: t, answers: answers, self: self, heard: make(chan mesh.Ref, heardMax)}
}

// told looks for taps and answers among what the folds have learnt.
func (e *echo) told(ef mesh.Effect) {
	learnt, ok := ef.(mesh.Learnt)
	if !ok {
		return
	}
	for _, f := range learnt.Facts {
		var body requests.DebriefLine
		if f.Kind != requests.KindDebriefLine || f.Ref.Part() != 1 || mesh.Decode(f.Body, &body) != nil {
			continue
		}
		switch {
		case body.Line == lineAnswer:
			e.tally.answered(body.Case.Tap())
		case e.answers && f.Ref.Author() != e.self():
			select {
			case e.heard <- f.Ref:
			default:
			}
		}
	}
}

// run answers until ctx ends.
func (e *echo) run(ctx context.Context, d *device.Device) {
	for {
		select {
		case <-ctx.Done():
			return
		case ref := <-e.heard:
			if err := answer(ctx, d, ref); err != nil && !errors.Is(err, context.Canceled) {
				return // the taps that are not answered count as lost
			}
		}
	}
}

func answer(ctx context.Context, d *device.Device, ref mesh.Ref) error {
	st, err := d.Station()
	if err != nil {
		return err
	}
	by, err := mesh.MakePart(mesh.KindBy, &mesh.By{Role: "runner", Tag: "R1"})
	if err != nil {
		return err
	}
	said, err := mesh.MakePart(requests.KindDebriefLine, &requests.DebriefLine{Case: ref, Line: lineAnswer})
	if err != nil {
		return err
	}
	var tap mesh.Tap
	if _, err := rand.Read(tap[:]); err != nil {
		return fmt.Errorf("random: %w", err)
	}
	return enter(ctx, st, tap, []mesh.Part{by, said})
}

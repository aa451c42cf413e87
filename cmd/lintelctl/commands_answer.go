package main

import (
	"context"
	"strconv"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

func (s *session) going(ctx context.Context, a *arguments) (event, error) {
	r, err := s.request(ctx, a)
	if err != nil {
		return nil, err
	}
	if err := a.done(); err != nil {
		return nil, err
	}
	return s.record(ctx, "going", a, station.Go{Request: r.Ref})
}

// readback states what is in the hand. Neither item nor quantity is ever
// filled in from the request.
func (s *session) readback(ctx context.Context, a *arguments) (event, error) {
	r, err := s.request(ctx, a)
	if err != nil {
		return nil, err
	}
	w, err := a.wanted(wordScanned, wordSpoken, wordLot)
	if err != nil {
		return nil, err
	}
	act := station.ReadBack{Request: r.Ref, How: requests.Chosen, Lot: w.lot}
	if w.how != 0 {
		act.How = w.how
	}
	err = s.view(ctx, func(v station.View) error {
		act.Thing, err = thing(v, w, 0)
		return err
	})
	if err != nil {
		return nil, err
	}
	return s.record(ctx, "readback", a, act)
}

func (s *session) door(ctx context.Context, a *arguments) (event, error) {
	r, err := s.request(ctx, a)
	if err != nil {
		return nil, err
	}
	door, _, err := a.after(wordRoom)
	_, anyway := a.keyword(wordAnyway)
	if err == nil {
		err = a.done()
	}
	if err != nil {
		return nil, err
	}
	return s.record(ctx, "door", a, station.PutAtDoor{Request: r.Ref, Door: mesh.ID(door), Anyway: anyway})
}

// wordGlass says that it was seen through the glass.
const wordGlass = "glass"

func (s *session) take(ctx context.Context, a *arguments) (event, error) {
	r, err := s.request(ctx, a)
	if err != nil {
		return nil, err
	}
	n, _, err := a.count()
	if err != nil {
		return nil, err
	}
	if _, ok := a.keyword(wordGlass); ok {
		a.way = mesh.WayGlass
	}
	if err := a.done(); err != nil {
		return nil, err
	}
	return s.record(ctx, "take", a, station.TakeIn{Request: r.Ref, Count: requests.Count(n)})
}

func (s *session) back(ctx context.Context, a *arguments) (event, error) {
	return s.withWhy(ctx, "back", a, func(r mesh.Ref, why mesh.Label) station.Act { return station.TakeBack{Request: r, Why: why} })
}

func (s *session) cannot(ctx context.Context, a *arguments) (event, error) {
	return s.withWhy(ctx, "cannot", a, func(r mesh.Ref, why mesh.Label) station.Act { return station.CouldNot{Request: r, Why: why} })
}

// wordOr stands between alternatives.
const wordOr = "/"

func (s *session) offer(ctx context.Context, a *arguments) (event, error) {
	r, err := s.request(ctx, a)
	if err != nil {
		return nil, err
	}
	act := station.Offer{Request: r.Ref}
	err = s.view(ctx, func(v station.View) error {
		for _, words := range alternatives(a.words) {
			w, err := (&arguments{words: words, usage: a.usage}).wanted()
			if err != nil {
				return err
			}
			t, err := thing(v, w, 0)
			if err != nil {
				return err
			}
			act.Things = append(act.Things, t)
		}
		return nil
	})
	if err == nil && len(act.Things) > offersMax {
		err = a.bad()
	}
	if err != nil {
		return nil, err
	}
	return s.record(ctx, "offer", a, act)
}

// offersMax bounds the alternatives of one offer.
const offersMax = 3

// alternatives cuts words at the strokes between them.
func alternatives(all []word) [][]word {
	out := [][]word{nil}
	for _, w := range all {
		if w.text == wordOr && !w.quoted {
			out = append(out, nil)
			continue
		}
		out[len(out)-1] = append(out[len(out)-1], w)
	}
	return out
}

// which reads the optional number of an alternative. Any other number begins
// what follows: "50 mg/mL was asked".
func (a *arguments) which() uint8 {
	if len(a.words) == 0 || a.words[0].quoted {
		return 0
	}
	n, err := strconv.ParseUint(a.words[0].text, 10, 8)
	if err != nil || n < 1 || n > offersMax {
		return 0
	}
	a.words = a.words[1:]
	return uint8(n)
}

func (s *session) agree(ctx context.Context, a *arguments) (event, error) {
	what, err := s.answered(ctx, a, false)
	if err != nil {
		return nil, err
	}
	if len(a.words) == 1 && a.words[0].isNumber() {
		return nil, station.ErrAlternative
	}
	if err := a.done(); err != nil {
		return nil, err
	}
	return s.record(ctx, "agree", a, station.Agree{Request: what.request, Which: what.which, Answers: what.mark})
}

func (s *session) refuse(ctx context.Context, a *arguments) (event, error) {
	what, err := s.answered(ctx, a, true)
	if err != nil {
		return nil, err
	}
	if len(a.words) == 1 && a.words[0].isNumber() {
		return nil, station.ErrAlternative // a number alone is no reason
	}
	return s.record(ctx, "refuse", a, station.Refuse{
		Request: what.request, Which: what.which, Answers: what.mark, Why: mesh.Label(a.rest()),
	})
}

func (s *session) passOn(ctx context.Context, a *arguments) (event, error) {
	r, err := s.request(ctx, a)
	if err != nil {
		return nil, err
	}
	to, more := a.next()
	if !more || len(a.words) > 0 {
		return nil, a.bad()
	}
	return s.record(ctx, "pass-on", a, station.PassOn{Request: r.Ref, To: mesh.Tag(to)})
}

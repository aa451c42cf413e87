package main

import (
	"context"
	"strings"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// answering is what an agree or a refuse answers.
type answering struct {
	request mesh.Ref
	mark    mesh.Ref // the read-back or offer; zero: there is none
	which   uint8    // the alternative; 0: the read-back, or all of the offer
}

// answered reads REQ [N] and finds what is answered. REQ may be the mark of a
// read-back or an offer; else there must be no doubt which one is meant.
func (s *session) answered(ctx context.Context, a *arguments, refusing bool) (out answering, err error) {
	name, more := a.next()
	if !more {
		return out, a.bad()
	}
	out.which = a.which()
	err = s.view(ctx, func(v station.View) error {
		r, err := findRequest(v.Board, name)
		if err != nil {
			return err
		}
		out.request = r.Ref
		found := marked(r, strings.ToLower(name))
		if len(found) == 0 {
			found = meant(r, out.which, refusing)
		}
		if len(found) > 1 {
			return &fault{id: "answer-many", blanks: []any{requests.Code(r.Ref)}, list: s.sayOpen(v, found)}
		}
		if len(found) == 1 {
			return out.names(found[0], refusing)
		}
		return nil
	})
	return out, err
}

// names takes a read-back or an offer as what is answered. To agree to an offer
// is to take one of its alternatives; where there is only one, that.
func (n *answering) names(o open, refusing bool) error {
	if o.offer && !refusing && n.which == 0 && len(o.things) == 1 {
		n.which = 1
	}
	switch {
	case o.offer && int(n.which) > len(o.things), o.offer && !refusing && n.which == 0, !o.offer && n.which > 0:
		return station.ErrAlternative
	}
	n.mark = o.Ref
	return nil
}

// open is a read-back or an offer that can be answered.
type open struct {
	requests.Mark
	things []requests.Thing
	offer  bool
}

// marked finds the read-back or offer whose whole ref is given.
func marked(r requests.Request, ref string) (out []open) {
	for _, o := range append(readBacks(r), offers(r)...) {
		if o.Ref.Hex() == ref {
			out = append(out, o)
		}
	}
	return out
}

// meant lists what an answer without a mark may mean: read-backs that stand,
// or, where an alternative is named or a refusal finds none, open offers.
func meant(r requests.Request, which uint8, refusing bool) (out []open) {
	if which == 0 {
		for i, o := range readBacks(r) {
			if r.InHand[i].Live {
				out = append(out, o)
			}
		}
	}
	if which == 0 && !refusing || len(out) > 0 {
		return out
	}
	for i, o := range offers(r) {
		if r.Offers[i].Open() {
			out = append(out, o)
		}
	}
	return out
}

// readBacks and offers list them in the request's order.
func readBacks(r requests.Request) (out []open) {
	for _, h := range r.InHand {
		out = append(out, open{h.Mark, []requests.Thing{h.Thing}, false})
	}
	return out
}

func offers(r requests.Request) (out []open) {
	for _, o := range r.Offers {
		out = append(out, open{o.Mark, o.Things, true})
	}
	return out
}

// sayOpen words what an answer may mean: what it is, whose, and its mark.
func (s *session) sayOpen(v station.View, all []open) (out []string) {
	for _, o := range all {
		var things []string
		for _, t := range o.things {
			things = append(things, shownThing(v, t).say(s.w))
		}
		by := string(o.By.Tag)
		if by == "" {
			by = s.w.Say("device.nobody")
		}
		out = append(out, s.w.Say("device.open", strings.Join(things, " / "), by, o.Ref.Hex()))
	}
	return out
}

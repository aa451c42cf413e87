package main

import (
	"context"
	"errors"
	"slices"

	"lintel/app/device"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// look is what of a request decides whether its line must be printed again.
type look struct {
	marks, undone int
	joined        int
	reach         words.Reach // zero for others' requests
	own           bool
	shown         requests.Shown
	loop          requests.Loop
	flags         requests.Flags
	ringing       bool
	notReached    bool // an own one, for too long
}

// report prints what changed since the last time.
func (s *session) report(ctx context.Context) {
	var out []event
	err := s.view(ctx, func(v station.View) error {
		out = append(out, s.changedMembers(v)...)
		out = append(out, s.notices(v)...)
		out = append(out, s.changedRequests(v)...)
		out = append(out, s.changedFacts(v)...)
		return nil
	})
	if err != nil && errors.Is(err, device.ErrNoUnit) {
		out = s.notices(station.View{})
	}
	for _, e := range out {
		s.out.print(e)
	}
}

// changedRequests words the requests that look different from the last time.
// At the start those that are over are no news.
func (s *session) changedRequests(v station.View) (out []event) {
	first := s.requests == nil
	if first {
		s.requests = map[mesh.Ref]look{}
	}
	for _, r := range v.Board.Requests() {
		before, seen := s.requests[r.Ref]
		if seen && r.Over() && before.marks == len(r.Marks) && before.joined == len(r.JoinedWith) && before.shown == r.Shown {
			continue
		}
		l := lookAt(v, r, s.dev.Key())
		if before == l {
			continue
		}
		if s.requests[r.Ref] = l; !first || !r.Over() {
			out = append(out, describe(v, s.w, r, l))
		}
	}
	return out
}

// lookAt gathers what decides whether a request looks different.
func lookAt(v station.View, r requests.Request, self mesh.Key) look {
	l := look{
		marks: len(r.Marks), joined: len(r.JoinedWith), shown: r.Shown, loop: r.Loop, flags: r.Flags,
		ringing: v.Board.Ringing(r),
	}
	for _, m := range r.Marks {
		if m.Undone {
			l.undone++
		}
	}
	if r.Asked.Device() == self {
		l.own, l.reach = true, reached(v, r)
		l.notReached = r.Shown == requests.ShownAsked && !l.reach.OnRunner && v.Elapsed(r.Asked) >= v.Board.Seconds("unreached-after")
	}
	return l
}

// reached is what is known of how far an own request got.
func reached(v station.View, r requests.Request) words.Reach {
	copies := v.Peer.Copies(r.Asked.At)
	return words.Reach{
		Saved: v.Peer.SavedHere(r.Asked.At), Copies: len(copies), OnRunner: anyOf(copies, v.Board.RunnersFor(r.Room)),
	}
}

func anyOf(some, all []mesh.Key) bool {
	return slices.ContainsFunc(some, func(k mesh.Key) bool { return slices.Contains(all, k) })
}

// describe words a request as it looks now.
func describe(v station.View, w words.Words, r requests.Request, l look) requestEvent {
	e := requestEvent{
		Event: "request", Request: requests.Code(r.Ref), Ref: r.Ref.Hex(), Room: string(r.Room), thingOf: shownThing(v, r.Thing),
		Urgency: urgencyWord(r.Urgency), Out: r.Direction == requests.Out, Origin: words.OriginID(r.Origin),
		Shown: words.ShownID(r.Shown), Loop: words.LoopID(r.Loop),
		By: askerName(r), Taken: int64(r.Taken), Flags: []string{}, Marks: l.marks, Ringing: l.ringing, shown: w.Request(r),
	}
	for _, g := range r.Acknowledged {
		if g.Still {
			e.Going = append(e.Going, string(g.By.Tag))
		}
	}
	for _, h := range r.InHand {
		if h.Live {
			e.InHand = append(e.InHand, heldOf{
				thingOf: shownThing(v, h.Thing), Mark: h.Ref.Hex(), By: string(h.By.Tag), Matches: h.Matches, Closed: h.Closed,
			})
		}
	}
	for _, o := range r.Offers {
		if o.Open() {
			e.Offers = nil
			for _, t := range o.Things {
				e.Offers = append(e.Offers, offeredOf{shownThing(v, t), o.Ref.Hex()})
			}
		}
	}
	e.Inject = v.InjectOn(r)
	for _, j := range r.JoinedWith {
		e.Joined = append(e.Joined, requests.Code(j))
	}
	for _, f := range r.Flags.Each() {
		e.Flags = append(e.Flags, string(words.FlagID(f)))
	}
	if l.own {
		e.Delivery, e.Copies, e.Saved, e.Runner = l.reach.Delivery(), l.reach.Copies, &l.reach.Saved, &l.reach.OnRunner
		e.delivered, e.NotReached = w.Delivered(l.reach), l.notReached
	}
	return e
}

func shownThing(v station.View, t requests.Thing) thingOf {
	return thingOf{Item: nameOf(v.Ledger, t.Item), Number: uint32(t.Item), Strength: string(t.Strength), Count: int64(t.Count)}
}

// askerName is the asker's tag, else the role.
func askerName(r requests.Request) string {
	if r.Asker.Tag != "" {
		return string(r.Asker.Tag)
	}
	return string(r.Asker.Role)
}

// changedMembers tells who came and who was removed. The first look at a unit
// tells nothing.
func (s *session) changedMembers(v station.View) (out []event) {
	now := map[mesh.Key]mesh.Status{}
	for _, d := range v.Peer.Devices() {
		now[d.Key] = d.Status
		before, known := s.members[d.Key]
		if s.members == nil || d.Key == s.dev.Key() && d.Status == mesh.Member || known && before == d.Status {
			continue
		}
		kind := "left"
		if d.Status == mesh.Member {
			kind = "joined"
		}
		out = append(out, memberEvent{Event: kind, Device: d.Key.Hex(), Name: string(d.Name)})
	}
	s.members = now
	return out
}

// notices words what other goroutines left in the mailbox. v may be empty.
func (s *session) notices(v station.View) (out []event) {
	names := map[mesh.Key]string{}
	if v.Peer != nil {
		for _, d := range v.Peer.Devices() {
			names[d.Key] = string(d.Name)
		}
	}
	named := func(k mesh.Key) string {
		if n := names[k]; n != "" {
			return n
		}
		return k.String()
	}
	all, left := s.mail.take()
	for _, n := range all {
		if e := s.notice(n, named); e != nil {
			out = append(out, e)
		}
	}
	if left > 0 {
		out = append(out, s.noteOf("unnoticed", left))
	}
	return out
}

func (s *session) noteOf(id words.ID, blanks ...any) noteEvent {
	return noteEvent{Event: "note", Note: id, Text: s.w.Say("note."+id, blanks...)}
}

// notice words one of them; nil if it tells nothing new.
func (s *session) notice(n any, named func(mesh.Key) string) event {
	switch n := n.(type) {
	case mesh.LinkState:
		e := linkOf(n.Peer, named(n.Peer.Peer))
		before := s.links[n.Peer.Peer]
		s.links[n.Peer.Peer] = e
		if before.Health == e.Health && before.Via == e.Via && before.Address == e.Address {
			return nil
		}
		return e
	case mesh.Copied:
		return copiedEvent{Event: "copied", Device: n.By.Hex(), Name: named(n.By), Feed: n.At.Feed.String(), Seq: uint64(n.At.Seq), Far: n.Far}
	case mesh.Noted:
		e := s.noteOf(words.ID(n.Note), named(n.Peer))
		e.Device = n.Peer.Hex()
		return e
	case unreachable:
		id, _ := device.Fault(n.err)
		if s.dials[n.address] == string(id) {
			return nil
		}
		s.dials[n.address] = string(id)
		sentence, _ := explain(s.w, about(n.err, n.address))
		e := s.noteOf("unreachable", n.address, sentence)
		e.Address = n.address
		return e
	case invited:
		if n.err == nil {
			return nil // told as joined
		}
		sentence, _ := explain(s.w, n.err)
		return s.noteOf("code-over", sentence)
	case event:
		return n
	}
	return nil
}

// linkOf words the state of a link.
func linkOf(p mesh.PeerState, name string) linkEvent {
	e := linkEvent{Event: "link", Device: p.Peer.Hex(), Name: name, Health: "not-connected", Address: p.Address, RoundTrip: p.RoundTrip.Microseconds()}
	switch p.Health {
	case mesh.Connected:
		e.Health = "connected"
	case mesh.Doubtful:
		e.Health = "doubtful"
	}
	switch p.Via {
	case mesh.OverQUIC:
		e.Via = "quic"
	case mesh.OverTCP:
		e.Via = "tcp"
	}
	return e
}

package requests

import (
	"slices"
	"time"

	"lintel/mesh"
)

// request calls for a request that is not over.
func (k *caller) request(r Request) {
	if k.silent(r) {
		return
	}
	switch {
	case r.Shown == ShownTakeBack:
		k.takeBack(r)
	case k.b.Ringing(r):
		k.fresh(r)
	case r.Shown == ShownAcknowledged || r.Shown == ShownInHand:
		if !k.reminded(r, r.goers()) {
			k.still(r)
		}
		k.passed(r)
	case r.waits():
		k.reminded(r, k.callable(r.Room))
	}
}

// silent tells whether nobody waits for a request any more: something that it
// is joined to was brought or lies at the door, or its case was shut since and
// it was not wanted now.
func (k *caller) silent(r Request) bool {
	n := k.b.facts[r.Ref]
	brought := func(other *fact) bool { return other != n && k.b.view(other).Step >= StepAtDoor }
	if r.Shown != ShownTakeBack && slices.ContainsFunc(k.b.group(n), brought) {
		return true
	}
	open := k.b.caseFact(n)
	if open == nil || r.Urgency == RightNow {
		return false
	}
	return k.b.caseView(open).Over && !k.b.shutBefore(open, n)
}

// call is a call for a request.
func (k *caller) call(r Request, why CallWhy, level uint8, waited time.Duration) Call {
	return Call{Ref: r.Ref, Room: r.Room, Why: why, Level: level, Urgency: r.Urgency, Elapsed: waited}
}

// fresh calls for what nobody has answered.
func (k *caller) fresh(r Request) {
	waited := k.elapsed(r.Wants[0].Mark)
	if waited < k.b.Seconds(settingHold) {
		return
	}
	l := level(waited, k.again(r.Urgency))
	if _, asked := k.reminder(r); asked > 0 {
		l = max(l, asked, LevelAgain)
	}
	k.put(k.call(r, CallNew, l, waited), k.callable(r.Room))
}

// reminder is the newest word from inside that nobody outside has answered
// since, and its level; 0: there is none.
func (k *caller) reminder(r Request) (m Mark, level uint8) {
	for _, mark := range r.Marks {
		switch {
		case mark.Undone:
		case mark.Kind == KindReminded:
			body := k.b.facts[mark.Ref].body.(*Reminded)
			m, level = mark, min(max(body.Level, LevelFirst), LevelEverybody)
		case answers(mark.Kind) || mark.Kind == KindPassedOn || mark.Kind == KindOffered:
			m, level = Mark{}, 0
		}
	}
	return m, level
}

// reminded calls whoever is asked "still on it?" by a person inside; false: nobody asks.
func (k *caller) reminded(r Request, first []mesh.Key) bool {
	m, level := k.reminder(r)
	if level == 0 {
		return false
	}
	if level == LevelAgain {
		first = append(first, k.callable(r.Room)...)
	}
	k.put(k.call(r, CallReminded, level, k.elapsed(m)), first)
	return true
}

// still asks "still on it?" when it takes longer than usual.
func (k *caller) still(r Request) {
	usual, _ := k.b.Usual(r.Thing.Item, r.Urgency)
	first, newest, going := k.going(r)
	if !going || r.Direction != In || usual <= 0 || newest < usual {
		return
	}
	level, who := LevelFirst, r.goers()
	if newest >= usual+usual/2 {
		level, who = LevelAgain, append(who, k.callable(r.Room)...)
	}
	c := k.call(r, CallStill, level, first)
	c.Usual = usual
	k.put(c, who)
}

// going is how long ago the first runner who still goes said so, and the last
// time that any of them did. A read-back says so too, of a device that never
// said it before.
func (k *caller) going(r Request) (first, newest time.Duration, going bool) {
	note := func(m Mark) {
		waited := k.elapsed(m)
		if !going || waited > first {
			first = waited
		}
		if !going || waited < newest {
			newest = waited
		}
		going = true
	}
	said := map[mesh.Key]bool{}
	for _, g := range r.Acknowledged {
		if g.Still {
			note(g.Mark)
			said[g.Device()] = true
		}
	}
	for _, h := range r.InHand {
		if h.Live && !said[h.Device()] {
			note(h.Mark)
		}
	}
	return first, newest, going
}

// passed calls the runner to whom a request was given last and who did not take it yet.
func (k *caller) passed(r Request) {
	if len(r.PassedOn) == 0 {
		return
	}
	p := r.PassedOn[len(r.PassedOn)-1]
	if p.Counts || !r.goes(p.Mark.Device()) {
		return
	}
	var to []mesh.Key
	for _, h := range k.b.Holders() {
		if h.Device == p.Device || p.To != "" && h.Tag == p.To && h.Side != Inside {
			to = append(to, h.Device)
		}
	}
	waited := k.elapsed(p.Mark)
	l := min(level(waited, k.again(r.Urgency)), LevelAgain)
	if l == LevelAgain || len(to) == 0 {
		to = append(to, p.Mark.Device()) // nobody took it: it is still theirs
	}
	k.put(k.call(r, CallPassed, l, waited), to)
}

// takeBack calls whoever put it at the door.
func (k *caller) takeBack(r Request) {
	var who []mesh.Key
	for _, d := range r.Deliveries {
		if d.Open {
			who = append(who, d.Device())
		}
	}
	if ended, is := r.ended(); is {
		waited := k.elapsed(ended)
		k.put(k.call(r, CallTakeBack, min(level(waited, k.again(r.Urgency)), LevelAgain), waited),
			append(who, k.callable(r.Room)...))
	}
}

// dropped calls whoever holds what is not wanted any more, or goes for it.
func (k *caller) dropped(r Request) {
	ended, is := r.ended()
	if open := k.b.caseFact(k.b.facts[r.Ref]); !is || open != nil && k.b.caseView(open).Over {
		return
	}
	waited := k.elapsed(ended)
	var holding, going []mesh.Key
	for _, d := range r.goers() {
		switch {
		case r.holds(d):
			holding = append(holding, d)
		case !slices.ContainsFunc(r.InHand, func(h ReadBack) bool { return h.Device() == d }):
			going = append(going, d)
		}
	}
	holding = append(holding, r.holdRefused()...)
	switch {
	case len(holding) > 0:
		k.put(k.call(r, CallPutBack, min(level(waited, k.again(r.Urgency)), LevelAgain), waited), holding)
	case len(going) > 0 && waited < k.again(r.Urgency):
		k.put(k.call(r, CallStop, LevelFirst, waited), going)
	}
}

// ended is the mark by which a request was not wanted any more.
func (r Request) ended() (m Mark, is bool) {
	for _, mark := range r.Marks {
		ends := mark.Kind == KindWithdrawn || mark.Kind == KindUndone && mark.Names == r.Ref
		if ends && !mark.Undone && !is {
			m, is = mark, true
		}
	}
	return m, is
}

// contended calls another runner for what one runner cannot do at two doors.
func (k *caller) contended(c Contention) {
	var waits Request // the first that this runner does not go for, else the last
	var others []mesh.Key
	for i, ref := range slices.Backward(c.Requests) {
		r, _ := k.b.Request(ref)
		others = append(others, k.callable(r.Room)...)
		if i == len(c.Requests)-1 || !r.goes(c.Runner) {
			waits = r
		}
	}
	mine := func(d mesh.Key) bool { return d == c.Runner }
	if others = slices.DeleteFunc(others, mine); len(others) == 0 {
		others = slices.DeleteFunc(k.b.fetchers(), mine)
	}
	if len(others) == 0 {
		others = slices.DeleteFunc(k.b.outside(), mine)
	}
	k.put(k.call(waits, CallContended, LevelFirst, k.elapsed(waits.Asked)), others)
}

// fetchers lists the devices outside whose role fetches, for whichever room.
func (b *Board) fetchers() (keys []mesh.Key) {
	for _, h := range b.Holders() {
		if h.Can&CanFetch != 0 && h.Side != Inside {
			keys = append(keys, h.Device)
		}
	}
	return keys
}

// Escalation is how long somebody inside has waited, as people read it: "2:10,
// usually 1:40".
type Escalation struct {
	Acknowledged bool // Elapsed counts from the first "going", else from the asking
	Elapsed      time.Duration
	Usual        time.Duration // from "going" to the door
	Of           int           // of so many deliveries; fewer than the setting usual-from: Usual is a setting
	Level        uint8         // of the call outside; 0: none
	Overdue      bool          // acknowledged, and it takes longer than usual
}

// Escalated says how long somebody has waited for a request, and what is usual.
// Of what lies at the door or is over only Usual and Of are set.
func (b *Board) Escalated(r Request, elapsed func(Mark) time.Duration) Escalation {
	var e Escalation
	e.Usual, e.Of = b.Usual(r.Thing.Item, r.Urgency)
	if !r.waits() {
		return e
	}
	k := &caller{b: b, elapsed: elapsed}
	k.request(r)
	for _, c := range k.calls {
		e.Level = max(e.Level, c.Level)
	}
	if e.Elapsed, _, e.Acknowledged = k.going(r); !e.Acknowledged {
		e.Elapsed = elapsed(r.Asked)
	}
	e.Overdue = e.Acknowledged && e.Usual > 0 && e.Elapsed >= e.Usual
	return e
}

// holdRefused lists the devices whose last word is a read-back that was
// refused: what they hold was never said to be put back.
func (r Request) holdRefused() (keys []mesh.Key) {
	for _, h := range r.InHand {
		later := func(m Mark) bool {
			return !m.Undone && m.Device() == h.Device() && m.At.Compare(h.At) > 0 && answers(m.Kind)
		}
		if !h.Live && len(h.Refused) > 0 && !slices.ContainsFunc(r.Marks, later) {
			keys = append(keys, h.Device())
		}
	}
	return keys
}

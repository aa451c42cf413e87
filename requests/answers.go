package requests

import (
	"slices"

	"lintel/mesh"
)

// choices are the answers to a read-back or an offer that count, in order.
func (v *viewer) choices(n *fact) (agreed, refused []Choice) {
	for _, a := range v.under(n) {
		c := Choice{Mark: v.b.mark(a), FromRoom: v.fromRoom(a, n)}
		switch body := a.body.(type) {
		case *Agreed:
			c.Which = body.Which
			agreed = append(agreed, c)
		case *Refused:
			c.Which, c.Why = body.Which, body.Why
			refused = append(refused, c)
		}
	}
	return agreed, refused
}

// fromRoom tells whether an answer comes from the asking room: in a role that
// can agree, on a device that was then held for that room, and not by the very
// person who is answered. Only such an answer closes the loop.
func (v *viewer) fromRoom(answer, answered *fact) bool {
	same := answer.Ref.Author() == answered.Ref.Author() && answer.By.Tag == answered.By.Tag
	return !same && v.b.can(answer)&CanAgree != 0 && v.b.heldRoom(answer, v.body.Room)
}

// away tells whether somebody who is not in the asking room agreed.
func away(agreed []Choice) bool {
	return slices.ContainsFunc(agreed, func(c Choice) bool { return !c.FromRoom && !c.OutOfTurn })
}

// split tells whether one alternative, or the read-back, was agreed and refused.
func split(agreed, refused []Choice) bool {
	for _, a := range agreed {
		for _, r := range refused {
			if a.Which == r.Which || r.Which == 0 {
				return true
			}
		}
	}
	return false
}

// deliveries fills what was put at the door and how that ended. Ends that name
// something else than an AtDoor are listed under what they name.
func (v *viewer) deliveries() {
	for _, n := range v.all {
		body, is := n.body.(*AtDoor)
		switch {
		case is && !v.b.undone(n):
			v.flag(FlagWrongDoor, body.Door != "" && body.Door != v.body.Room)
			v.deliver(Delivery{Mark: v.b.mark(n), Door: body.Door, Thing: v.states(n)}, n)
		case slices.ContainsFunc(v.under(n), isEnd):
			v.deliver(Delivery{Mark: Mark{Names: n.Ref}, Thing: v.states(n)}, n)
		}
	}
}

// states is the thing that a mark is about: what was read back, also if that
// was taken back since, else what is wanted where the mark lies.
func (v *viewer) states(n *fact) Thing {
	if n.Kind == KindAtDoor {
		n = v.b.facts[n.names]
	}
	if held, is := n.body.(*InHand); is {
		return held.Thing
	}
	thing, _ := v.says(n.want)
	return thing
}

func isEnd(n *fact) bool { return n.Kind == KindTakenIn || n.Kind == KindTakenBack }

// deliver adds a delivery with the ends that name n.
func (v *viewer) deliver(d Delivery, n *fact) {
	for _, e := range v.under(n) {
		switch body := e.body.(type) {
		case *TakenIn:
			d.Ends = append(d.Ends, Taking{Mark: v.b.mark(e), Count: body.Count})
		case *TakenBack:
			d.Ends = append(d.Ends, Taking{Mark: v.b.mark(e), Why: body.Why})
		}
	}
	d.Open = len(d.Ends) == 0
	for _, e := range d.Ends {
		d.Disputed = d.Disputed || e.Count != d.Ends[0].Count
		v.flag(FlagMore, e.Count > d.Thing.Count)
	}
	if !d.Open && !d.Disputed {
		d.Taken = d.Ends[0].Count
	}
	v.flag(FlagTakenTwice, d.Disputed)
	v.r.Deliveries = append(v.r.Deliveries, d)
}

// back tells whether all ends of a delivery say that it was taken back.
func (d Delivery) back() bool { return !d.Open && !d.Disputed && d.Taken == 0 }

// readBacks fills what runners stated to hold. deliveries must be filled.
func (v *viewer) readBacks() {
	newest := v.newestInHand()
	for _, n := range v.all {
		body, is := n.body.(*InHand)
		if !is || v.b.undone(n) {
			continue
		}
		meets := v.b.facts[n.names].want
		asked, _ := v.says(meets)
		h := ReadBack{Mark: v.b.mark(n), Meets: meets.Ref, Thing: body.Thing, How: body.How, Lot: body.Lot}
		h.Unasked = v.body.Origin == PassedIn && meets == v.asked
		h.Matches = !h.Unasked && body.Thing == asked
		h.Agreed, h.Refused = v.choices(n)
		current := v.stillWanted(meets)
		h.Closed = !h.Unasked && current && len(h.Refused) == 0 && slices.ContainsFunc(h.Agreed, Choice.closes)
		inPlay := v.alive(n, newest)
		h.Live = len(h.Refused) == 0 && inPlay
		v.flagReadBack(h, current, inPlay)
		v.r.InHand = append(v.r.InHand, h)
	}
}

// flagReadBack flags how a read-back was answered while anybody may still act
// on it: it was brought, or is its device's last word and nobody refused it.
func (v *viewer) flagReadBack(h ReadBack, current, inPlay bool) {
	if len(h.Agreed) == 0 || !inPlay {
		return
	}
	v.flag(FlagSplitAnswer, split(h.Agreed, h.Refused))
	if h.Live || v.brought(h.Ref) {
		v.flag(FlagAgreedUnlike, !h.Matches && !h.Unasked)
		v.flag(FlagAgreedOld, !current)
		v.flag(FlagAgreedAway, away(h.Agreed))
	}
}

// brought tells whether a read-back was put at the door and not taken back.
func (v *viewer) brought(inHand mesh.Ref) bool {
	return slices.ContainsFunc(v.r.Deliveries, func(d Delivery) bool { return d.Names == inHand && !d.back() })
}

// closes tells whether this Agreed can close the loop of the read-back it names.
func (c Choice) closes() bool { return c.FromRoom && c.Which == 0 }

// newestInHand finds each device's last read-back: reading back again corrects
// what the same device said before, and giving up or passing on to somebody who
// took it ends it. Several devices never correct each other.
func (v *viewer) newestInHand() map[mesh.Key]*fact {
	newest := map[mesh.Key]*fact{}
	for _, n := range v.all {
		if v.b.undone(n) {
			continue
		}
		switch body := n.body.(type) {
		case *InHand:
			newest[n.Ref.Author()] = n
		case *CouldNot:
			delete(newest, n.Ref.Author())
		case *PassedOn:
			if v.counts(body) {
				delete(newest, n.Ref.Author())
			}
		}
	}
	return newest
}

// alive tells whether what a read-back states is still in play: brought and
// not taken back, or not brought and its device's last word.
func (v *viewer) alive(n *fact, newest map[mesh.Key]*fact) bool {
	brought, back := false, true
	for _, d := range v.r.Deliveries {
		if d.Names == n.Ref {
			brought, back = true, back && d.back()
		}
	}
	if brought {
		return !back
	}
	return newest[n.Ref.Author()] == n
}

// stillWanted tells whether what w wants is what is wanted now, without a
// second value beside it.
func (v *viewer) stillWanted(w *fact) bool {
	among := false
	for _, want := range v.r.Wants {
		if want.Thing != v.r.Thing {
			return false
		}
		among = among || want.Ref == w.Ref
	}
	return among
}

// loop is how far the loop got for what lies at the door or went in; if
// nothing does, for what is in hand. Of several, the weakest: a loop that was
// closed over one thing says nothing about another.
func (v *viewer) loop() Loop {
	byRef := map[mesh.Ref]ReadBack{}
	inHand, brought := []Loop{}, []Loop{}
	agreed := false
	for _, h := range v.r.InHand {
		byRef[h.Ref] = h
		agreed = agreed || len(h.Agreed) > 0
		if h.Live {
			inHand = append(inHand, h.Loop())
		}
	}
	for _, d := range v.r.Deliveries {
		if !d.back() {
			h, stated := byRef[d.Names]
			brought = append(brought, h.Loop())
			v.flag(FlagDoorOther, agreed && (!stated || len(h.Agreed) == 0))
		}
	}
	switch {
	case len(brought) > 0:
		return slices.Min(brought)
	case len(inHand) > 0:
		return slices.Min(inHand)
	}
	return LoopOpen
}

// Loop is how far the loop got over this read-back. The zero ReadBack was never
// stated, and what nobody asked for has no loop to close.
func (h ReadBack) Loop() Loop {
	switch {
	case h.Ref.IsZero(), h.Unasked:
		return LoopOpen
	case h.Closed:
		return LoopClosed
	case h.Matches:
		return LoopMatches
	}
	return LoopReadBack
}

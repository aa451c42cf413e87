package requests

import "slices"

// Act is something a device offers to do with a request. Every act needs a tap
// of its own; none is ever chosen beforehand, and a read-back least of all.
type Act uint8

// Acts.
const (
	ActChange      Act = 1  // write a Changed
	ActAcknowledge Act = 2  // write an Acknowledged: I am going
	ActCouldNot    Act = 3  // write a CouldNot
	ActPassOn      Act = 4  // write a PassedOn
	ActOffer       Act = 5  // write an Offered: one to three alternatives
	ActReadBack    Act = 6  // write an InHand: choose or scan what is in the hand
	ActAgree       Act = 7  // write an Agreed to a read-back or an alternative
	ActRefuse      Act = 8  // write a Refused
	ActPutAtDoor   Act = 9  // write an AtDoor
	ActTakeIn      Act = 10 // write a TakenIn
	ActTakeInSeen  Act = 11 // write a TakenIn that was seen through the glass (mesh.WayGlass)
	ActTakeBack    Act = 12 // write a TakenBack
	ActWithdraw    Act = 13 // write a Withdrawn
	ActJoin        Act = 14 // write a Joined
)

// Standpoint is who looks at a request, from where.
type Standpoint struct {
	Can  Abilities
	Side Side
	Here bool // the device is held for the request's room
}

// Standpoint is where the holder stands as to a room.
func (h Holding) Standpoint(r Request) Standpoint {
	return Standpoint{Can: h.Can, Side: h.Side, Here: h.For(r.Room)}
}

// buttonRow is what either side may do with a request that is shown so.
type buttonRow struct{ give, get, ask []Act }

// buttons lists, for what is shown, the acts of the side that gives (the runner,
// for things going in), of the side that gets, and of whoever asked: people
// inside the room, whichever of them tapped.
var buttons = map[Shown]buttonRow{
	ShownAsked:        {give: nil, get: nil, ask: []Act{ActChange, ActWithdraw}},
	ShownAcknowledged: {give: []Act{ActReadBack}, get: nil, ask: []Act{ActChange, ActWithdraw}},
	ShownInHand:       {give: []Act{ActPutAtDoor, ActReadBack}, get: nil, ask: []Act{ActChange, ActWithdraw}},
	ShownAtDoor:       {give: []Act{ActTakeBack}, get: []Act{ActTakeIn}, ask: []Act{ActWithdraw}},
	ShownTakeBack:     {give: []Act{ActTakeBack}, get: []Act{ActTakeIn}},
}

// fetching lists the acts of a runner, whichever way the thing goes.
var fetching = map[Shown][]Act{
	ShownAsked:        {ActAcknowledge, ActOffer, ActCouldNot, ActJoin},
	ShownAcknowledged: {ActAcknowledge, ActOffer, ActPassOn, ActCouldNot, ActJoin},
	ShownInHand:       {ActOffer, ActPassOn, ActCouldNot},
	ShownCouldNot:     {ActAcknowledge, ActOffer},
}

// Buttons lists the acts that a device offers for a request, each once, in the
// order of their numbers. They depend on abilities, side and room, never on a
// role and never on which person asked: anyone inside the room may agree,
// withdraw and take in for a device that died. What is not offered can still
// be recorded by another screen, and counts.
func Buttons(r Request, from Standpoint) []Act {
	if !from.Here {
		return nil
	}
	row := buttons[r.Shown]
	var acts []Act
	inside := from.Side == Inside && from.Can&CanAgree != 0
	runner := from.Side != Inside && from.Can&CanFetch != 0
	if runner {
		acts = append(acts, fetching[r.Shown]...)
	}
	for _, act := range row.ask {
		if act == ActChange && from.Side == Inside && from.Can&CanAsk != 0 || act != ActChange && inside {
			acts = append(acts, act)
		}
	}
	gives, gets := runner, inside
	if r.Direction == Out {
		gives, gets = inside, runner
	}
	if gives {
		acts = append(acts, row.give...)
	}
	if gets {
		acts = append(acts, row.get...)
	}
	if runner && r.Direction == In && r.WaitsAtDoor() {
		acts = append(acts, ActTakeInSeen)
	}
	if inside {
		acts = append(acts, answering(r)...)
	}
	slices.Sort(acts)
	return slices.Compact(acts)
}

// answering lists the answers that people inside may give: to an offer that
// is open, to a read-back that is not agreed yet.
func answering(r Request) []Act {
	if r.Over() || r.Shown == ShownTakeBack {
		return nil
	}
	for _, h := range r.InHand {
		if h.Live && !h.Closed && !h.Unasked {
			return []Act{ActAgree, ActRefuse}
		}
	}
	for _, o := range r.Offers {
		if o.Open() {
			return []Act{ActAgree, ActRefuse}
		}
	}
	return nil
}

package station

import (
	"fmt"

	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Acts of people. Requests are named by any of their marks.
type (
	// Hold says who has this device now: role, tag and for which rooms.
	Hold struct{ Holds requests.Holds }
	// Ask asks for a thing. Origin says whether it was tapped, heard or read.
	Ask struct {
		Case    mesh.Ref
		Room    mesh.ID
		Thing   requests.Thing
		Urgency requests.Urgency
		Out     bool // it comes out of the room
		Origin  requests.Origin
		Tag     mesh.Tag   // who asked, if not the tapper
		Code    mesh.Label // the joining code read through the glass; empty: none
	}
	// Change says that another thing, count or urgency is wanted.
	Change struct {
		Request mesh.Ref
		Thing   requests.Thing
		Urgency requests.Urgency
	}
	// Go acknowledges: this runner is going.
	Go struct{ Request mesh.Ref }
	// ReadBack states what is in the hand. Nothing of it is ever filled in.
	ReadBack struct {
		Request mesh.Ref
		Thing   requests.Thing
		How     requests.HowRead
		Lot     mesh.Label // of the label that was scanned; empty: none
		Expiry  uint32     // that it says, as 20271231; 0: none
		NoDay   bool       // it says a month only
	}
	// PutAtDoor says that what is in hand lies at the door now. Another door than
	// the request's is a WrongDoorError, unless Anyway is set: then it is recorded.
	PutAtDoor struct {
		Request mesh.Ref
		Door    mesh.ID // as read on the door; empty: the request's room
		Anyway  bool
	}
	// TakeIn says how many were taken in, also more than lay there, or what nobody
	// had put at the door.
	TakeIn struct {
		Request mesh.Ref
		Count   requests.Count // 0: all of it
	}
	// TakeBack says that it went back from the door.
	TakeBack struct {
		Request mesh.Ref
		Why     mesh.Label
	}
	// Withdraw says that it is not wanted any more.
	Withdraw struct {
		Request mesh.Ref
		Why     mesh.Label
	}
	// Offer proposes one to three alternatives.
	Offer struct {
		Request mesh.Ref
		Things  []requests.Thing
	}
	// Agree confirms what was read back (0) or takes alternative Which.
	Agree struct {
		Request mesh.Ref
		Which   uint8
		Answers mesh.Ref // the read-back or offer that was on the screen; zero: the newest
	}
	// Refuse turns down what was read back or offered.
	Refuse struct {
		Request mesh.Ref
		Which   uint8
		Why     mesh.Label
		Answers mesh.Ref // as in Agree
	}
	// CouldNot says that it cannot be brought.
	CouldNot struct {
		Request mesh.Ref
		Why     mesh.Label
	}
	// PassOn gives the request to another runner.
	PassOn struct {
		Request mesh.Ref
		To      mesh.Tag
	}
	// PassIn records what was passed in unasked, in one entry.
	PassIn struct {
		Case  mesh.Ref
		Room  mesh.ID
		Thing requests.Thing
	}
	// Join says that two requests are the same need.
	Join struct{ One, Other mesh.Ref }
	// JoinCode says that a request is the one whose joining code was read
	// through the glass, also before that one is here.
	JoinCode struct {
		Request mesh.Ref
		Code    mesh.Label
	}
	// Undo takes back one mark, and with it what that did to the stock.
	Undo struct {
		Mark mesh.Ref
		Why  mesh.Label
	}
	// Move records movements of stock.
	Move struct{ Movements []kits.Moved }
	// Admit lets a device into the unit.
	Admit struct {
		Key  mesh.Key
		Name mesh.Label
	}
	// Name says what a device is called.
	Name struct {
		Key  mesh.Key
		Name mesh.Label
	}
	// Remove takes a device out of the unit; it counts when two members did.
	Remove struct {
		Key mesh.Key
		Why mesh.Label
	}
	// ClosePairing records that pairing was closed after too many wrong codes.
	ClosePairing struct{ Failures, ForSeconds uint32 }
)

func (a Hold) parts(m *maker) error {
	if _, ok := m.view.Board.Role(a.Holds.Role); !ok {
		return fmt.Errorf("%w: %s", ErrNoRole, a.Holds.Role)
	}
	m.add(requests.KindHolds, &a.Holds)
	return nil
}

func (a Ask) parts(m *maker) error {
	if a.Room == "" {
		return ErrNoRoom
	}
	t, err := m.thing(a.Thing)
	if err != nil {
		return err
	}
	body := requests.Asked{Case: m.openCase(a.Case, a.Room), Room: a.Room, Thing: t, Urgency: a.Urgency, Origin: a.Origin, Tag: a.Tag}
	if a.Out {
		body.Direction = requests.Out
	}
	asked := m.add(requests.KindAsked, &body)
	m.noteRescue(body)
	m.callHelp(body)
	if a.Code != "" {
		return m.joinCode(asked, a.Room, a.Code)
	}
	return nil
}

func (a Change) parts(m *maker) error {
	r, err := m.request(a.Request)
	if err != nil {
		return err
	}
	t, err := m.thing(a.Thing)
	if err != nil {
		return err
	}
	m.add(requests.KindChanged, &requests.Changed{Names: want(r), Thing: t, Urgency: a.Urgency})
	return nil
}

func (a Go) parts(m *maker) error {
	r, err := m.request(a.Request)
	if err != nil {
		return err
	}
	m.add(requests.KindAcknowledged, &requests.Acknowledged{Names: r.Ref})
	return nil
}

func (a ReadBack) parts(m *maker) error {
	r, err := m.request(a.Request)
	if err != nil {
		return err
	}
	if a.Thing.Count < 1 {
		return fmt.Errorf("%w: %d", ErrCount, a.Thing.Count)
	}
	t, err := m.thing(a.Thing)
	if err != nil {
		return err
	}
	m.add(requests.KindInHand, &requests.InHand{Names: want(r), Thing: t, How: a.How, Lot: a.Lot})
	if stands, known := m.view.Ledger.Lot(t.Item, a.Lot); a.How == requests.Scanned && a.Lot != "" && (!known || stands.Value.How != kits.ByScanner) {
		m.writeLot(kits.LotLine{Item: t.Item, Lot: a.Lot, Expiry: a.Expiry, Inferred: a.NoDay, How: kits.ByScanner})
	}
	return nil
}

func (a Withdraw) parts(m *maker) error {
	r, err := m.request(a.Request)
	if err != nil {
		return err
	}
	m.add(requests.KindWithdrawn, &requests.Withdrawn{Names: r.Ref, Why: a.Why})
	return nil
}

func (a Offer) parts(m *maker) error {
	r, err := m.request(a.Request)
	if err != nil {
		return err
	}
	body := requests.Offered{Names: want(r)}
	for _, t := range a.Things {
		t, err := m.thing(t)
		if err != nil {
			return err
		}
		body.Things = append(body.Things, t)
	}
	m.add(requests.KindOffered, &body)
	return nil
}

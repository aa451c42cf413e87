package requests

import (
	"fmt"

	"lintel/mesh"
)

// Kinds of this package, numbered once and for ever. The bodies are drawn in
// the package comment.
const (
	KindRoleLine  mesh.Kind = 0x0101
	KindRoomLine  mesh.Kind = 0x0102
	KindSetting   mesh.Kind = 0x0103
	KindHolds     mesh.Kind = 0x0104
	KindLayout    mesh.Kind = 0x0105
	KindListLine  mesh.Kind = 0x0106
	KindCaseOpen  mesh.Kind = 0x0110
	KindCaseShut  mesh.Kind = 0x0111
	KindCaseMoved mesh.Kind = 0x0112
	KindRoleTaken mesh.Kind = 0x0113
	KindLineDone  mesh.Kind = 0x0114
	KindPPECheck  mesh.Kind = 0x0115
	KindSkipped   mesh.Kind = 0x0116
	KindTestAsked mesh.Kind = 0x0117
	KindTestHeard mesh.Kind = 0x0118
	KindCondition mesh.Kind = 0x0119

	KindAsked        mesh.Kind = 0x0120
	KindChanged      mesh.Kind = 0x0121
	KindAcknowledged mesh.Kind = 0x0122
	KindCouldNot     mesh.Kind = 0x0123
	KindPassedOn     mesh.Kind = 0x0124
	KindOffered      mesh.Kind = 0x0125
	KindInHand       mesh.Kind = 0x0126
	KindAgreed       mesh.Kind = 0x0127
	KindRefused      mesh.Kind = 0x0128
	KindAtDoor       mesh.Kind = 0x0129
	KindTakenIn      mesh.Kind = 0x012a
	KindTakenBack    mesh.Kind = 0x012b
	KindWithdrawn    mesh.Kind = 0x012c
	KindUndone       mesh.Kind = 0x012d
	KindJoined       mesh.Kind = 0x012e
	KindReminded     mesh.Kind = 0x012f
	KindJoinedCode   mesh.Kind = 0x0130

	KindSaid        mesh.Kind = 0x0140
	KindSaidHeard   mesh.Kind = 0x0141
	KindEntered     mesh.Kind = 0x0142
	KindLeft        mesh.Kind = 0x0143
	KindBreach      mesh.Kind = 0x0144
	KindDoffStep    mesh.Kind = 0x0145
	KindDoor        mesh.Kind = 0x0146
	KindTime        mesh.Kind = 0x0150
	KindChartClock  mesh.Kind = 0x0151
	KindLateTime    mesh.Kind = 0x0152
	KindDebrief     mesh.Kind = 0x0160
	KindDebriefLine mesh.Kind = 0x0161
	KindDrill       mesh.Kind = 0x0170
	KindInject      mesh.Kind = 0x0171
	KindThisIsReal  mesh.Kind = 0x0172
)

// CountMax bounds how many of one thing are asked for at once.
const CountMax = 999

// Count is a number of pieces, or an amount in a Measure's base.
type Count int64

// Urgency is how soon something must be there, in the trade's words.
type Urgency uint8

// Urgencies.
const (
	BeforeWeLeave Urgency = 1
	NextOpening   Urgency = 2
	RightNow      Urgency = 3
)

// Direction is which way a thing crosses the door.
type Direction uint8

// Directions. A specimen, waste or equipment coming out is a request outwards.
const (
	In  Direction = 0
	Out Direction = 1
)

// Origin is how a request came to be recorded.
type Origin uint8

// Origins.
const (
	Tapped        Origin = 0 // on a device by whoever asks
	AskedByVoice  Origin = 1 // heard, and entered by the runner
	PassedIn      Origin = 2 // nobody asked: the runner passed it in
	FromPaperCard Origin = 3 // shown as a number on the card or the glass
)

// Thing is what is asked for, offered or held: item, size or strength, how many.
type Thing struct {
	Item     mesh.Number
	Strength mesh.Label // size or strength in words, as on the label: "10 mg/mL", "7.5"
	Count    Count
	Measure  mesh.Measure
}

// Side is where a zone lies.
type Side uint8

// Sides of a door.
const (
	Outside  Side = 1
	Anteroom Side = 2
	Inside   Side = 3
)

// Abilities is a set of what a role does. Rules ask for an ability, never for a role.
type Abilities uint32

// Abilities of a role.
const (
	CanAsk       Abilities = 1 << 0 // asks for things
	CanAgree     Abilities = 1 << 1 // confirms a read-back, takes in, withdraws, from inside
	CanFetch     Abilities = 1 << 2 // goes for things: a runner
	CanObserve   Abilities = 1 << 3 // checks PPE, reads doffing aloud
	CanScribe    Abilities = 1 << 4 // notes times
	CanCharge    Abilities = 1 << 5 // kits, stock, count, restock
	CanLead      Abilities = 1 << 6 // starts drills, accepts a layout
	abilitiesAll           = 1<<7 - 1
)

// Registers.
type (
	// RoleLine is one role of the unit's list.
	RoleLine struct {
		Replaces []mesh.Ref
		ID       mesh.ID
		Name     mesh.Label
		Side     Side
		Can      Abilities
		Place    uint32 // in lists, ascending
		Gone     bool
	}
	// Zone is a part of a room's surroundings.
	Zone struct {
		ID   mesh.ID
		Name mesh.Label
		Side Side
	}
	// RoomLine is one closed room and its door.
	RoomLine struct {
		Replaces        []mesh.Ref
		ID              mesh.ID    // as on the door: A1
		Name            mesh.Label // the large word for the runner
		Zones           []Zone
		MilliAirChanges uint32 // per hour, in thousandths; 0: not known
		Gone            bool
	}
	// Setting is one of the unit's own choices.
	Setting struct {
		Replaces []mesh.Ref
		Name     mesh.ID
		Value    mesh.Text
	}
	// Holds says who has this device now, in which role, for which rooms.
	Holds struct {
		Role  mesh.ID
		Tag   mesh.Tag
		Rooms []mesh.ID // empty: every room
		Zone  mesh.ID
	}
	// Tile is one numbered place on the board and on the printed card.
	Tile struct {
		Place uint32
		Item  mesh.Number
	}
	// Layout is a dated board, accepted by a person.
	Layout struct {
		Replaces []mesh.Ref
		Name     mesh.Label
		Tiles    []Tile
		Accepted mesh.Tag
	}
	// ListLine is a line of a list that is data: brief, plans, transfer,
	// extubation, doffing, times, phrases, debrief questions.
	ListLine struct {
		Replaces []mesh.Ref
		List     mesh.ID
		ID       mesh.ID
		Words    mesh.Text
		Place    uint32
		Marks    uint32 // meaning by list: aerosol event, must be done, …
		Source   mesh.Label
		Gone     bool
	}
)

// The case, before the door closes.
type (
	// CaseOpen begins a case behind one door.
	CaseOpen struct {
		Room    mesh.ID
		What    mesh.ID    // intubation, transfer, proning, …
		Label   mesh.Label // what people call it: a number and a room, never a patient
		Follows mesh.Ref   // the case whose stock stays inside; zero: none
		Hurry   bool       // patient cannot wait
	}
	// CaseShut ends a case.
	CaseShut struct {
		Case mesh.Ref
		Why  mesh.Label
	}
	// CaseMoved says that a case goes on elsewhere.
	CaseMoved struct {
		Case mesh.Ref
		To   mesh.Label
	}
	// RoleTaken says what a person does in a case. A person is neither a role nor a device.
	RoleTaken struct {
		Case mesh.Ref
		Tag  mesh.Tag
		Role mesh.ID
	}
	// LineDone is a tick on a line of a list, or its opposite.
	LineDone struct {
		Case  mesh.Ref
		List  mesh.ID
		Line  mesh.ID
		Done  bool
		Words mesh.Text // what was said or chosen, where the line asks for it
	}
	// PPECheck is one person's protective equipment checked by another.
	PPECheck struct {
		Case    mesh.Ref
		Wearer  mesh.Tag
		Checker mesh.Tag
		Off     bool // at doffing
		Good    bool
		Words   mesh.Text
	}
	// Skipped lists what "patient cannot wait" or an override left out.
	Skipped struct {
		Case  mesh.Ref
		List  mesh.ID
		Lines []mesh.ID
	}
	// TestAsked is a device's test request at the comms check.
	TestAsked struct {
		Case     mesh.Ref
		Room     mesh.ID
		Battery  int32 // per cent; -1: not known
		Charging bool
		DiskMB   uint64
		ScreenOn bool // the screen lock is off
		Door     mesh.ID
	}
	// TestHeard answers a TestAsked from a runner's device.
	TestHeard struct {
		Names       mesh.Ref
		Sound       bool // a person heard the call
		RoundTripMS uint32
	}
)

// Requests and their marks. Each names what it answers.
type (
	// Asked begins a request.
	Asked struct {
		Case      mesh.Ref
		Room      mesh.ID
		Thing     Thing
		Urgency   Urgency
		Direction Direction
		Origin    Origin
		Bundle    mesh.Number // the bundle whose tap asked for this; 0: none
		Tag       mesh.Tag    // who asked, when the tap is someone else's; empty: the tapper
	}
	// Changed replaces what an Asked or Changed said.
	Changed struct {
		Names   mesh.Ref
		Thing   Thing
		Urgency Urgency
	}
	// Acknowledged: this runner is going. It names the Asked.
	Acknowledged struct{ Names mesh.Ref }
	// CouldNot: it cannot be brought. It names the Asked.
	CouldNot struct {
		Names mesh.Ref
		Why   mesh.Label
	}
	// PassedOn gives the request to another runner. It counts when that runner
	// acknowledges. It names the Asked.
	PassedOn struct {
		Names mesh.Ref
		To    mesh.Tag
		Key   mesh.Key // the device of that runner; zero: not known
	}
	// Offered proposes one to three alternatives. It names the Asked or Changed.
	Offered struct {
		Names  mesh.Ref
		Things []Thing
	}
	// InHand is a read-back: what the runner holds. It names the Asked or Changed that it meets.
	InHand struct {
		Names mesh.Ref
		Thing Thing
		How   HowRead
		Lot   mesh.Label // if scanned
	}
	// Agreed confirms an InHand (Which 0) or takes alternative Which (1…3) of an Offered.
	Agreed struct {
		Names mesh.Ref
		Which uint8
	}
	// Refused turns down an InHand (Which 0) or an Offered: alternative Which, or all with 0.
	Refused struct {
		Names mesh.Ref
		Which uint8
		Why   mesh.Label
	}
	// AtDoor: it lies at the door. It names the InHand that it delivers.
	AtDoor struct {
		Names mesh.Ref
		Door  mesh.ID // the room on the door as the runner read it
	}
	// TakenIn: Count of it were taken in. It names the AtDoor.
	TakenIn struct {
		Names mesh.Ref
		Count Count
	}
	// TakenBack: it went back from the door. It names the AtDoor.
	TakenBack struct {
		Names mesh.Ref
		Why   mesh.Label
	}
	// Withdrawn: it is not wanted any more. It names the Asked.
	Withdrawn struct {
		Names mesh.Ref
		Why   mesh.Label
	}
	// Undone takes back the mark or fact that it names.
	Undone struct {
		Names mesh.Ref
		Why   mesh.Label
	}
	// Joined says that two requests are the same need.
	Joined struct {
		One   mesh.Ref
		Other mesh.Ref
	}
	// JoinedCode says that a request is the same need as the one whose joining
	// code was read through the glass. It names the Asked of the first; the
	// other may not be here yet.
	JoinedCode struct {
		Names mesh.Ref
		Room  mesh.ID
		Code  mesh.Label
	}
	// Reminded is a person's "still on it?" or "call again". It names the Asked.
	Reminded struct {
		Names mesh.Ref
		Level uint8
	}
)

// HowRead is how a runner stated what is in the hand.
type HowRead uint8

// Ways of reading back.
const (
	Chosen  HowRead = 1 // chosen on the screen
	Scanned HowRead = 2 // a label was scanned
	Spoken  HowRead = 3 // by voice, entered afterwards
)

// Valid reports a negative count or one beyond 2⁵³.
func (c Count) Valid() error { return mesh.Within("count", int64(c), 0, 1<<53) }

// Valid reports an unknown urgency.
func (u Urgency) Valid() error {
	return mesh.Within("urgency", int64(u), int64(BeforeWeLeave), int64(RightNow))
}

// Valid reports an unknown direction.
func (d Direction) Valid() error { return mesh.Within("direction", int64(d), 0, int64(Out)) }

// Valid reports an unknown origin.
func (o Origin) Valid() error { return mesh.Within("origin", int64(o), 0, int64(FromPaperCard)) }

// Valid reports an unknown side.
func (s Side) Valid() error { return mesh.Within("side", int64(s), int64(Outside), int64(Inside)) }

// Valid reports an unknown ability.
func (a Abilities) Valid() error { return mesh.Within("abilities", int64(a), 0, abilitiesAll) }

// Valid reports an unknown way of reading back.
func (h HowRead) Valid() error { return mesh.Within("how", int64(h), int64(Chosen), int64(Spoken)) }

// Valid reports an item of none or a count of 0.
func (t Thing) Valid() error {
	if t.Item == 0 || t.Measure == 0 {
		return fmt.Errorf("%w: no item or no measure", mesh.ErrRange)
	}
	return mesh.Within("count", int64(t.Count), 1, 1<<53)
}

// Valid reports no alternative, or more than three.
func (o Offered) Valid() error { return mesh.Within("alternatives", int64(len(o.Things)), 1, 3) }

// Valid reports an alternative that no Offered can have.
func (a Agreed) Valid() error { return mesh.Within("alternative", int64(a.Which), 0, 3) }

// Valid reports an alternative that no Offered can have.
func (r Refused) Valid() error { return mesh.Within("alternative", int64(r.Which), 0, 3) }

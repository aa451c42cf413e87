package mesh

import "fmt"

// Kinds of this package. The bodies are drawn in the package comment.
const (
	KindFounded       Kind = 0x0001
	KindAdmitted      Kind = 0x0002
	KindRemoved       Kind = 0x0003
	KindFeedBefore    Kind = 0x0004
	KindClock         Kind = 0x0005
	KindCheckpoint    Kind = 0x0006
	KindEnteredAgain  Kind = 0x0007
	KindPairingClosed Kind = 0x0008
	KindDeviceLine    Kind = 0x0009
	KindArchived      Kind = 0x000a
	KindBy            Kind = 0x0010
)

// Founded begins a group. It is part 0 of sequence 1 of the founder's feed.
type Founded struct {
	Founder Key
	Unit    Label    // what the unit calls itself
	Nonce   [16]byte // two units founded by one device differ
}

// Admitted names a device that a member lets in.
type Admitted struct {
	Key  Key
	Name Label // what stands on the device, never a person
}

// Cut is how far one incarnation of a removed device still counts.
type Cut struct {
	Incarnation Incarnation
	Seq         Seq
}

// Removed takes a device out for ever; incarnations that are not named are cut at 0.
type Removed struct {
	Key  Key
	Cuts []Cut
	Why  Label
}

// FeedBefore names the head of the feed that this device wrote before this
// incarnation, as far as it knew. Sequence 0 says that it knew none.
type FeedBefore struct {
	Incarnation Incarnation
	Seq         Seq
	Hash        Hash
	Why         Why
}

// Why is the reason for a new incarnation.
type Why uint8

// Reasons for a new incarnation.
const (
	WhyFirst      Why = 1 // the device's first entry in the group
	WhyTorn       Why = 2 // opening the log cut off a torn tail
	WhyDamage     Why = 3 // opening the log set something aside
	WhyMark       Why = 4 // the folder's mark did not match: copied or restored
	WhyPeerKnows  Why = 5 // a peer shows a longer or different head
	WhyNotWritten Why = 6 // the store could not be written
)

// Clock is a measured difference of two wall clocks.
type Clock struct {
	Peer     Key
	OffsetMS int64  // peer's wall clock minus the author's
	WithinMS uint32 // ± this much
	Cause    ClockCause
}

// ClockCause says why a Clock was written.
type ClockCause uint8

// Causes of a Clock.
const (
	ClockFirst   ClockCause = 1 // first contact
	ClockChanged ClockCause = 2 // it moved by more than ClockChangeMin
	ClockStepped ClockCause = 3 // the author's own clock was set
)

// Checkpoint says that the fold of everything up to a vector has this hash.
type Checkpoint struct {
	Before      Ref // the checkpoint before; zero for the first
	Heads       []Head
	FoldVersion uint32
	State       Hash
}

// EnteredAgain stands before parts that the author copies, as its own, from an
// entry that does not count: above a removed device's cut, or of another group.
type EnteredAgain struct {
	Original Ref // part 0 of the entry copied
	Hash     Hash
}

// PairingClosed says that a device stopped pairing after too many wrong codes.
type PairingClosed struct {
	Failures   uint32
	ForSeconds uint32
}

// DeviceLine is a register: what a device is called. Only the latest counts.
type DeviceLine struct {
	Replaces []Ref
	Key      Key
	Name     Label
}

// Archived names the archive that holds what a counted checkpoint closes.
type Archived struct {
	Checkpoint Ref
	SHA256     Hash
	Length     uint64
	Where      Label
}

// By says who tapped: the role and the tag that held the device, and when and
// how it happened if not now and not here. It goes with every tap of a person.
type By struct {
	Role     ID
	Tag      Tag
	Happened Wall // 0: when it was recorded
	Way      Way
}

// Way says how the person who taps knows what is recorded.
type Way uint8

// Ways of knowing.
const (
	WaySelf  Way = 0 // did it, holding this device
	WayGlass Way = 1 // saw it through the glass
	WayVoice Way = 2 // was told by voice or hand sign
	WayPaper Way = 3 // read it from paper
)

// MeshKinds maps this package's kinds to a fresh body, for tools and tests.
func MeshKinds() map[Kind]func() any {
	return map[Kind]func() any{
		KindFounded:       func() any { return new(Founded) },
		KindAdmitted:      func() any { return new(Admitted) },
		KindRemoved:       func() any { return new(Removed) },
		KindFeedBefore:    func() any { return new(FeedBefore) },
		KindClock:         func() any { return new(Clock) },
		KindCheckpoint:    func() any { return new(Checkpoint) },
		KindEnteredAgain:  func() any { return new(EnteredAgain) },
		KindPairingClosed: func() any { return new(PairingClosed) },
		KindDeviceLine:    func() any { return new(DeviceLine) },
		KindArchived:      func() any { return new(Archived) },
		KindBy:            func() any { return new(By) },
	}
}

// Head is the newest entry of one feed that is held without a gap.
type Head struct {
	Feed Feed
	Seq  Seq
	Hash Short
}

// Valid reports an unknown reason.
func (w Why) Valid() error { return Within("reason", int64(w), int64(WhyFirst), int64(WhyNotWritten)) }

// Valid reports an unknown cause.
func (c ClockCause) Valid() error {
	return Within("cause", int64(c), int64(ClockFirst), int64(ClockStepped))
}

// Valid reports an unknown way.
func (w Way) Valid() error { return Within("way", int64(w), int64(WaySelf), int64(WayPaper)) }

// MakePart encodes body as a part of the given kind.
func MakePart(k Kind, body any) (Part, error) {
	b, err := Encode(body)
	if err != nil {
		return Part{}, fmt.Errorf("kind %#04x: %w", uint16(k), err)
	}
	return Part{Kind: k, Body: b}, nil
}

// Fact is one part of an entry that counts, as the folds read it. Facts are a
// set: a fold may get them in any order and must reach the same state.
type Fact struct {
	Ref  Ref
	At   Order
	Wall Wall
	By   By // zero if the entry has none
	Kind Kind
	Body []byte
}

// When is when it happened, by the author's wall clock: as stated, else as recorded.
func (f Fact) When() Wall {
	if f.By.Happened != 0 {
		return f.By.Happened
	}
	return f.Wall
}

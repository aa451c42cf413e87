package mesh

import "time"

// Now is the time a step happens at: a clock that never jumps, for intervals,
// and the wall clock, for people.
type Now struct {
	Mono time.Duration // since an arbitrary start, never going back; it stands still in sleep
	Wall Wall
}

// LinkID names one session with one device for as long as it lasts.
type LinkID uint64

// Transport says what carries a link.
type Transport uint8

// Transports.
const (
	OverQUIC   Transport = 1
	OverTCP    Transport = 2
	OverMemory Transport = 3 // the simulated network
)

// Stream says on which of a link's two streams a frame travels. Order is kept
// within a stream, not between them.
type Stream uint8

// Streams.
const (
	StreamTap     Stream = 0 // new entries, receipts, pings
	StreamCatchUp Stream = 1 // vectors and what was missed
)

// Event is something that happened to a Peer.
type Event interface{ event() }

// The events.
type (
	// Tick comes once a second.
	Tick struct{}
	// Enter is a tap: write one entry with these parts. Entering the same tap
	// twice writes it once.
	Enter struct {
		Tap   Tap
		Parts []Part
	}
	// LinkUp says that a session with an admitted device stands (both hellos exchanged).
	LinkUp struct {
		Link    LinkID
		Peer    Key
		Dialled bool // by this device
		Via     Transport
		Address string // where the other side is, as "host:port"
	}
	// LinkDown says that a session has ended.
	LinkDown struct {
		Link LinkID
		Why  string
	}
	// Arrived is a frame from a link.
	Arrived struct {
		Link  LinkID
		Frame []byte
	}
	// Wrote answers an Append. An error is final: the store must not be used
	// again. Bad lists the indexes of Checks that did not verify.
	Wrote struct {
		Batch uint64
		Err   error
		Bad   []int
	}
	// ClockSet says that the device's wall clock was set or the device slept:
	// the wall clock moved by Step against the monotonic one.
	ClockSet struct{ Step time.Duration }
	// Pace says whether a case or a request is open: then links are watched each second.
	Pace struct{ Busy bool }
)

func (Tick) event()     {}
func (Enter) event()    {}
func (LinkUp) event()   {}
func (LinkDown) event() {}
func (Arrived) event()  {}
func (Wrote) event()    {}
func (ClockSet) event() {}
func (Pace) event()     {}

// Effect is something a Peer asks for. Effects are carried out in order.
type Effect interface{ effect() }

// The effects.
type (
	// Send puts a frame on a link. It must not block; a link that cannot take
	// it is ended with LinkDown.
	Send struct {
		Link   LinkID
		Stream Stream
		Frame  []byte
	}
	// Hang ends a link.
	Hang struct {
		Link LinkID
		Why  string
	}
	// Append writes records in one write and one sync, and verifies Checks
	// beside it. It is answered by exactly one Wrote, after both. At most one
	// Append is under way at a time.
	Append struct {
		Batch   uint64
		Records []Record
		Void    []VoidMark
		Checks  []SignatureCheck
	}
	// Learnt tells the folds of new facts, in no special order.
	Learnt struct{ Facts []Fact }
	// Refold tells the folds to begin again from nothing with all of Facts:
	// which entries count has changed.
	Refold struct{ Facts []Fact }
	// Saved says that an entry of this device is on its disk. Only now may
	// anything be shown as saved.
	Saved struct {
		Tap Tap
		At  Order
	}
	// NotSaved says that an entry of this device lives in memory only.
	NotSaved struct {
		Tap Tap
		At  Order
	}
	// Refused says that a tap could not be entered at all (too long, say).
	// Nothing was written.
	Refused struct {
		Tap Tap
		Err error
	}
	// Copied says that another device has stored all of a feed of this device
	// up to a sequence.
	Copied struct {
		By  Key
		At  Head
		Far bool // told through others by a signed receipt
	}
	// LinkState says that a link changed: up, doubtful, not answering, down.
	LinkState struct{ Peer PeerState }
	// Noted is something for the device's own log of events: a fork, a
	// removal, a poisoned store, a peer that sends rubbish.
	Noted struct {
		Note Note
		Peer Key
		Feed Feed
		Text string
	}
	// Told says where a member listens, as another one tells: an address,
	// "host:port", that may be worth dialling.
	Told struct {
		By    Key
		Peer  Key
		Hosts []string
	}
	// EarlySeen shows an entry whose feed still has a gap. No fold uses it.
	EarlySeen struct{ Entry *Entry }
)

func (Send) effect()      {}
func (Hang) effect()      {}
func (Append) effect()    {}
func (Learnt) effect()    {}
func (Refold) effect()    {}
func (Saved) effect()     {}
func (NotSaved) effect()  {}
func (Refused) effect()   {}
func (Copied) effect()    {}
func (LinkState) effect() {}
func (Noted) effect()     {}
func (Told) effect()      {}
func (EarlySeen) effect() {}

// Note says what a Noted is about.
type Note string

// Notes.
const (
	NoteForked      Note = "forked"          // a feed has two branches
	NotePoisoned    Note = "store-failed"    // the store failed; memory only from here on
	NoteIncarnation Note = "new-incarnation" // this device began a new incarnation
	NoteRemoved     Note = "removed"         // a device was removed
	NoteRubbish     Note = "refused-frame"   // a peer sent what cannot be read
	NoteBadSigned   Note = "bad-signature"   // a peer sent an entry its author did not sign
	NoteNoisy       Note = "noisy"           // a feed grows too fast and is served last
	NoteClockFar    Note = "clock-off"       // a clock is more than ClockFarMin off
)

// Record is what the disk stores for one entry.
type Record struct {
	Received Wall
	Item     Item
}

// VoidMark takes back a record of an earlier batch whose signature, checked
// beside the write, did not verify.
type VoidMark struct {
	Batch uint64
	Index uint32
}

// SignatureCheck is a verification to be done beside a write.
type SignatureCheck struct {
	By        Key
	Text      []byte
	Signature Signature
}

// Health is how well a link answers.
type Health uint8

// Health of a link. People see it in words.
const (
	NotConnected Health = 0
	Doubtful     Health = 1
	Connected    Health = 2
)

// PeerState is what is known of the link to one device.
type PeerState struct {
	Peer      Key
	Link      LinkID
	Health    Health
	Via       Transport
	Address   string
	Dialled   bool
	LastHeard time.Duration // on the Now.Mono scale
	RoundTrip time.Duration // 0: not measured yet
	OffsetMS  int64         // their wall clock minus ours
	WithinMS  int64         // ±; 0: not measured yet
}

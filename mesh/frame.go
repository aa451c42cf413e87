package mesh

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
)

// FrameKind is the first byte of a frame between admitted devices.
type FrameKind uint8

// Kinds of frames. The bodies behind the first byte are drawn in the package comment.
const (
	FrameItems    FrameKind = 1
	FrameReceipt  FrameKind = 2
	FrameFar      FrameKind = 3
	FrameVector   FrameKind = 4
	FrameLadder   FrameKind = 5
	FramePing     FrameKind = 6
	FramePong     FrameKind = 7
	FrameCredit   FrameKind = 8
	FrameLinks    FrameKind = 9
	FrameAddress  FrameKind = 10
	RunLenMax               = 60 << 10 // bytes of the entries of one run or one items frame
	HeadsPerFrame           = 900      // heads in one vector frame
	VectorMax               = 64       // frames of one vector
	RungsMax                = 64
)

// ErrFrame says that a frame cannot be read. It changes nothing.
var ErrFrame = errors.New("the frame is malformed")

// Items are consecutive entries of one feed; the last one is signed.
type Items struct{ Items []Item }

// Receipt says "everything of this feed up to here is on my disk".
type Receipt struct {
	Feed Feed
	Seq  Seq
	Hash Hash
}

// FarReceipt is a Receipt for an author that the receiver cannot reach, signed
// by the receiver and carried by others unchanged.
type FarReceipt struct {
	Receiver  Key
	Receipt   Receipt
	Signature Signature
}

// Vector says what its sender holds.
type Vector struct {
	Heads  []Head
	More   bool // another frame of the same vector follows
	Answer bool // send yours back
	All    bool // send me whatever I lack; else only what you wrote
	Stored bool // all of it is on my disk: good as a receipt
	Taken  uint64
}

// Rung is one entry of a Ladder.
type Rung struct {
	Seq  Seq
	Hash Short
}

// Ladder steps back by doubling from a head that the other side does not
// recognise, so that the last common entry is found.
type Ladder struct {
	Feed   Feed
	Rungs  []Rung // from the head down
	Answer bool   // send yours back
}

// Ping asks for a Pong; it tells what its sender has measured so far.
type Ping struct {
	N        uint64
	Wall     Wall
	Measured bool
	OffsetMS int64 // receiver's wall clock minus sender's
	WithinMS int64
}

// Pong answers a Ping.
type Pong struct {
	N    uint64
	Wall Wall
}

// Credit says how many items frames of a link were worked off since it stood.
type Credit struct{ Taken uint64 }

// Links tells whom the sender has a link with, by the first 8 bytes of the key.
type Links struct{ Keys []Short }

// Address is where a device was reached.
type Address struct {
	Key   Key
	Hosts []Label
}

// Addresses passes on where other devices are.
type Addresses struct{ Known []Address }

// Valid reports an empty or too long run.
func (i Items) Valid() error {
	sum := 0
	for _, it := range i.Items {
		sum += len(it.Bytes)
	}
	if len(i.Items) == 0 || len(i.Items) > ItemsMax || sum > RunLenMax {
		return fmt.Errorf("%w: %d entries of %d bytes", ErrFrame, len(i.Items), sum)
	}
	return nil
}

// Valid reports more rungs than a ladder can have.
func (l Ladder) Valid() error { return Within("rungs", int64(len(l.Rungs)), 1, RungsMax) }

// Valid reports a head that names no entry.
func (h Head) Valid() error { return Within("sequence", int64(h.Seq), 1, int64(SeqMax)) }

// encodeFrame writes a frame. The bodies are made by this package and always valid.
func encodeFrame(k FrameKind, body any) []byte {
	b, err := Encode(body)
	if err != nil {
		panic(fmt.Sprintf("mesh: frame %d: %v", k, err))
	}
	return append([]byte{byte(k)}, b...)
}

// DecodeFrame reads a frame. It returns a pointer to the body.
func DecodeFrame(b []byte) (any, error) {
	if len(b) == 0 || len(b) > FrameLenMax {
		return nil, fmt.Errorf("%w: %d bytes", ErrFrame, len(b))
	}
	make, ok := frameBodies[FrameKind(b[0])]
	if !ok {
		return nil, fmt.Errorf("%w: kind %d", ErrFrame, b[0])
	}
	body := make()
	if err := Decode(b[1:], body); err != nil {
		return nil, fmt.Errorf("%w: %v", ErrFrame, err)
	}
	return body, nil
}

// frameBodies is read only.
var frameBodies = map[FrameKind]func() any{
	FrameItems:   func() any { return new(Items) },
	FrameReceipt: func() any { return new(Receipt) },
	FrameFar:     func() any { return new(FarReceipt) },
	FrameVector:  func() any { return new(Vector) },
	FrameLadder:  func() any { return new(Ladder) },
	FramePing:    func() any { return new(Ping) },
	FramePong:    func() any { return new(Pong) },
	FrameCredit:  func() any { return new(Credit) },
	FrameLinks:   func() any { return new(Links) },
	FrameAddress: func() any { return new(Addresses) },
}

func compareHeads(a, b Head) int {
	if c := a.Feed.Compare(b.Feed); c != 0 {
		return c
	}
	if c := cmp.Compare(a.Seq, b.Seq); c != 0 {
		return c
	}
	return bytes.Compare(a.Hash[:], b.Hash[:])
}

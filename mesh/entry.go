package mesh

import (
	"errors"
	"fmt"
)

// Version is the entry format written by this program.
const Version = 1

// Kind numbers what a part is: mesh 0x00xx, requests 0x01xx, kits 0x02xx.
// A number is given once and its fields never change; more fields are a new kind.
type Kind uint16

// Part is one statement of an entry: a kind and its encoded body.
type Part struct {
	Kind Kind
	Body []byte
}

// Entry is what one tap writes. The bytes that Encode gives are kept and
// forwarded unchanged for ever; see the package comment for their drawing.
type Entry struct {
	Version     uint8
	Group       GroupID // zero in the founding entry, whose hash is the group's id
	Author      Key
	Incarnation Incarnation
	Seq         Seq
	Before      Hash // of the entry before in this feed; zero for sequence 1
	Turn        Turn
	Wall        Wall
	Tap         Tap
	Parts       []Part
}

// Errors of entries from outside.
var (
	ErrEntry = errors.New("the entry is malformed")
)

// Feed returns the feed that e belongs to.
func (e *Entry) Feed() Feed { return MakeFeed(e.Author, e.Incarnation) }

// Ref names part number part of e.
func (e *Entry) Ref(part int) Ref { return MakeRef(e.Author, e.Tap, part) }

// Valid reports what Encode would not write: another version, sequence or turn
// 0, a "before" that does not go with the sequence, no part or too many.
func (e Entry) Valid() error {
	switch {
	case e.Version != Version:
		return fmt.Errorf("%w: version %d", ErrEntry, e.Version)
	case e.Seq == 0 || e.Turn == 0:
		return fmt.Errorf("%w: sequence %d, turn %d", ErrEntry, e.Seq, e.Turn)
	case (e.Seq == 1) != (e.Before == Hash{}):
		return fmt.Errorf("%w: sequence %d with before %v", ErrEntry, e.Seq, e.Before)
	case len(e.Parts) == 0 || len(e.Parts) > PartsMax:
		return fmt.Errorf("%w: %d parts", ErrEntry, len(e.Parts))
	case (e.Group == GroupID{}) != (e.Seq == 1 && e.Parts[0].Kind == KindFounded):
		return fmt.Errorf("%w: only a founding entry has no group", ErrEntry)
	}
	return nil
}

// EncodeEntry gives the one byte form of e, at most EntryLenMax bytes.
func EncodeEntry(e *Entry) ([]byte, error) {
	b, err := Encode(e)
	if err != nil {
		return nil, err
	}
	if len(b) > EntryLenMax {
		return nil, fmt.Errorf("%w: %d bytes, at most %d", ErrTooLong, len(b), EntryLenMax)
	}
	return b, nil
}

// DecodeEntry reads what EncodeEntry wrote. The bodies of its parts lie in b,
// which must not be changed afterwards, nor they.
func DecodeEntry(b []byte) (*Entry, error) {
	if len(b) > EntryLenMax {
		return nil, fmt.Errorf("%w: %d bytes, at most %d", ErrTooLong, len(b), EntryLenMax)
	}
	e := new(Entry)
	if readEntry(b, e) {
		return e, nil
	}
	e = new(Entry)
	if err := Decode(b, e); err != nil {
		return nil, err
	}
	return e, nil
}

// HashEntry is the hash of an entry's bytes. It never covers a signature.
func HashEntry(b []byte) Hash { return hashOf("lintel entry 1", b) }

// SignedText is what the author signs to vouch for the entry with this hash
// and, through the chain, for every entry before it in the feed.
func SignedText(g GroupID, f Feed, s Seq, h Hash) []byte {
	text := make([]byte, 0, 20+32+40+8+32)
	text = append(text, "lintel signature 1"...)
	text = append(text, g[:]...)
	text = append(text, f[:]...)
	text = append(text, be8(uint64(s))...)
	return append(text, h[:]...)
}

// ReceiptText is what a receiver signs to say, through others, "on my disk".
func ReceiptText(g GroupID, receiver Key, f Feed, s Seq, h Hash) []byte {
	text := make([]byte, 0, 20+32+32+40+8+32)
	text = append(text, "lintel receipt 1"...)
	text = append(text, g[:]...)
	text = append(text, receiver[:]...)
	text = append(text, f[:]...)
	text = append(text, be8(uint64(s))...)
	return append(text, h[:]...)
}

// Signature is an Ed25519 signature. The zero value means "none".
type Signature [64]byte

// Signer is the seam for signing and verifying. Real devices use Ed25519; the
// simulation uses a keyed hash, which costs less. Both must be deterministic
// and are called from the loop that owns the Peer; Verify also from others.
type Signer interface {
	Sign(text []byte) Signature
	Verify(by Key, text []byte, s Signature) bool
}

// Item is an entry as it is stored and sent: bytes and, where one is needed, a signature.
type Item struct {
	Bytes     []byte
	Signature []byte // empty, or 64 bytes
}

// Valid reports a signature of a wrong length and an entry over EntryLenMax.
func (i Item) Valid() error {
	if n := len(i.Signature); n != 0 && n != len(Signature{}) {
		return fmt.Errorf("%w: a signature of %d bytes", ErrEntry, n)
	}
	if len(i.Bytes) > EntryLenMax {
		return ErrTooLong
	}
	return nil
}

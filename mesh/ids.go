package mesh

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
)

// Key is a device's Ed25519 public key. It is the device's identity: the tool
// proves devices, never persons.
type Key [32]byte

// Incarnation is the random mark of one life of a device's log. A device that
// can no longer be sure how far it had written begins a new one.
type Incarnation [8]byte

// Feed names one append-only sequence of entries: key (32) ‖ incarnation (8).
type Feed [40]byte

// Hash is a SHA-256 value.
type Hash [32]byte

// Short is the first 8 bytes of a Hash, enough to notice a difference.
type Short [8]byte

// GroupID is the hash of a group's founding entry.
type GroupID Hash

// Tap is the random name of one act of a person (or of the program).
type Tap [8]byte

// Ref names one part of one entry for ever: author (32) ‖ tap (8) ‖ part (1).
// It never names a position, so an entry written again under the same tap
// (after a failed disk, say) keeps its name. The zero Ref names nothing.
type Ref [41]byte

// Seq is the place of an entry in its feed, from 1.
type Seq uint64

// Turn orders entries: 1 + the highest turn its author held when writing.
type Turn uint64

// Wall is a wall clock reading in milliseconds since 1970 UTC. It is for people
// only; no fold decides anything by it. 0 means "not given".
type Wall int64

// Bounds of the numbers above. They stay below 2⁵³ so that every reader, also
// one that only knows floating point, reads them exactly.
const (
	SeqMax  Seq  = 1 << 53
	TurnMax Turn = 1 << 53
	WallMax Wall = 253_402_300_799_999 // 9999-12-31
)

// Errors of Valid methods in this file.
var (
	ErrRange = errors.New("a number is out of range")
)

// MakeFeed joins a key and an incarnation.
func MakeFeed(k Key, i Incarnation) (f Feed) {
	copy(f[:32], k[:])
	copy(f[32:], i[:])
	return f
}

// Author returns the key of the device that writes this feed.
func (f Feed) Author() (k Key) { copy(k[:], f[:32]); return k }

// Incarnation returns the life of the device's log that this feed belongs to.
func (f Feed) Incarnation() (i Incarnation) { copy(i[:], f[32:]); return i }

// String is for people: eight hexadecimal digits of the key, a dot, four of the incarnation.
func (f Feed) String() string { return hex.EncodeToString(f[:4]) + "." + hex.EncodeToString(f[32:34]) }

// Compare orders feeds by their bytes.
func (f Feed) Compare(g Feed) int { return bytes.Compare(f[:], g[:]) }

// String is for people: eight hexadecimal digits.
func (k Key) String() string { return hex.EncodeToString(k[:4]) }

// Hex is the whole key in hexadecimal.
func (k Key) Hex() string { return hex.EncodeToString(k[:]) }

// ParseKey reads what Hex wrote.
func ParseKey(s string) (k Key, err error) {
	b, err := hex.DecodeString(s)
	if err != nil || len(b) != len(k) {
		return k, fmt.Errorf("a device id is %d hexadecimal digits, got %q", 2*len(k), s)
	}
	copy(k[:], b)
	return k, nil
}

// Compare orders keys by their bytes.
func (k Key) Compare(l Key) int { return bytes.Compare(k[:], l[:]) }

// Short returns the first 8 bytes of h.
func (h Hash) Short() (s Short) { copy(s[:], h[:]); return s }

// String is for people: the first eight hexadecimal digits.
func (h Hash) String() string { return hex.EncodeToString(h[:4]) }

// Hex is the whole hash in hexadecimal.
func (h Hash) Hex() string { return hex.EncodeToString(h[:]) }

// Compare orders hashes by their bytes.
func (h Hash) Compare(g Hash) int { return bytes.Compare(h[:], g[:]) }

// Hex is the whole group id in hexadecimal.
func (g GroupID) Hex() string { return hex.EncodeToString(g[:]) }

// MakeRef names part number part (from 0) of the entry that author wrote for tap.
func MakeRef(author Key, tap Tap, part int) (r Ref) {
	copy(r[:32], author[:])
	copy(r[32:40], tap[:])
	r[40] = byte(part)
	return r
}

// Author returns the device that wrote the named part.
func (r Ref) Author() (k Key) { copy(k[:], r[:32]); return k }

// Tap returns the tap that the named part belongs to.
func (r Ref) Tap() (t Tap) { copy(t[:], r[32:40]); return t }

// Part returns the number of the part in its entry, from 0.
func (r Ref) Part() int { return int(r[40]) }

// Sibling names part n of the same tap.
func (r Ref) Sibling(n int) Ref { r[40] = byte(n); return r }

// IsZero tells whether r names nothing.
func (r Ref) IsZero() bool { return r == Ref{} }

// Compare orders refs by their bytes.
func (r Ref) Compare(s Ref) int { return bytes.Compare(r[:], s[:]) }

// String is for people: eight digits of the device, a colon, eight of the tap, a dot, the part.
func (r Ref) String() string {
	return hex.EncodeToString(r[:4]) + ":" + hex.EncodeToString(r[32:36]) + "." + fmt.Sprint(r[40])
}

// Hex is the whole ref in hexadecimal, the form that commands and JSON lines use.
func (r Ref) Hex() string { return hex.EncodeToString(r[:]) }

// Valid reports a part number that no entry can have.
func (r Ref) Valid() error {
	if int(r[40]) >= PartsMax {
		return fmt.Errorf("%w: part %d of at most %d", ErrRange, r[40], PartsMax)
	}
	return nil
}

// Valid reports a sequence over SeqMax; 0 is allowed and means "none".
func (s Seq) Valid() error {
	if s > SeqMax {
		return fmt.Errorf("%w: sequence %d", ErrRange, uint64(s))
	}
	return nil
}

// Valid reports a turn over TurnMax.
func (t Turn) Valid() error {
	if t > TurnMax {
		return fmt.Errorf("%w: turn %d", ErrRange, uint64(t))
	}
	return nil
}

// Valid reports a wall clock before 1970 or after the year 9999.
func (w Wall) Valid() error {
	if w < 0 || w > WallMax {
		return fmt.Errorf("%w: wall clock %d", ErrRange, int64(w))
	}
	return nil
}

// Order is the one total order of entries that every device agrees on. It is
// used to choose among equals, never to decide whether something counts.
type Order struct {
	Turn Turn
	Feed Feed
	Seq  Seq
	Hash Hash // apart only on the branches of a fork
}

// Compare orders by turn, author, incarnation, sequence and, between the
// branches of a fork, hash.
func (o Order) Compare(p Order) int {
	if c := cmp.Compare(o.Turn, p.Turn); c != 0 {
		return c
	}
	if c := o.Feed.Compare(p.Feed); c != 0 {
		return c
	}
	if c := cmp.Compare(o.Seq, p.Seq); c != 0 {
		return c
	}
	return o.Hash.Compare(p.Hash)
}

// hashOf is SHA-256 over a domain label and the byte strings that follow.
func hashOf(label string, parts ...[]byte) (h Hash) {
	s := sha256.New()
	s.Write([]byte(label))
	for _, p := range parts {
		s.Write(p)
	}
	s.Sum(h[:0])
	return h
}

// be8 is an integer as signed and hashed text has it: 8 bytes, big-endian.
func be8(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }

package lan

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/binary"
	"fmt"

	"lintel/mesh"
)

// beaconVersion is the version of beacons and of what mDNS carries.
const beaconVersion = 1

// beaconName is what a beacon begins with, behind its kind.
const beaconName = "lintel"

// beaconLen is the length of every beacon in bytes.
const beaconLen = 1 + len(beaconName) + 1 + 2 + nonceLen + tagShortLen

// Lengths in bytes.
const (
	nonceLen    = 8
	tagShortLen = 8
)

// beaconKind is a beacon's first byte. Its two top bits are clear, so that it
// can share a socket with QUIC.
type beaconKind uint8

// Kinds of beacons.
const (
	beaconCall   beaconKind = 1 // to everybody; who matches may answer
	beaconAnswer beaconKind = 2 // to one address; never answered
)

// beacon is what a device says about itself to everybody on the network, also
// by mDNS: nothing about a person or a room.
type beacon struct {
	kind  beaconKind
	port  uint16 // where it listens, on TCP and UDP
	nonce [nonceLen]byte
	tag   [tagShortLen]byte // all zero: it belongs to no unit
}

// groupTag is the first bytes of HMAC-SHA-256(group id, nonce): only who knows
// the group can tell that it is the group's.
func groupTag(g mesh.GroupID, nonce [nonceLen]byte) (tag [tagShortLen]byte) {
	h := hmac.New(sha256.New, g[:])
	h.Write(nonce[:])
	copy(tag[:], h.Sum(nil))
	return tag
}

// inUnit tells whether the sender says that it belongs to a unit.
func (b beacon) inUnit() bool { return b.tag != [tagShortLen]byte{} }

// matches tells whether the sender knows the group g, or repeats who does.
func (b beacon) matches(g mesh.GroupID, ok bool) bool {
	want := groupTag(g, b.nonce)
	return ok && hmac.Equal(want[:], b.tag[:])
}

// encodeBeacon writes what decodeBeacon reads.
func encodeBeacon(b beacon) []byte {
	out := make([]byte, 0, beaconLen)
	out = append(out, byte(b.kind))
	out = append(out, beaconName...)
	out = append(out, beaconVersion)
	out = binary.BigEndian.AppendUint16(out, b.port)
	out = append(out, b.nonce[:]...)
	return append(out, b.tag[:]...)
}

// decodeBeacon reads a datagram that is not QUIC.
func decodeBeacon(in []byte) (b beacon, err error) {
	if len(in) != beaconLen || string(in[1:1+len(beaconName)]) != beaconName {
		return b, fmt.Errorf("%w: %d bytes", errBeacon, len(in))
	}
	b.kind = beaconKind(in[0])
	rest := in[1+len(beaconName):]
	b.port = binary.BigEndian.Uint16(rest[1:])
	copy(b.nonce[:], rest[3:])
	copy(b.tag[:], rest[3+nonceLen:])
	switch {
	case b.kind != beaconCall && b.kind != beaconAnswer:
		return beacon{}, fmt.Errorf("%w: kind %d", errBeacon, b.kind)
	case rest[0] != beaconVersion:
		return beacon{}, fmt.Errorf("%w: version %d", errBeacon, rest[0])
	case b.port == 0:
		return beacon{}, fmt.Errorf("%w: port 0", errBeacon)
	}
	return b, nil
}

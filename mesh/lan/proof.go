package lan

import (
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"crypto/sha512"
	"fmt"

	"lintel/mesh"
)

// tagLen is the length of a confirmation, in bytes.
const tagLen = 32

// Labels that keep pairing's hashes apart from all others.
const (
	exporterLabel = "EXPORTER-lintel-pairing-1"
	channelLabel  = "lintel pairing 1"
	confirmLabel  = "lintel pairing confirm 1"
)

// proof is what one side needs to show, and to be shown, that both know the code.
type proof struct {
	role   PairRole
	typing bool // this side typed the code, so it speaks first
	run    *exchange
	mine   [tagLen]byte // what this side sends to confirm
	theirs [tagLen]byte // what the other side must send
}

// newProof begins a proof on a connection whose keys TLS has proved to both.
func newProof(c *carrier, own mesh.Key, code string, role PairRole, typing bool) (*proof, error) {
	sid, err := c.tls.ExportKeyingMaterial(exporterLabel, nil, sha256.Size)
	if err != nil {
		return nil, fmt.Errorf("session id: %w", err)
	}
	var random [shareLen]byte
	if _, err := rand.Read(random[:]); err != nil {
		return nil, fmt.Errorf("random: %w", err)
	}
	p := &proof{role: role, typing: typing}
	p.run, err = newExchange([]byte(code), p.channel(own, c.peer), sid, random[:])
	return p, err
}

// channel names both devices with what they do, in an order both agree on: the
// typing side first.
func (p *proof) channel(own, other mesh.Key) []byte {
	typing, showing := own, other
	role := p.role
	if !p.typing {
		typing, showing = other, own
		role = p.role.other()
	}
	t, s := sha256.Sum256(typing[:]), sha256.Sum256(showing[:])
	return withLengths([]byte(channelLabel),
		[]byte("typing"), []byte(role.String()), t[:],
		[]byte("showing"), []byte(role.other().String()), s[:])
}

// meet takes the other side's share and computes both confirmations.
func (p *proof) meet(share [shareLen]byte) error {
	key, err := p.run.agree(share[:], p.typing)
	if err != nil {
		return err
	}
	p.mine = confirmation(key, p.role)
	p.theirs = confirmation(key, p.role.other())
	return nil
}

// confirmation is what the side with this role sends to prove the key. The key
// covers both shares, the session and the channel; the role keeps one side's
// confirmation from being sent back as the other's.
func confirmation(key []byte, role PairRole) (tag [tagLen]byte) {
	m := hmac.New(sha512.New, key)
	m.Write(withLengths([]byte(confirmLabel), []byte(role.String())))
	copy(tag[:], m.Sum(nil))
	return tag
}

// share is this side's share as a message has it.
func (p *proof) share() (s [shareLen]byte) { copy(s[:], p.run.share); return s }

// holds compares the other side's confirmation, in constant time.
func (p *proof) holds(tag [tagLen]byte) bool { return hmac.Equal(tag[:], p.theirs[:]) }

package lan

import (
	"crypto/ecdh"
	"crypto/sha512"
	"encoding/binary"
	"fmt"

	"filippo.io/edwards25519/field"
)

// CPACE-X25519-SHA512 of the CFRG draft draft-irtf-cfrg-cpace, revision 21,
// initiator-responder setting: two devices that share a short code agree on a
// key, and whoever does not know the code learns nothing but whether one guess
// was right. It holds the draft's test vectors, but it needs an outside review
// before anybody relies on it against a determined attacker.

// Domain names of the suite, and its lengths in bytes.
const (
	cpaceName     = "CPace255"
	cpaceKeyName  = "CPace255_ISK"
	shareLen      = 32               // a public share, and a scalar
	hashBlockLen  = 128              // SHA-512's input block
	montgomeryA   = 486662           // curve25519: v² = u³ + A u² + u
	agreedKeyLen  = sha512.Size      // what both sides end with
	elligatorRoot = 2                // the non-square of the map
	zeroPadMax    = hashBlockLen - 1 // so that the code fills a block of its own
)

// exchange is one side of one run, after its share was made.
type exchange struct {
	secret *ecdh.PrivateKey
	sid    []byte
	share  []byte // what goes to the other side, shareLen bytes
}

// newExchange makes a share from the code, the channel identifier, the session
// id and shareLen fresh random bytes.
func newExchange(code, channel, sid, random []byte) (*exchange, error) {
	secret, err := ecdh.X25519().NewPrivateKey(random)
	if err != nil {
		return nil, fmt.Errorf("the scalar: %w", err)
	}
	share, err := multiply(secret, generator(code, channel, sid))
	if err != nil {
		return nil, err
	}
	return &exchange{secret: secret, sid: sid, share: share}, nil
}

// agree returns the agreed key. A share of low order is an error: whoever sends
// one would know the key without knowing the code.
func (e *exchange) agree(theirs []byte, initiator bool) ([]byte, error) {
	point, err := multiply(e.secret, theirs)
	if err != nil {
		return nil, err
	}
	first, second := e.share, theirs
	if !initiator {
		first, second = theirs, e.share
	}
	return agreedKey(e.sid, point, transcript(first, nil, second, nil)), nil
}

// multiply is X25519. It refuses the all-zero result.
func multiply(secret *ecdh.PrivateKey, point []byte) ([]byte, error) {
	public, err := ecdh.X25519().NewPublicKey(point)
	if err != nil {
		return nil, fmt.Errorf("%w: a share of %d bytes", errProof, len(point))
	}
	out, err := secret.ECDH(public)
	if err != nil {
		return nil, fmt.Errorf("%w: a share of low order", errProof)
	}
	return out, nil
}

// agreedKey hashes the session id, the common point and what both have sent.
func agreedKey(sid, point, transcript []byte) []byte {
	h := sha512.New()
	h.Write(withLengths([]byte(cpaceKeyName), sid, point))
	h.Write(transcript)
	return h.Sum(nil)
}

// transcript is what both have sent, the initiator's first.
func transcript(share1, extra1, share2, extra2 []byte) []byte {
	return append(withLengths(share1, extra1), withLengths(share2, extra2)...)
}

// generator maps the code to a point whose logarithm nobody knows.
func generator(code, channel, sid []byte) []byte {
	named := len(withLengths([]byte(cpaceName))) + len(withLengths(code))
	pad := make([]byte, max(0, zeroPadMax-named))
	h := sha512.Sum512(withLengths([]byte(cpaceName), code, pad, channel, sid))
	return elligator2(h[:shareLen])
}

// elligator2 maps 32 bytes to the u-coordinate of a point of curve25519: of
// v = -A / (1 + 2r²) and -v - A exactly one lies on the curve.
func elligator2(b []byte) []byte {
	var r, one, a, v, other, curve field.Element
	if _, err := r.SetBytes(b); err != nil {
		panic("lan: elligator2 wants 32 bytes") // only called with a cut hash
	}
	one.One()
	a.Mult32(&one, montgomeryA)

	v.Square(&r)
	v.Mult32(&v, elligatorRoot)
	v.Add(&v, &one) // never zero: -1/2 is not a square
	v.Invert(&v)
	v.Multiply(&v, &a)
	v.Negate(&v)

	curve.Add(&v, &a) // v³ + A v² + v = ((v + A) v + 1) v
	curve.Multiply(&curve, &v)
	curve.Add(&curve, &one)
	curve.Multiply(&curve, &v)

	other.Negate(&v)
	other.Subtract(&other, &a)
	_, onCurve := new(field.Element).SqrtRatio(&curve, &one)
	return new(field.Element).Select(&v, &other, onCurve).Bytes()
}

// withLengths joins byte strings, each behind its length as a LEB128 number.
func withLengths(parts ...[]byte) []byte {
	var out []byte
	for _, p := range parts {
		out = binary.AppendUvarint(out, uint64(len(p)))
		out = append(out, p...)
	}
	return out
}

package meshtest

import (
	"crypto/ed25519"
	"crypto/sha256"

	"lintel/mesh"
)

// KeyedHash is a mesh.Signer that costs little: a signature is a hash over a
// secret made from the key. It proves nothing against an attacker; the
// simulation has none that knows the secret.
type KeyedHash struct{ Self mesh.Key }

func (s KeyedHash) sum(by mesh.Key, text []byte) (out mesh.Signature) {
	h := sha256.New()
	h.Write([]byte("simulated signature"))
	h.Write(by[:])
	h.Write(text)
	copy(out[:], h.Sum(nil))
	return out
}

// Sign signs as the device itself.
func (s KeyedHash) Sign(text []byte) mesh.Signature { return s.sum(s.Self, text) }

// Verify tells whether by made the signature.
func (s KeyedHash) Verify(by mesh.Key, text []byte, sig mesh.Signature) bool {
	return s.sum(by, text) == sig
}

// Ed25519 is the signer that real devices use.
type Ed25519 struct{ Private ed25519.PrivateKey }

// Key is the public half.
func (s Ed25519) Key() (k mesh.Key) {
	copy(k[:], s.Private.Public().(ed25519.PublicKey))
	return k
}

// Sign signs as the device itself.
func (s Ed25519) Sign(text []byte) mesh.Signature {
	return mesh.Signature(ed25519.Sign(s.Private, text))
}

// Verify tells whether by made the signature.
func (s Ed25519) Verify(by mesh.Key, text []byte, sig mesh.Signature) bool {
	return ed25519.Verify(by[:], text, sig[:])
}

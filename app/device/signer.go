package device

import (
	"crypto/ed25519"

	"lintel/mesh"
)

// signer signs with the device's key. It is safe for use by several goroutines.
type signer struct{ private ed25519.PrivateKey }

func (s signer) key() (k mesh.Key) {
	copy(k[:], s.private.Public().(ed25519.PublicKey))
	return k
}

// Sign signs text as this device.
func (s signer) Sign(text []byte) mesh.Signature {
	return mesh.Signature(ed25519.Sign(s.private, text))
}

// Verify tells whether by made the signature.
func (s signer) Verify(by mesh.Key, text []byte, sig mesh.Signature) bool {
	return ed25519.Verify(by[:], text, sig[:])
}

// Verifier verifies signatures and cannot make any: for reading a log.
type Verifier struct{}

// Sign returns no signature.
func (Verifier) Sign([]byte) mesh.Signature { return mesh.Signature{} }

// Verify tells whether by made the signature.
func (Verifier) Verify(by mesh.Key, text []byte, sig mesh.Signature) bool {
	return signer{}.Verify(by, text, sig)
}

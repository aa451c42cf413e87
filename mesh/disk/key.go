package disk

import (
	"crypto/ed25519"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

const (
	keyName   = "device.key"
	keyPerm   = 0o600
	keyLenMax = 4 << 10
	keyBlock  = "PRIVATE KEY" // PKCS #8 in PEM, RFC 5958 and RFC 7468
)

// ErrKey says that a key file is there and cannot be used. It is never
// replaced: it may be the only copy of a device's identity.
var ErrKey = errors.New("the device's key file cannot be used")

// LoadKey gives the device's private key, from device.key in the data folder
// dir, and makes one the first time. When it returns, the key is on the disk.
// The caller holds the folder's Lock. Errors: ErrKey, or the system's.
func LoadKey(dir string) (ed25519.PrivateKey, error) { return loadKey(Real(), dir) }

func loadKey(fsys FS, dir string) (ed25519.PrivateKey, error) {
	path := filepath.Join(dir, keyName)
	b, _, err := fsys.ReadFile(path, keyLenMax)
	if errors.Is(err, fs.ErrNotExist) {
		return makeKey(fsys, dir)
	}
	if err != nil {
		return nil, err
	}
	block, rest := pem.Decode(b)
	if block == nil || block.Type != keyBlock || len(rest) != 0 {
		return nil, fmt.Errorf("%w: %s is not a private key in PEM form", ErrKey, path)
	}
	parsed, err := x509.ParsePKCS8PrivateKey(block.Bytes)
	key, ok := parsed.(ed25519.PrivateKey)
	if err != nil || !ok {
		return nil, fmt.Errorf("%w: %s holds no Ed25519 key", ErrKey, path)
	}
	tighten(path)
	return key, nil
}

func makeKey(fsys FS, dir string) (ed25519.PrivateKey, error) {
	_, key, err := ed25519.GenerateKey(nil)
	if err != nil {
		return nil, err
	}
	text, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		return nil, err
	}
	if err := makeFolder(fsys, dir); err != nil {
		return nil, err
	}
	b := pem.EncodeToMemory(&pem.Block{Type: keyBlock, Bytes: text})
	if err := replace(fsys, filepath.Join(dir, keyName), keyPerm, func(Identity) []byte { return b }); err != nil {
		return nil, err
	}
	return key, nil
}

// tighten takes a copied key file away from other users where the system can;
// where it cannot, the device works all the same.
func tighten(path string) {
	if st, err := os.Stat(path); err == nil && st.Mode().Perm()&0o077 != 0 {
		_ = os.Chmod(path, keyPerm)
	}
}

package integration

import (
	"bytes"
	"crypto/ed25519"
	"crypto/x509"
	"encoding/hex"
	"encoding/json"
	"encoding/pem"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// readByPython reads one value in hexadecimal per line with Debian's
// python3-msgpack, prints it as JSON with byte strings as {"hex": …}, and says
// whether that library writes the same bytes again.
const readByPython = `
import json, msgpack, sys
def plain(v):
    if isinstance(v, bytes): return {"hex": v.hex()}
    if isinstance(v, list): return [plain(x) for x in v]
    return v
for line in sys.stdin:
    b = bytes.fromhex(line)
    v = msgpack.unpackb(b, raw=False)
    print(json.dumps({"value": plain(v), "same": msgpack.packb(v, use_bin_type=True) == b}))
`

// outsideValue is what an independent decoder made of our bytes.
type outsideValue struct {
	Value any  `json:"value"`
	Same  bool `json:"same"`
}

// python finds an interpreter that has the msgpack module.
func python(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(name, "-c", "import msgpack").Run() == nil {
			return name
		}
	}
	t.Skip("no python3 with the msgpack module: nobody else reads our entries here")
	return ""
}

// readOutside gives every value to the independent decoder.
func readOutside(t *testing.T, values [][]byte) (read []outsideValue) {
	t.Helper()
	var lines strings.Builder
	for _, b := range values {
		lines.WriteString(hex.EncodeToString(b) + "\n")
	}
	cmd := exec.Command(python(t), "-c", readByPython)
	cmd.Stdin = strings.NewReader(lines.String())
	var complaint bytes.Buffer
	cmd.Stderr = &complaint
	out, err := cmd.Output()
	require.NoError(t, err, complaint.String())
	dec := json.NewDecoder(bytes.NewReader(out))
	dec.UseNumber()
	for range values {
		var v outsideValue
		require.NoError(t, dec.Decode(&v))
		read = append(read, v)
	}
	return read
}

// asOutside is what an independent decoder must make of a value of ours: a
// struct is the array of its fields, a byte string is hexadecimal.
func asOutside(v reflect.Value) any {
	switch v.Kind() {
	case reflect.Struct:
		list := make([]any, v.NumField())
		for i := range list {
			list[i] = asOutside(v.Field(i))
		}
		return list
	case reflect.Array:
		b := make([]byte, v.Len())
		reflect.Copy(reflect.ValueOf(b), v)
		return map[string]any{"hex": hex.EncodeToString(b)}
	case reflect.Slice:
		if v.Type().Elem().Kind() == reflect.Uint8 {
			return map[string]any{"hex": hex.EncodeToString(v.Bytes())}
		}
		list := make([]any, v.Len())
		for i := range list {
			list[i] = asOutside(v.Index(i))
		}
		return list
	case reflect.String:
		return v.String()
	case reflect.Bool:
		return v.Bool()
	}
	if v.CanInt() {
		return json.Number(strconv.FormatInt(v.Int(), 10))
	}
	return json.Number(strconv.FormatUint(v.Uint(), 10))
}

// signedEntry is an entry as a device writes it, with its author's key.
func signedEntry(t *testing.T) (*mesh.Entry, ed25519.PrivateKey) {
	t.Helper()
	private := ed25519.NewKeyFromSeed(bytes.Repeat([]byte("seed"), ed25519.SeedSize/4))
	by, err := mesh.MakePart(mesh.KindBy, &mesh.By{Role: "runner", Tag: "R1", Happened: 1_790_000_000_000, Way: mesh.WayGlass})
	require.NoError(t, err)
	e := &mesh.Entry{
		Version: mesh.Version, Group: mesh.GroupID{1, 2, 3}, Author: mesh.Key(private.Public().(ed25519.PublicKey)),
		Incarnation: mesh.Incarnation{4}, Seq: 70_000, Before: mesh.Hash{5}, Turn: 1 << 40, Wall: mesh.WallMax,
		Tap: mesh.Tap{6}, Parts: []mesh.Part{by, {Kind: 0x7abc, Body: []byte{0xc1}}},
	}
	return e, private
}

// TestEntriesAreReadByAnIndependentDecoder gives an entry and random bodies of
// every kind to a msgpack library that is not ours: it must read the same
// values and, writing them in the shortest form, give the same bytes.
func TestEntriesAreReadByAnIndependentDecoder(t *testing.T) {
	python(t)
	rng := seeded(t)
	e, _ := signedEntry(t)
	written := []any{e}
	for _, body := range kindBodies() {
		for range 5 {
			written = append(written, randomOf(t, rng, reflect.TypeOf(body)).Interface())
		}
	}
	var values [][]byte
	for _, v := range written {
		b, err := mesh.Encode(v)
		require.NoError(t, err)
		values = append(values, b)
	}
	for i, read := range readOutside(t, values) {
		require.Equal(t, asOutside(reflect.ValueOf(written[i]).Elem()), read.Value, "%T", written[i])
		require.True(t, read.Same, "%T %x", written[i], values[i])
	}
}

// openssl runs the command in a folder of its own and gives what it prints and
// whether it agreed.
func openssl(t *testing.T, dir string, args ...string) ([]byte, error) {
	t.Helper()
	cmd := exec.Command("openssl", args...)
	cmd.Dir = dir
	return cmd.Output()
}

// needOpenssl leaves a test out where the command is missing.
func needOpenssl(t *testing.T) {
	t.Helper()
	if _, err := exec.LookPath("openssl"); err != nil {
		t.Skip("no openssl command: nobody else checks our hashes and signatures here")
	}
}

func write(t *testing.T, dir, name string, b []byte) {
	t.Helper()
	require.NoError(t, os.WriteFile(filepath.Join(dir, name), b, 0o600))
}

// TestEntryHashIsOpenssls lets openssl compute SHA-256("lintel entry 1" ‖ bytes).
func TestEntryHashIsOpenssls(t *testing.T) {
	needOpenssl(t)
	dir := t.TempDir()
	e, _ := signedEntry(t)
	b, err := mesh.EncodeEntry(e)
	require.NoError(t, err)
	write(t, dir, "hashed", append([]byte("lintel entry 1"), b...))
	out, err := openssl(t, dir, "dgst", "-sha256", "-binary", "hashed")
	require.NoError(t, err)
	require.Equal(t, mesh.HashEntry(b).Hex(), hex.EncodeToString(out))
}

// TestEntrySignatureIsOpenssls lets openssl verify the author's signature over
// "lintel signature 1" ‖ group ‖ feed ‖ sequence ‖ hash, refuse it over another
// sequence, and sign itself: Ed25519 gives one signature only.
func TestEntrySignatureIsOpenssls(t *testing.T) {
	needOpenssl(t)
	dir := t.TempDir()
	e, private := signedEntry(t)
	b, err := mesh.EncodeEntry(e)
	require.NoError(t, err)
	h := mesh.HashEntry(b)
	text := mesh.SignedText(e.Group, e.Feed(), e.Seq, h)
	signature := ed25519.Sign(private, text)

	public, err := x509.MarshalPKIXPublicKey(private.Public())
	require.NoError(t, err)
	secret, err := x509.MarshalPKCS8PrivateKey(private)
	require.NoError(t, err)
	write(t, dir, "public.pem", pem.EncodeToMemory(&pem.Block{Type: "PUBLIC KEY", Bytes: public}))
	write(t, dir, "secret.pem", pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: secret}))
	write(t, dir, "signature", signature)
	write(t, dir, "text", text)
	write(t, dir, "other", mesh.SignedText(e.Group, e.Feed(), e.Seq+1, h))

	verify := []string{"pkeyutl", "-verify", "-pubin", "-inkey", "public.pem", "-rawin", "-sigfile", "signature", "-in"}
	out, err := openssl(t, dir, append(verify, "text")...)
	require.NoError(t, err, "%s", out)
	_, err = openssl(t, dir, append(verify, "other")...)
	require.Error(t, err)
	out, err = openssl(t, dir, "pkeyutl", "-sign", "-inkey", "secret.pem", "-rawin", "-in", "text")
	require.NoError(t, err)
	require.Equal(t, hex.EncodeToString(signature), hex.EncodeToString(out))
}

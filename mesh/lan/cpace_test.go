package lan

import (
	"bytes"
	"crypto/ecdh"
	"crypto/sha512"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// cpaceVectors are those of the CFRG draft draft-irtf-cfrg-cpace, revision 21,
// appendix, suite CPACE-X25519-SHA512, kept in testdata/cpace.json.
type cpaceVectors struct {
	Run      map[string]string `json:"G_25519"`
	Points   map[string]string `json:"X25519_points"`
	Scalar   string            `json:"scalar"`
	Accepted map[string]string `json:"accepted"`
}

func readVectors(t *testing.T) (v cpaceVectors, get func(string) []byte) {
	b, err := os.ReadFile("testdata/cpace.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(b, &v))
	require.Len(t, v.Run, 15)
	require.Len(t, v.Points, 12)
	return v, func(name string) []byte {
		require.Contains(t, v.Run, name)
		return unhex(t, v.Run[name])
	}
}

func unhex(t *testing.T, s string) []byte {
	b, err := hex.DecodeString(s)
	require.NoError(t, err)
	return b
}

// Goal: our run is the draft's run. Method: every value of the draft's worked
// example, the symmetric variants too (only joined in another order).
func TestCPaceAgreesWithTheDraftsWorkedExample(t *testing.T) {
	_, get := readVectors(t)
	require.Equal(t, get("g"), generator(get("PRS"), get("CI"), get("sid")))

	a, err := newExchange(get("PRS"), get("CI"), get("sid"), get("ya"))
	require.NoError(t, err)
	require.Equal(t, get("Ya"), a.share)
	b, err := newExchange(get("PRS"), get("CI"), get("sid"), get("yb"))
	require.NoError(t, err)
	require.Equal(t, get("Yb"), b.share)

	k, err := multiply(a.secret, b.share)
	require.NoError(t, err)
	require.Equal(t, get("K"), k)
	k, err = multiply(b.secret, a.share)
	require.NoError(t, err)
	require.Equal(t, get("K"), k)

	inOrder := transcript(get("Ya"), get("ADa"), get("Yb"), get("ADb"))
	require.Equal(t, get("ISK_IR"), agreedKey(get("sid"), k, inOrder))
	require.Equal(t, get("sid_output_ir"), sum512("CPaceSidOutput", inOrder))

	low, high := withLengths(get("Ya"), get("ADa")), withLengths(get("Yb"), get("ADb"))
	if bytes.Compare(low, high) < 0 { // the draft puts the larger first
		low, high = high, low
	}
	ordered := append(append([]byte("oc"), low...), high...)
	require.Equal(t, get("ISK_SY"), agreedKey(get("sid"), k, ordered))
	require.Equal(t, get("sid_output_oc"), sum512("CPaceSidOutput", ordered))
}

func sum512(label string, b []byte) []byte {
	h := sha512.Sum512(append([]byte(label), b...))
	return h[:]
}

// Goal: low-order shares abort, the others give the draft's value. Method: the
// draft's twelve points with its scalar.
func TestCPaceAbortsOnLowOrderShares(t *testing.T) {
	v, _ := readVectors(t)
	secret, err := ecdh.X25519().NewPrivateKey(unhex(t, v.Scalar))
	require.NoError(t, err)
	accepted := 0
	for i := range len(v.Points) {
		got, err := multiply(secret, unhex(t, v.Points[fmt.Sprintf("Invalid Y%d", i)]))
		want, ok := v.Accepted[fmt.Sprint(i)]
		if !ok {
			require.ErrorIs(t, err, errProof, "point %d", i)
			continue
		}
		accepted++
		require.NoError(t, err, "point %d", i)
		require.Equal(t, unhex(t, want), got, "point %d", i)
	}
	require.Equal(t, len(v.Accepted), accepted)
	_, err = multiply(secret, []byte("short"))
	require.ErrorIs(t, err, errProof)
}

// Goal: both sides agree, and any difference in code, channel or session gives
// another key. Method: runs that differ in one of them.
func TestCPaceKeyDependsOnCodeChannelAndSession(t *testing.T) {
	run := func(code, channel, sid string) []byte {
		a, err := newExchange([]byte("1234567"), []byte("ci"), []byte("sid"), bytes.Repeat([]byte{7}, shareLen))
		require.NoError(t, err)
		b, err := newExchange([]byte(code), []byte(channel), []byte(sid), bytes.Repeat([]byte{9}, shareLen))
		require.NoError(t, err)
		ka, err := a.agree(b.share, true)
		require.NoError(t, err)
		kb, err := b.agree(a.share, false)
		require.NoError(t, err)
		if bytes.Equal(ka, kb) {
			return ka
		}
		return nil
	}
	require.Len(t, run("1234567", "ci", "sid"), agreedKeyLen)
	require.Nil(t, run("1234576", "ci", "sid"))
	require.Nil(t, run("1234567", "cj", "sid"))
	require.Nil(t, run("1234567", "ci", "sie"))
}

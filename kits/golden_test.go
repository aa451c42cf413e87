package kits

import (
	"encoding/hex"
	"flag"
	"fmt"
	"maps"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

var update = flag.Bool("update", false, "add kinds that are missing to testdata/kinds.txt; what is there is never changed")

const goldenFile = "testdata/kinds.txt"

// golden reads the examples: kind, a blank, the encoded body in hexadecimal.
func golden(t testing.TB) map[mesh.Kind][]byte {
	text, err := os.ReadFile(goldenFile)
	require.NoError(t, err)
	out := map[mesh.Kind][]byte{}
	for line := range strings.Lines(string(text)) {
		var kind mesh.Kind
		var digits string
		_, err := fmt.Sscanf(line, "%v %s", &kind, &digits)
		require.NoError(t, err, line)
		out[kind], err = hex.DecodeString(digits)
		require.NoError(t, err, line)
	}
	return out
}

// Goal: what was written once is read for ever. Method: the examples in the
// file, one of each kind, decode to a body that encodes to the same bytes.
func TestBodiesOnceWrittenAreReadForEver(t *testing.T) {
	if *update {
		writeGolden(t)
	}
	examples := golden(t)
	for kind, fresh := range KitsKinds() {
		b, ok := examples[kind]
		require.True(t, ok, "no example of kind %#04x: run with -update", uint16(kind))
		v := fresh()
		require.NoError(t, mesh.Decode(b, v), "%T", v)
		again, err := mesh.Encode(v)
		require.NoError(t, err)
		require.Equal(t, b, again, "%T", v)
		require.Equal(t, exampleOf(fresh()), v, "%T", v)
	}
	require.Len(t, examples, len(KitsKinds()))
}

// writeGolden adds an example of each kind that has none.
func writeGolden(t *testing.T) {
	have := map[mesh.Kind][]byte{}
	if _, err := os.Stat(goldenFile); err == nil {
		have = golden(t)
	}
	kinds := KitsKinds()
	var out strings.Builder
	for _, k := range slices.Sorted(maps.Keys(kinds)) {
		b := have[k]
		if b == nil {
			var err error
			b, err = mesh.Encode(exampleOf(kinds[k]()))
			require.NoError(t, err)
		}
		fmt.Fprintf(&out, "%#04x %x\n", uint16(k), b)
	}
	require.NoError(t, os.WriteFile(goldenFile, []byte(out.String()), 0o644))
}

// exampleOf fills a body so that every field differs from its zero value.
func exampleOf(body any) any {
	n := 0
	exemplify(reflect.ValueOf(body).Elem(), &n)
	if m, ok := body.(*Moved); ok { // one that begins a hand-over
		m.From, m.To, m.Then = store, doorA1, insideA1
	}
	return body
}

func exemplify(v reflect.Value, n *int) {
	*n++
	switch x := v.Addr().Interface().(type) {
	case *PlaceSort:
		*x = [...]PlaceSort{Store, InRoom, Trolley}[*n%3]
		return
	case *mesh.Measure:
		*x = mesh.Microgram
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			exemplify(v.Field(i), n)
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		exemplify(v.Index(0), n)
		exemplify(v.Index(1), n)
	case reflect.Array:
		for i := range v.Len() - 1 {
			v.Index(i).SetUint(uint64(*n+i) & 0xff)
		}
	case reflect.String:
		v.SetString(fmt.Sprintf("text%d", *n))
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int64:
		v.SetInt(int64(*n) * 1000)
	case reflect.Uint8:
		v.SetUint(2)
	case reflect.Uint32, reflect.Uint64:
		v.SetUint(uint64(*n) + 200)
	}
}

// Goal: the package comment draws what is written. Method: each kind stands
// there with its number, its name and its fields in their order.
func TestDrawingsMatchTheBodies(t *testing.T) {
	doc, err := os.ReadFile("doc.go")
	require.NoError(t, err)
	_, drawn, ok := strings.Cut(string(doc), "// # Kinds\n")
	require.True(t, ok)
	var got []string
	for line := range strings.Lines(drawn) {
		if words := strings.Fields(strings.TrimPrefix(line, "//")); len(words) >= 2 && words[0] != "package" {
			if strings.HasPrefix(words[0], "0x") {
				words = words[:2]
			} else {
				words = words[:1]
			}
			got = append(got, strings.Join(words, " "))
		}
	}
	kinds := KitsKinds()
	var want []string
	for _, k := range slices.Sorted(maps.Keys(kinds)) {
		body := reflect.TypeOf(kinds[k]()).Elem()
		want = append(want, fmt.Sprintf("%#04x %s", uint16(k), body.Name()))
		for i := range body.NumField() {
			want = append(want, body.Field(i).Name)
		}
	}
	require.Equal(t, want, got)
}

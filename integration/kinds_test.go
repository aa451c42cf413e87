package integration

import (
	"flag"
	"go/ast"
	"go/token"
	"math/rand/v2"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

var kindsSeed = flag.Uint64("kinds.seed", 0, "seed of the random bodies; 0 takes one from the clock")

// kindBodies has an empty body of every kind, by the kind's name without "Kind"
// and its package.
func kindBodies() map[string]any {
	bodies := map[string]any{}
	add := func(pkg string, list ...any) {
		for _, body := range list {
			bodies[pkg+"."+reflect.TypeOf(body).Name()] = body
		}
	}
	for _, fresh := range mesh.MeshKinds() {
		add("mesh", reflect.ValueOf(fresh()).Elem().Interface())
	}
	for _, fresh := range requests.Kinds() {
		add("requests", reflect.ValueOf(fresh()).Elem().Interface())
	}
	for _, fresh := range kits.KitsKinds() {
		add("kits", reflect.ValueOf(fresh()).Elem().Interface())
	}
	return bodies
}

// kindNumbers reads the kinds' constants from the sources, as "mesh.By": 0x0010.
func kindNumbers(t *testing.T, sources []source) map[string]uint64 {
	t.Helper()
	numbers := map[string]uint64{}
	for _, s := range sources {
		if s.isTest() {
			continue
		}
		for _, d := range s.file.Decls {
			g, ok := d.(*ast.GenDecl)
			if !ok || g.Tok != token.CONST {
				continue
			}
			for _, spec := range g.Specs {
				v := spec.(*ast.ValueSpec)
				name, isKind := strings.CutPrefix(v.Names[0].Name, "Kind")
				if !isKind || len(v.Values) != 1 {
					continue
				}
				literal, is := v.Values[0].(*ast.BasicLit)
				if !is { // a kind of something else, which is in no entry
					continue
				}
				number, err := strconv.ParseUint(literal.Value, 0, 16)
				require.NoError(t, err, v.Names[0].Name)
				numbers[s.folder()+"."+name] = number
			}
		}
	}
	return numbers
}

// TestKindsAreNumberedOnce reads every kind's number from the sources: each is
// used once, lies in its package's range and has a body here.
func TestKindsAreNumberedOnce(t *testing.T) {
	numbers := kindNumbers(t, readCheckout(t).sources)
	bodies := kindBodies()
	require.Len(t, bodies, len(numbers))
	ranges := map[string]uint64{"mesh": 0x00, "requests": 0x01, "kits": 0x02}
	owner := map[uint64]string{}
	for name, number := range numbers {
		require.Contains(t, bodies, name)
		require.Empty(t, owner[number], "%#04x is %s too", number, name)
		owner[number] = name
		pkg, _, _ := strings.Cut(name, ".")
		require.Equal(t, ranges[pkg], number>>8, "%s is %#04x", name, number)
	}
}

// TestEveryKindRoundTrips fills every kind's body with random values that are
// allowed, encodes it, reads it back and compares value and bytes. Cut anywhere
// or with one byte more it is refused.
func TestEveryKindRoundTrips(t *testing.T) {
	const rounds = 50
	rng := seeded(t)
	for name, body := range kindBodies() {
		for range rounds {
			want := randomOf(t, rng, reflect.TypeOf(body)).Interface()
			b, err := mesh.Encode(want)
			require.NoError(t, err, "%s %+v", name, want)
			got := reflect.New(reflect.TypeOf(body)).Interface()
			require.NoError(t, mesh.Decode(b, got), "%s %+v", name, want)
			require.Equal(t, want, got, name)
			again, err := mesh.Encode(got)
			require.NoError(t, err)
			require.Equal(t, b, again, name)
			for _, wrong := range [][]byte{b[:rng.IntN(len(b))], append(b, 0), append(b, b...)} {
				require.Error(t, mesh.Decode(wrong, reflect.New(reflect.TypeOf(body)).Interface()), name)
			}
		}
	}
}

// seeded gives a random source whose seed stands in the test's output.
func seeded(t *testing.T) *rand.Rand {
	t.Helper()
	seed := *kindsSeed
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	t.Logf("seed: -kinds.seed %d", seed)
	return rand.New(rand.NewPCG(seed, 0))
}

// randomOf gives a pointer to a random value of a type that its Valid accepts.
// One in four values that may be zero is.
func randomOf(t *testing.T, rng *rand.Rand, typ reflect.Type) reflect.Value {
	t.Helper()
	const triesMax = 10_000
	p := reflect.New(typ)
	if rng.IntN(4) == 0 && mesh.Check(p.Interface()) == nil {
		emptyLists(p.Elem())
		return p
	}
	for range triesMax {
		p = reflect.New(typ)
		fill(t, rng, p.Elem())
		if mesh.Check(p.Interface()) == nil {
			return p
		}
	}
	require.Fail(t, "no valid value found", "%v", typ)
	return p
}

// fill gives v a random value of its kind, not yet one that is valid.
func fill(t *testing.T, rng *rand.Rand, v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			v.Field(i).Set(randomOf(t, rng, v.Field(i).Type()).Elem())
		}
	case reflect.Array:
		for i := range v.Len() {
			v.Index(i).SetUint(rng.Uint64() & 0xff)
		}
		if v.Type() == reflect.TypeFor[mesh.Ref]() {
			v.Index(v.Len() - 1).SetUint(rng.Uint64N(mesh.PartsMax))
		}
	case reflect.Slice:
		const lengthMax = 4
		v.Set(reflect.MakeSlice(v.Type(), rng.IntN(lengthMax), lengthMax))
		for i := range v.Len() {
			v.Index(i).Set(randomOf(t, rng, v.Type().Elem()).Elem())
		}
	case reflect.String:
		v.SetString(randomText(rng, v.Type() == reflect.TypeFor[mesh.ID]()))
	case reflect.Bool:
		v.SetBool(rng.IntN(2) == 0)
	default:
		fillNumber(rng, v)
	}
}

// fillNumber takes every length of number equally often, so that each form of
// msgpack is met.
func fillNumber(rng *rand.Rand, v reflect.Value) {
	bits := v.Type().Bits()
	n := rng.Uint64() >> (64 - uint(rng.IntN(bits+1)))
	if v.CanUint() {
		v.SetUint(n)
		return
	}
	v.SetInt(int64(n<<(64-bits)) >> (64 - bits))
}

func randomText(rng *rand.Rand, program bool) string {
	const lengthMax = 16 // letters
	letters := []rune("aZ09-._ µé尿👍\u0301\u1112\u1161\n\"\\")
	if program {
		letters = letters[:7]
	}
	text := make([]rune, rng.IntN(lengthMax))
	for i := range text {
		text[i] = letters[rng.IntN(len(letters))]
	}
	return mesh.CleanText(string(text))
}

// emptyLists turns nil lists into empty ones, as they are read back.
func emptyLists(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			emptyLists(v.Field(i))
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 0, 0))
	}
}

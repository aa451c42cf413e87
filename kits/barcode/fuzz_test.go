package barcode

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// seeds are the scans of the tables, and some that are no scans.
func seeds(t testing.TB) (all []string) {
	for _, row := range rowsOf(t, "gs1.txt") {
		all = append(all, string(scanned(strings.Split(row, " | ")[1])))
	}
	for _, row := range rowsOf(t, "bwip-js.txt") {
		_, text, _ := strings.Cut(row, "\t")
		all = append(all, text)
	}
	return append(all, "+A123AA40 ", "+$$52001510X3GD", "+A99912345/$$52001510X3/16D20111212/S77DEFG457", "+$$73C001/14D20050928X1",
		"]E3950110153000312", "(", "()", "(01", "(01)", `(01)09501101530003(10)\`, "https://", "http://a/01/%", "https://a/01/09501101530003?;=&%", "]", "\x1d")
}

// keepsPromises holds what is promised of every scan against one.
func keepsPromises(t testing.TB, scan []byte, year int) {
	s, err := Parse(scan, year)
	var e *Error
	if errors.As(err, &e) {
		require.Contains(t, Codes(), e.Code)
		require.GreaterOrEqual(t, e.Position, 0)
		require.LessOrEqual(t, e.Position, len(scan))
		require.Zero(t, e.Part)
		if e.Code != Incomplete {
			require.Empty(t, s)
			return
		}
	} else {
		require.NoError(t, err)
	}
	require.Equal(t, scan, s.AsScanned)
	require.NotEmpty(t, s.Elements)
	for _, x := range s.Elements {
		require.NotEmpty(t, x.ID)
		require.NotEmpty(t, x.Title)
		require.Less(t, x.Position, len(scan))
	}
	for _, w := range s.Warnings {
		require.Contains(t, Doubts(), w.Doubt)
		require.Less(t, w.Position, len(scan))
	}
	for _, form := range []string{s.String(), "]d2" + string(s.ElementString())} {
		if s.ElementString() == nil && form != s.String() || len(form) > ScanLenMax {
			continue
		}
		again, err := Parse([]byte(form), year)
		if e == nil {
			require.NoError(t, err, "%q", form)
		}
		require.Equal(t, contents(s), contents(again), "%q", form)
		require.Equal(t, s.String(), again.String())
		require.Equal(t, s.ElementString(), again.ElementString())
		require.Equal(t, [3]string{s.Item(), s.Lot, s.Serial}, [3]string{again.Item(), again.Lot, again.Serial})
		require.Equal(t, s.Expiry, again.Expiry)
	}
}

// contents are the elements without the places where they stood.
func contents(s Scan) (all []Element) {
	for _, e := range s.Elements {
		e.Position = 0
		all = append(all, e)
	}
	return all
}

// Goal: what is promised of every scan holds for the tables' own. Method: every
// fourth row of the tables, with its beginnings and with each byte damaged.
func TestEveryScanKeepsThePromises(t *testing.T) {
	for n, seed := range seeds(t) {
		keepsPromises(t, []byte(seed), yearOfTests)
		if n%4 != 0 {
			continue
		}
		keepsPromises(t, []byte(seed), yearOfTests)
		for i := range len(seed) {
			keepsPromises(t, []byte(seed[:i]), yearOfTests)
			damaged := []byte(seed)
			damaged[i] ^= 1
			keepsPromises(t, damaged, yearOfTests)
		}
	}
}

// Goal: no bytes from outside break a promise. Method: seeds of the tables, and
// what the fuzzer makes of them.
func FuzzParse(f *testing.F) {
	for _, seed := range seeds(f) {
		f.Add([]byte(seed), yearOfTests)
	}
	f.Fuzz(func(t *testing.T, scan []byte, year int) {
		if year < YearMin || year > YearMax {
			year = yearOfTests
		}
		keepsPromises(t, scan, year)
	})
}

// Goal: no two scans put together break a promise either. Method: as above, with
// errors that may be about either.
func FuzzParseLabel(f *testing.F) {
	all := seeds(f)
	for i := range all {
		f.Add([]byte(all[i]), []byte(all[(i*7+3)%len(all)]))
	}
	f.Add([]byte("+A123BJC5D6E71G"), []byte("+$$52001510X3GD"))
	f.Fuzz(func(t *testing.T, one, other []byte) {
		s, err := ParseLabel([][]byte{one, other}, yearOfTests)
		var e *Error
		if errors.As(err, &e) {
			require.Contains(t, Codes(), e.Code)
			require.LessOrEqual(t, e.Position, len([][]byte{one, other}[e.Part]))
			return
		}
		require.NoError(t, err)
		require.GreaterOrEqual(t, len(s.Elements), 2)
	})
}

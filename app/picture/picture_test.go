package picture

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/assets"
)

// why is the reason in an error; "" without one.
func why(t testing.TB, err error) Why {
	t.Helper()
	if err == nil {
		return ""
	}
	var r *Refused
	require.ErrorAs(t, err, &r)
	return r.Why
}

// Goal: what the program ships passes the check that strangers' pictures pass.
// Method: check every outline and map.
func TestOwnPicturesPassTheirOwnCheck(t *testing.T) {
	for _, name := range assets.OutlineNames() {
		b, _ := assets.Outline(name)
		kind, err := Check(b)
		require.NoError(t, err, name)
		require.Equal(t, KindOutline, kind, name)
		same, err := OfItem(b)
		require.NoError(t, err, name)
		require.Equal(t, b, same, name)
	}
	for _, name := range assets.ShelfMapNames() {
		b, _ := assets.ShelfMap(name)
		kind, err := Check(b)
		require.NoError(t, err, name)
		require.Equal(t, KindMap, kind, name)
	}
	require.NotEmpty(t, assets.OutlineNames())
	require.NotEmpty(t, assets.ShelfMapNames())
}

const (
	svgHead = `<svg xmlns="http://www.w3.org/2000/svg" width="48" height="48" viewBox="0 0 48 48"><g fill="none" stroke="#000000" stroke-width="2" stroke-linecap="round" stroke-linejoin="round">`
	svgTail = `</g></svg>`
)

// outlines are drawings and why each is refused; "" is taken.
func outlines() map[string]Why {
	rect := `<rect x="1" y="1" width="9" height="9"/>`
	return map[string]Why{
		svgHead + rect + svgTail: "",
		svgHead + `<path d="M1 2 L3,4 h5 V6 C1 2 3 4 5 6 q1 2 3 4Z"/>` + svgTail: "",
		svgHead + `<circle cx="1" cy="2" r="3.5"/>` + svgTail + "\n":             "",
		svgHead + svgTail:                                                        WhyOutline,
		svgHead + rect:                                                           WhyOutline,
		svgHead + rect + svgTail + rect:                                          WhyOutline,
		svgHead + `<image href="http://x/"/>` + svgTail:                          WhyOutline,
		svgHead + `<script>1</script>` + svgTail:                                 WhyOutline,
		svgHead + `<text>R. Smith</text>` + svgTail:                              WhyOutline,
		svgHead + `words` + rect + svgTail:                                       WhyOutline,
		svgHead + `<!-- bed 4 -->` + rect + svgTail:                              WhyOutline,
		svgHead + `<rect x="1" y="1" width="9" height="9" style="x"/>` + svgTail: WhyOutline,
		svgHead + `<rect x="1" y="1" width="99" height="9"/>` + svgTail:          WhyOutline,
		svgHead + `<rect x="1" y="1" width="1e1" height="9"/>` + svgTail:         WhyOutline,
		svgHead + `<rect x="1" y="1" width="9"/>` + svgTail:                      WhyOutline,
		svgHead + `<rect x="1" x="1" y="1" width="9" height="9"/>` + svgTail:     WhyOutline,
		svgHead + `<path d="M1 2 3"/>` + svgTail:                                 WhyOutline,
		svgHead + `<path d="L1 2"/>` + svgTail:                                   WhyOutline,
		svgHead + `<path d="M1 2A1 1 0 0 0 2 2"/>` + svgTail:                     WhyOutline,
		svgHead + `<path d="M1 2L"/>` + svgTail:                                  WhyOutline,
		svgHead + `<path d="M1-2L--1 2"/>` + svgTail:                             WhyOutline,
		svgHead + `<path/>` + svgTail:                                            WhyOutline,
		svgHead + `<g>` + rect + `</g>` + svgTail:                                WhyOutline,
		strings.Replace(svgHead, "#000000", "red", 1) + rect + svgTail:           WhyOutline,
		svgHead + strings.Repeat(rect, ShapesMax) + svgTail:                      "",
		svgHead + strings.Repeat(rect, ShapesMax+1) + svgTail:                    WhyOutline,
		svgHead + rect + svgTail + strings.Repeat(" ", OutlineLenMax):            WhyLong,
		"<svg >&x;</svg>": WhyOutline,
	}
}

// Goal: an SVG cannot bring along anything but strokes: no text, no link, no
// program, nothing that takes long to draw. Method: a table of forms.
func TestOutlinesHaveOneFormOnly(t *testing.T) {
	for svg, want := range outlines() {
		_, err := Check([]byte(svg))
		require.Equal(t, want, why(t, err), svg)
	}
}

// Goal: what is none of the three, too long, or of the other sort is refused
// with its reason. Method: a table.
func TestWhatIsNoPictureIsRefused(t *testing.T) {
	for _, b := range []string{"", "x", "GIF89a", "<html>", "%PDF-1.7", "words,left,top,width,height\n"} {
		_, err := Check([]byte(b))
		require.Equal(t, WhyUnknown, why(t, err), b)
	}
	_, err := Check(make([]byte, LenMax+1))
	require.Equal(t, WhyLong, why(t, err))
	_, err = OfItem([]byte("shelf map,a,b\n"))
	require.Equal(t, WhyNotAPhoto, why(t, err))
	_, err = OfPlace([]byte(svgHead + svgTail))
	require.Equal(t, WhyNotAMap, why(t, err))
	_, err = OfItem([]byte("no photo"))
	require.Equal(t, WhyUnknown, why(t, err))
	require.EqualError(t, &Refused{Why: WhyNumber, Row: 3, Column: "left", Cell: "x"}, `no picture: number: row 3, column left: "x"`)
}

// FuzzCheck gives any bytes to Check: it never panics, and what it takes it
// takes again as the same kind.
func FuzzCheck(f *testing.F) {
	for svg := range outlines() {
		f.Add([]byte(svg))
	}
	for m := range maps() {
		f.Add([]byte(m))
	}
	f.Add(photo(f, 40, 30))
	f.Fuzz(func(t *testing.T, b []byte) {
		kind, err := Check(b)
		if err != nil {
			require.NotEmpty(t, why(t, err))
			return
		}
		require.Equal(t, KindOf(b), kind)
		require.LessOrEqual(t, len(b), LenMax)
		if kind != KindMap {
			made, err := OfItem(b)
			require.NoError(t, err)
			again, err := Check(made)
			require.NoError(t, err)
			require.Equal(t, kind, again)
		}
	})
}

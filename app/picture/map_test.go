package picture

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const mapHead = "shelf map,Corridor,Trolley\nwords,left,top,width,height\n"

// maps are maps and what is said of each; "" is taken.
func maps() map[string]string {
	return map[string]string{
		mapHead + "top,0,0,1000,100\n":                               "",
		"shelf map,A,B,,\nwords,left,top,width,height\na,0,0,9,10\n": `number: row 3, column width: "9"`,
		mapHead + "\"drawer, left\",0,0,1000,100\r\n":                "",
		mapHead:            "empty",
		"shelf map\n":      "heading: row 1",
		"shelf map,A\nx\n": "heading: row 1",
		"shelf map,,B\nwords,left,top,width,height\n":           "words: row 1, column room",
		"shelf map,A,B\nwords;left\n":                           "heading: row 2",
		mapHead + "top,0,0,1000\n":                              "row: row 3",
		mapHead + "\"top,0,0,1000,100\n":                        "row: row",
		mapHead + ",0,0,1000,100\n":                             "words: row 3, column words",
		mapHead + strings.Repeat("x", 5000) + ",0,0,1000,100\n": "words: row 3, column words",
		mapHead + "top,x,0,1000,100\n":                          `number: row 3, column left: "x"`,
		mapHead + "top,0,-1,1000,100\n":                         `number: row 3, column top: "-1"`,
		mapHead + "top,500,0,501,100\n":                         `number: row 3, column width: "501"`,
		mapHead + "top,0,995,100,10\n":                          `number: row 3, column top: "995"`,
		mapHead + "a,0,0,100,100\n\nA,200,0,100,100\n":          `twice: row 5, column words: "A"`,
		mapHead + strings.Repeat("x", MapLenMax):                "long",
	}
}

// Goal: whoever writes a map is told the row and column of a slip. Method: a
// table of slips.
func TestMapsAreReadOrRefusedWithTheirPlace(t *testing.T) {
	for text, want := range maps() {
		m, err := ReadMap([]byte(text))
		if want == "" {
			require.NoError(t, err, text)
			require.NotEmpty(t, m.Boxes)
			continue
		}
		require.ErrorContains(t, err, want, text)
		_, err = OfPlace([]byte(text))
		require.Error(t, err, text)
	}
	many := mapHead
	for i := range BoxesMax + 1 {
		many += fmt.Sprintf("d%d,0,0,10,10\n", i)
	}
	_, err := ReadMap([]byte(many))
	require.Equal(t, WhyBoxes, why(t, err))
	taken, err := OfPlace([]byte("\uFEFF" + mapHead + "top,0,0,10,10\n"))
	require.NoError(t, err, "spreadsheets write a mark first")
	require.Equal(t, KindMap, KindOf(taken))
}

// Goal: the words of the catalogue find their drawer, and no other. Method: a
// table of words.
func TestWordsOfTheCatalogueFindTheirDrawer(t *testing.T) {
	m, err := ReadMap([]byte(mapHead + "drawer 1,0,0,10,10\ndrawer 1 left,0,0,10,10\ndrawer 12,0,0,10,10\nleft,0,0,10,10\n"))
	require.NoError(t, err)
	for words, want := range map[string]string{
		"drawer 1": "drawer 1", "Drawer 12": "drawer 12", "drawer 1 left": "drawer 1 left", "drawer 1 at the back": "drawer 1",
		"in the room, trolley, left": "left", "drawer 1, left": "drawer 1", "": "", "draw": "", "drawer 13": "", "trolley left": "",
	} {
		i, found := m.Find(words)
		require.Equal(t, want != "", found, words)
		if found {
			require.Equal(t, want, m.Boxes[i].Words, words)
		}
	}
}

// FuzzReadMap gives any text to ReadMap: it never panics, and boxes that it
// takes lie within the map, each with its own words that find it.
func FuzzReadMap(f *testing.F) {
	for m := range maps() {
		f.Add([]byte(m))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		m, err := ReadMap(b)
		if err != nil {
			require.NotEmpty(t, why(t, err))
			return
		}
		require.LessOrEqual(t, len(m.Boxes), BoxesMax)
		for _, x := range m.Boxes {
			require.True(t, x.Left >= 0 && x.Top >= 0 && x.Width >= boxMin && x.Height >= boxMin)
			require.True(t, x.Left+x.Width <= MapSide && x.Top+x.Height <= MapSide)
			_, found := m.Find(x.Words)
			require.True(t, found, x.Words)
		}
	})
}

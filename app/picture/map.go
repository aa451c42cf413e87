package picture

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"strconv"
	"strings"

	"lintel/mesh"
)

// Bounds of maps.
const (
	MapLenMax = 16 << 10 // bytes
	MapSide   = 1000     // of the field that boxes stand in
	BoxesMax  = 60       // of one map
	boxMin    = 10       // width and height of a box: less cannot be seen
)

// mapMark begins the first row of every map.
const mapMark = "shelf map"

// Map is a shelf, a trolley or a cupboard from the front.
type Map struct {
	Room     string
	Cupboard string
	Boxes    []Box
}

// Box is one drawer of it, in a field of MapSide by MapSide.
type Box struct {
	Words                    string
	Left, Top, Width, Height int
}

// Find is the box that words of the catalogue name, in whatever letters: "drawer 2",
// "in the room, drawer 2" and "drawer 2 at the back" all name "drawer 2". Of several
// the longest is meant.
func (m Map) Find(words string) (box int, found bool) {
	words = strings.ToLower(words)
	pieces := append(strings.Split(words, ","), words)
	for i, b := range m.Boxes {
		name := strings.ToLower(b.Words)
		for _, piece := range pieces {
			piece = strings.TrimSpace(piece)
			if (piece == name || strings.HasPrefix(piece, name+" ")) && (!found || len(name) > len(m.Boxes[box].Words)) {
				box, found = i, true
			}
		}
	}
	return box, found
}

// mapColumns is the second row of a map.
func mapColumns() []string { return []string{"words", "left", "top", "width", "height"} }

// ReadMap reads a map. Errors: a *Refused with row and column.
func ReadMap(b []byte) (m Map, err error) {
	if len(b) > MapLenMax {
		return m, &Refused{Why: WhyLong}
	}
	r := csv.NewReader(bytes.NewReader(b))
	r.FieldsPerRecord = -1
	if m.Room, m.Cupboard, err = readHeading(r); err != nil {
		return m, err
	}
	for {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		at := 0
		if len(cells) > 0 {
			at, _ = r.FieldPos(0)
		}
		if err != nil {
			return m, &Refused{Why: WhyRow, Row: lineOf(err, at)}
		}
		if len(m.Boxes) == BoxesMax {
			return m, &Refused{Why: WhyBoxes, Row: at}
		}
		x, err := readBox(cells, at)
		if err != nil {
			return m, err
		}
		for _, other := range m.Boxes {
			if strings.EqualFold(other.Words, x.Words) {
				return m, &Refused{Why: WhyTwice, Row: at, Column: "words", Cell: x.Words}
			}
		}
		m.Boxes = append(m.Boxes, x)
	}
	if len(m.Boxes) == 0 {
		return m, &Refused{Why: WhyEmpty}
	}
	return m, nil
}

// lineOf is where a row cannot be read at all.
func lineOf(err error, otherwise int) int {
	var bad *csv.ParseError
	if errors.As(err, &bad) {
		return bad.Line
	}
	return otherwise
}

// readHeading reads the two rows before the boxes.
func readHeading(r *csv.Reader) (room, cupboard string, err error) {
	first, err := r.Read()
	if err != nil || len(first) != 3 && !(len(first) == 5 && first[3]+first[4] == "") || first[0] != mapMark {
		return "", "", &Refused{Why: WhyHeading, Row: 1}
	}
	for i, column := range []string{"room", "cupboard"} {
		if !isLabel(first[i+1]) {
			return "", "", &Refused{Why: WhyWords, Row: 1, Column: column, Cell: first[i+1]}
		}
	}
	second, err := r.Read()
	if err != nil || strings.Join(second, ",") != strings.Join(mapColumns(), ",") {
		return "", "", &Refused{Why: WhyHeading, Row: 2}
	}
	return first[1], first[2], nil
}

// readBox reads one row.
func readBox(cells []string, at int) (x Box, err error) {
	if len(cells) != len(mapColumns()) {
		return x, &Refused{Why: WhyRow, Row: at}
	}
	if x.Words = cells[0]; !isLabel(x.Words) {
		return x, &Refused{Why: WhyWords, Row: at, Column: "words", Cell: x.Words}
	}
	for i, into := range []*int{&x.Left, &x.Top, &x.Width, &x.Height} {
		least, most := 0, MapSide-boxMin
		if i >= 2 {
			least, most = boxMin, MapSide-[]int{x.Left, x.Top}[i-2]
		}
		n, err := strconv.Atoi(cells[i+1])
		if err != nil || n < least || n > most {
			return x, &Refused{Why: WhyNumber, Row: at, Column: mapColumns()[i+1], Cell: cells[i+1]}
		}
		*into = n
	}
	return x, nil
}

// isLabel tells whether words are fit to be shown, and there.
func isLabel(words string) bool {
	return strings.TrimSpace(words) != "" && mesh.Label(words).Valid() == nil
}

package proof

import (
	"bytes"
	"encoding/csv"
	"image/color"
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/assets"
)

// bands are the classes of the starter list with its colours.
func bands(t *testing.T) (out []look.Band) {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(assets.Labels())).ReadAll()
	require.NoError(t, err)
	for _, r := range rows[1:] {
		n, err := strconv.ParseUint(r[1][1:], 16, 32)
		require.NoError(t, err)
		out = append(out, look.Band{Word: words.English().DrugClassShort(r[0]), Striped: r[2] == "yes",
			Colour: color.NRGBA{R: uint8(n >> 16), G: uint8(n >> 8), B: uint8(n), A: 0xFF}})
	}
	return out
}

// Goal: what stands on the colour of any class can be read. Method: the
// contrast of each colour of the starter list with the ink of bands, at least 7:1
// (WCAG 2.2, 1.4.6), and of white stripes too.
func TestEveryClassOfDrugsCanBeReadOnItsColour(t *testing.T) {
	all := bands(t)
	require.NotEmpty(t, all)
	for _, b := range all {
		require.GreaterOrEqual(t, look.Contrast(b.Colour, look.BandInk()), look.ContrastText, b.Word)
	}
}

// drugs is a board of labels, tiles and a card with every class: 256 × 176 mm.
func drugs(classes []look.Band) func(*look.Look) fyne.CanvasObject {
	return func(l *look.Look) fyne.CanvasObject {
		p := newPlaced(l)
		faces := []look.DrugLabelFace{
			{Name: "Rocuronium", Strength: "10\u00a0mg/mL", Volume: "5\u00a0mL", Count: "2 ×", Warning: "high alert", Band: classes[3]},
			{Name: "Sugammadex", Strength: "100\u00a0mg/mL", Volume: "2\u00a0mL", Warning: "looks like another", Band: classes[4]},
			{Name: "ePHEDrine", Strength: "50\u00a0mg/mL", Volume: "1\u00a0mL", Count: "1 ×", Warning: "high alert", Band: classes[7]},
		}
		for i, f := range faces {
			d := look.NewDrugLabel(l, look.InsideTile)
			d.Set(f)
			p.put(d, 2+float32(i)*85, 2, 82, 44)
		}
		for i, b := range classes {
			tile := look.NewTile(l, look.UseInside, nil)
			tile.Set(look.TileFace{Number: strconv.Itoa(i + 1), Word: "Drug " + strconv.Itoa(i+1), Detail: "5\u00a0mg/mL", Band: b})
			p.put(tile, 2+float32(i%3)*85, 49+float32(i/3)*24.6, 82, 21.5)
		}
		return p.box
	}
}

// Goal: labels of drugs keep the design. Method: audit every class on tiles and
// three of them on labels, inside; a card with a band, outside.
func TestLabelsOfDrugsKeepTheDesign(t *testing.T) {
	classes := bands(t)
	kept(t, "drugs", look.InsideTile, fyne.NewSize(1280, 880), drugs(classes))
	kept(t, "drug-card", look.RunnerLine, fyne.NewSize(1280, 500), func(l *look.Look) fyne.CanvasObject {
		p := newPlaced(l)
		c, n := look.NewCard(l), look.NewCard(l)
		f := look.CardFace{Door: "A1", Count: "2 amp", Word: "Sugammadex", Detail: "100\u00a0mg/mL, 2\u00a0mL", Place: "drug drawer", State: "now · asked",
			Age: "0:42", Icon: look.IconUrgent, Tone: look.ToneNow, Band: classes[4]}
		c.Set(f)
		n.Set(f)
		p.put(c, 2, 2, 150, 80)
		p.put(n, 156, 2, 98, 96)
		return p.box
	})
}

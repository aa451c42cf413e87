package look

import (
	"image/color"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// relaxant is a band as a list gives it.
func relaxant(striped bool) Band {
	return Band{Word: "relaxant", Colour: color.NRGBA{R: 0xFF, G: 0x7A, B: 0x70, A: 0xFF}, Striped: striped}
}

// Goal: name, strength, volume and class are read whole, the strength as large
// as the name. Method: long and short drugs on a wide and on a narrow label.
func TestADrugLabelShowsNameStrengthAndVolumeInOneSize(t *testing.T) {
	l := newLook(t)
	for _, f := range []DrugLabelFace{
		{Name: "Rocuronium", Strength: "10\u00a0mg/mL", Volume: "5\u00a0mL", Count: "2 ×", Warning: "high alert", Band: relaxant(false)},
		{Name: "Sodium bicarbonate", Strength: "1\u00a0mmol/mL", Volume: "50\u00a0mL", Band: Band{Word: "other drug", Colour: color.NRGBA{R: 255, G: 255, B: 255, A: 255}}},
		{Name: "Phenylephrine", Strength: "100\u00a0microgram/mL", Volume: "5\u00a0mL", Count: "1 ×", Band: relaxant(true)},
	} {
		for _, size := range []fyne.Size{fyne.NewSize(l.MM(200), l.MM(70)), fyne.NewSize(l.MM(90), l.MM(60))} {
			d := NewDrugLabel(l, InsideTile)
			d.Set(f)
			d.Resize(size)
			all := strings.Join(said(d), " ")
			for _, word := range []string{f.Name, f.Strength, f.Volume, f.Count, f.Band.Word} {
				require.Contains(t, all, word, "%v", size)
			}
			require.Equal(t, d.name.texts[0].TextSize, d.strength.texts[0].TextSize)
			require.Greater(t, d.strength.texts[0].TextSize, l.Letters(InsideTile, Small))
			require.True(t, d.Face() == f)
		}
	}
}

// Goal: an antagonist has stripes of white and its colour at 45°, and no letter
// stands on them. Method: the pixels of a row and of the next; the grounds of words.
func TestAnAntagonistIsStriped(t *testing.T) {
	l := newLook(t)
	d := NewDrugLabel(l, InsideTile)
	d.Set(DrugLabelFace{Name: "Sugammadex", Strength: "100\u00a0mg/mL", Warning: "looks like another", Band: relaxant(true)})
	d.Resize(fyne.NewSize(l.MM(150), l.MM(60)))
	test.WidgetRenderer(d).Layout(d.Size())
	require.True(t, d.band.stripes.Visible())
	drawn := d.band.draw(400, 40)
	white, coloured := 0, 0
	for x := 1; x < 400; x++ {
		if drawn.At(x, 0) == any(color.NRGBA{R: 255, G: 255, B: 255, A: 255}) {
			white++
		} else {
			coloured++
		}
		require.Equal(t, drawn.At(x, 0), drawn.At(x-1, 1), "one to the left is one down")
	}
	require.InDelta(t, white, coloured, 40)
	for i, words := range d.band.words {
		require.Equal(t, any(relaxant(true).Colour), any(d.band.patches[i].FillColor), words.texts[0].Text)
		require.Less(t, d.band.patches[i].Position().X, words.texts[0].Position().X)
	}
	d.Set(DrugLabelFace{Name: "Rocuronium", Band: relaxant(false)})
	require.False(t, d.band.stripes.Visible())
}

// Goal: a tile of a drug has its colour, and the state never loses its place to
// the class, which is there wherever both can be. Method: a tile without and with
// notes, wide, narrow and high; then no drug.
func TestATileOfADrugHasItsBand(t *testing.T) {
	l := newLook(t)
	tile := NewTile(l, UseInside, nil)
	tile.Resize(fyne.NewSize(l.MM(52), l.MM(21.5)))
	face := TileFace{Number: "12", Word: "Rocuronium", Detail: "10\u00a0mg/mL, 5\u00a0mL", Band: relaxant(false)}
	tile.Set(face)
	require.Subset(t, said(tile), []string{"12\u00a0\u00a0relaxant", "Rocuronium", "10\u00a0mg/mL, 5\u00a0mL"})
	face.Note = "R1 is going"
	tile.Set(face)
	require.Subset(t, said(tile), []string{"12", "R1 is going", "10\u00a0mg/mL, 5\u00a0mL"})
	face.Note = "asked"
	tile.Set(face)
	require.Subset(t, said(tile), []string{"relaxant", "asked"}, "the number gives way before the class")
	face.Note = "R1 is going"
	tile.Set(face)
	tile.Resize(fyne.NewSize(l.MM(52), l.MM(34)))
	require.Subset(t, said(tile), []string{"12\u00a0\u00a0relaxant", "R1 is going", "Rocuronium", "10\u00a0mg/mL, 5\u00a0mL"})
	tile.Resize(fyne.NewSize(l.MM(80), l.MM(21.5)))
	require.Subset(t, said(tile), []string{"12\u00a0\u00a0relaxant", "R1 is going"})
	require.Equal(t, any(face.Band.Colour), any(tile.band.field.FillColor))
	face.Band = Band{}
	tile.Set(face)
	require.Subset(t, said(tile), []string{"12", "R1 is going"})
	require.Equal(t, any(color.Transparent), any(tile.band.field.FillColor))
}

// Goal: a card of a drug asks for the room its band needs. Method: the least
// sizes with and without, and the words on it.
func TestACardOfADrugHasItsBand(t *testing.T) {
	l := newLook(t)
	c := NewCard(l)
	f := CardFace{Door: "A1", Count: "2", Word: "Rocuronium", Detail: "10\u00a0mg/mL, 5\u00a0mL", State: "asked"}
	c.Set(f)
	low := c.MinSize().Height
	f.Band = relaxant(false)
	c.Set(f)
	require.InDelta(t, lineHeight(l.Letters(RunnerLine, Small), 1)+l.MM(1), c.MinSize().Height-low, 0.1)
	c.Resize(fyne.NewSize(l.MM(150), c.MinSize().Height))
	require.Contains(t, said(c), "relaxant")
	for _, o := range test.LaidOutObjects(c) {
		if text, is := o.(*canvas.Text); is && text.Text == "relaxant" {
			require.Equal(t, any(BandInk()), any(text.Color))
		}
	}
}

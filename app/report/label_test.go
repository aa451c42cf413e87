package report

import (
	"image/color"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Goal: the label of a syringe says what it holds, who drew it up and checked it,
// and after when it must not be given, on a page of its own size; the same
// contents give the same bytes. Method: draw up ketamine in an invented case;
// another program reads the paper.
func TestALabelSaysWhatTheSyringeHolds(t *testing.T) {
	v, _ := unit(t)
	w := words.English()
	by := mesh.By{Role: "assistant", Tag: "D1"}
	of := learn(t, v, 1, by, station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation"}})
	ref := learn(t, v, 2, by, station.DrawUp{
		Case: of, Room: "A1", Thing: requests.Thing{Item: 3046, Count: 1}, VolumeUL: 10_000, DrawnBy: "D1", CheckedBy: "L1", DiscardAfter: 1_790_000_720_000,
	})
	c, known := LabelOf(w, v, ref, time.UTC)
	require.True(t, known)
	require.NotZero(t, c.Band, "a class has its colour")
	none, err := SyringeLabels(w, nil)
	require.ErrorIs(t, err, ErrPaper)
	require.Empty(t, none)
	paper, err := SyringeLabels(w, []LabelContents{c, c})
	require.NoError(t, err)
	keep(t, "label.pdf", paper)
	again, err := SyringeLabels(w, []LabelContents{c, c})
	require.NoError(t, err)
	require.Equal(t, paper, again)
	text := textOf(t, paper)
	for _, said := range append(c.Lines(), "discard after 2026-09-21 14:25:20", "drawn up by D1, checked by L1", "syringe "+c.Code) {
		require.Contains(t, text, said)
	}
	_, known = LabelOf(w, v, of, time.UTC)
	require.False(t, known, "a case is no syringe")
}

// Goal: an antagonist is told apart from its class in print too. Method: the same
// label with and without stripes.
func TestAnAntagonistHasStripes(t *testing.T) {
	c := LabelContents{Upper: []string{"Sugammadex"}, Band: color.NRGBA{0xff, 0x80, 0x80, 0xff}}
	plainly, err := SyringeLabels(words.English(), []LabelContents{c})
	require.NoError(t, err)
	c.Striped = true
	striped, err := SyringeLabels(words.English(), []LabelContents{c})
	require.NoError(t, err)
	keep(t, "label_striped.pdf", striped)
	require.NotEqual(t, plainly, striped)
}

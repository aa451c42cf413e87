package look

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// someRows gives so many lines of a list.
func someRows(n int) (faces []RowFace) {
	for i := range n {
		faces = append(faces, RowFace{Word: fmt.Sprintf("line %d", i+1), State: "not yet"})
	}
	return faces
}

// Goal: a line is one target, shows how it stands, and does nothing when off.
// Method: tap it, set it off, tap it again.
func TestARowIsTappedAsAWhole(t *testing.T) {
	taps := 0
	r := NewRow(newLook(t), UseOutside, func() { taps++ })
	r.Set(RowFace{Word: "Paper card and pen are inside", Detail: "often left outside", State: "said"})
	r.Resize(fyne.NewSize(1200, 120))
	require.Equal(t, []string{"Paper card and pen are inside", "often left outside", "said"}, said(r))
	test.Tap(r)
	r.Set(RowFace{Word: "Paper card", Off: true})
	test.Tap(r)
	require.Equal(t, 1, taps)
	require.Equal(t, UseOutside, r.Use())
	require.True(t, r.Face().Off)
}

// Goal: of a line that is too low the word stays and the detail goes. Method: a
// row of one line's height.
func TestALowRowKeepsItsWord(t *testing.T) {
	l := newLook(t)
	r := NewRow(l, UseOutside, nil)
	r.Set(RowFace{Word: "Gown off", Detail: "away from the body"})
	r.Resize(fyne.NewSize(l.MM(100), l.MM(SideOutside)))
	require.Equal(t, []string{"Gown off"}, said(r))
}

// Goal: a list that fits has no tiles to turn pages, a longer one has, and every
// line can be reached and is tapped as itself. Method: three lines, then
// thirty, turned to the end and beyond, and back.
func TestRowsTurnPagesAndReachEveryLine(t *testing.T) {
	l := newLook(t)
	var tapped []int
	r := NewRows(l, RowsOptions{
		Use: UseOutside, High: 14, Before: "before", After: "after", Tapped: func(n int) { tapped = append(tapped, n) },
		Page: func(first, last, of int) string { return fmt.Sprintf("%d to %d of %d", first, last, of) },
	})
	r.Set(someRows(3))
	r.Resize(fyne.NewSize(l.MM(150), l.MM(100)))
	require.NotContains(t, said(r), "after")
	r.Set(someRows(30))
	require.Subset(t, said(r), []string{"line 1", "1 to 5 of 30", "after"})
	test.Tap(r.rows[1])
	for range 20 {
		r.Turn(1)
	}
	require.Contains(t, said(r), "26 to 30 of 30")
	require.True(t, r.after.Face().Off)
	test.Tap(r.rows[0])
	for range 20 {
		r.Turn(-1)
	}
	require.Contains(t, said(r), "1 to 5 of 30")
	r.Reveal(17)
	require.Contains(t, said(r), "line 18")
	r.Set(someRows(2))
	require.True(t, r.rows[1].Visible() && !r.rows[2].Visible() && !r.after.Visible(), "a page that is gone gives way to the last one")
	require.Equal(t, "line 1", r.rows[0].Face().Word)
	require.Equal(t, []int{1, 25}, tapped)
}

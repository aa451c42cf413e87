package look

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
)

// BenchmarkTileSet is a tap's way from a new face to laid-out lines, without
// painting: a board of 24 is set once a second at most.
func BenchmarkTileSet(b *testing.B) {
	l, err := New(Defaults())
	if err != nil {
		b.Fatal(err)
	}
	tile := NewTile(l, UseInside, nil)
	tile.Resize(fyne.NewSize(235, 165))
	tile.CreateRenderer()
	for n := 0; b.Loop(); n++ {
		tile.Set(TileFace{Number: "12", Word: "Tracheal tube, cuffed", Detail: "7.0", Note: fmt.Sprintf("asked %d:%02d", n/60%10, n%60), Icon: IconDrug})
	}
}

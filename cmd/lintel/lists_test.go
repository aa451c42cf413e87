package main

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/charge"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
)

// Goal: the unit's lists are written into files that are not there yet, say the
// same when they are read again, and a file that was changed says what it would
// change, or where it is wrong. Method: write all kinds on a real device, read
// them, change a price and a place, and try what cannot be.
func TestListsGoIntoFilesAndBack(t *testing.T) {
	w := atWork(t, "charge", "C1")
	x := lists{newPapers(w, words.English(), func(f func()) { f() })}
	write := func(path string) (failed error) {
		x.WriteLists(path, func(_ string, err error) { failed = err })
		(<-x.papers.errands)(t.Context())
		return failed
	}
	read := func(path string) (got charge.Import, failed error) {
		x.ReadLists(path, func(i charge.Import, err error) { got, failed = i, err })
		(<-x.papers.errands)(t.Context())
		return got, failed
	}
	dir := t.TempDir()
	book, places := filepath.Join(dir, "unit.xlsx"), filepath.Join(dir, "places.csv")
	for _, path := range []string{book, places} {
		require.NoError(t, write(path))
		require.ErrorContains(t, write(path), "window-paper", "a file that is there stays")
		got, err := read(path)
		require.NoError(t, err)
		require.Empty(t, got.Problems)
		require.Zero(t, got.Write.Len())
	}
	b, err := os.ReadFile(places)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(places, bytes.Replace(b, []byte("Airway trolley"), []byte("Blue trolley"), 1), 0o600))
	got, err := read(places)
	require.NoError(t, err)
	require.Len(t, got.Changes, 1)
	require.Equal(t, 1, got.Write.Len())
	require.NoError(t, os.WriteFile(places, bytes.Replace(b, []byte("trolley/airway"), []byte("nowhere at all"), 1), 0o600))
	got, err = read(places)
	require.NoError(t, err)
	require.Len(t, got.Problems, 1)
	require.Contains(t, got.Problems[0], "row")
	require.Zero(t, got.Write.Len())
	require.ErrorContains(t, write(filepath.Join(dir, "unit.pdf")), "table-kind")
	_, err = read(filepath.Join(dir, "none.csv"))
	require.ErrorContains(t, err, "table-file")
}

// Goal: a picture that is dropped on an item's page is on this device's disk and
// named by the item; what is no picture changes nothing. Method: drop both.
func TestADroppedPictureBecomesTheItems(t *testing.T) {
	w := atWork(t, "charge", "C1")
	dir := t.TempDir()
	path := filepath.Join(dir, "a.png")
	file, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, png.Encode(file, image.NewGray(image.Rect(0, 0, 200, 100))))
	require.NoError(t, file.Close())
	named := func() (h mesh.Hash) {
		st, err := w.dev.Station()
		require.NoError(t, err)
		require.NoError(t, st.Look(t.Context(), func(v station.View) {
			i, _ := v.Ledger.Item(itemBougie)
			h = i.Value.Picture
		}))
		return h
	}
	before := named()
	require.NoError(t, w.picture(t.Context(), itemBougie, path))
	require.NotEqual(t, before, named())
	require.True(t, w.dev.HasPicture(named()))
	after := named()
	require.NoError(t, os.WriteFile(path, []byte("no picture"), 0o600))
	require.Error(t, w.picture(t.Context(), itemBougie, path))
	require.Error(t, w.picture(t.Context(), itemBougie, filepath.Join(dir, "none")))
	require.Equal(t, after, named())
	at := kits.Place{Sort: kits.Trolley, ID: "airway"}
	require.NoError(t, os.WriteFile(path, []byte("shelf map,Corridor,Blue trolley,,\nwords,left,top,width,height\ntop,0,0,1000,500\nbelow,0,500,1000,500\n"), 0o600))
	require.NoError(t, w.shelfMap(t.Context(), at, path))
	st, err := w.dev.Station()
	require.NoError(t, err)
	require.NoError(t, st.Look(t.Context(), func(v station.View) {
		line, _ := v.Ledger.Place(at)
		require.True(t, w.dev.HasPicture(line.Value.Map))
	}))
}

package assets

import (
	"embed"
	"strings"
)

// outlines/       what items look like: our own drawings, one stroke of 2 in a field of 48.
//
//	Units name them by hash: one that is shipped is never changed or
//	taken out, a better one gets another name
//
// maps/           where the starter list's places have what: boxes, as app/picture says
// pictures.csv    which item has which outline, which place has which map
var (
	//go:embed outlines/*.svg
	outlines embed.FS
	//go:embed maps/*.csv
	maps embed.FS
	//go:embed pictures.csv
	pictures string
)

// Outline returns a copy of the drawing of an item with that name, SVG; false if there is none.
func Outline(name string) ([]byte, bool) {
	b, err := outlines.ReadFile("outlines/" + name + ".svg")
	return b, err == nil
}

// OutlineNames lists them, sorted.
func OutlineNames() []string { return namesIn(outlines, "outlines", ".svg") }

// ShelfMap returns a copy of the map of a place with that name, CSV; false if there is none.
func ShelfMap(name string) ([]byte, bool) {
	b, err := maps.ReadFile("maps/" + name + ".csv")
	return b, err == nil
}

// ShelfMapNames lists them, sorted.
func ShelfMapNames() []string { return namesIn(maps, "maps", ".csv") }

// Pictures returns a copy of pictures.csv.
func Pictures() []byte { return []byte(pictures) }

func namesIn(all embed.FS, folder, ending string) (names []string) {
	entries, _ := all.ReadDir(folder) // it is embedded
	for _, e := range entries {
		names = append(names, strings.TrimSuffix(e.Name(), ending))
	}
	return names
}

package station

import (
	"bytes"
	"crypto/sha256"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"lintel/assets"
	"lintel/kits"
	"lintel/mesh"
)

// pictureColumns is the heading of the starter pictures.
func pictureColumns() []string { return []string{"of", "picture", "source"} }

// HashPicture is what a catalogue says of a picture.
func HashPicture(b []byte) mesh.Hash { return mesh.Hash(sha256.Sum256(b)) }

// EmbeddedPictures are those that every device has, by hash: outlines of items
// and maps of places.
func EmbeddedPictures() map[mesh.Hash][]byte {
	all := map[mesh.Hash][]byte{}
	for _, name := range assets.OutlineNames() {
		b, _ := assets.Outline(name) // it was just listed
		all[HashPicture(b)] = b
	}
	for _, name := range assets.ShelfMapNames() {
		b, _ := assets.ShelfMap(name)
		all[HashPicture(b)] = b
	}
	return all
}

// illustrate gives starter items their outlines and starter places their maps,
// as a table names them. A place has a slash or no number; so a line tells
// itself which of the two it is of.
func illustrate(d *kits.Defaults, table []byte) error {
	rows, err := csv.NewReader(bytes.NewReader(table)).ReadAll()
	if err != nil {
		return err
	}
	if len(rows) == 0 || !slices.Equal(rows[0], pictureColumns()) {
		return fmt.Errorf("row 1 must be %s", strings.Join(pictureColumns(), ","))
	}
	for i, r := range rows[1:] {
		if err := illustrateOne(d, r[0], r[1]); err != nil {
			return fmt.Errorf("row %d: %w", i+2, err)
		}
	}
	return nil
}

func illustrateOne(d *kits.Defaults, of, picture string) error {
	if n, err := strconv.ParseUint(of, 10, 32); err == nil {
		b, drawn := assets.Outline(picture)
		at := slices.IndexFunc(d.Items, func(v kits.ItemLine) bool { return v.Number == mesh.Number(n) })
		if !drawn || at < 0 {
			return fmt.Errorf("there is no item %s, or no outline %s", of, picture)
		}
		d.Items[at].Picture = HashPicture(b)
		return nil
	}
	b, drawn := assets.ShelfMap(picture)
	at := slices.IndexFunc(d.Places, func(v kits.PlaceLine) bool { return v.Place.Words() == of })
	if !drawn || at < 0 {
		return fmt.Errorf("there is no place %s, or no map %s", of, picture)
	}
	d.Places[at].Map = HashPicture(b)
	return nil
}

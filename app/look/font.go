package look

import (
	"bytes"
	"sync"

	"fyne.io/fyne/v2"
	"github.com/go-text/typesetting/font"

	"lintel/assets"
)

// The fonts as the toolkit knows them. It keeps what it read of a font by the
// resource: with a fresh one for each screen it would read the files again.
var (
	fontPlain  = sync.OnceValue(func() fyne.Resource { return fyne.NewStaticResource("IBMPlexSans-Regular.ttf", assets.FontPlain()) })
	fontStrong = sync.OnceValue(func() fyne.Resource { return fyne.NewStaticResource("IBMPlexSans-SemiBold.ttf", assets.FontStrong()) })
)

// Runes tells which characters the shipped font has. Loading it takes some
// milliseconds: make one and keep it.
type Runes struct{ faces []*font.Face }

// ShippedRunes reads both weights.
func ShippedRunes() (Runes, error) {
	var r Runes
	for _, file := range [][]byte{assets.FontPlain(), assets.FontStrong()} {
		face, err := font.ParseTTF(bytes.NewReader(file))
		if err != nil {
			return Runes{}, err
		}
		r.faces = append(r.faces, face)
	}
	return r, nil
}

// Missing lists the characters of a text that either weight lacks, each once.
func (r Runes) Missing(text string) (missing []rune) {
	seen := map[rune]bool{}
	for _, c := range text {
		if !seen[c] && c != '\n' && !r.has(c) {
			missing = append(missing, c)
		}
		seen[c] = true
	}
	return missing
}

func (r Runes) has(c rune) bool {
	for _, face := range r.faces {
		if _, ok := face.NominalGlyph(c); !ok {
			return false
		}
	}
	return true
}

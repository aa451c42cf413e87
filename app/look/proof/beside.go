package proof

import (
	"math"
	"strings"

	"fyne.io/fyne/v2"

	"lintel/app/look"
)

// TapBeside taps the target of a name that stands nearest to the words of a
// line: beside them, or under them. False: the line or the target is not seen.
func TapBeside(l *look.Look, screen fyne.CanvasObject, window fyne.Size, line, name string) bool {
	words, found := lineAt(seenOn(l, screen, window), line)
	if !found {
		return false
	}
	var nearest fyne.Tappable
	least := float32(math.MaxFloat32)
	for _, h := range Hands(l, screen, window) {
		if h.Name != name || h.at.bottom < words.top || h.at.left < words.left {
			continue
		}
		down, across := max(0, h.at.top-words.bottom), max(0, h.at.left-words.right)
		if far := down*2 + across; far < least {
			nearest, least = h.On, far
		}
	}
	if nearest == nil {
		return false
	}
	nearest.Tapped(&fyne.PointEvent{})
	return true
}

// lineAt is where a part stands whose words are a line's, else begin with them.
func lineAt(all []seen, line string) (at area, found bool) {
	for i, s := range all {
		if _, is := s.object.(fyne.Widget); !is || s.object.Size().IsZero() {
			continue
		}
		words := strings.NewReplacer(" | ", " ", "~", " ").Replace(ownWords(all[i+1:], s))
		if words == line {
			return s.at, true
		}
		if !found && strings.HasPrefix(words, line) {
			at, found = s.at, true
		}
	}
	return at, found
}

package proof

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"lintel/app/look"
)

// Hand is a target as a person finds it on a screen.
type Hand struct {
	Name string // the words on it, with spaces between
	On   fyne.Tappable
	at   area
}

// Hands lists the targets that are visible on a screen of a size in dp, in the
// order of painting.
func Hands(l *look.Look, screen fyne.CanvasObject, window fyne.Size) (hands []Hand) {
	all := seenOn(l, screen, window)
	for _, s := range all {
		if sinks(s.object) {
			hands = slices.DeleteFunc(hands, func(h Hand) bool { return h.at.overlaps(s.at) })
		} else if on, is := s.object.(fyne.Tappable); is {
			hands = append(hands, Hand{Name: nameOf(all, s), On: on, at: s.at})
		}
	}
	return hands
}

// Tap taps the first visible target whose words are a text, else the first
// whose words begin with it. False: there is none.
func Tap(l *look.Look, screen fyne.CanvasObject, window fyne.Size, name string) bool {
	var first fyne.Tappable
	for _, h := range Hands(l, screen, window) {
		words := strings.ReplaceAll(h.Name, "\u00a0", " ")
		if words == name {
			first = h.On
			break
		}
		if first == nil && strings.HasPrefix(words, name) {
			first = h.On
		}
	}
	if first == nil {
		return false
	}
	first.Tapped(&fyne.PointEvent{})
	return true
}

// Text writes a screen down for review: one line for each visible part that
// says something, with its kind, its place and size in whole mm, and its words.
func Text(l *look.Look, screen fyne.CanvasObject, window fyne.Size) string {
	var out strings.Builder
	all := seenOn(l, screen, window)
	mm := l.Scale().Millimetres
	for i, s := range all {
		if _, is := s.object.(fyne.Widget); !is || s.object.Size().IsZero() {
			continue
		}
		if words := ownWords(all[i+1:], s); words != "" {
			kind := strings.TrimPrefix(fmt.Sprintf("%T", s.object), "*look.")
			fmt.Fprintf(&out, "%-8s %3.0f,%-3.0f %3.0f×%-3.0f %s\n", kind, mm(s.at.left), mm(s.at.top),
				mm(s.at.right-s.at.left), mm(s.at.bottom-s.at.top), words)
		}
	}
	return out.String()
}

// ownWords joins the texts of a part, without those of parts inside it.
func ownWords(after []seen, part seen) string {
	var words []string
	for _, s := range after {
		if _, is := s.object.(fyne.Widget); is {
			break
		}
		if text, is := s.object.(*canvas.Text); is && text.Text != "" && s.within == part.at {
			words = append(words, text.Text)
		}
	}
	return strings.ReplaceAll(strings.Join(words, " | "), "\u00a0", "~")
}

// seenOn lays a screen out and collects what is visible.
func seenOn(l *look.Look, screen fyne.CanvasObject, window fyne.Size) []seen {
	wear(l)
	screen.Move(fyne.Position{})
	screen.Resize(window)
	w := walk{look: l}
	w.visit(screen, place{within: areaOf(fyne.Position{}, window)})
	return w.all
}

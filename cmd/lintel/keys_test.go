package main

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/station"
	"lintel/app/words"
)

// Goal: a scanner's burst is one label whatever the runes are; a bound key presses
// its place once, also held down; other keys do what they do where they are.
// Method: press them on typing, with time let go by hand.
func TestKeysAreLabelsPlacesOrTyping(t *testing.T) {
	var scans, pressed []string
	var waiting []func()
	k := &typing{
		began: time.Now().Add(-time.Hour), scanned: func(s string, _ func() func()) { scans = append(scans, s) },
		later: func(_ time.Duration, f func()) { waiting = append(waiting, f) },
		bound: func(key string) bool {
			if key == "b" {
				pressed = append(pressed, key)
			}
			return key == "b"
		},
	}
	typed := ""
	person := func(r rune) {
		k.Rune(r, func() { typed += string(r) })
		k.began = k.began.Add(-2 * time.Second) // time goes by
		for len(waiting) > 0 {
			next := waiting[0]
			waiting = waiting[1:]
			next()
		}
	}
	for _, r := range "12" {
		person(r)
	}
	require.Equal(t, "12", typed)
	for _, r := range "\x1d0109506000134352" {
		k.Rune(r, func() { typed += string(r) })
	}
	k.Key(fyne.KeyReturn, func() { typed += "enter" })
	require.Equal(t, []string{"\x1d0109506000134352"}, scans)
	require.Equal(t, "12", typed)
	person('b')
	require.Equal(t, []string{"b"}, pressed)
	k.Key("F5", func() { typed += "F5" })
	require.Equal(t, "12F5", typed)
	held := 0
	hold := k.orBound("b", func() { held++ })
	for range 3 {
		hold()
	}
	require.Len(t, pressed, 2, "held down it counts once")
	require.Zero(t, held, "and does nothing to what has the focus")
}

// Goal: a key is bound by pressing it once, is listed, cannot be bound twice or
// be one that types, and is freed by two taps. Method: the page on a phone and a
// tablet, audited; then each.
func TestAKeyIsBoundByPressingItOnce(t *testing.T) {
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	for _, size := range glasses() {
		l, err := look.New(look.Options{Density: size.density, Reads: look.DeskLine, Now: time.Now})
		require.NoError(t, err)
		keys, faults := map[string]int{}, 0
		w := words.English()
		p := newKeysPage(l, w, placesOf(w, starter.Board), func() map[string]int { return keys }, func(all map[string]int) { keys = all }, func(string, string) { faults++ })
		window := fyne.NewSize(l.MM(size.width), l.MM(size.height-16))
		require.Empty(t, proof.Audit(l, p.root, window), size.name)
		require.False(t, p.pressed("F13"), "no place waits")
		tap := func(name string) {
			for range 10 {
				if proof.Tap(l, p.root, window, name) {
					return
				}
				require.True(t, proof.Tap(l, p.root, window, "more"))
			}
			require.Fail(t, "never shown", name)
		}
		tap("2 Tube")
		require.Empty(t, proof.Audit(l, p.root, window), size.name)
		require.True(t, p.pressed("7"))
		require.Equal(t, 1, faults, "it types")
		require.True(t, p.pressed("F13"))
		require.Equal(t, map[string]int{"F13": 2}, keys)
		tap("Arrest")
		require.True(t, p.pressed("F13"))
		require.Equal(t, 2, faults, "it is bound already")
		require.True(t, p.pressed("x"))
		require.Equal(t, map[string]int{"F13": 2, "x": 104}, keys)
		require.Empty(t, proof.Audit(l, p.root, window), size.name)
		tap("F13 2 Tube")
		tap("F13 2 Tube")
		require.Equal(t, map[string]int{"x": 104}, keys)
	}
}

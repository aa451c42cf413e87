package main

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/inside"
	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// Goal: the board shows the layout as it stands when the page is opened, takes a
// newer one while no case is open, and never during a case. Method: bring sights
// with other layouts, and read the first tile.
func TestTheBoardChangesOnlyWhileNoCaseIsOpen(t *testing.T) {
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	f := stand(t, look.Dark, glasses()[1])
	c, err := newCanned()
	require.NoError(t, err)
	c.insideStory("calm")
	b := &leaves{window: &window{words: f.words, look: f.look, frame: f.frame}, starter: starter, beside: &beside{taps: station.NewTaps(nil, nil, time.Now)}}
	board := b.board()
	first := func(word string, open bool) string {
		layout := station.BoardLayout{Name: "accepted", Tiles: append([]station.BoardTile{{Place: 1, Item: itemBougie, Word: word}}, starter.Board.Tiles[1:]...)}
		snap := inside.Look(c.view)
		require.True(t, board.set(sight{Board: &snap, Layout: layout, Case: open}))
		return proof.Text(f.look, board.object, f.window)
	}
	require.Contains(t, first("One", true), "1 | One", "as it stood when the page was opened")
	require.Contains(t, first("Two", true), "1 | One", "hands have learned it")
	require.Contains(t, first("Two", false), "1 | Two")
	require.False(t, board.set(sight{}), "a sight of another page")
}

// Goal: whoever has the device decides for which hands the brief is made. Method:
// give the device from somebody outside to somebody inside.
func TestTheBriefIsMadeAgainForOtherHands(t *testing.T) {
	f := stand(t, look.Dark, glasses()[1])
	f.set(sight{Unit: true, Side: requests.Outside, Can: requests.CanCharge})
	before := f.leafOf(pageBrief)
	f.set(sight{Unit: true, Side: requests.Outside, Can: requests.CanCharge})
	require.Same(t, before, f.leafOf(pageBrief))
	f.set(sight{Unit: true, Side: requests.Inside, Can: requests.CanLead, Rooms: []mesh.ID{"A1"}})
	require.NotSame(t, before, f.leafOf(pageBrief))
	require.False(t, slices.Contains(f.root.Objects, before.object))
}

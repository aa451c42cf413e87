package inside

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
)

// Goal: every item of the starter catalogue is asked for with at most two taps on
// a tablet and on a desktop. Method: look for each on the board, else on each
// shelf, and tap it; the taps are counted, and each page is audited.
func TestEveryItemIsAtMostTwoTapsAway(t *testing.T) {
	for _, size := range []string{"tablet", "desktop"} {
		s := newScene(t, look.Dark, windows()[size])
		s.screen.Set(calm(t))
		sets := map[mesh.Number]bool{}
		for _, x := range s.screen.snap.Sets {
			sets[x.Number] = true
		}
		at := map[mesh.Number]int{}
		for _, x := range s.screen.opt.Board.Tiles[:s.screen.front] {
			at[x.Item] = 1
		}
		for n, x := range s.screen.shelves {
			s.screen.tapShelf(n)
			assert.Empty(t, proof.Audit(s.look, s.screen.Object(), windows()[size]), "%s, shelf %d", size, n)
			s.draw(fmt.Sprintf("inside-%s-shelf-%d-dark", size, n))
			require.LessOrEqual(t, len(x.items), s.screen.shown, "%s: shelf %d has pages: %v", size, n, x.groups)
			for i, item := range x.items {
				require.Equal(t, item.Number, s.screen.all[i].Pick.item)
				if at[item.Number] == 0 {
					at[item.Number] = 2
				}
			}
		}
		for _, i := range s.screen.snap.Items {
			require.True(t, sets[i.Number] || at[i.Number] > 0, "%s: %d %s takes more than two taps", size, i.Number, i.Name)
		}
	}
}

// fromShelf taps a shelf and an item on it, and gives the acts that came of it.
func (s *scene) fromShelf(n mesh.Number) []station.Act {
	before := len(s.taps.acts)
	for k, x := range s.screen.shelves {
		for i, item := range x.items {
			if item.Number == n {
				s.screen.parts.shelves[k].Tapped(nil)
				s.screen.parts.page.choices[i].Tapped(nil)
				return s.taps.acts[before:]
			}
		}
	}
	require.Fail(s.t, "on no shelf", "%d", n)
	return nil
}

// Goal: a tap on a shelf and one on an item ask for that item, and the board is
// there again. Method: tap the first item of each shelf.
func TestTwoTapsAskFromAShelf(t *testing.T) {
	s := newScene(t, look.Dark, windows()["tablet"])
	s.screen.Set(calm(t))
	for n := range s.screen.shelves {
		s.taps.acts = nil
		s.screen.tapShelf(n)
		item := s.screen.shelves[n].items[0]
		s.screen.pickNth(s.screen.all, 0)
		if s.screen.hand.count.item != 0 {
			require.Equal(t, item.Number, s.screen.hand.count.item, "a controlled drug is counted")
			continue
		}
		require.Len(t, s.taps.acts, 1)
		require.Equal(t, item.Number, s.taps.acts[0].(station.Ask).Thing.Item)
		require.Equal(t, pageBoard, s.screen.hand.page)
	}
	s.screen.tapShelf(1)
	s.tap("back")
	require.Equal(t, pageBoard, s.screen.hand.page)
}

// Goal: shelves hold every item, none twice, never
// more shelves than there are tiles, and the same for the same catalogue.
// Method: catalogues at random; the seed is printed.
func TestShelvesHoldEverythingOnce(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	random := rand.New(rand.NewPCG(seed, 2))
	groups := []mesh.ID{"airway", "drug", "line", "ours", "x", "other"}
	for range 500 {
		var s Snapshot
		for n := range random.IntN(150) {
			name := string(rune('A'+random.IntN(26))) + fmt.Sprint(random.IntN(9))
			s.Items = append(s.Items, Item{Number: mesh.Number(n + 1), Name: name, Group: groups[random.IntN(len(groups))]})
		}
		room, most := 1+random.IntN(20), 1+random.IntN(8)
		all := shelves(words.English(), s, room, most)
		require.Equal(t, all, shelves(words.English(), s, room, most))
		require.LessOrEqual(t, len(all), most)
		seen := map[mesh.Number]bool{}
		for n, x := range all {
			require.NotEmpty(t, x.items)
			require.True(t, len(x.items) <= room || n == len(all)-1)
			for _, i := range x.items {
				require.False(t, seen[i.Number], "twice")
				seen[i.Number] = true
			}
		}
		for _, i := range s.Items {
			require.True(t, seen[i.Number])
		}
	}
}

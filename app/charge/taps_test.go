package charge

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/stage"
	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
)

// errFull is what a failing act answers.
var errFull = stage.ErrTest

// Goal: a kit is prepared from what is proposed, checked by a second person,
// sealed with a number, opened and taken apart, and each says so. Method: tap
// through all of it and look at the ledger after each.
func TestAKitGoesFromLotsToItsEnd(t *testing.T) {
	u := stocked(t)
	s := newScene(t, "desk", look.Dark, u)
	kit := func() kits.KitRow { return u.Ledger.Kit("first-tray-1", u.Today()) }
	s.find("kits", "prepare a kit", "First tray", "filled like this", "other tag", "PPE observer", "O2")
	require.Equal(t, mesh.Tag("O2"), kit().CheckedBy)
	require.True(t, kit().TwoPeople)
	require.Empty(t, kit().Missing)
	require.Equal(t, kits.KitPrepared, kit().State)
	for _, x := range kit().Lines {
		require.NotEmpty(t, x.Lot, "taken from lots")
	}
	s.find("seal it")
	s.screen.typed("A")
	s.keys("4711")
	require.Equal(t, mesh.Label("A4711"), kit().Seal)
	require.True(t, kit().Ready())
	require.Contains(t, s.Text(), "sealed, A4711")
	s.find("open it", "open already")
	require.Equal(t, kits.KitOpened, kit().State)
	require.True(t, kit().FoundBroken())
	s.find("take it apart", "take it apart")
	require.Equal(t, kits.KitBrokenDown, kit().State)
	require.Empty(t, u.Ledger.BalancesAt(kits.Place{Sort: kits.Kit, ID: "first-tray-1"}))
}

// Goal: a tick of the pick list writes the movement of the lots that are shown,
// and can be taken back; a slip on the line that moves up counts once. Method:
// tick the first line, twice at once, then undo.
func TestATickOfThePickListMovesStockOnce(t *testing.T) {
	u := busy(t)
	s := newScene(t, "phone", look.Dark, u).page(Wanted{Page: PageRestock})
	first := picks(s.screen.snap.Plan)[0]
	at := func() int64 { return u.Ledger.Held(first.Place, first.Item.Number) }
	before := at()
	s.find("4 × Bougie")
	s.unit.Now.Wall = mesh.Wall(s.screen.when.UnixMilli())
	s.screen.pick(pick{what: picksFetched})
	require.Len(t, s.acts, 1, "a finger that slips")
	require.Equal(t, before+first.Missing, at())
	s.find("undo")
	require.Equal(t, before, at())
	require.Len(t, s.screen.snap.Plan.Groups, len(u.Ledger.Plan(kits.RestockQuestion{On: u.Today()}).Groups))
}

// Goal: an issue that is short is closed only after somebody said why, or that
// nobody does, and both stay. Method: close one with a typed reason and one
// with none.
func TestClosingWhileShortKeepsWhoAndWhy(t *testing.T) {
	for _, why := range []string{"spilled", "nobody says why"} {
		u := busy(t)
		s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PageIssue, Ref: u.issue})
		s.find("close it")
		require.Empty(t, s.acts)
		s.find(why)
		r, _ := u.Ledger.IssueRecord(u.issue)
		require.Len(t, r.Closings, 1)
		require.Equal(t, mesh.Tag("C1"), r.Closings[0].By.Tag)
		require.Equal(t, why == "nobody says why", r.Closings[0].Why == "")
		require.Equal(t, kits.IssueShort, r.State)
	}
}

// Goal: pars, alternatives, a hold on a lot, an order and a waste container are
// recorded as they were tapped. Method: each once, on a desk.
func TestStockIsEditedWhereItIsSeen(t *testing.T) {
	u := busy(t)
	s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PageItem, Item: bougie})
	s.find("Par: Stores")
	s.keys("12")
	par, _ := u.Ledger.Par(mainStore, bougie)
	require.EqualValues(t, 12, par.Value.Par)
	s.find("Alternative: Stylet")
	item, _ := u.Ledger.Item(bougie)
	require.NotContains(t, item.Value.Alternatives, mesh.Number(1093))
	s.find("add an alternative")
	s.keys("1093")
	item, _ = u.Ledger.Item(bougie)
	require.Contains(t, item.Value.Alternatives, mesh.Number(1093))
	s.find("lot B7", "hold the lot back")
	require.True(t, u.Ledger.HeldBack(bougie, "B7"))
	s.find("let the lot go")
	require.False(t, u.Ledger.HeldBack(bougie, "B7"))

	s.page(Wanted{Page: PageOrders}).find("Bougie")
	s.keys("")
	require.Positive(t, u.Ledger.Outstanding(bougie))
	s.page(Wanted{Page: PageWaste}).find("close a container", "Infectious", "30", "A1", "8")
	require.Equal(t, stepBoxSeal, s.screen.hand.step)
	s.keys("1")
	require.Contains(t, s.acts, station.Act(station.SealWaste{Case: u.of, Room: "A1", Class: "infectious", Seal: "81", LitresT: 300}))
}

// Goal: gaps say what is there, lead to the page that mends them, and go when it
// is mended. Method: follow one, prepare and seal a kit, and look again.
func TestGapsLeadToWhatMendsThem(t *testing.T) {
	u := stocked(t)
	has := func(id kits.GapID) bool {
		for _, g := range Look(u.View, Wanted{}).Rooms[0].Gaps {
			if g.ID == id {
				return true
			}
		}
		return false
	}
	require.True(t, has(kits.GapKits))
	s := newScene(t, "phone", look.Dark, u)
	s.find("A1", "1 kit too few")
	require.Equal(t, PageKits, s.screen.Wants().Page)
	u.fill("first-tray-1", "O1")
	u.do(station.SealKit{Kit: "first-tray-1", Seal: "1"})
	require.False(t, has(kits.GapKits))
	require.True(t, has(kits.GapRunner))
}

// Goal: a search finds by words and by number, and a snapshot of another page is
// not shown. Method: type words, then a number, then bring a late snapshot.
func TestTheCatalogueIsSearched(t *testing.T) {
	u := stocked(t)
	s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PageCatalogue})
	s.screen.typed("bougie")
	s.look()
	require.Len(t, s.screen.snap.Items, 1)
	s.find("all lines", "find a number")
	s.keys("1108")
	require.Len(t, s.screen.snap.Items, 1)
	text := s.Text()
	s.screen.Set(Snapshot{For: Wanted{Page: PageWaste}})
	require.Equal(t, text, s.Text())
}

package charge

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
)

// label of the tests: GTIN, last day, lot.
const (
	gtin      = "09501101530003"
	labelled1 = "]d201" + gtin + "17281231" + "10LOT42A"
)

// words types words and takes them as typed; shown is what stands there of them.
func (s *scene) words(text string, shown ...string) {
	s.t.Helper()
	s.screen.typed(text)
	s.find(append(shown, text)[0])
}

// Goal: a field of a catalogue line is changed with a tap on it and a tap that
// writes, everything else stays, and a line goes out of use and comes back.
// Method: change words, a number and a choice, take the line away, find it
// among those out of use and take it back.
func TestACatalogueLineIsChangedAFieldAtATime(t *testing.T) {
	u := busy(t)
	s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PageItem, Item: bougie})
	was, _ := u.Ledger.Item(bougie)
	s.find("change this line", "Shelf or drawer")
	s.words("drawer nine")
	s.find("Price of one")
	s.screen.hand.typed = ""
	s.keys("1250")
	s.find("Currency", "eur")
	s.find("What was inside and not used", "thrown away", "write it down")
	now, _ := u.Ledger.Item(bougie)
	want := was.Value
	want.KeptWords, want.CostMinor, want.Exit, want.Currency, want.Replaces = "drawer nine", 1250, kits.Discard, "eur", nil
	got := now.Value
	got.Replaces, got.Codes = nil, nil
	require.Empty(t, now.Value.Codes)
	require.Equal(t, want, got)
	s.find("change this line", "Out of use", "yes", "write it down")
	now, _ = u.Ledger.Item(bougie)
	require.True(t, now.Value.Gone)
	s.page(Wanted{Page: PageCatalogue}).find("out of use", "Bougie", "change this line", "Out of use", "leave it empty", "write it down")
	now, _ = u.Ledger.Item(bougie)
	require.False(t, now.Value.Gone)
}

// Goal: a new line gets a free number with its check digit, and what cannot be
// written is named and loses nothing. Method: write without a name, then with
// one; use a number that is taken.
func TestANewLineProposesItsNumberAndLosesNothing(t *testing.T) {
	u := busy(t)
	s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PageCatalogue})
	s.find("new line", "Group", "airway", "write it down")
	require.Contains(t, s.Text(), "“Name” cannot be like this")
	require.Empty(t, s.acts)
	s.find("Name")
	s.words("Tube holder")
	s.find("What was inside and not used", "thrown away")
	free := s.screen.snap.Form.Free
	s.find("Spoken number")
	s.keys("1108")
	s.find("write it down")
	require.Contains(t, s.Text(), "“Spoken number” cannot be like this")
	s.screen.put("number", positive(int64(free)))
	s.find("write it down")
	item, known := u.Ledger.Item(free)
	require.True(t, known)
	require.Equal(t, mesh.Label("Tube holder"), item.Value.Name)
	require.Equal(t, mesh.ID("airway"), item.Value.Group)
}

// Goal: a scanned label adds its barcode to an open line, finds the line from
// then on, and fills what came but never how many. Method: scan on the item,
// the catalogue, the form of what came, and the recall.
func TestAScannedLabelDoesWhatThePageIsFor(t *testing.T) {
	u := busy(t)
	s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PageItem, Item: bougie})
	require.True(t, s.screen.Scanned(labelled1))
	s.look()
	s.find("write it down")
	item, _ := u.Ledger.Item(bougie)
	require.Contains(t, item.Value.Codes, mesh.Label(gtin))
	s.page(Wanted{Page: PageCatalogue})
	require.True(t, s.screen.Scanned(labelled1))
	require.Equal(t, Wanted{Page: PageItem, Item: bougie}, s.screen.Wants())
	s.look()
	s.page(Wanted{Page: PageForm, Form: FormReceive})
	require.True(t, s.screen.Scanned(labelled1))
	require.Empty(t, s.screen.hand.draft[fieldCount])
	s.find("write it down")
	require.Contains(t, s.Text(), "“How many” cannot be like this")
	s.find("How many")
	s.keys("5")
	s.find("write it down")
	lot, known := u.Ledger.Lot(bougie, "LOT42A")
	require.True(t, known)
	require.Equal(t, kits.ByScanner, lot.Value.How)
	require.EqualValues(t, 20281231, lot.Value.Expiry)
	s.page(Wanted{Page: PageRecall, Item: fentanyl, Lot: "x"})
	require.True(t, s.screen.Scanned(labelled1))
	require.Equal(t, Wanted{Page: PageRecall, Item: bougie, Lot: "LOT42A"}, s.screen.Wants())
	s.page(Wanted{Page: PageWaste})
	require.False(t, s.screen.Scanned(labelled1), "nothing here takes a label")
	s.page(Wanted{Page: PageCatalogue})
	require.True(t, s.screen.Scanned("]d201095"))
	require.Contains(t, s.Text(), "cannot be read")
}

// Goal: a place is counted by lots, shows what that changes before it is written,
// and asks for every lot of an item that is counted. Method: count one of two
// lots of an item, try to write, then count the other.
func TestAPlaceIsCountedByLots(t *testing.T) {
	u := busy(t)
	u.do(station.Receive{Item: bougie, Count: 3, Lot: "B8", Expiry: 20290201, How: kits.Assumed, To: mainStore})
	s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PagePlaces})
	s.find("Stores", "count what lies here", "Bougie 15 Fr · lot B8")
	s.keys("1")
	require.Contains(t, s.Text(), "-2")
	s.find("write it down")
	require.Empty(t, s.acts)
	s.find("Bougie 15 Fr · lot B7")
	before := u.Ledger.Balance(kits.Cell{Place: mainStore, Item: bougie, Lot: "B7", Measure: mesh.Each})
	s.keys(positive(before))
	s.find("write it down")
	require.EqualValues(t, 1, u.Ledger.Balance(kits.Cell{Place: mainStore, Item: bougie, Lot: "B8", Measure: mesh.Each}))
	require.Equal(t, before, u.Ledger.Balance(kits.Cell{Place: mainStore, Item: bougie, Lot: "B7", Measure: mesh.Each}))
}

// Goal: a controlled drug is issued, ended and taken back at the desk, and the
// record says all of it. Method: issue two ampoules, give one, break it off with
// a reversal that needs a reason.
func TestADrugIsIssuedEndedAndTakenBackAtTheDesk(t *testing.T) {
	u := busy(t)
	s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PageControlled})
	s.find("issue a drug", "Item", "Fentanyl", "How many")
	s.keys("2")
	s.find("Room", "A1", "Where it is", "carried inside", "Taken by", "A1", "Checked by", "L1", "write it down")
	require.Len(t, u.Ledger.Issues(), 2)
	s.page(Wanted{Page: PageIssue, Ref: u.issue}).find("what became of it", "What became of it", "wasted", "Of what", "in a syringe")
	s.find("Volume")
	s.keys("5")
	s.find("Seen by", "L1", "write it down")
	r, _ := u.Ledger.IssueRecord(u.issue)
	last := r.Entries[len(r.Entries)-1]
	require.Equal(t, kits.Wasted, last.To.Sort)
	require.NotEmpty(t, last.Witnesses)
	s.page(Wanted{Page: PageForm, Form: FormReverse, Ref: u.issue, Movement: last.Ref}).find("write it down")
	require.Contains(t, s.Text(), "“Why” cannot be like this")
	s.find("Why", "written twice", "write it down")
	m, _ := u.Ledger.Movement(last.Ref)
	require.False(t, m.Counts())
}

// Goal: a syringe's label says the whole amount in the whole volume before it is
// written, and the syringe is discarded when it was said. Method: draw up one
// ampoule with what was added.
func TestDrawingUpShowsTheLabelFirst(t *testing.T) {
	u := busy(t)
	s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PageForm, Form: FormDrawUp})
	s.find("Item", "Fentanyl", "How many")
	s.keys("1")
	s.find("Room", "A1", "Volume")
	s.keys("100")
	s.find("Discard after")
	s.keys("12")
	s.find("Drawn up by", "A1", "Checked by", "L1")
	require.Contains(t, s.Text(), "100 µg in 10 mL")
	s.find("write it down")
	require.Len(t, s.acts, 1)
	act := s.acts[0].(station.DrawUp)
	require.EqualValues(t, 10_000, act.VolumeUL)
	require.Positive(t, act.DiscardAfter)
}

// Goal: a place gets a name and a short name that never changes. Method: make
// one, and try its short name again.
func TestAPlaceIsNamedAtTheDesk(t *testing.T) {
	u := busy(t)
	s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PagePlaces})
	s.find("new place", "What it is", "a trolley", "Short name")
	s.words("night")
	s.find("Name")
	s.words("Night trolley")
	s.find("write it down")
	p, known := u.Ledger.Place(kits.Place{Sort: kits.Trolley, ID: "night"})
	require.True(t, known)
	require.Equal(t, mesh.Label("Night trolley"), p.Value.Name)
}

// Goal: a label ticks the line of the pick list that it is of, and asks for the
// line of a place that is counted; one of something else says so and does
// nothing. Method: give an item of each page a barcode, and scan there.
func TestALabelFindsTheLineItIsOf(t *testing.T) {
	u := busy(t)
	item, _ := u.Ledger.Item(bougie)
	item.Value.Codes = []mesh.Label{gtin}
	u.do(station.Catalogue{Items: []kits.ItemLine{item.Value}})
	s := newScene(t, "phone", look.Dark, u).page(Wanted{Page: PageRestock})
	require.True(t, s.screen.Scanned(labelled1))
	require.Len(t, s.acts, 1)
	require.Equal(t, bougie, s.acts[0].(station.PickLines).Picks[0].Item.Number)
	u.Now.Wall = mesh.Wall(s.screen.when.UnixMilli())
	require.True(t, s.screen.Scanned(labelled1))
	require.Len(t, s.acts, 1, "the same label at once again")
	s.page(Wanted{Page: PageForm, Form: FormTake, Place: mainStore})
	require.True(t, s.screen.Scanned("]d201"+gtin))
	require.Equal(t, stepField, s.screen.hand.step)
	require.Equal(t, takeID(0), s.screen.hand.field)
	s.page(Wanted{Page: PageForm, Form: FormIssue})
	require.True(t, s.screen.Scanned(labelled1))
	require.Contains(t, s.Text(), "Nothing changed.")
	require.Empty(t, s.screen.hand.draft[fieldItem])
}

// Goal: where two people wrote a line differently, both values are shown with
// what differs, and a person chooses one. Method: put two values into the
// snapshot, tap the second, and look at what would be written.
func TestOneOfTwoValuesIsChosenByATap(t *testing.T) {
	u := busy(t)
	s := newScene(t, "phone", look.Dark, u).page(Wanted{Page: PageForm, Form: FormItem, Item: bougie})
	snap := s.screen.snap
	other := snap.Form.Line
	other.KeptWords, other.CostMinor, other.Currency = "drawer 9", 700, "eur"
	snap.Form.Both = []kits.ItemLine{snap.Form.Line, other}
	s.screen.Set(snap)
	require.Contains(t, s.Text(), "Two values stand")
	require.Contains(t, differing(s.screen.opt.Words, snap.Form.Both, other), "drawer 9")
	require.Empty(t, s.Audit())
	s.screen.pick(pick{what: picksField, text: bothID(1)})
	acts, bad := actsOf(s.screen.snap, s.screen.hand.draft)
	require.Empty(t, bad)
	require.Equal(t, mesh.Label("drawer 9"), acts[0].(station.Catalogue).Items[0].KeptWords)
}

// Goal: a class of waste gets a code and a name at the desk. Method: change one
// and make one.
func TestAClassOfWasteIsNamedAtTheDesk(t *testing.T) {
	u := busy(t)
	s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PageWaste, By: kits.ByReason})
	s.find("classes of waste", "new class of waste", "Short name")
	s.words("lamps")
	s.find("Name")
	s.words("Lamps of scopes")
	s.find("Code")
	s.words("20 01 21")
	s.find("write it down")
	x, known := u.Ledger.Waste("lamps", u.WasteQuestion().Country)
	require.True(t, known)
	require.Equal(t, mesh.Label("20 01 21"), x.Value.Code)
	s.find("Lamps of scopes", "Out of use", "yes", "write it down")
	for _, y := range u.Ledger.WasteLines(u.WasteQuestion().Country) {
		require.NotEqual(t, mesh.ID("lamps"), y.Class)
	}
}

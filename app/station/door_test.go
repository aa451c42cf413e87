package station

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// bougie is an item of the starter catalogue that is kept as stock.
const bougie mesh.Number = 1108

// door is one unit in which one device records everything.
type door struct {
	t *testing.T
	v View
	n int
}

// do records an act and returns what its entry's first part is called.
func (d *door) do(act Act) mesh.Ref {
	d.t.Helper()
	d.n++
	require.Less(d.t, d.n, 1<<8)
	learn(d.t, d.v, d.n, act)
	return mesh.MakeRef(mesh.Key{1}, mesh.Tap{byte(d.n)}, 1)
}

func (d *door) request(ref mesh.Ref) requests.Request {
	d.t.Helper()
	r, known := d.v.Board.Request(ref)
	require.True(d.t, known)
	return r
}

// at is how many bougies are at a place.
func (d *door) at(sort kits.PlaceSort, room mesh.ID) int64 {
	return d.v.Ledger.Balance(kits.Cell{Place: kits.Place{Sort: sort, ID: room}, Item: bougie, Measure: mesh.Each})
}

// found is what the audit finds, the stock that nobody filled in apart.
func (d *door) found() (ids []kits.FindingID) {
	for _, f := range d.v.Ledger.Audit() {
		if f.Cell.Place.Sort == kits.Door || f.ID != kits.BelowZero {
			ids = append(ids, f.ID)
		}
	}
	return ids
}

// asked is a unit in which two bougies were asked for in room A1.
func asked(t *testing.T) (*door, mesh.Ref) {
	d := &door{t: t, v: empty(t)}
	return d, d.do(Ask{Room: "A1", Thing: requests.Thing{Item: bougie, Count: 2}, Urgency: requests.RightNow})
}

// readBack goes and reads back what is wanted.
func (d *door) readBack(ref mesh.Ref) mesh.Ref {
	d.do(Go{Request: ref})
	return d.do(ReadBack{Request: ref, Thing: d.request(ref).Thing, How: requests.Chosen})
}

// TestUndoingATakenInPutsItAtTheDoorAgain takes in, and takes back, and undoes
// each: board and ledger say that it lies at the door; taking it in again counts.
func TestUndoingATakenInPutsItAtTheDoorAgain(t *testing.T) {
	for _, end := range []func(mesh.Ref) Act{
		func(r mesh.Ref) Act { return TakeIn{Request: r} },
		func(r mesh.Ref) Act { return TakeBack{Request: r} },
	} {
		d, ref := asked(t)
		d.readBack(ref)
		d.do(PutAtDoor{Request: ref})
		mark := d.do(end(ref))
		require.Zero(t, d.at(kits.Door, "A1"))
		d.do(Undo{Mark: mark, Why: "slip"})
		require.Equal(t, requests.ShownAtDoor, d.request(ref).Shown)
		require.EqualValues(t, 2, d.at(kits.Door, "A1"))
		require.Zero(t, d.at(kits.InRoom, "A1"))
		require.Len(t, d.v.Ledger.AtDoor("A1"), 1)
		d.do(TakeIn{Request: ref, Count: 1})
		require.EqualValues(t, 1, d.at(kits.InRoom, "A1"))
		require.Empty(t, d.found())
	}
}

// TestUndoingAnAtDoorTakesTheMovementOut undoes it while it lies there and
// after it went in, which the audit then lists.
func TestUndoingAnAtDoorTakesTheMovementOut(t *testing.T) {
	for _, ended := range []bool{false, true} {
		d, ref := asked(t)
		d.readBack(ref)
		mark := d.do(PutAtDoor{Request: ref})
		if ended {
			d.do(TakeIn{Request: ref})
		}
		d.do(Undo{Mark: mark})
		require.Zero(t, d.at(kits.Door, "A1"))
		require.Zero(t, d.at(kits.InRoom, "A1"))
		require.Equal(t, ended, len(d.found()) == 1, "%v", d.found())
		require.Equal(t, ended, d.request(ref).TakenIn(), "what people took in was taken in")
	}
}

// TestMoreThanLayAtTheDoorIsRecorded takes in three of two; only what no finger
// means is refused.
func TestMoreThanLayAtTheDoorIsRecorded(t *testing.T) {
	d, ref := asked(t)
	d.readBack(ref)
	d.do(PutAtDoor{Request: ref})
	_, err := Compose(d.v, mesh.Key{1}, mesh.Tap{99}, mesh.By{}, TakeIn{Request: ref, Count: requests.CountMax + 1})
	require.ErrorIs(t, err, ErrCount)
	d.do(TakeIn{Request: ref, Count: 3})
	r := d.request(ref)
	require.EqualValues(t, 3, r.Taken)
	require.Equal(t, requests.FlagMore, r.Flags)
	require.EqualValues(t, 3, d.at(kits.InRoom, "A1"))
	require.Equal(t, []kits.FindingID{kits.BelowZero, kits.TakenMore}, d.found())
}

// TestMissingMarksStopNobody puts at the door and takes in with every mark
// before it missing. The stock follows, the request is flagged, no read-back
// is made up, and undoing the tap undoes all of it.
func TestMissingMarksStopNobody(t *testing.T) {
	for name, c := range map[string]struct {
		reads, takes bool
		loop         requests.Loop
	}{
		"at the door, not read back": {false, false, requests.LoopOpen},
		"taken in, read back":        {true, true, requests.LoopMatches},
		"taken in, not read back":    {false, true, requests.LoopOpen},
	} {
		d, ref := asked(t)
		names := ref
		if c.reads {
			names = d.readBack(ref)
		}
		place, act := kits.Door, Act(PutAtDoor{Request: ref})
		if c.takes {
			place, act = kits.InRoom, TakeIn{Request: ref}
		}
		first := d.do(act)
		r := d.request(ref)
		require.Len(t, r.Deliveries, 1, name)
		require.Equal(t, first, r.Deliveries[0].Ref, name)
		require.Equal(t, names, r.Deliveries[0].Names, name)
		require.Equal(t, c.takes, r.TakenIn(), name)
		require.Equal(t, c.loop, r.Loop, name)
		require.Equal(t, c.reads, len(r.InHand) == 1, name)
		require.Equal(t, !c.reads, r.Flags.Has(requests.FlagOutOfTurn), name)
		require.EqualValues(t, 2, d.at(place, "A1"), name)
		require.Empty(t, d.found(), name)

		for _, m := range r.Marks {
			if m.Kind == requests.KindTakenIn || !c.takes && m.Kind == requests.KindAtDoor {
				d.do(Undo{Mark: m.Ref})
			}
		}
		require.Zero(t, d.at(kits.InRoom, "A1"), name)
		require.Zero(t, d.at(kits.Door, "A1"), name)
		require.Empty(t, d.found(), name)
		require.Empty(t, d.request(ref).Deliveries, name)
	}
}

// TestASecondTakerCountsOnceOrIsAConflict says twice that it was taken in, then
// that it was taken back, and settles it: stock and board follow each time.
func TestASecondTakerCountsOnceOrIsAConflict(t *testing.T) {
	d, ref := asked(t)
	d.do(TakeIn{Request: ref})
	d.do(TakeIn{Request: ref})
	require.EqualValues(t, 2, d.at(kits.InRoom, "A1"))
	require.Len(t, d.request(ref).Deliveries, 1)
	d.do(TakeBack{Request: ref})
	require.True(t, d.request(ref).Flags.Has(requests.FlagTakenTwice))
	require.Equal(t, []kits.FindingID{kits.EndedDifferently}, d.found())
	d.do(TakeBack{Request: ref, Why: "it is in my hand"})
	require.False(t, d.request(ref).Flags.Has(requests.FlagTakenTwice))
	require.Zero(t, d.at(kits.InRoom, "A1"))
	require.Empty(t, d.found())
}

// TestNothingThatWasNeverAtTheDoorIsTakenBack takes back what nobody brought.
func TestNothingThatWasNeverAtTheDoorIsTakenBack(t *testing.T) {
	d, ref := asked(t)
	_, err := Compose(d.v, mesh.Key{1}, mesh.Tap{99}, mesh.By{}, TakeBack{Request: ref})
	require.ErrorIs(t, err, ErrNotAtDoor)
}

// TestStockIsWhereItWasPut reads another room's door: the stock is there, and
// goes in there.
func TestStockIsWhereItWasPut(t *testing.T) {
	d, ref := asked(t)
	d.readBack(ref)
	d.do(PutAtDoor{Request: ref, Door: "A2", Anyway: true})
	require.Equal(t, requests.FlagWrongDoor, d.request(ref).Flags)
	require.EqualValues(t, 2, d.at(kits.Door, "A2"))
	d.do(TakeIn{Request: ref})
	require.EqualValues(t, 2, d.at(kits.InRoom, "A2"))
	require.Zero(t, d.at(kits.Door, "A1"))
}

// TestPassedInUnaskedIsNoReadBack passes something in: nobody asked, nothing is
// out of turn, and there is no hurry.
func TestPassedInUnaskedIsNoReadBack(t *testing.T) {
	d := &door{t: t, v: empty(t)}
	ref := d.do(PassIn{Room: "A1", Thing: requests.Thing{Item: bougie, Count: 1}})
	r := d.request(ref)
	require.Zero(t, r.Flags)
	require.Equal(t, requests.LoopOpen, r.Loop)
	require.Equal(t, requests.NextOpening, r.Urgency)
	require.False(t, d.v.Board.Ringing(r))
	require.EqualValues(t, 1, d.at(kits.Door, "A1"))
}

// TestEveryBundleFitsIntoEachEntry puts every starter bundle at the door, takes
// it in out of turn and undoes it: no entry is too long.
func TestEveryBundleFitsIntoEachEntry(t *testing.T) {
	d := &door{t: t, v: empty(t)}
	bundles := d.v.Ledger.Bundles()
	require.NotEmpty(t, bundles)
	for _, b := range bundles {
		for _, inTurn := range []bool{true, false} {
			ref := d.do(Ask{Room: "A1", Thing: requests.Thing{Item: b.Number, Count: 1}, Urgency: requests.RightNow})
			if inTurn {
				d.do(PutAtDoor{Request: ref})
			}
			d.do(TakeIn{Request: ref})
			d.do(Undo{Mark: d.request(ref).Deliveries[0].Ref})
		}
	}
}

// TestAScannedLotIsFoundByARecall reads a label back, brings it and takes one of
// two in: the recall says where each is and that it is sure; a chosen read-back
// leaves the lot unknown.
func TestAScannedLotIsFoundByARecall(t *testing.T) {
	d, ref := asked(t)
	d.do(Go{Request: ref})
	d.do(ReadBack{Request: ref, Thing: d.request(ref).Thing, How: requests.Scanned, Lot: "B7", Expiry: 20290131})
	d.do(PutAtDoor{Request: ref})
	d.do(TakeIn{Request: ref, Count: 1})
	got := d.v.Ledger.Recall(bougie, "B7")
	at := map[kits.PlaceSort]int64{}
	for _, x := range got.Where {
		require.Equal(t, kits.ByScanner, x.How)
		at[x.Cell.Place.Sort] += x.N
	}
	require.EqualValues(t, 1, at[kits.InRoom])
	require.EqualValues(t, 20290131, got.Lot.Value.Expiry)
	require.Empty(t, d.found())

	d, ref = asked(t)
	d.readBack(ref)
	d.do(PutAtDoor{Request: ref})
	d.do(TakeIn{Request: ref})
	for _, x := range d.v.Ledger.Recall(bougie, "B7").Where {
		require.Equal(t, kits.Unknown, x.How)
	}
}

// TestPassingOnNeedsSomebodyElse passes a request on to no tag and to the own one:
// each is refused; any other tag is recorded, for its device may not be known yet.
func TestPassingOnNeedsSomebodyElse(t *testing.T) {
	d, ref := asked(t)
	d.do(Hold{Holds: requests.Holds{Role: "runner", Tag: "R1"}})
	d.do(Go{Request: ref})
	for _, to := range []mesh.Tag{"", "R1"} {
		require.ErrorIs(t, d.refused(PassOn{Request: ref, To: to}), ErrNoRunner, to)
	}
	d.do(PassOn{Request: ref, To: "R2"})
}

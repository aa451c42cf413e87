package kits

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// trayStory is a kit that is prepared by two from dated lots and sealed.
func trayStory(t testing.TB) (p []*pen, made, seal mesh.Fact, facts []mesh.Fact) {
	p = pens(t, 2)
	lots := []mesh.Fact{
		p[0].write(&LotLine{Item: tube, Lot: "T1", Expiry: 20270200, How: ByScanner}),
		p[0].write(&LotLine{Item: saline, Lot: "S1", Expiry: 20261231, How: Assumed}),
	}
	made = p[0].write(&Prepared{Kit: "tray-1", Template: "first", Lines: []Line{ofLot(tube, "T1", 2), ofLot(saline, "S1", 1)},
		PreparedBy: "T1", CheckedBy: "T2"})
	seal = p[1].write(&Sealed{Names: made.Ref, Kit: "tray-1", Seal: "4711", Expiry: 20261231})
	return p, made, seal, append(lots, made, seal)
}

// Goal: a kit says its lots, how they are known, when it expires, its seal and
// its state on a day. Method: trayStory, one fact after the other.
func TestAKitGoesFromPreparedToOpened(t *testing.T) {
	p, made, seal, facts := trayStory(t)
	at := func(on uint32, more ...mesh.Fact) KitRow {
		return foldWith(planOptions(), append(append([]mesh.Fact{}, facts...), more...)).Kit("tray-1", on)
	}
	require.Equal(t, KitRow{ID: "other"}, foldWith(planOptions(), facts).Kit("other", 0))
	require.Equal(t, KitPrepared, foldWith(planOptions(), facts[:3]).Kit("tray-1", 20261125).State)
	k := at(20261231)
	require.Equal(t, KitSealed, k.State)
	require.True(t, k.Ready())
	require.True(t, k.TwoPeople)
	require.Equal(t, mesh.Label("4711"), k.Seal)
	require.Equal(t, mesh.Label("First tray"), k.Name)
	require.EqualValues(t, 20261231, k.Expiry)
	require.Equal(t, []HowKnown{ByScanner, Assumed}, []HowKnown{k.Lines[0].How, k.Lines[1].How})
	require.EqualValues(t, 20270228, k.Lines[0].Expiry)
	require.True(t, k.Lines[0].Inferred)
	require.False(t, k.Lines[1].Inferred)
	require.Empty(t, k.Missing)
	require.Equal(t, KitExpired, at(20270101).State)
	require.Equal(t, KitSealed, at(0).State, "on no day nothing is expired")

	inCase := mesh.MakeRef(p[0].key, mesh.Tap{0xcc}, 0)
	open := p[0].write(&SealOpened{Names: seal.Ref, Kit: "tray-1", Seal: "4711", Case: inCase})
	k = at(20270101, open)
	require.Equal(t, KitOpened, k.State, "an opened kit is opened, in date or not")
	require.Equal(t, inCase, k.Openings[0].Case)
	require.True(t, k.FoundBroken())
	again := p[1].write(&Sealed{Names: made.Ref, Kit: "tray-1", Seal: "4712", Expiry: 20261231})
	require.Equal(t, KitSealed, at(0, open, again).State, "it was closed again")
	require.Equal(t, mesh.Label("4712"), at(0, again, open).Seal)
	apart := p[0].write(&BrokenDown{Names: made.Ref, Kit: "tray-1"})
	require.Equal(t, KitBrokenDown, at(0, open, apart).State)
	next := p[0].write(&Prepared{Kit: "tray-1", Template: "first", PreparedBy: "T1"})
	k = at(0, next, apart, open)
	require.Equal(t, KitPrepared, k.State, "the newest preparation counts")
	require.False(t, k.TwoPeople)
	require.Equal(t, []int64{2, 1}, []int64{k.Missing[0].Want, k.Missing[1].Want})
	require.Equal(t, WhereInside, k.Missing[0].Where)
	require.Equal(t, mesh.Label("Tracheal tube"), k.Missing[0].Item.Name)
	require.Len(t, foldWith(planOptions(), append(facts, next)).Kits(0), 1)
}

// Goal: what is wrong with a kit is listed, and stays listed afterwards. Method:
// trayStory alone, then one broken rule after the other.
func TestWhatIsWrongWithAKitIsListed(t *testing.T) {
	p, made, seal, facts := trayStory(t)
	audit := func(more ...mesh.Fact) []FindingID {
		all := append(append([]mesh.Fact{}, facts...), more...)
		requireSameInAnyOrder(t, foldWith(testOptions(), all), all)
		return ids(foldWith(planOptions(), all).Audit())
	}
	require.Empty(t, audit())
	same := p[0].write(&Prepared{Kit: "tray-2", Template: "none", PreparedBy: "T1", CheckedBy: "T1"})
	require.Equal(t, []FindingID{KitUnchecked}, audit(same))
	require.Equal(t, []FindingID{KitUnchecked}, audit(p[0].write(&Prepared{Kit: "tray-2", PreparedBy: "T1"})))

	good := func(id mesh.ID, lines ...Line) mesh.Fact {
		return p[0].write(&Prepared{Kit: id, Template: "first", Lines: lines, PreparedBy: "T1", CheckedBy: "T2"})
	}
	late := good("tray-3", ofLot(saline, "S1", 1))
	late.Wall = 1_798_761_600_000 // 2027-01-01, UTC
	found := foldWith(planOptions(), append(facts, late)).Audit()
	require.Equal(t, []FindingID{KitLotExpired}, ids(found))
	require.EqualValues(t, []int64{20261231, 20270101}, []int64{found[0].Want, found[0].Got})
	held := p[1].write(&Quarantine{Item: tube, Lot: "T1", Held: true})
	require.Equal(t, []FindingID{KitHeldBack}, audit(held))
	require.Empty(t, audit(held, p[0].write(&BrokenDown{Names: made.Ref, Kit: "tray-1"})))

	open := p[0].write(&SealOpened{Names: made.Ref, Kit: "tray-1", Seal: "?"})
	require.Empty(t, audit(open), "it has a seal, whoever opened it did not know which")
	bare := good("tray-4", ofLot(tube, "T1", 2), Containers(saline, 1))
	require.Equal(t, []FindingID{KitUnsealed}, audit(bare, p[0].write(&SealOpened{Names: bare.Ref, Kit: "tray-4"})))
	require.Equal(t, []FindingID{KitUnsealed}, audit(bare, p[0].write(&SealOpened{Kit: "tray-4"})))
	require.Equal(t, []FindingID{NamesUnknown}, audit(p[0].write(&BrokenDown{Names: late.Ref, Kit: "tray-3"})))

	few := good("tray-5", ofLot(tube, "T1", 1), Containers(saline, 1))
	found = foldWith(planOptions(), append(facts, few, p[1].write(&Sealed{Names: few.Ref, Kit: "tray-5", Seal: "9"}))).Audit()
	require.Equal(t, []FindingID{KitIncomplete}, ids(found))
	require.Equal(t, []int64{3, 2}, []int64{found[0].Want, found[0].Got})
	promise := p[1].write(&Sealed{Names: made.Ref, Kit: "tray-1", Seal: "4713", Expiry: 20270100})
	require.Equal(t, []FindingID{SealLate}, audit(promise))
	require.Equal(t, []FindingID{NamesUnknown}, audit(p[1].write(&Sealed{Names: late.Ref, Seal: "1"})))
	require.Equal(t, []FindingID{NamesWrong}, audit(p[1].write(&Sealed{Names: seal.Ref, Seal: "1"})))
}

// Goal: a seal is judged by the template of its time. Method: a full kit is
// sealed; then the template asks for more: the kit lacks something now, and the
// seal was right.
func TestASealIsJudgedByTheTemplateOfItsTime(t *testing.T) {
	p, _, _, facts := trayStory(t)
	more := p[0].write(&Template{ID: "first", Name: "First tray", Lines: []TemplateLine{{tube, 3, WhereInside}}})
	l := foldWith(planOptions(), append(facts, more))
	require.Empty(t, l.Audit())
	require.Len(t, l.Kit("tray-1", 0).Missing, 1)
	require.Len(t, l.Templates(), 1)
	require.EqualValues(t, 3, l.Templates()[0].Lines[0].Count)
}

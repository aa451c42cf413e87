package kits

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: the audit names every broken invariant, not the first. Method: one
// ledger with a place below zero, an unknown item, a malformed part and a
// witness of nothing; all four are found.
func TestAuditNamesEveryBrokenInvariant(t *testing.T) {
	p := pens(t, 1)[0]
	below := p.write(&Moved{From: store, To: trolley, Lines: []Line{Containers(tube, 1)}})
	strange := p.write(stock(store, 999, 1))
	malformed := p.write(stock(store, tube, 1))
	malformed.Body = []byte{0x91}
	witness := p.write(&Witnessed{Names: mesh.MakeRef(p.key, mesh.Tap{99}, 0), Tag: "T2", Grade: OwnDevice})
	l := fold(t, below, strange, malformed, witness)
	found := l.Audit()
	require.Equal(t, []FindingID{BelowZero, Malformed, NamesUnknown, UnknownItem, UnknownItem}, ids(found))
	require.Equal(t, Finding{ID: BelowZero, Cell: each(store, tube), Got: -1}, found[0])
	require.Equal(t, []mesh.Ref{malformed.Ref}, found[1].Refs)
}

// Goal: a lot may be read late without an outcry. Method: containers of an
// unknown lot cover those of a known one and the other way round, but one known
// lot does not cover another.
func TestUnknownLotsCoverKnownOnes(t *testing.T) {
	p := pens(t, 1)[0]
	lot := func(l mesh.Label, n int64) Line {
		return Line{Item: tube, Lot: l, Quantity: Quantity{n, mesh.Each}}
	}
	for _, c := range []struct {
		in, out Line
		below   bool
	}{
		{lot("", 2), lot("L1", 2), false},
		{lot("L1", 2), lot("", 2), false},
		{lot("", 2), lot("L1", 3), true},
		{lot("L1", 2), lot("", 3), true},
		{lot("L1", 2), lot("L2", 1), true},
	} {
		l := fold(t,
			p.write(&Moved{From: Place{Sort: Supplier}, To: store, Lines: []Line{c.in}}),
			p.write(&Moved{From: store, To: Place{Used, "A1"}, Lines: []Line{c.out}}))
		require.Equal(t, c.below, len(l.Audit()) > 0, "%+v", c)
	}
}

// Goal: a seal is opened once and reads as it was put on. Method: one opening;
// a second; another number; a seal that nobody put on.
func TestSealsAreOpenedOnceAndReadTheSame(t *testing.T) {
	p := pens(t, 2)
	put := p[0].write(&Sealed{Kit: "tray", Seal: "4711"})
	open := func(names mesh.Ref, seal mesh.Label) mesh.Fact {
		return p[1].write(&SealOpened{Names: names, Kit: "tray", Seal: seal, Whole: true})
	}
	once := open(put.Ref, "4711")
	require.Empty(t, fold(t, put, once).Audit())
	require.Equal(t, []FindingID{SealTwice}, ids(fold(t, once, put, open(put.Ref, "4711")).Audit()))
	require.Equal(t, []FindingID{SealDiffers}, ids(fold(t, put, open(put.Ref, "4712")).Audit()))
	require.Equal(t, []FindingID{NamesUnknown}, ids(fold(t, once).Audit()))
	require.Equal(t, []FindingID{KitUnsealed, KitUnsealed}, ids(fold(t, open(mesh.Ref{}, ""), open(mesh.Ref{}, "")).Audit()),
		"seals that name nothing are not one seal, and nobody had put one on")
	require.Empty(t, fold(t, put, open(mesh.Ref{}, "4711")).Audit(), "the kit had a seal, whoever opened it did not know which")
}

// Goal: amounts that cannot be compared are said to be so. Method: a syringe in
// units from ampoules in micrograms, and an issue whose drug was given in units.
func TestAmountsThatCannotBeComparedAreListed(t *testing.T) {
	p := pens(t, 1)[0]
	i := p.write(&Issued{Line: Containers(ampoule, 1)})
	made := p.write(&DrawnUp{At: insideA1, Lines: []Line{Containers(ampoule, 1)}, Item: ampoule, Amount: Quantity{5, mesh.Unit}})
	given := p.write(&Moved{From: insideA1, To: Place{Given, "A1"}, Issue: i.Ref,
		Lines: []Line{{Item: ampoule, Syringe: made.Ref, Quantity: Quantity{5, mesh.Unit}}}})
	l := fold(t, p.write(stock(insideA1, ampoule, 1)), i, made, given)
	require.Equal(t, []FindingID{IssueUnmeasured, SyringeUnchecked}, ids(l.Audit()))
}

// Goal: what a newer version wrote is kept and shown, what belongs to others is
// left alone. Method: an unnumbered kind of this package and one of another.
func TestNewerKindsAreKeptAndOthersLeftAlone(t *testing.T) {
	p := pens(t, 1)[0]
	newer, other := p.write(stock(store, tube, 1)), p.write(stock(store, tube, 1))
	newer.Kind, other.Kind = 0x02fe, 0x0120
	l := fold(t, newer, other)
	require.Equal(t, []Unreadable{{Ref: newer.Ref, Kind: 0x02fe, Newer: true}}, l.Unreadable())
	require.Empty(t, l.Audit())
	require.NotEqual(t, fold(t, other).State(), l.State())
	require.Equal(t, fold(t).State(), fold(t, other).State())
}

// Goal: the state says everything that was decided. Method: each further fact
// of a list changes it, repeats do not; other starter lists do not either.
func TestStateChangesWithEachFactAndNothingElse(t *testing.T) {
	p := pens(t, 2)
	stocked, put := passed(p[0])
	facts := []mesh.Fact{
		stocked, put, p[1].write(body(TakenIn(put.Ref, []int64{1}))), counted(p[0], mesh.Ref{}, 9, p...),
		p[0].write(&Prepared{Kit: "tray"}), p[0].write(&ParLine{Place: store, Item: tube, Par: 2}),
		p[0].write(&Issued{Line: Containers(ampoule, 1)}), p[0].write(&Sealed{Kit: "tray"}),
	}
	l := NewLedger(testOptions())
	last := l.State()
	for _, f := range facts {
		l.Add(f)
		require.NotEqual(t, last, l.State(), "%#04x", uint16(f.Kind))
		last = l.State()
		l.Add(f)
		require.Equal(t, last, l.State())
	}
	require.Equal(t, last, foldWith(DefaultOptions(), facts).State())
}

package kits

import (
	"encoding/binary"
	"maps"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// packed writes facts as the fuzz target reads them: for each the kind, the
// device, the length of the body in two bytes, the body.
func packed(facts []mesh.Fact) (out []byte) {
	for _, f := range facts {
		out = binary.BigEndian.AppendUint16(out, uint16(f.Kind))
		out = append(out, f.Ref.Author()[0])
		out = binary.BigEndian.AppendUint16(out, uint16(len(f.Body)))
		out = append(out, f.Body...)
	}
	return out
}

// unpacked reads them again; every fact gets the next place of its device's feed.
func unpacked(b []byte) (out []mesh.Fact) {
	seqs := map[byte]mesh.Seq{}
	for len(b) >= 5 && len(out) < 64 {
		device := b[2] % 4
		n := min(int(binary.BigEndian.Uint16(b[3:])), len(b)-5)
		seqs[device]++
		key := mesh.Key{device}
		seq := seqs[device]
		out = append(out, mesh.Fact{
			Ref:  mesh.MakeRef(key, mesh.Tap{byte(seq >> 8), byte(seq)}, 0),
			At:   mesh.Order{Turn: mesh.Turn(len(out) + 1), Feed: mesh.MakeFeed(key, mesh.Incarnation{device}), Seq: seq},
			Kind: mesh.Kind(binary.BigEndian.Uint16(b)), Body: b[5 : 5+n],
		})
		b = b[5+n:]
	}
	return out
}

// FuzzAdd: whatever bodies a device writes, the ledger does not panic, is
// conserved, and comes to the same state backwards and with repeats.
func FuzzAdd(f *testing.F) {
	for seed := range uint64(8) {
		f.Add(packed(randomFacts(f, rand.New(rand.NewPCG(seed, 0)), 20)))
	}
	examples := golden(f)
	for _, k := range slices.Sorted(maps.Keys(examples)) {
		f.Add(packed([]mesh.Fact{{Kind: k, Body: examples[k]}, {Kind: KindMoved, Body: examples[KindMoved]}}))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		facts := unpacked(b)
		l := foldWith(testOptions(), facts)
		requireConserved(t, l)
		again := slices.Concat(facts, facts)
		slices.Reverse(again)
		require.Equal(t, l.State(), foldWith(testOptions(), again).State())
		lookAtEverything(l)
	})
}

// lookAtEverything asks for every view, so that none of them panics.
func lookAtEverything(l *Ledger) {
	for _, v := range l.Issues() {
		l.IssueRecord(v.Ref)
	}
	drill := func(c mesh.Ref) bool { return c[0]%2 == 1 }
	l.Restock()
	l.Kits(20261125)
	l.ReadyKits(20261125)
	l.Plan(RestockQuestion{On: 20261125, Drill: drill})
	l.ControlledList(drill)
	l.RegisterSheets(drill)
	SumWaste(l.WasteRows(WasteQuestion{Drill: drill}), ByCase|ByRoom|ByMonth|ByReason|ByClass)
	l.WasteBoxes(WasteQuestion{})
	for _, b := range l.Balances() {
		l.Recall(b.Cell.Item, b.Cell.Lot)
		l.Pick(b.Cell.Place, b.Cell.Item, 3, 20261125)
		l.Accept(l.Proposal(b.Cell.Place.ID), mesh.Ref{})
	}
}

// TestPackingIsUndone: the seeds of FuzzAdd reach the ledger as they were.
func TestPackingIsUndone(t *testing.T) {
	facts := randomFacts(t, rand.New(rand.NewPCG(1, 1)), 20)
	back := unpacked(packed(facts))
	require.Len(t, back, len(facts))
	for i, f := range facts {
		require.Equal(t, f.Kind, back[i].Kind)
		require.Equal(t, f.Body, back[i].Body)
	}
}

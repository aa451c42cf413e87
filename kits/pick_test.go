package kits

import (
	"encoding/json"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// fefoFile is testdata/fefo.json.
type fefoFile struct {
	Lots []struct {
		Lot, Exp, Rcv, State string
		Qty                  int64
	}
	Order []string
	Pick4 [][2]any
}

// Goal: the first expired goes out first. Method: the lots of fefo.json (own
// composition), received by movements in the order of their dates, at a store on
// 24 November 2026; order and a picking of four are as the file says.
func TestFirstExpiredGoesOutFirst(t *testing.T) {
	b, err := os.ReadFile("testdata/fefo.json")
	require.NoError(t, err)
	var file fefoFile
	require.NoError(t, json.Unmarshal(b, &file))
	require.NotEmpty(t, file.Lots)
	slices.SortFunc(file.Lots, func(a, b struct {
		Lot, Exp, Rcv, State string
		Qty                  int64
	}) int {
		return strings.Compare(a.Rcv, b.Rcv)
	})
	p := pens(t, 1)[0]
	var facts []mesh.Fact
	for _, x := range file.Lots {
		line := Line{Item: tube, Lot: mesh.Label(x.Lot), Quantity: Quantity{x.Qty, mesh.Each}}
		facts = append(facts, p.write(&Moved{From: Place{Sort: Supplier}, To: store, Lines: []Line{line}}))
		if x.Exp != "" {
			day, err := strconv.ParseUint("20"+x.Exp, 10, 32)
			require.NoError(t, err)
			facts = append(facts, p.write(&LotLine{Item: tube, Lot: line.Lot, Expiry: uint32(day), How: ByScanner}))
		}
		if x.State == "quarantine" {
			facts = append(facts, p.write(&Quarantine{Item: tube, Lot: line.Lot, Held: true}))
		}
	}
	l := fold(t, facts...)
	all := l.Pick(store, tube, 1000, 20261124)
	var order []string
	for _, x := range all.Lots {
		order = append(order, string(x.Lot))
	}
	require.Equal(t, file.Order, order)
	require.EqualValues(t, 3, all.Undated)
	require.Len(t, all.Refused, 2)
	four := l.Pick(store, tube, 4, 20261124)
	require.Len(t, four.Lots, len(file.Pick4))
	for i, want := range file.Pick4 {
		require.EqualValues(t, want[0], four.Lots[i].Lot)
		require.EqualValues(t, want[1], four.Lots[i].N)
	}
	require.Zero(t, four.Short)
	require.True(t, four.Lots[0].Inferred, "the day was not on the label")
}

// Goal: what a wrong lot was written for is not promised twice. Method: five of
// L1 there, two of an unknown lot taken away: three may be picked.
func TestWhatIsBelowZeroIsNotPickedElsewhere(t *testing.T) {
	p := pens(t, 1)[0]
	lot := Line{Item: tube, Lot: "L1", Quantity: Quantity{5, mesh.Each}}
	l := fold(t,
		p.write(&Moved{From: Place{Sort: Supplier}, To: store, Lines: []Line{lot}}),
		p.write(&Moved{From: store, To: trolley, Lines: []Line{Containers(tube, 2)}}))
	got := l.Pick(store, tube, 5, 0)
	require.Len(t, got.Lots, 1)
	require.EqualValues(t, 3, got.Lots[0].N)
	require.EqualValues(t, 2, got.Short)
	require.Equal(t, NotAccounted, got.Refused[0].Refused)
}

// Goal: whatever lies there, a picking keeps the rules. Method: random lots; the
// picking is compared with one found by trying the lots day by day.
func TestPickingsKeepTheirRules(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed: %d", seed)
	rng := rand.New(rand.NewPCG(seed, 0))
	for range 200 {
		p := pens(t, 1)[0]
		held, day, back := map[mesh.Label]int64{}, map[mesh.Label]uint32{}, map[mesh.Label]bool{}
		var facts []mesh.Fact
		for i := range 1 + rng.IntN(6) {
			lot := mesh.Label("L" + strconv.Itoa(i))
			held[lot], day[lot], back[lot] = 1+rng.Int64N(4), pick(rng, []uint32{0, 20261100, 20261123, 20261124, 20270101}), rng.IntN(4) == 0
			facts = append(facts,
				p.write(&Moved{From: Place{Sort: Supplier}, To: store, Lines: []Line{{Item: tube, Lot: lot, Quantity: Quantity{held[lot], mesh.Each}}}}),
				p.write(&LotLine{Item: tube, Lot: lot, Expiry: day[lot]}),
				p.write(&Quarantine{Item: tube, Lot: lot, Held: back[lot]}))
		}
		want := rng.Int64N(15)
		got := foldWith(testOptions(), shuffled(rng, facts)).Pick(store, tube, want, 20261124)
		var naive []mesh.Label
		left := want
		for _, d := range []uint32{20261124, 20261100, 20270101, 0} {
			for i := range len(held) {
				lot := mesh.Label("L" + strconv.Itoa(i))
				if day[lot] == d && !back[lot] && left > 0 {
					naive = append(naive, lot)
					left -= min(left, held[lot])
				}
			}
		}
		var lots []mesh.Label
		for _, x := range got.Lots {
			lots = append(lots, x.Lot)
		}
		require.Equal(t, naive, lots, "seed %d", seed)
		require.Equal(t, left, got.Short)
	}
}

// Goal: days of clocks and of labels are the right ones. Method: known days
// (29 February of leap years and centuries; the day of the epoch), month ends.
func TestDaysAreThoseOfTheCalendar(t *testing.T) {
	for ms, want := range map[mesh.Wall]uint32{
		0: 0, 1: 19700101, 951_782_400_000: 20000229, 951_868_800_000: 20000301,
		1_795_564_800_000: 20261125, 4_107_542_399_999: 21000228, 4_107_542_400_000: 21000301,
	} {
		require.Equal(t, want, DayOf(ms), "%d", ms)
	}
	for label, want := range map[uint32]uint32{
		0: 0, 20261100: 20261130, 20240200: 20240229, 20260200: 20260228, 21000200: 21000228, 20261231: 20261231, 20261200: 20261231,
	} {
		require.Equal(t, want, LastDay(label), "%d", label)
	}
}

package kits

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Places and items of the tests. The items are not those of the starter lists.
var (
	store    = Place{Store, "main"}
	trolley  = Place{Trolley, "airway"}
	doorA1   = Place{Door, "A1"}
	insideA1 = Place{InRoom, "A1"}
)

const (
	ampoule mesh.Number = 3001 // 100 microgram in 2 mL, controlled
	tube    mesh.Number = 1007
	saline  mesh.Number = 4004
)

func testOptions() Options {
	o := DefaultOptions()
	o.Defaults.Items = []ItemLine{
		{Number: ampoule, Name: "Fentanyl", Detail: "50 microgram/mL, 2 mL", Stocked: mesh.Each, Group: GroupDrug,
			Content: Quantity{100, mesh.Microgram}, VolumeUL: 2000, Flags: IsDrug | Controlled, Exit: ReturnUntaken},
		{Number: tube, Name: "Tracheal tube", Detail: "7.5", Stocked: mesh.Each, Exit: Discard},
		{Number: saline, Name: "Sodium chloride 0.9 %", Detail: "10 mL", Stocked: mesh.Each, Exit: Discard},
	}
	return o
}

// pen writes the facts of one device held by one person.
type pen struct {
	t    testing.TB
	key  mesh.Key
	feed mesh.Feed
	seq  mesh.Seq
	tag  mesh.Tag
	turn *mesh.Turn // shared: every device has seen what was written before
}

// pens gives n devices whose turns follow each other.
func pens(t testing.TB, n int) []*pen {
	turn := new(mesh.Turn)
	var out []*pen
	for i := range n {
		p := &pen{t: t, tag: mesh.Tag("T" + string(rune('1'+i))), turn: turn}
		p.key[0] = byte(i + 1)
		p.feed = mesh.MakeFeed(p.key, mesh.Incarnation{byte(i + 1)})
		out = append(out, p)
	}
	return out
}

// write makes a fact of a body, a pointer to one of this package's structs.
func (p *pen) write(body any) mesh.Fact {
	p.t.Helper()
	b, err := mesh.Encode(body)
	require.NoError(p.t, err)
	p.seq++
	*p.turn++
	var tap mesh.Tap
	tap[0], tap[1] = byte(p.seq>>8), byte(p.seq)
	return mesh.Fact{
		Ref: mesh.MakeRef(p.key, tap, 0), At: mesh.Order{Turn: *p.turn, Feed: p.feed, Seq: p.seq},
		By: mesh.By{Tag: p.tag}, Kind: kindOf(body), Body: b,
	}
}

// seen is the vector of everything that the given devices have written so far.
func seen(all ...*pen) (out []mesh.Head) {
	for _, p := range all {
		if p.seq > 0 {
			out = append(out, mesh.Head{Feed: p.feed, Seq: p.seq})
		}
	}
	return out
}

func kindOf(body any) mesh.Kind {
	for k, fresh := range KitsKinds() {
		if reflect.TypeOf(fresh()) == reflect.TypeOf(body) {
			return k
		}
	}
	return 0
}

// fold adds facts to a fresh ledger. When the test ends, the ledger is audited
// for conservation, and every other order of the same facts that is tried, with
// repeats, must have come to the same state.
func fold(t *testing.T, facts ...mesh.Fact) *Ledger {
	t.Helper()
	l := foldWith(testOptions(), facts)
	t.Cleanup(func() {
		requireConserved(t, l)
		requireSameInAnyOrder(t, l, facts)
	})
	return l
}

func foldWith(o Options, facts []mesh.Fact) *Ledger {
	l := NewLedger(o)
	for _, f := range facts {
		l.Add(f)
	}
	return l
}

// requireConserved calls the auditor and, beside it, adds up every balance.
func requireConserved(t testing.TB, l *Ledger) {
	for _, f := range l.Audit() {
		require.NotEqual(t, NotConserved, f.ID, "%+v", f)
	}
	sums := map[Cell]int64{}
	for _, b := range l.Balances() {
		require.Equal(t, b.N, l.Balance(b.Cell), "%+v", b)
		c := b.Cell
		c.Place = Place{}
		sums[c] += b.N
	}
	for c, n := range sums {
		require.Zero(t, n, "%+v", c)
	}
}

// requireSameInAnyOrder tries all orders of up to five facts, else thirty random
// ones with repeats.
func requireSameInAnyOrder(t testing.TB, l *Ledger, facts []mesh.Fact) {
	want, found := l.State(), l.Audit()
	try := func(order []mesh.Fact) {
		m := foldWith(testOptions(), order)
		require.Equal(t, want, m.State())
		require.Equal(t, found, m.Audit())
	}
	if len(facts) <= 5 {
		permute(slices.Clone(facts), 0, try)
		return
	}
	seed := rand.Uint64()
	t.Logf("seed of the orders: %d", seed)
	rng := rand.New(rand.NewPCG(seed, 0))
	for range 30 {
		try(shuffled(rng, facts))
	}
}

// permute gives every order of facts.
func permute(facts []mesh.Fact, from int, give func([]mesh.Fact)) {
	if from == len(facts) {
		give(facts)
		return
	}
	for i := from; i < len(facts); i++ {
		facts[from], facts[i] = facts[i], facts[from]
		permute(facts, from+1, give)
		facts[from], facts[i] = facts[i], facts[from]
	}
}

// shuffled is facts in a random order with about a third of them repeated.
func shuffled(rng *rand.Rand, facts []mesh.Fact) []mesh.Fact {
	out := slices.Clone(facts)
	for range len(facts) / 3 {
		out = append(out, facts[rng.IntN(len(facts))])
	}
	rng.Shuffle(len(out), func(i, j int) { out[i], out[j] = out[j], out[i] })
	return out
}

// ids are those of the findings, in their order.
func ids(found []Finding) (out []FindingID) {
	for _, f := range found {
		out = append(out, f.ID)
	}
	return out
}

// stock is a movement of n containers from the supplier.
func stock(to Place, item mesh.Number, n int64) *Moved {
	return &Moved{From: Place{Sort: Supplier}, To: to, Lines: []Line{Containers(item, n)}}
}

// each is the cell of an item's containers of an unknown lot.
func each(p Place, item mesh.Number) Cell { return Cell{Place: p, Item: item, Measure: mesh.Each} }

func body[T any](v T) *T { return &v }

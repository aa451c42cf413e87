package kits

import (
	"cmp"
	"maps"
	"slices"

	"lintel/mesh"
)

// RestockQuestion says what is to be brought back to full.
type RestockQuestion struct {
	Places []Place             // empty: every place with a par, and every kit
	On     uint32              // the day, as 20271231; 0: nothing is expired
	Drill  func(mesh.Ref) bool // whether a case is an exercise, whose stock is apart; nil: none is
}

// RestockPlan is what to fetch, and what to order.
type RestockPlan struct {
	Groups []RestockGroup
	Orders []OrderLine
}

// RestockGroup is what is fetched at one shelf.
type RestockGroup struct {
	From  Place
	Where mesh.Label // the shelf; empty: not known
	Picks []RestockPick
}

// RestockPick is one line to fetch and tick off.
type RestockPick struct {
	RestockLine // Missing: how many are to be taken here
	Lots        []LotHeld
	Undated     int64 // how many of them are of a lot without a known day
}

// OrderLine is what must be ordered of an item.
type OrderLine struct {
	Item        ItemLine
	Needed      int64 // to bring every place to its par
	Outstanding int64 // ordered, and not come yet
	Order       int64 // Needed − Outstanding, not below 0
	For         []OrderFor
}

// OrderFor is what is to be put where when it comes.
type OrderFor struct {
	Place Place
	N     int64
}

// Missing tells whether anything is to be fetched or has not come yet.
func (p RestockPlan) Missing() bool { return len(p.Groups) > 0 || len(p.Orders) > 0 }

// Plan says how to bring kits and places back to full. Each line takes from
// where its item is kept and, when too few lie there, from where that place is
// filled itself; what is nowhere has to be ordered. Nobody takes a container
// twice, expired or held-back lots are never taken, and what a place gives away
// counts as missing there. A closed kit that nothing was ever moved to holds
// what its preparation says; one that was taken apart is not wanted again.
func (l *Ledger) Plan(q RestockQuestion) RestockPlan {
	p := &planner{l: l, q: q, stock: map[Place]map[mesh.Number][]LotHeld{}, orders: map[mesh.Number]*OrderLine{}}
	wants := l.wants(q)
	slices.SortStableFunc(wants, func(a, b want) int { return cmp.Compare(l.depth(b), l.depth(a)) })
	for _, w := range wants {
		p.fill(w)
	}
	return p.plan()
}

// want is what a place should hold of an item.
type want struct {
	place Place
	item  mesh.Number
	par   int64
}

// wants are the pars, and of each kit without one what its template says, in
// the order of places and items.
func (l *Ledger) wants(q RestockQuestion) (out []want) {
	all := map[parKey]int64{}
	for id, prepared := range l.trays.ofKit {
		newest := slices.MaxFunc(prepared, noted[Prepared].compare)
		if len(l.trays.broken[newest.ref]) > 0 {
			continue
		}
		if t, ok := l.Template(newest.body.Template); ok && !t.Value.Gone {
			for _, x := range t.Value.Lines {
				all[parKey{Place{Kit, id}, x.Item}] += x.Count
			}
		}
	}
	for _, k := range keys(&l.lines.pars, l.defaults.pars, parKey.compare) {
		if par, _ := l.Par(k.place, k.item); !par.Value.Gone {
			all[k] = par.Value.Par
		}
	}
	for _, k := range slices.SortedFunc(maps.Keys(all), parKey.compare) {
		if len(q.Places) == 0 || slices.Contains(q.Places, k.place) {
			out = append(out, want{k.place, k.item, all[k]})
		}
	}
	return out
}

// sourcesMax bounds the way from a place to the supplier: places may be filled
// from each other in a circle.
const sourcesMax = 8

// depth is how many places lie between a place and the supplier.
func (l *Ledger) depth(w want) (n int) { return len(l.sources(w)) }

// sources are the places that a want is filled from, the nearest first, without
// the supplier.
func (l *Ledger) sources(w want) (out []shelfMark) {
	item, _ := l.Item(w.item)
	item.Value.Number = w.item
	at := w.place
	for len(out) < sourcesMax {
		from, where := l.source(at, item.Value)
		if from.Sort == Supplier || from == w.place || slices.ContainsFunc(out, func(s shelfMark) bool { return s.place == from }) {
			break
		}
		out = append(out, shelfMark{from, where})
		at = from
	}
	return out
}

// shelfMark is where something is fetched.
type shelfMark struct {
	place Place
	where mesh.Label
}

// planner fills one want after the other.
type planner struct {
	l      *Ledger
	q      RestockQuestion
	stock  map[Place]map[mesh.Number][]LotHeld // what is left to take
	picks  []RestockPick
	orders map[mesh.Number]*OrderLine
}

// lots are what is left of an item at a place.
func (p *planner) lots(at Place, item mesh.Number) []LotHeld {
	items := p.stock[at]
	if items == nil {
		items = map[mesh.Number][]LotHeld{}
		for n, held := range p.held(at) {
			items[n] = p.l.order(at, n, held, p.q.On)
		}
		p.stock[at] = items
	}
	return items[item]
}

// held is what lies at a place, by item and lot.
func (p *planner) held(at Place) map[mesh.Number]map[mesh.Label]int64 {
	k := p.l.Kit(at.ID, 0)
	moved := p.l.shelves[at] != nil
	if at.Sort != Kit || moved || k.State != KitPrepared && k.State != KitSealed {
		return p.l.realAt(at, p.q.Drill)
	}
	out := map[mesh.Number]map[mesh.Label]int64{}
	for _, x := range k.Lines {
		if x.Quantity.Measure == mesh.Each && x.Syringe.IsZero() {
			if out[x.Item] == nil {
				out[x.Item] = map[mesh.Label]int64{}
			}
			out[x.Item][x.Lot] += x.Quantity.N
		}
	}
	return out
}

// usable is how many of lots may be taken.
func usable(lots []LotHeld) (n int64) {
	for _, x := range lots {
		if x.Refused == Picks {
			n += x.N
		}
	}
	return n
}

// fill takes what is missing from the sources of a want, and orders the rest.
func (p *planner) fill(w want) {
	have := usable(p.lots(w.place, w.item))
	missing := w.par - have
	if missing <= 0 {
		return
	}
	item, _ := p.l.Item(w.item)
	item.Value.Number = w.item
	top := w.place
	for _, s := range p.l.sources(w) {
		top = s.place
		got := picked(p.lots(s.place, w.item), missing)
		if len(got.Lots) == 0 {
			continue
		}
		p.take(s.place, w.item, got.Lots)
		n := missing - got.Short
		p.picks = append(p.picks, RestockPick{
			RestockLine: RestockLine{Place: w.place, Item: item.Value, Par: w.par, Have: have, Missing: n, From: s.place, Where: s.where},
			Lots:        got.Lots, Undated: got.Undated,
		})
		if missing = got.Short; missing == 0 {
			return
		}
	}
	p.order(item.Value, top, missing)
}

// take removes picked lots from what is left.
func (p *planner) take(at Place, item mesh.Number, lots []LotHeld) {
	left := slices.Clone(p.stock[at][item])
	for _, x := range lots {
		for i := range left {
			if left[i].Lot == x.Lot && left[i].Refused == Picks {
				left[i].N -= x.N
			}
		}
	}
	p.stock[at][item] = slices.DeleteFunc(left, func(x LotHeld) bool { return x.N == 0 })
}

func (p *planner) order(item ItemLine, at Place, n int64) {
	o := p.orders[item.Number]
	if o == nil {
		o = &OrderLine{Item: item}
		p.orders[item.Number] = o
	}
	o.Needed += n
	for i := range o.For {
		if o.For[i].Place == at {
			o.For[i].N += n
			return
		}
	}
	o.For = append(o.For, OrderFor{at, n})
}

// plan groups the picks by shelf and counts the orders.
func (p *planner) plan() (out RestockPlan) {
	slices.SortStableFunc(p.picks, func(a, b RestockPick) int {
		return cmp.Or(a.From.Compare(b.From), cmp.Compare(a.Where, b.Where), cmp.Compare(a.Item.Number, b.Item.Number),
			a.Place.Compare(b.Place))
	})
	for _, x := range p.picks {
		if n := len(out.Groups); n == 0 || out.Groups[n-1].From != x.From || out.Groups[n-1].Where != x.Where {
			out.Groups = append(out.Groups, RestockGroup{From: x.From, Where: x.Where})
		}
		g := &out.Groups[len(out.Groups)-1]
		g.Picks = append(g.Picks, x)
	}
	for _, n := range slices.Sorted(maps.Keys(p.orders)) {
		o := *p.orders[n]
		o.Outstanding = p.l.Outstanding(n)
		o.Order = max(0, o.Needed-o.Outstanding)
		slices.SortFunc(o.For, func(a, b OrderFor) int { return a.Place.Compare(b.Place) })
		out.Orders = append(out.Orders, o)
	}
	return out
}

// Fetched are the movements of picks that were ticked off: one for each way
// between two places, of at most EndLinesMax lines.
func Fetched(picks []RestockPick) (out []Moved) {
	type way struct{ from, to Place }
	lines := map[way][]Line{}
	var order []way
	for _, x := range picks {
		w := way{x.From, x.Place}
		if lines[w] == nil {
			order = append(order, w)
		}
		for _, lot := range x.Lots {
			lines[w] = append(lines[w], Line{Item: x.Item.Number, Lot: lot.Lot, Quantity: Quantity{lot.N, mesh.Each}})
		}
	}
	for _, w := range order {
		for some := range slices.Chunk(lines[w], EndLinesMax) {
			out = append(out, Moved{From: w.from, To: w.to, Lines: some, Why: "restock"})
		}
	}
	return out
}

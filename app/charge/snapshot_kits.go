package charge

import (
	"cmp"
	"slices"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
)

// Kit is one kit with where its lines came from.
type Kit struct {
	kits.KitRow
	Names map[mesh.Number]kits.ItemLine
}

// Expiring is a lot that expires soon, or has, with where it is.
type Expiring struct {
	Item   kits.ItemLine
	Place  kits.Place
	Expiry uint32
	Lot    mesh.Label
	N      int64
	Held   bool // the lot is held back
}

// kits lists kits, and what they are prepared from.
func (s *Snapshot) kits(v station.View) {
	s.Kits = v.Ledger.Kits(s.Today)
	s.Templates = v.Ledger.Templates()
}

func (s *Snapshot) kit(v station.View) {
	s.Kit = Kit{KitRow: v.Ledger.Kit(s.For.ID, s.Today), Names: map[mesh.Number]kits.ItemLine{}}
	for _, x := range s.Kit.Lines {
		s.Kit.Names[x.Item] = itemOf(v, x.Item)
	}
}

// itemOf is a line of the catalogue, also of an item that nobody entered.
func itemOf(v station.View, n mesh.Number) kits.ItemLine {
	c, _ := v.Ledger.Item(n)
	c.Value.Number = n
	return c.Value
}

// expiry lists the lots with a known day, of clean places and closed kits, the
// first to expire first.
func (s *Snapshot) expiry(v station.View) {
	for _, b := range v.Ledger.Balances() {
		c := b.Cell
		if c.Place.Sort < kits.Store || c.Place.Sort > kits.Door || b.N <= 0 || c.Measure != mesh.Each {
			continue
		}
		if lot, known := v.Ledger.Lot(c.Item, c.Lot); known && lot.Value.Expiry != 0 {
			s.Expiring = append(s.Expiring, Expiring{
				Item: itemOf(v, c.Item), Place: c.Place, Expiry: kits.LastDay(lot.Value.Expiry), Lot: c.Lot, N: b.N, Held: v.Ledger.HeldBack(c.Item, c.Lot),
			})
		}
	}
	slices.SortStableFunc(s.Expiring, func(a, b Expiring) int {
		return cmp.Or(cmp.Compare(a.Expiry, b.Expiry), a.Place.Compare(b.Place), cmp.Compare(a.Item.Number, b.Item.Number))
	})
}

// prepare proposes what a kit is filled with: first expired, first out.
func (s *Snapshot) prepare(v station.View) {
	f, err := v.FillKit(s.For.ID, s.For.Template)
	if err != nil {
		return // the page says that there is no such template
	}
	s.Fill = f
	for _, m := range f.Takes {
		for _, x := range m.Lines {
			lot := kits.LotHeld{Lot: x.Lot, N: x.Quantity.N}
			if l, known := v.Ledger.Lot(x.Item, x.Lot); known {
				lot.Expiry, lot.Inferred, lot.How = l.Value.Expiry, l.Value.Inferred, l.Value.How
			}
			s.Taken = append(s.Taken, Taken{Item: itemOf(v, x.Item), From: m.From, Lot: lot})
		}
	}
	for _, b := range v.Ledger.BalancesAt(kits.Place{Sort: kits.Kit, ID: s.For.ID}) {
		if b.N > 0 {
			s.InKit++
		}
	}
}

// Taken is one line that goes into a kit.
type Taken struct {
	Item kits.ItemLine
	From kits.Place
	Lot  kits.LotHeld
}

func (s *Snapshot) restock(v station.View) {
	s.Plan = v.Ledger.Plan(kits.RestockQuestion{On: s.Today, Drill: v.Training()})
}

// Waste is what was thrown away, told apart as it was asked for.
type Waste struct {
	Sums  []kits.WasteSum
	Boxes []kits.WasteBoxRow
	Class []Named // of waste, to seal a container of
}

// waste sums up, in the codes that the unit chose.
func (s *Snapshot) waste(v station.View) {
	q := v.WasteQuestion()
	rows := v.Ledger.WasteRows(q)
	s.Waste = Waste{Sums: kits.SumWaste(rows, s.For.By), Boxes: v.Ledger.WasteBoxes(q)}
	seen := map[mesh.ID]bool{}
	for _, i := range v.Ledger.Items() {
		if w, known := v.Ledger.Waste(i.Waste, q.Country); known && !seen[i.Waste] {
			seen[i.Waste] = true
			s.Waste.Class = append(s.Waste.Class, Named{i.Waste, string(w.Value.Name)})
		}
	}
	slices.SortFunc(s.Waste.Class, func(a, b Named) int { return cmp.Compare(a.Words, b.Words) })
	s.rooms(v)
}

// rooms lists the rooms by name, with the case that is open in each.
func (s *Snapshot) rooms(v station.View) {
	for _, id := range everyRoom(v) {
		r := Room{ID: id, Name: string(id)}
		if line, known := v.Board.Room(id); known && line.Name != "" {
			r.Name = string(line.Name)
		}
		if c, open := v.Board.CaseIn(id); open {
			r.Case = c.Ref
		}
		s.Rooms = append(s.Rooms, r)
	}
}

// everyRoom is what was described or has a case, whatever this device is for.
func everyRoom(v station.View) (ids []mesh.ID) {
	for _, r := range v.Board.Rooms() {
		ids = append(ids, r.ID)
	}
	for _, c := range v.Board.Cases() {
		ids = append(ids, c.Room)
	}
	slices.Sort(ids)
	return slices.Compact(ids)
}

func (s *Snapshot) recall(v station.View) {
	if s.For.Item != 0 && s.For.Lot != "" {
		s.Recall = v.Ledger.Recall(s.For.Item, s.For.Lot)
	}
}

// Item is one line of the catalogue with what may be edited of it.
type Item struct {
	kits.ItemLine
	Pars  []kits.ParLine
	Have  map[kits.Place]int64
	Other []kits.ItemLine // its alternatives
	Lots  []kits.LotHeld  // wherever they are, in containers
	Two   bool            // two values stand, and a person has to choose
}

// catalogue lists what is searched for, or all.
func (s *Snapshot) catalogue(v station.View) {
	s.Form.Gone = v.Ledger.ItemsGone()
	if s.For.Gone {
		s.Items = s.Form.Gone
		return
	}
	if s.For.Text == "" {
		s.Items = v.Ledger.Items()
		return
	}
	f := v.Ledger.Find(s.For.Text)
	if s.Items = f.Items; len(s.Items) == 0 {
		s.Items = f.Near
	}
}

func (s *Snapshot) item(v station.View) {
	n := s.For.Item
	s.Item = Item{ItemLine: itemOf(v, n), Have: map[kits.Place]int64{}, Two: len(v.Ledger.ItemValues(n)) > 0}
	for _, p := range v.Ledger.Pars() {
		if p.Item == n {
			s.Item.Pars = append(s.Item.Pars, p)
			s.Item.Have[p.Place] = v.Ledger.Held(p.Place, n)
		}
	}
	for _, a := range s.Item.Alternatives {
		s.Item.Other = append(s.Item.Other, itemOf(v, a))
	}
	s.Item.Lots = lotsOf(v, n)
}

// lotsOf are the lots of an item, wherever they are or ended.
func lotsOf(v station.View, n mesh.Number) (out []kits.LotHeld) {
	add := func(lot mesh.Label, count int64) {
		i := slices.IndexFunc(out, func(x kits.LotHeld) bool { return x.Lot == lot })
		if i < 0 {
			x := kits.LotHeld{Lot: lot}
			if l, known := v.Ledger.Lot(n, lot); known {
				x.Expiry, x.Inferred, x.How = l.Value.Expiry, l.Value.Inferred, l.Value.How
			}
			if v.Ledger.HeldBack(n, lot) {
				x.Refused = kits.InQuarantine
			}
			i, out = len(out), append(out, x)
		}
		out[i].N += count
	}
	for _, b := range v.Ledger.Balances() {
		c := b.Cell
		if c.Item != n || c.Lot == "" || c.Measure != mesh.Each || c.Place.Sort == kits.Supplier {
			continue
		}
		count := b.N
		if c.Place.Sort > kits.Door {
			count = 0 // it is not clean stock any more
		}
		add(c.Lot, count)
	}
	slices.SortFunc(out, func(a, b kits.LotHeld) int { return cmp.Compare(a.Lot, b.Lot) })
	return out
}

// controlled lists the record of every case, the newest first.
func (s *Snapshot) controlled(v station.View) {
	for _, i := range v.Ledger.Issues() {
		if r, known := v.Ledger.IssueRecord(i.Ref); known && (s.For.Ref.IsZero() || i.Case == s.For.Ref) {
			s.Issues = append(s.Issues, r)
		}
	}
	slices.Reverse(s.Issues)
	for _, x := range v.Ledger.ControlledList(v.Training()) {
		if x.Issue.IsZero() {
			s.Listed = append(s.Listed, x)
		}
	}
	s.named(v)
}

// named notes what the items of listed lines are called.
func (s *Snapshot) named(v station.View) {
	for _, x := range s.Listed {
		s.Items = append(s.Items, itemOf(v, x.Item))
	}
}

func (s *Snapshot) issue(v station.View) {
	if r, known := v.Ledger.IssueRecord(s.For.Ref); known {
		s.Issues = []kits.IssueRecord{r}
	}
}

package station

import (
	"errors"
	"slices"

	"lintel/kits"
	"lintel/mesh"
)

// Errors of acts of kits and stock. Nothing was recorded.
var (
	ErrNoKit      = errors.New("no such kit was prepared")
	ErrNoTemplate = errors.New("there is no such template of a kit")
	ErrNoPlace    = errors.New("no place was named")
	ErrNoIssue    = errors.New("there is no such issue of a controlled drug")
	ErrNoMovement = errors.New("there is no such movement")
	ErrNoHandOver = errors.New("there is no such hand-over")
	ErrNoSeal     = errors.New("no number of a seal was given")
	ErrNoLot      = errors.New("no lot was named")
	ErrNoWaste    = errors.New("there is no such class of waste")
	ErrSameTag    = errors.New("the second person is the first one")
)

// Acts of kits.
type (
	// PrepareKit says that a kit was filled: what was taken into it, and what it
	// holds then. FillKit proposes one, Entries divides it into acts that fit.
	PrepareKit struct {
		Kit        mesh.ID
		Template   mesh.ID
		Takes      []kits.Moved // from where; To is the kit, whatever it says
		Lines      []kits.Line  // what it holds; left out: what lies there and is taken
		PreparedBy mesh.Tag     // left out: whoever taps
		CheckedBy  mesh.Tag     // a second person; empty: nobody yet
	}
	// CheckKit says that a second person found the kit as it was prepared.
	CheckKit struct {
		Kit       mesh.ID
		CheckedBy mesh.Tag // left out: whoever taps
	}
	// SealKit puts a numbered seal on a kit as it was prepared last.
	SealKit struct {
		Kit    mesh.ID
		Seal   mesh.Label
		Expiry uint32 // of its first line to expire, as 20271231; 0: as the lots say
	}
	// OpenKit says that a kit was opened for a case. With Inside, what its template
	// keeps inside goes into the room with it.
	OpenKit struct {
		Kit    mesh.ID
		Seal   mesh.Label // as read; left out: as it was put on
		Broken bool       // it was found open already
		Case   mesh.Ref
		Room   mesh.ID
		Inside bool
	}
	// BreakDown takes a kit apart: what is in it goes back to where it is kept,
	// and what expired is destroyed.
	BreakDown struct{ Kit mesh.ID }
)

// kitPlace is where the contents of a kit are.
func kitPlace(kit mesh.ID) kits.Place { return kits.Place{Sort: kits.Kit, ID: kit} }

// Today is the day by this device's clock in UTC, as 20271231; 0: not known.
func (v View) Today() uint32 { return kits.DayOf(v.Now.Wall) }

// Training tells which cases were exercises: those that began in a drill, or had
// one begin in them, that nobody called real.
func (v View) Training() func(mesh.Ref) bool {
	drills := map[mesh.Ref]bool{}
	for _, c := range v.Board.Cases() {
		drills[c.Ref] = v.Board.IsDrill(c.Ref)
	}
	return func(ref mesh.Ref) bool { return drills[ref] }
}

// takesMax is how many movements fit beside the By and the Prepared.
const takesMax = mesh.PartsMax - 2

// Entries divides the filling into acts of one entry each; the last one says
// that the kit is prepared.
func (a PrepareKit) Entries() (out []Act) {
	size := 0
	var some []kits.Moved
	for _, x := range a.into(a.Takes) {
		n, _ := LineLen(kits.KindMoved, &x) // one that cannot be written is refused by its act
		if len(some) > 0 && (len(some) == LinesMax || size+n > linesLenMax) {
			out = append(out, Move{Movements: some})
			some, size = nil, 0
		}
		some = append(some, x)
		size += n
	}
	a.Takes = some
	if len(some) > takesMax || size > linesLenMax/2 { // the Prepared says the same again
		out = append(out, Move{Movements: some})
		a.Takes = nil
	}
	return append(out, a)
}

// into gives the movements with the kit at their end.
func (a PrepareKit) into(takes []kits.Moved) []kits.Moved {
	out := slices.Clone(takes)
	for i := range out {
		out[i].To = kitPlace(a.Kit)
	}
	return out
}

func (a PrepareKit) parts(m *maker) error {
	if a.Kit == "" {
		return ErrNoKit
	}
	if _, known := m.view.Ledger.Template(a.Template); !known {
		return &NamedError{Err: ErrNoTemplate, Name: a.Template}
	}
	if a.PreparedBy == "" {
		a.PreparedBy = m.by.Tag
	}
	takes := a.into(a.Takes)
	for i := range takes {
		m.add(kits.KindMoved, &takes[i])
	}
	if len(a.Lines) == 0 {
		a.Lines = m.view.contained(a.Kit, takes)
	}
	if len(a.Lines) == 0 {
		return ErrNothing
	}
	prepared := m.add(kits.KindPrepared, &kits.Prepared{
		Kit: a.Kit, Template: a.Template, Lines: a.Lines, PreparedBy: a.PreparedBy, CheckedBy: a.CheckedBy,
	})
	m.ref = prepared
	return nil
}

// contained is what a kit holds with what is taken into it, by item and lot.
func (v View) contained(kit mesh.ID, takes []kits.Moved) (out []kits.Line) {
	add := func(x kits.Line) {
		for i := range out {
			y := out[i]
			if y.Item == x.Item && y.Lot == x.Lot && y.Syringe == x.Syringe && y.Quantity.Measure == x.Quantity.Measure {
				out[i].Quantity.N += x.Quantity.N
				return
			}
		}
		out = append(out, x)
	}
	for _, b := range v.Ledger.BalancesAt(kitPlace(kit)) {
		if b.N > 0 {
			add(lineOf(b))
		}
	}
	for _, t := range takes {
		for _, x := range t.Lines {
			add(x)
		}
	}
	return out
}

// lineOf is all of a balance as a line.
func lineOf(b kits.Balance) kits.Line {
	c := b.Cell
	return kits.Line{Item: c.Item, Lot: c.Lot, Syringe: c.Syringe, Quantity: kits.Quantity{N: b.N, Measure: c.Measure}}
}

// kit is the kit as it was prepared last.
func (m *maker) kit(id mesh.ID) (kits.KitRow, error) {
	k := m.view.Ledger.Kit(id, 0)
	if k.Prepared.IsZero() {
		return k, &NamedError{Err: ErrNoKit, Name: id}
	}
	m.ref = k.Prepared
	return k, nil
}

func (a CheckKit) parts(m *maker) error {
	k, err := m.kit(a.Kit)
	if err != nil {
		return err
	}
	if a.CheckedBy == "" {
		a.CheckedBy = m.by.Tag
	}
	if err := tags(a.CheckedBy); err != nil {
		return err
	}
	if a.CheckedBy == k.PreparedBy {
		return ErrSameTag
	}
	body := kits.Prepared{Kit: k.ID, Template: k.Template, PreparedBy: k.PreparedBy, CheckedBy: a.CheckedBy}
	for _, x := range k.Lines {
		body.Lines = append(body.Lines, x.Line)
	}
	m.ref = m.add(kits.KindPrepared, &body)
	return nil
}

func (a SealKit) parts(m *maker) error {
	k, err := m.kit(a.Kit)
	if err != nil {
		return err
	}
	if a.Seal == "" {
		return ErrNoSeal
	}
	if a.Expiry == 0 {
		a.Expiry = k.Expiry
	}
	m.ref = m.add(kits.KindSealed, &kits.Sealed{Names: k.Prepared, Kit: a.Kit, Seal: a.Seal, Expiry: a.Expiry})
	return nil
}

func (a OpenKit) parts(m *maker) error {
	k, err := m.kit(a.Kit)
	if err != nil {
		return err
	}
	of, room, err := m.where(a.Case, a.Room)
	if err != nil && a.Inside {
		return err
	}
	if a.Seal == "" {
		a.Seal = k.Seal
	}
	opens := k.Sealed
	if opens.IsZero() {
		opens = k.Prepared
	}
	m.ref = m.add(kits.KindSealOpened, &kits.SealOpened{Names: opens, Kit: a.Kit, Seal: a.Seal, Case: of, Whole: !a.Broken})
	if !a.Inside {
		return nil
	}
	outside := map[mesh.Number]bool{}
	if t, known := m.view.Ledger.Template(k.Template); known {
		for _, x := range t.Value.Lines {
			outside[x.Item] = x.Where != kits.WhereInside
		}
	}
	m.moveAll(kitPlace(a.Kit), of, "", func(b kits.Balance) (kits.Place, bool) {
		return kits.Place{Sort: kits.InRoom, ID: room}, !outside[b.Cell.Item]
	})
	return nil
}

func (a BreakDown) parts(m *maker) error {
	k, err := m.kit(a.Kit)
	if err != nil {
		return err
	}
	broken := m.add(kits.KindBrokenDown, &kits.BrokenDown{Names: k.Prepared, Kit: a.Kit})
	last := map[kits.Line]bool{}
	for _, x := range k.Lines {
		if on := m.view.Today(); x.Expiry != 0 && on != 0 && x.Expiry < on {
			last[kits.Line{Item: x.Item, Lot: x.Lot}] = true
		}
	}
	expired := func(b kits.Balance) bool { return last[kits.Line{Item: b.Cell.Item, Lot: b.Cell.Lot}] }
	m.moveAll(kitPlace(a.Kit), mesh.Ref{}, kits.WhyExpired, func(b kits.Balance) (kits.Place, bool) {
		return kits.Place{Sort: kits.DestroyedUnopened, ID: a.Kit}, expired(b)
	})
	m.moveAll(kitPlace(a.Kit), mesh.Ref{}, "kit broken down", func(b kits.Balance) (kits.Place, bool) {
		item, _ := m.view.Ledger.Item(b.Cell.Item)
		return placeOr(item.Value.KeptAt), !expired(b)
	})
	m.ref = broken
	return nil
}

// moveAll moves what lies at a place, each balance to where to says, one
// movement for each way. What does not fit the entry stays where it is, and the
// ledger shows it there.
func (m *maker) moveAll(from kits.Place, of mesh.Ref, why mesh.Label, to func(kits.Balance) (kits.Place, bool)) {
	var moves []kits.Moved
	for _, b := range m.view.Ledger.BalancesAt(from) {
		p, goes := to(b)
		if !goes || b.N <= 0 || p == from {
			continue
		}
		i := slices.IndexFunc(moves, func(x kits.Moved) bool { return x.To == p && len(x.Lines) < kits.LinesMax })
		if i < 0 {
			i = len(moves)
			moves = append(moves, kits.Moved{From: from, To: p, Case: of, Why: why})
		}
		moves[i].Lines = append(moves[i].Lines, lineOf(b))
	}
	for i := range moves {
		if len(m.made) < mesh.PartsMax {
			m.add(kits.KindMoved, &moves[i])
		}
	}
}

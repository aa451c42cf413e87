package station

import (
	"fmt"

	"lintel/kits"
	"lintel/mesh"
)

// Acts of stock.
type (
	// Order says that more of an item was ordered.
	Order struct {
		Item  mesh.Number
		Count int64 // containers
		From  mesh.Label
	}
	// Receive says that containers came, from a supplier unless From says else.
	Receive struct {
		Item     mesh.Number
		Count    int64
		Lot      mesh.Label
		Expiry   uint32 // as 20271231, day 00: the label has only the month; 0: not known
		Inferred bool
		How      kits.HowKnown
		From, To kits.Place // To left out: where it is kept
	}
	// PickLines ticks lines of a pick list off: what was really taken from where
	// it lay to where it was missing, lots as picked. Entries divides many.
	PickLines struct{ Picks []kits.RestockPick }
	// WriteLot says what is known of a batch.
	WriteLot struct{ Lot kits.LotLine }
	// HoldLot holds a lot back, or lets it go again.
	HoldLot struct {
		Item mesh.Number
		Lot  mesh.Label
		Held bool
		Why  mesh.Label
	}
	// SealWaste says that a waste container was closed.
	SealWaste struct {
		Case    mesh.Ref
		Room    mesh.ID
		Class   mesh.ID
		Seal    mesh.Label
		LitresT int64 // tenths of a litre
	}
)

// item checks an item against a slip of the finger.
func (m *maker) item(n mesh.Number) error {
	if _, known := m.view.Ledger.Item(n); !known {
		return fmt.Errorf("%w: %d", ErrNoItem, n)
	}
	return nil
}

func (a Order) parts(m *maker) error {
	if err := m.item(a.Item); err != nil {
		return err
	}
	if a.Count < 1 {
		return fmt.Errorf("%w: %d", ErrCount, a.Count)
	}
	m.add(kits.KindOrdered, &kits.Ordered{Item: a.Item, Count: a.Count, From: a.From})
	return nil
}

func (a Receive) parts(m *maker) error {
	item, known := m.view.Ledger.Item(a.Item)
	switch {
	case !known:
		return fmt.Errorf("%w: %d", ErrNoItem, a.Item)
	case a.Count < 1 || a.Count > kits.QuantityMax:
		return fmt.Errorf("%w: %d", ErrCount, a.Count)
	}
	if a.To.Sort == 0 {
		if a.To = item.Value.KeptAt; a.To.Sort == 0 {
			return ErrNoPlace
		}
	}
	line := kits.Containers(a.Item, a.Count)
	line.Lot = a.Lot
	m.add(kits.KindMoved, &kits.Moved{From: placeOr(a.From), To: a.To, Lines: []kits.Line{line}, Why: "received"})
	if a.Lot == "" || a.Expiry == 0 && a.How == kits.Unknown {
		return nil
	}
	m.writeLot(kits.LotLine{Item: a.Item, Lot: a.Lot, Expiry: a.Expiry, Inferred: a.Inferred, How: a.How})
	return nil
}

// writeLot adds a batch in place of what stands there.
func (m *maker) writeLot(x kits.LotLine) {
	stands, _ := m.view.Ledger.Lot(x.Item, x.Lot)
	x.Replaces = stands.Writes
	m.add(kits.KindLotLine, &x)
}

// Entries divides the picks into acts of one entry each, in their order.
func (a PickLines) Entries() (out []Act) {
	size := 0
	var last PickLines
	for _, p := range a.Picks {
		n := 0
		for _, x := range kits.Fetched([]kits.RestockPick{p}) {
			k, _ := LineLen(kits.KindMoved, &x)
			n += k
		}
		if len(last.Picks) > 0 && (size+n > linesLenMax || len(kits.Fetched(append(last.Picks[:len(last.Picks):len(last.Picks)], p))) > LinesMax) {
			out = append(out, last)
			last, size = PickLines{}, 0
		}
		last.Picks = append(last.Picks, p)
		size += n
	}
	if len(last.Picks) > 0 {
		out = append(out, last)
	}
	return out
}

func (a PickLines) parts(m *maker) error {
	moves := kits.Fetched(a.Picks)
	if len(moves) == 0 {
		return ErrNothing
	}
	for i := range moves {
		m.add(kits.KindMoved, &moves[i])
	}
	return nil
}

func (a WriteLot) parts(m *maker) error {
	if err := m.item(a.Lot.Item); err != nil {
		return err
	}
	if a.Lot.Lot == "" {
		return ErrNoLot
	}
	m.writeLot(a.Lot)
	return nil
}

func (a HoldLot) parts(m *maker) error {
	if err := m.item(a.Item); err != nil {
		return err
	}
	if a.Lot == "" {
		return ErrNoLot
	}
	stands, _ := m.view.Ledger.Hold(a.Item, a.Lot)
	m.add(kits.KindQuarantine, &kits.Quarantine{
		Replaces: stands.Writes, Item: a.Item, Lot: a.Lot, Held: a.Held, Why: a.Why,
	})
	return nil
}

func (a SealWaste) parts(m *maker) error {
	of, room, err := m.where(a.Case, a.Room)
	if err != nil {
		return err
	}
	if !m.view.Ledger.HasWaste(a.Class) {
		return &NamedError{Err: ErrNoWaste, Name: a.Class}
	}
	if a.Seal == "" {
		return ErrNoSeal
	}
	_, drill := m.view.Board.DrillIn(room)
	m.add(kits.KindWasteBox, &kits.WasteBox{Case: of, Room: room, Class: a.Class, Seal: a.Seal, LitresT: a.LitresT, Drill: drill})
	return nil
}

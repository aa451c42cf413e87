package kits

import (
	"fmt"

	"lintel/mesh"
)

// Kinds of this package, numbered once and for ever. The bodies are drawn in
// the package comment.
const (
	KindItemLine   mesh.Kind = 0x0201
	KindBundleLine mesh.Kind = 0x0202
	KindTemplate   mesh.Kind = 0x0203
	KindPlaceLine  mesh.Kind = 0x0204
	KindParLine    mesh.Kind = 0x0205
	KindWasteLine  mesh.Kind = 0x0206
	KindLotLine    mesh.Kind = 0x0207
	KindQuarantine mesh.Kind = 0x0208

	KindMoved     mesh.Kind = 0x0210
	KindReversed  mesh.Kind = 0x0211
	KindEnded     mesh.Kind = 0x0212
	KindDrawnUp   mesh.Kind = 0x0213
	KindLeftWith  mesh.Kind = 0x0214
	KindWitnessed mesh.Kind = 0x0215
	KindCounted   mesh.Kind = 0x0216
	KindReopened  mesh.Kind = 0x0217

	KindIssued     mesh.Kind = 0x0220
	KindIssueShut  mesh.Kind = 0x0221
	KindPrepared   mesh.Kind = 0x0230
	KindSealed     mesh.Kind = 0x0231
	KindSealOpened mesh.Kind = 0x0232
	KindBrokenDown mesh.Kind = 0x0233
	KindOrdered    mesh.Kind = 0x0240
	KindWasteBox   mesh.Kind = 0x0241
)

// Quantity is an integer amount in a base measure. There is no floating point
// in the ledger.
type Quantity struct {
	N       int64 // 0 … QuantityMax
	Measure mesh.Measure
}

// QuantityMax bounds one recorded quantity, so that no sum of a million of
// them overflows an int64.
const QuantityMax int64 = 1 << 42

// PlaceSort is the sort of a place. The numbers never change.
type PlaceSort uint8

// Sorts of places, then the ends.
const (
	Supplier PlaceSort = 1
	Store    PlaceSort = 2
	Trolley  PlaceSort = 3
	Kit      PlaceSort = 4
	Door     PlaceSort = 5 // clean until taken in
	InRoom   PlaceSort = 6 // inside: dirty
	Transit  PlaceSort = 7

	Used              PlaceSort = 20
	Given             PlaceSort = 21
	Wasted            PlaceSort = 22
	DestroyedUnopened PlaceSort = 23
	Broken            PlaceSort = 24
	Quarantined       PlaceSort = 25
	Reprocessing      PlaceSort = 26
	Returned          PlaceSort = 27
	LeftWithPatient   PlaceSort = 28
)

// Place is where a quantity is: a sort and which one. For Door and InRoom the
// ID is the room's.
type Place struct {
	Sort PlaceSort
	ID   mesh.ID
}

// Line is a quantity of one item, lot and, for what was drawn up, syringe.
type Line struct {
	Item     mesh.Number
	Lot      mesh.Label // empty: not known
	Syringe  mesh.Ref   // the DrawnUp; zero: a container as supplied
	Quantity Quantity
}

// Flags of an item.
type Flags uint32

// Flags of an item.
const (
	Controlled  Flags = 1 << 0 // a controlled drug here
	MustBeSeen  Flags = 1 << 1 // asked singly at the count
	Reprocessed Flags = 1 << 2 // not single-use
	HighAlert   Flags = 1 << 3 // shown with strength and volume in large letters
	IsDrug      Flags = 1 << 4
	IsPerson    Flags = 1 << 5 // calling a person is a request
	IsBundle    Flags = 1 << 6 // the number of a bundle
	LookAlike   Flags = 1 << 7 // another strength or size is easily taken for it
	ComesOut    Flags = 1 << 8 // a specimen, waste or equipment that is asked outwards
	flagsAll          = 1<<9 - 1
)

// ExitPolicy says what becomes of an item that was inside and not used.
type ExitPolicy uint8

// Exit policies.
const (
	Discard        ExitPolicy = 1
	Decontaminate  ExitPolicy = 2
	QuarantineDays ExitPolicy = 3
	ReturnUntaken  ExitPolicy = 4 // only if it never went in
)

// Registers.
type (
	// ItemLine is one line of the catalogue.
	ItemLine struct {
		Replaces     []mesh.Ref
		Number       mesh.Number
		Name         mesh.Label   // generic name, never all capitals
		Group        mesh.ID      // airway, breathing, drug, line, fluid, ppe, cleaning, people, …
		Detail       mesh.Label   // size or strength as on the label
		Stocked      mesh.Measure // how stock is counted
		Content      Quantity     // in one container; N 0: not a drug
		VolumeUL     int64        // of one container; 0: not a liquid
		Flags        Flags
		Exit         ExitPolicy
		ExitDays     uint32
		LabelClass   mesh.ID    // induction, relaxant, opioid, …: the word beside the colour
		Waste        mesh.ID    // class of waste
		KeptAt       Place      // where it is normally fetched from
		KeptWords    mesh.Label // shelf, drawer
		TallMan      mesh.Label
		Codes        []mesh.Label // barcodes, 14-digit form or as scanned
		Alternatives []mesh.Number
		CostMinor    int64
		Currency     mesh.ID
		MassMG       int64
		Picture      mesh.Hash
		Source       mesh.Label
		Gone         bool
	}
	// TemplateLine is what a bundle or kit should hold.
	TemplateLine struct {
		Item  mesh.Number
		Count int64
		Where mesh.ID // WhereInside, WhereAtDoor, WhereOutside
	}
	// BundleLine is several items asked for with one tap; rescue sets are bundles.
	BundleLine struct {
		Replaces []mesh.Ref
		Number   mesh.Number
		Name     mesh.Label
		Rescue   mesh.ID    // b, c, d, arrest; empty: not a rescue set
		LiesAt   Place      // where the prepared set lies
		Words    mesh.Label // "in the room, trolley left"
		Lines    []TemplateLine
		Source   mesh.Label
		Gone     bool
	}
	// Template is what a kit is prepared from.
	Template struct {
		Replaces []mesh.Ref
		ID       mesh.ID
		Name     mesh.Label
		Lines    []TemplateLine
		Source   mesh.Label
		Gone     bool
	}
	// PlaceLine names a place.
	PlaceLine struct {
		Replaces []mesh.Ref
		Place    Place
		Name     mesh.Label
		Shelf    mesh.Label
		Map      mesh.Hash
		Gone     bool
	}
	// ParLine is how many of an item a place should hold.
	ParLine struct {
		Replaces []mesh.Ref
		Place    Place
		Item     mesh.Number
		Par      int64
		Gone     bool
	}
	// WasteLine is a class of waste in a country's codes.
	WasteLine struct {
		Replaces []mesh.Ref
		Class    mesh.ID
		Country  mesh.ID
		Code     mesh.Label
		Name     mesh.Label
		Source   mesh.Label
		Gone     bool
	}
	// LotLine is a batch of an item.
	LotLine struct {
		Replaces []mesh.Ref
		Item     mesh.Number
		Lot      mesh.Label
		Expiry   uint32 // as 20271231; 0: not known
		Inferred bool   // the day was not on the label
		How      HowKnown
	}
	// Quarantine holds a lot back, or lets it go again.
	Quarantine struct {
		Replaces []mesh.Ref
		Item     mesh.Number
		Lot      mesh.Label
		Held     bool
		Why      mesh.Label
	}
)

// Where a line of a bundle or template belongs.
const (
	WhereInside  mesh.ID = "inside"
	WhereAtDoor  mesh.ID = "door"
	WhereOutside mesh.ID = "outside"
)

// HowKnown is how a lot came to be known.
type HowKnown uint8

// Ways of knowing a lot.
const (
	Unknown   HowKnown = 0
	Assumed   HowKnown = 1
	ByScanner HowKnown = 2
)

// Grade is how strong a witness is; the site decides which suffices.
type Grade uint8

// Grades of a witness.
const (
	OwnDevice    Grade = 1 // on the witness's own device
	SameDevice   Grade = 2 // same device, second tag
	ThroughGlass Grade = 3
	LaterSigned  Grade = 4 // countersigned later
)

// What happens to quantities.
type (
	// Moved is a movement of quantities from one place to another. With To a
	// door it begins a hand-over, ended by Ended; Then is where taken goods go.
	Moved struct {
		From  Place
		To    Place
		Then  Place // for a hand-over: where what is taken goes; else zero
		Lines []Line
		Case  mesh.Ref
		For   mesh.Ref // the request mark it belongs to; zero: none
		Issue mesh.Ref // the controlled-drug issue it belongs to; zero: none
		Why   mesh.Label
	}
	// Reversed names a Moved, DrawnUp or LeftWith and repeats its lines.
	Reversed struct {
		Names mesh.Ref
		From  Place
		To    Place
		Lines []Line
		Why   mesh.Label
	}
	// Ended ends the whole of a hand-over: Taken[i] of line i went on, the rest
	// went back. All zero is "taken back". Settles names the ends it overrules.
	Ended struct {
		Names   mesh.Ref
		Taken   []int64
		Settles []mesh.Ref
	}
	// DrawnUp turns containers and diluent into one labelled syringe, which is
	// from then on named by this part.
	DrawnUp struct {
		Case         mesh.Ref
		At           Place
		Lines        []Line
		Item         mesh.Number // the drug
		Amount       Quantity
		VolumeUL     int64
		Label        mesh.Label
		DrawnBy      mesh.Tag
		CheckedBy    mesh.Tag
		DiscardAfter mesh.Wall
		Issue        mesh.Ref
	}
	// LeftWith is a movement to the patient's next unit.
	LeftWith struct {
		From       Place
		Lines      []Line
		Case       mesh.Ref
		Unit       mesh.Label
		ReceivedBy mesh.Tag
		Issue      mesh.Ref
	}
	// Witnessed names a record and repeats its lines, in any order of arrival.
	Witnessed struct {
		Names mesh.Ref
		Lines []Line
		Tag   mesh.Tag
		Grade Grade
	}
	// Counted is what was seen at a place, with the vector seen at that moment.
	Counted struct {
		Place  Place
		Before mesh.Ref // the count before of that place; zero: none
		Seen   []mesh.Head
		Lines  []Line
		Whole  bool // everything at the place was counted; else only these items
	}
	// Reopened takes an Ended back: it was a mistake, and does not stand.
	Reopened struct {
		Names mesh.Ref
		Why   mesh.Label
	}
)

// Controlled drugs, kits, restock, waste.
type (
	// Issued opens one issue line of a case's controlled-drug record.
	Issued struct {
		Case         mesh.Ref
		Line         Line
		TakenBy      mesh.Tag
		CheckedBy    mesh.Tag
		AuthorisedBy mesh.ID // a role
		Register     mesh.Label
	}
	// IssueShut closes an issue line, also while it is short.
	IssueShut struct {
		Issue mesh.Ref
		Why   mesh.Text // empty: nobody said
	}
	// Prepared says that a kit was filled and checked by two.
	Prepared struct {
		Kit        mesh.ID
		Template   mesh.ID
		Lines      []Line
		PreparedBy mesh.Tag
		CheckedBy  mesh.Tag
	}
	// Sealed closes a prepared kit with a numbered seal.
	Sealed struct {
		Names  mesh.Ref // the Prepared
		Kit    mesh.ID
		Seal   mesh.Label
		Expiry uint32 // of its first line to expire, as 20271231
	}
	// SealOpened: a seal was broken.
	SealOpened struct {
		Names mesh.Ref // the Sealed
		Kit   mesh.ID
		Seal  mesh.Label // as read
		Case  mesh.Ref
		Whole bool // it was unbroken when found
	}
	// BrokenDown: a kit was taken apart.
	BrokenDown struct {
		Names mesh.Ref // the Prepared
		Kit   mesh.ID
	}
	// Ordered: more of an item was ordered from a supplier.
	Ordered struct {
		Item  mesh.Number
		Count int64
		From  mesh.Label
	}
	// WasteBox is a sealed waste container.
	WasteBox struct {
		Case    mesh.Ref
		Room    mesh.ID
		Class   mesh.ID
		Seal    mesh.Label
		LitresT int64 // tenths of a litre
		Drill   bool
	}
)

// Valid reports a negative or too large quantity, or one without a measure.
func (q Quantity) Valid() error {
	if q.N != 0 && q.Measure == 0 {
		return fmt.Errorf("%w: a quantity without a measure", mesh.ErrRange)
	}
	return mesh.Within("quantity", q.N, 0, QuantityMax)
}

// Valid reports a line without an item or without a measure. Nothing of an item
// is a line only in a count.
func (l Line) Valid() error {
	if l.Item == 0 || l.Quantity.Measure == 0 {
		return fmt.Errorf("%w: a line without an item or a measure", mesh.ErrRange)
	}
	return nil
}

func something(lines []Line) error {
	for _, l := range lines {
		if l.Quantity.N == 0 {
			return fmt.Errorf("%w: nothing of item %d", mesh.ErrRange, l.Item)
		}
	}
	return nil
}

// Valid reports an unknown sort of place; the zero Place names none.
func (p Place) Valid() error {
	if p == (Place{}) || p.Sort >= Supplier && p.Sort <= Transit || p.Sort >= Used && p.Sort <= LeftWithPatient {
		return nil
	}
	return fmt.Errorf("%w: place of sort %d", mesh.ErrRange, p.Sort)
}

// Valid reports a movement without an origin, a destination or a line.
func (m Moved) Valid() error {
	if m.From.Sort == 0 || m.To.Sort == 0 || m.From == m.To || len(m.Lines) == 0 {
		return fmt.Errorf("%w: a movement needs two places and a line", mesh.ErrRange)
	}
	if (m.To.Sort == Door) != (m.Then.Sort != 0) {
		return fmt.Errorf("%w: a hand-over, and only that, says where taken goods go", mesh.ErrRange)
	}
	return something(m.Lines)
}

// Valid reports a syringe made from nothing or holding nothing.
func (d DrawnUp) Valid() error {
	if len(d.Lines) == 0 || d.Amount.N == 0 || d.Item == 0 {
		return fmt.Errorf("%w: a syringe needs containers, a drug and an amount", mesh.ErrRange)
	}
	return something(d.Lines)
}

// Valid reports a movement of nothing.
func (l LeftWith) Valid() error { return something(l.Lines) }

// Valid reports a negative count.
func (e Ended) Valid() error {
	for _, n := range e.Taken {
		if err := mesh.Within("taken", n, 0, QuantityMax); err != nil {
			return err
		}
	}
	return nil
}

// Valid reports that nothing is named.
func (r Reopened) Valid() error {
	if r.Names.IsZero() {
		return fmt.Errorf("%w: a reopening names an end", mesh.ErrRange)
	}
	return nil
}

// Valid reports unknown flags.
func (f Flags) Valid() error { return mesh.Within("flags", int64(f), 0, flagsAll) }

// Valid reports an unknown exit policy.
func (e ExitPolicy) Valid() error {
	return mesh.Within("exit policy", int64(e), int64(Discard), int64(ReturnUntaken))
}

// Valid reports an unknown way of knowing a lot.
func (h HowKnown) Valid() error { return mesh.Within("how", int64(h), 0, int64(ByScanner)) }

// Valid reports an unknown grade.
func (g Grade) Valid() error {
	return mesh.Within("grade", int64(g), int64(OwnDevice), int64(LaterSigned))
}

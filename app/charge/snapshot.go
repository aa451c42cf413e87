package charge

import (
	"slices"
	"time"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Page is what a Snapshot is for.
type Page int

// Pages.
const (
	PageReady Page = iota // could we take another patient now
	PageKits
	PageKit     // one kit: ID
	PageExpiry  // what expires soon
	PagePrepare // a kit from lots: ID, of the template Template
	PageCounts  // which room
	PageCount   // of a room: Room
	PageControlled
	PageIssue // one line of the record: Ref
	PageRestock
	PageOrders
	PageWaste
	PageRecall // of a lot: Item, Lot
	PageCatalogue
	PageItem // Item
	PagePlaces
	PageSets    // bundles and templates of kits
	PageClasses // of waste
	PageLists   // the unit's lists as files
	PageForm    // what is filled in: Form, of Item, Ref, Movement or Place
)

// Wanted is which page a Snapshot is taken for, and of what.
type Wanted struct {
	Page     Page
	Room     mesh.ID
	Ref      mesh.Ref
	ID       mesh.ID
	Template mesh.ID
	Item     mesh.Number
	Lot      mesh.Label
	Text     string       // that is searched for
	By       kits.WasteBy // how waste is told apart
	Form     Form
	Gone     bool     // lines out of use
	Movement mesh.Ref // that is taken back
	Place    kits.Place
}

// Snapshot is what the screen shows of one page, copied out of the station.
type Snapshot struct {
	For   Wanted
	Now   mesh.Wall
	Today uint32 // as 20271231, in UTC
	// SoonMonths is how many months before its last day something is watched.
	SoonMonths uint32
	By         mesh.By
	InMemory   bool          // nothing new is saved on this device
	UndoFor    time.Duration // how long a tap can be taken back here
	Tags       []mesh.Tag    // who is known on cases and devices, sorted
	Roles      []Named       // of which a tag may be
	Places     map[kits.Place]string
	Cases      map[mesh.Ref]string

	Rooms     []Room
	Kits      []kits.KitRow
	Templates []kits.Template
	Kit       Kit
	Expiring  []Expiring
	Fill      station.Filling // proposed for a kit
	Taken     []Taken         // of it, line by line
	InKit     int             // lines that lie in the kit already
	Count     Count
	Issues    []kits.IssueRecord
	Listed    []kits.Listed // of controlled drugs, on the page of the record
	Plan      kits.RestockPlan
	Waste     Waste
	Recall    kits.RecallAnswer
	Lots      []kits.LotHeld // of Item, everywhere
	Items     []kits.ItemLine
	Item      Item
	Form      Filling
	Labels    map[mesh.Label]kits.ItemLine // by barcode, where labels are scanned
}

// Named is an id with the words for it.
type Named struct {
	ID    mesh.ID
	Words string
}

// Look copies what one page shows. It runs in the station's loop.
func Look(v station.View, of Wanted) Snapshot {
	h, _ := v.Board.Holder(v.Peer.Self())
	s := Snapshot{
		For: of, Now: v.Now.Wall, Today: kits.DayOf(v.Now.Wall), By: mesh.By{Role: h.Role, Tag: h.Tag}, InMemory: v.Peer.InMemory(),
		SoonMonths: v.SoonMonths(), UndoFor: v.Board.Seconds("undo-for"), Places: map[kits.Place]string{}, Cases: map[mesh.Ref]string{},
	}
	for _, p := range v.Ledger.Places() {
		s.Places[p.Place] = string(p.Name)
	}
	for _, r := range v.Board.Roles() {
		s.Roles = append(s.Roles, Named{r.ID, string(r.Name)})
	}
	s.people(v)
	switch of.Page {
	case PageCatalogue, PageItem, PageRecall, PageRestock, PageForm:
		s.Labels = labels(v)
	}
	look := map[Page]func(station.View){
		PageReady: s.ready, PageKits: s.kits, PageKit: s.kit, PageExpiry: s.expiry, PagePrepare: s.prepare, PageCounts: s.counts, PageCount: s.count,
		PageControlled: s.controlled, PageIssue: s.issue, PageRestock: s.restock, PageOrders: s.restock, PageWaste: s.waste,
		PageRecall: s.recall, PageCatalogue: s.catalogue, PageItem: s.item, PagePlaces: s.places, PageSets: s.sets, PageClasses: s.classes, PageForm: s.form,
	}[of.Page]
	if look != nil {
		look(v)
	}
	return s
}

// people notes who is known, and what cases are called.
func (s *Snapshot) people(v station.View) {
	for _, h := range v.Board.Holders() {
		s.Tags = append(s.Tags, h.Tag)
	}
	for _, c := range v.Board.Cases() {
		s.Cases[c.Ref] = caseName(c)
		if c.Over {
			continue
		}
		for _, r := range c.Roles {
			s.Tags = append(s.Tags, r.Tag)
		}
		for _, p := range c.People {
			s.Tags = append(s.Tags, p.Tag)
		}
	}
	slices.Sort(s.Tags)
	s.Tags = slices.DeleteFunc(slices.Compact(s.Tags), func(t mesh.Tag) bool { return t == "" })
}

// caseName is what a case is called in a line.
func caseName(c requests.Case) string {
	if c.Label == "" {
		return string(c.Room)
	}
	return string(c.Label) + ", " + string(c.Room)
}

// place is what a place is called.
func (s Snapshot) place(p kits.Place) string {
	if name := s.Places[p]; name != "" {
		return name
	}
	if p.Sort == kits.Door || p.Sort == kits.InRoom || p.Sort == kits.Kit {
		return string(p.ID)
	}
	return p.Words()
}

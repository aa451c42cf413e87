package main

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"

	"lintel/app/charge"
	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Places, a kit and a drug of the invented stock.
var (
	cannedStore   = kits.Place{Sort: kits.Store, ID: "main"}
	cannedTrolley = kits.Place{Sort: kits.Trolley, ID: "airway"}
)

const (
	cannedTray               = "example-tray"
	itemFentanyl mesh.Number = 3102
)

// chargeStory is a unit with stock of known lots, a sealed kit, one that lacks
// something, and a room to be counted with a controlled drug that is open.
func (c *canned) chargeStory() {
	c.unit("charge", "C1")
	c.stock()
	own := func(act station.Act) mesh.Ref { return c.do(0, "charge", "C1", act) }
	c.fill("tray-1", "O1")
	own(station.SealKit{Kit: "tray-1", Seal: "4711"})
	own(station.PrepareKit{Kit: "tray-2", Template: cannedTray, Lines: []kits.Line{kits.Containers(itemBougie, 1)}})
	c.first = own(station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation", Label: "C 12"}})
	for _, act := range team(c.first) {
		own(act)
	}
	for _, n := range []mesh.Number{117, 229} {
		b, _ := c.view.Ledger.Bundle(n)
		c.taken(b.Value.Lines)
	}
	c.of = own(station.IssueDrug{Case: c.first, Room: "A1", Thing: requests.Thing{Item: itemFentanyl, Count: 2}, CheckedBy: "O1", Register: "p. 12"})
	own(station.GiveDrug{Case: c.first, Room: "A1", Portion: station.Portion{Item: itemFentanyl, VolumeUL: 1500}})
}

// stock receives what a tray needs, some of it to expire soon.
func (c *canned) stock() {
	own := func(act station.Act) mesh.Ref { return c.do(0, "charge", "C1", act) }
	tray, _ := c.view.Ledger.Bundle(117)
	own(station.Catalogue{
		Templates: []kits.Template{{ID: cannedTray, Name: "Example tray", Lines: tray.Value.Lines}},
		Pars:      []kits.ParLine{{Place: cannedTrolley, Item: itemBougie, Par: 4}, {Place: cannedStore, Item: itemBougie, Par: 10}},
	})
	for n, x := range tray.Value.Lines {
		expiry := uint32(20280630)
		if n < 3 {
			expiry = 20261001 + uint32(n)
		}
		item, _ := c.view.Ledger.Item(x.Item)
		to := item.Value.KeptAt
		if to.Sort == 0 {
			to = cannedStore
		}
		own(station.Receive{Item: x.Item, Count: 4 * x.Count, Lot: mesh.Label(fmt.Sprintf("L%d", x.Item)), Expiry: expiry, How: kits.ByScanner, To: to})
	}
	own(station.Receive{Item: itemBougie, Count: 6, Lot: "B7", Expiry: 20290101, How: kits.Assumed, To: cannedStore})
}

// fill prepares a kit as proposed.
func (c *canned) fill(kit mesh.ID, checked mesh.Tag) {
	f, err := c.view.FillKit(kit, cannedTray)
	if c.err != nil || err != nil {
		c.err = err
		return
	}
	f.CheckedBy = checked
	for _, act := range f.Entries() {
		c.do(0, "charge", "C1", act)
	}
}

// taken are lines that were taken into the room.
func (c *canned) taken(lines []kits.TemplateLine) {
	var all []kits.Line
	for _, x := range lines {
		all = append(all, kits.Containers(x.Item, x.Count))
	}
	room := kits.Place{Sort: kits.InRoom, ID: "A1"}
	c.do(0, "charge", "C1", station.Move{Movements: []kits.Moved{{From: kits.Place{Sort: kits.Supplier}, To: room, Lines: all, Case: c.first}}})
}

// chargePictures are of kits and stock, page by page.
func chargePictures(w words.Words) []picture {
	a := album{prefix: "stock", reads: look.DeskLine}
	add := func(name string, at func(*canned) charge.Wanted, taps ...words.ID) {
		var said []string
		for _, id := range taps {
			said = append(said, w.Say(id))
		}
		a.draw = func(g gallery, l *look.Look, _ string) (fyne.CanvasObject, error) { return g.charge(l, at) }
		a.add(name, "", said...)
	}
	page := func(at charge.Wanted) func(*canned) charge.Wanted { return func(*canned) charge.Wanted { return at } }
	issue := func(c *canned) charge.Wanted { return charge.Wanted{Page: charge.PageIssue, Ref: c.of} }
	add("ready", page(charge.Wanted{}))
	add("gaps", page(charge.Wanted{Page: charge.PageReady, Room: "A1"}))
	add("kits", page(charge.Wanted{Page: charge.PageKits}))
	add("kit", page(charge.Wanted{Page: charge.PageKit, ID: "tray-1"}))
	add("kit-short", page(charge.Wanted{Page: charge.PageKit, ID: "tray-2"}))
	add("prepare", page(charge.Wanted{Page: charge.PagePrepare, ID: "tray-3", Template: cannedTray}))
	add("expiry", page(charge.Wanted{Page: charge.PageExpiry}))
	add("counts", page(charge.Wanted{Page: charge.PageCounts}))
	add("count", page(charge.Wanted{Page: charge.PageCount, Room: "A1"}))
	add("controlled", page(charge.Wanted{Page: charge.PageControlled}))
	add("issue", issue)
	add("restock", page(charge.Wanted{Page: charge.PageRestock}))
	add("orders", page(charge.Wanted{Page: charge.PageOrders}))
	add("waste", page(charge.Wanted{Page: charge.PageWaste, By: kits.ByReason}))
	add("recall", page(charge.Wanted{Page: charge.PageRecall, Item: itemBougie, Lot: "B7"}))
	add("catalogue", page(charge.Wanted{Page: charge.PageCatalogue}))
	add("item", page(charge.Wanted{Page: charge.PageItem, Item: itemBougie}))
	return a.all
}

// charge is the screen of kits and stock on one of its pages.
func (g gallery) charge(l *look.Look, at func(*canned) charge.Wanted) (fyne.CanvasObject, error) {
	c, taps, err := g.stage((*canned).chargeStory)
	if err != nil {
		return nil, err
	}
	var s *charge.Screen
	set := func() {
		x := charge.Look(c.view, s.Wants())
		x.InMemory = false
		s.Set(x)
	}
	s = charge.New(charge.Options{
		Look: l, Words: g.words, Taps: taps, Explain: g.explain, Now: c.clock, Zone: time.UTC, Typing: true,
		Want: func(charge.Wanted) {
			if s != nil {
				set()
			}
		},
	})
	taps.shown = set
	set()
	s.Open(at(c))
	set()
	return s.Object(), nil
}

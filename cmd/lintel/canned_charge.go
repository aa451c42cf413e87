package main

import (
	"fmt"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// cannedStore and cannedTrolley are places of the invented stock.
func cannedStore() kits.Place   { return kits.Place{Sort: kits.Store, ID: "main"} }
func cannedTrolley() kits.Place { return kits.Place{Sort: kits.Trolley, ID: "airway"} }

// A kit and a drug of it.
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
		Pars:      []kits.ParLine{{Place: cannedTrolley(), Item: itemBougie, Par: 4}, {Place: cannedStore(), Item: itemBougie, Par: 10}},
	})
	for n, x := range tray.Value.Lines {
		expiry := uint32(20280630)
		if n < 3 {
			expiry = 20261001 + uint32(n)
		}
		item, _ := c.view.Ledger.Item(x.Item)
		to := item.Value.KeptAt
		if to.Sort == 0 {
			to = cannedStore()
		}
		own(station.Receive{Item: x.Item, Count: 4 * x.Count, Lot: mesh.Label(fmt.Sprintf("L%d", x.Item)), Expiry: expiry, How: kits.ByScanner, To: to})
	}
	own(station.Receive{Item: itemBougie, Count: 6, Lot: "B7", Expiry: 20290101, How: kits.Assumed, To: cannedStore()})
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

package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// amountOf is an amount as people read it, and in its base measure.
type amountOf struct {
	Containers int64    `json:"containers"`
	OverUL     int64    `json:"ul,omitempty"` // beside the containers, rounded down
	Base       int64    `json:"base"`
	Measure    words.ID `json:"measure"`
	Exact      bool     `json:"exact"`
}

func amountFrom(m kits.Measured) amountOf {
	return amountOf{m.Containers, m.OverUL, m.Base.N, words.MeasureID(m.Base.Measure), m.Exact}
}

// say words containers and volume first, then the base measure.
func (e amountOf) say(w words.Words) string {
	var said []string
	if e.Containers != 0 || e.OverUL == 0 && e.Measure == "each" {
		said = append(said, w.Say("amount.containers", e.Containers))
	}
	if e.OverUL != 0 {
		said = append(said, w.Say("amount.ml", decimals(e.OverUL)))
	}
	base := ""
	if e.Measure != "each" {
		base = w.Amount(e.Base, e.Measure)
	}
	if len(said) == 0 {
		return base
	}
	first := strings.Join(said, w.Say("amount.plus"))
	if base == "" {
		return first
	}
	if e.Containers > 1 || e.Containers == 1 && e.OverUL > 0 {
		return w.Say("amount.sum", first, base) // else it reads as what each of them holds
	}
	return w.Say("amount.both", first, base)
}

// decimals writes thousandths, also below zero, without needless digits.
func decimals(n int64) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	return sign + strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%d.%03d", n/1000, n%1000), "0"), ".")
}

// day writes 20271231 as 2027-12-31; a month alone without its day.
func day(n uint32) string {
	switch {
	case n == 0:
		return ""
	case n%100 == 0:
		return fmt.Sprintf("%04d-%02d", n/10000, n/100%100)
	}
	return fmt.Sprintf("%04d-%02d-%02d", n/10000, n/100%100, n%100)
}

// heldEvent is one lot, or one syringe, at a place.
type heldEvent struct {
	Event    string   `json:"event"` // held
	Place    string   `json:"place"`
	Item     string   `json:"item"`
	Number   uint32   `json:"number"`
	Lot      string   `json:"lot,omitempty"`
	Expiry   string   `json:"expiry,omitempty"`
	Inferred bool     `json:"inferred,omitempty"`
	How      words.ID `json:"how"`
	Syringe  string   `json:"syringe,omitempty"` // its code
	N        int64    `json:"n"`
	Measure  words.ID `json:"measure"`
	Refused  words.ID `json:"refused,omitempty"` // why it is not to be taken

	amount amountOf
}

func (e heldEvent) say(w words.Words) string {
	said := w.Say("list.held", e.Place, e.amount.say(w), e.Item)
	add := func(on bool, id words.ID, blanks ...any) {
		if on {
			said += w.Say("device.and") + w.Say(id, blanks...)
		}
	}
	add(e.Syringe != "", "list.held-syringe", e.Syringe)
	add(e.Lot != "", "list.held-lot", e.Lot, w.Say("lot-how."+e.How))
	add(e.Expiry != "", "list.held-expiry", e.Expiry)
	add(e.Refused != "", "refused."+e.Refused)
	return said
}

// stockEvents list what lies where, by lot and syringe; the ends and the
// supplier only where they are named.
func stockEvents(_ words.Words, v station.View, a *arguments) (all []event, err error) {
	places, err := place(a)
	if err != nil {
		return nil, err
	}
	refused := map[kits.Cell]kits.LotHeld{}
	for _, b := range v.Ledger.Balances() {
		c := b.Cell
		named := len(places) > 0 && c.Place == places[0]
		if !named && (len(places) > 0 || c.Place.Sort == kits.Supplier || c.Place.Sort >= kits.Used) {
			continue
		}
		if c.Syringe.IsZero() && c.Measure == mesh.Each {
			for _, lot := range v.Ledger.LotsAt(c.Place, c.Item, v.Today()) {
				at := kits.Cell{Place: c.Place, Item: c.Item, Lot: lot.Lot, Measure: mesh.Each}
				if refused[at].Lot == "" || lot.Refused != kits.Picks {
					refused[at] = lot
				}
			}
		}
		e := heldEvent{
			Event: "held", Place: c.Place.Words(), Item: nameOf(v.Ledger, c.Item), Number: uint32(c.Item), Lot: string(c.Lot),
			N: b.N, Measure: words.MeasureID(c.Measure), How: words.LotHowID(kits.Unknown),
			amount: amountOf{Containers: b.N, Base: b.N, Measure: words.MeasureID(c.Measure), Exact: true},
		}
		if !c.Syringe.IsZero() {
			e.Syringe = requests.Code(c.Syringe)
		}
		if b.N >= 0 {
			line := kits.Line{Item: c.Item, Lot: c.Lot, Syringe: c.Syringe, Quantity: kits.Quantity{N: b.N, Measure: c.Measure}}
			e.amount = amountFrom(v.Ledger.MeasuredLine(line))
		}
		if lot, known := refused[c]; known && c.Lot != "" {
			e.Expiry, e.Inferred, e.How, e.Refused = day(lot.Expiry), lot.Inferred, words.LotHowID(lot.How), words.RefusalID(lot.Refused)
		}
		all = append(all, e)
	}
	return all, nil
}

// kitEvent is one kit as it is now.
type kitEvent struct {
	Event     string   `json:"event"` // kit
	Kit       mesh.ID  `json:"kit"`
	Template  mesh.ID  `json:"template"`
	Name      string   `json:"name,omitempty"`
	State     words.ID `json:"state"` // prepared, sealed, opened, broken-down, expired
	Ready     bool     `json:"ready"`
	Seal      string   `json:"seal,omitempty"`
	Expiry    string   `json:"expiry,omitempty"`
	Undated   int      `json:"undated,omitempty"`
	Lines     int      `json:"lines"`
	Missing   []string `json:"missing,omitempty"`
	Prepared  mesh.Tag `json:"prepared_by,omitempty"`
	Checked   mesh.Tag `json:"checked_by,omitempty"`
	TwoPeople bool     `json:"two_people"`
	Case      string   `json:"case,omitempty"` // that opened it last
}

func (e kitEvent) say(w words.Words) string {
	said := w.Say("list.kit", e.Kit, cmp.Or(e.Name, string(e.Template)), w.Say("kit."+e.State), e.Lines)
	add := func(on bool, id words.ID, blanks ...any) {
		if on {
			said += w.Say("device.and") + w.Say(id, blanks...)
		}
	}
	add(e.Seal != "", "list.kit-seal", e.Seal)
	add(e.Expiry != "", "list.held-expiry", e.Expiry)
	add(e.Undated > 0, "list.kit-undated", e.Undated)
	add(!e.TwoPeople, "list.kit-one")
	add(e.Case != "", "list.kit-case", e.Case)
	add(len(e.Missing) > 0, "list.kit-missing", strings.Join(e.Missing, "; "))
	return said
}

func kitEvents(w words.Words, v station.View, a *arguments) (all []event, err error) {
	for _, k := range v.Ledger.Kits(v.Today()) {
		e := kitEvent{
			Event: "kit", Kit: k.ID, Template: k.Template, Name: string(k.Name), State: words.KitStateID(k.State), Ready: k.Ready(),
			Seal: string(k.Seal), Expiry: day(k.Expiry), Undated: k.Undated, Lines: len(k.Lines),
			Prepared: k.PreparedBy, Checked: k.CheckedBy, TwoPeople: k.TwoPeople,
		}
		for _, x := range k.Missing {
			e.Missing = append(e.Missing, thingOf{Item: itemName(x.Item), Count: x.Want - x.Got}.say(w))
		}
		if n := len(k.Openings); n > 0 && !k.Openings[n-1].Case.IsZero() {
			e.Case = requests.Code(k.Openings[n-1].Case)
		}
		all = append(all, e)
	}
	return all, a.done()
}

// lotEvent answers where a lot is, which kits hold it, and which cases it came into.
type lotEvent struct {
	Event    string  `json:"event"` // lot
	Item     string  `json:"item"`
	Number   uint32  `json:"number"`
	Lot      string  `json:"lot"`
	Expiry   string  `json:"expiry,omitempty"`
	HeldBack bool    `json:"held_back"`
	At       []lotAt `json:"at"`
	Kits     []lotAt `json:"kits"`
	Cases    []lotAt `json:"cases"`
}

// lotAt is one place, kit or case; how certain is unknown where nobody noted the lot.
type lotAt struct {
	Name    string   `json:"name"`
	N       int64    `json:"n,omitempty"`
	Measure words.ID `json:"measure,omitempty"`
	How     words.ID `json:"how"`
}

func (e lotEvent) say(w words.Words) string {
	said := w.Say("list.lot", e.Item, e.Lot)
	if e.Expiry != "" {
		said += w.Say("device.and") + w.Say("list.held-expiry", e.Expiry)
	}
	if e.HeldBack {
		said += w.Say("device.and") + w.Say("refused.quarantine")
	}
	for _, part := range []struct {
		id  words.ID
		all []lotAt
	}{{"list.lot-at", e.At}, {"list.lot-kit", e.Kits}, {"list.lot-case", e.Cases}} {
		for _, x := range part.all {
			said += "\n  " + w.Say(part.id, x.Name, x.N, w.Say("lot-how."+x.How))
		}
	}
	return said
}

// lotEvents answer a recall: LOT, then the item where several have that lot.
func lotEvents(_ words.Words, v station.View, a *arguments) (all []event, err error) {
	lot, more := a.next()
	if !more {
		return nil, a.bad()
	}
	var items []mesh.Number
	if text := a.rest(); text != "" {
		item, err := findItem(v.Ledger, text)
		if err != nil {
			return nil, err
		}
		items = []mesh.Number{item.Number}
	} else if items = itemsOfLot(v, mesh.Label(lot)); len(items) == 0 {
		return nil, &fault{id: "lot-none", blanks: []any{lot}}
	}
	for _, n := range items {
		r := v.Ledger.Recall(n, mesh.Label(lot))
		e := lotEvent{
			Event: "lot", Item: itemName(r.Item), Number: uint32(n), Lot: lot, Expiry: day(r.Lot.Value.Expiry), HeldBack: r.HeldBack,
			At: []lotAt{}, Kits: []lotAt{}, Cases: []lotAt{},
		}
		for _, x := range r.Where {
			e.At = append(e.At, lotAt{x.Cell.Place.Words(), x.N, words.MeasureID(x.Cell.Measure), words.LotHowID(x.How)})
		}
		for _, x := range r.Kits {
			e.Kits = append(e.Kits, lotAt{string(x.ID), x.N, words.MeasureID(mesh.Each), words.LotHowID(x.How)})
		}
		for _, x := range r.Cases {
			e.Cases = append(e.Cases, lotAt{Name: requests.Code(x.Case), How: words.LotHowID(x.How)})
		}
		all = append(all, e)
	}
	return all, nil
}

// itemsOfLot are the items of which a lot of that name was ever moved or noted.
func itemsOfLot(v station.View, lot mesh.Label) (out []mesh.Number) {
	for _, m := range v.Ledger.Movements() {
		for _, x := range m.Lines {
			if x.Lot == lot {
				out = append(out, x.Item)
			}
		}
	}
	for _, i := range v.Ledger.Items() {
		if _, known := v.Ledger.Lot(i.Number, lot); known || v.Ledger.HeldBack(i.Number, lot) {
			out = append(out, i.Number)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

package main

import (
	"context"
	"fmt"
	"strings"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
)

// restockEvent is one line to fetch: what one place is short of, and where it lies.
type restockEvent struct {
	Event   string    `json:"event"` // restock
	Place   string    `json:"place"`
	Item    string    `json:"item"`
	Number  uint32    `json:"number"`
	Par     int64     `json:"par"`
	Have    int64     `json:"have"`
	Missing int64     `json:"missing"` // to be taken here
	From    string    `json:"from"`
	Where   string    `json:"where,omitempty"`
	Lots    []lotHeld `json:"lots,omitempty"` // first expired first; those that nobody noted have no lot
	Undated int64     `json:"undated,omitempty"`
}

// lotHeld is so many of one lot.
type lotHeld struct {
	Lot    string   `json:"lot"`
	Expiry string   `json:"expiry,omitempty"`
	How    words.ID `json:"how"`
	N      int64    `json:"n"`
}

func (e restockEvent) say(w words.Words) string {
	said := w.Say("list.restock", e.Place, e.Missing, e.Item, strings.TrimSpace(e.From+" "+e.Where), e.Have, e.Par)
	for _, x := range e.Lots {
		if x.Lot != "" {
			said += w.Say("device.and") + w.Say("list.restock-lot", x.N, x.Lot, x.Expiry)
		}
	}
	return said
}

// orderEvent is what has to be ordered.
type orderEvent struct {
	Event       string   `json:"event"` // order
	Item        string   `json:"item"`
	Number      uint32   `json:"number"`
	Needed      int64    `json:"needed"`
	Outstanding int64    `json:"outstanding"`
	Order       int64    `json:"order"`
	For         []string `json:"for"` // places that wait for it
}

func (e orderEvent) say(w words.Words) string {
	return w.Say("list.order", e.Item, e.Order, e.Needed, e.Outstanding, strings.Join(e.For, ", "))
}

// question is what a plan is asked for: one place, or all.
func question(v station.View, places []kits.Place) kits.RestockQuestion {
	return kits.RestockQuestion{Places: places, On: v.Today(), Drill: v.Training()}
}

// planEvents list what to fetch, shelf by shelf, then what to order.
func planEvents(_ words.Words, v station.View, a *arguments) (all []event, err error) {
	text := ""
	if len(a.words) > 0 {
		text = a.words[0].text
	}
	places, err := place(a)
	if err != nil {
		return nil, err
	}
	if len(places) > 0 && !isKnown(v, places[0]) {
		return nil, &fault{id: "place", blanks: []any{text}}
	}
	p := v.Ledger.Plan(question(v, places))
	for _, g := range p.Groups {
		for _, x := range g.Picks {
			e := restockEvent{
				Event: "restock", Place: x.Place.Words(), Item: itemName(x.Item), Number: uint32(x.Item.Number), Par: x.Par, Have: x.Have,
				Missing: x.Missing, From: x.From.Words(), Where: string(x.Where), Undated: x.Undated,
			}
			for _, lot := range x.Lots {
				e.Lots = append(e.Lots, lotHeld{string(lot.Lot), day(lot.Expiry), words.LotHowID(lot.How), lot.N})
			}
			all = append(all, e)
		}
	}
	for _, o := range p.Orders {
		e := orderEvent{Event: "order", Item: itemName(o.Item), Number: uint32(o.Item.Number), Needed: o.Needed, Outstanding: o.Outstanding, Order: o.Order}
		for _, f := range o.For {
			e.For = append(e.For, fmt.Sprintf("%s %d", f.Place.Words(), f.N))
		}
		all = append(all, e)
	}
	return all, nil
}

// pick ticks lines of the pick list off: all, those of a place, or one item there.
func (s *session) pick(ctx context.Context, a *arguments) (event, error) {
	text, more := a.next()
	if !more {
		return nil, a.bad()
	}
	var places []kits.Place
	if text != wordAll {
		p, err := readPlace(text)
		if err != nil {
			return nil, err
		}
		places = append(places, p)
	}
	named := a.rest()
	var act station.PickLines
	err := s.view(ctx, func(v station.View) error {
		var only mesh.Number
		if named != "" {
			item, err := findItem(v.Ledger, named)
			if err != nil {
				return err
			}
			only = item.Number
		}
		for _, g := range v.Ledger.Plan(question(v, places)).Groups {
			for _, x := range g.Picks {
				if only == 0 || x.Item.Number == only {
					act.Picks = append(act.Picks, x)
				}
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return s.several(ctx, "pick", a, act.Entries())
}

// several writes acts one after another and answers with how many there were.
func (s *session) several(ctx context.Context, command string, a *arguments, acts []station.Act) (event, error) {
	if len(acts) == 0 {
		return nil, station.ErrNothing
	}
	var e doneEvent
	saved := true
	for _, act := range acts {
		one, _, err := s.write(ctx, command, a, act)
		if err != nil {
			return nil, err
		}
		saved = saved && *one.Saved
		e = one
	}
	n := len(acts)
	*e.Saved, e.Count = saved, &n
	e.text = s.w.Say("done.several", command, n, s.kept(e))
	return e, nil
}

package main

import (
	"fmt"
	"strings"
	"time"

	"lintel/app/report"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// dateTime is a time as papers have it.
func dateTime(at mesh.Wall) string { return time.UnixMilli(int64(at)).Format(time.DateTime) }

// wasteEvent is one sum of waste.
type wasteEvent struct {
	Event      string   `json:"event"` // waste
	Case       string   `json:"case,omitempty"`
	Room       mesh.ID  `json:"room,omitempty"`
	Month      string   `json:"month,omitempty"` // 2026-12
	Reason     words.ID `json:"reason"`
	Class      mesh.ID  `json:"class,omitempty"`
	Code       string   `json:"code,omitempty"`
	Training   bool     `json:"training,omitempty"`
	Containers int64    `json:"containers"`
	MassMG     int64    `json:"mass_mg"`
	Costs      []costOf `json:"costs"`
	Unpriced   int64    `json:"unpriced"`
	Unweighed  int64    `json:"unweighed"`
}

type costOf struct {
	Currency mesh.ID `json:"currency"`
	Minor    int64   `json:"minor"`
}

func (e wasteEvent) say(w words.Words) string {
	var head []string
	for _, x := range []string{e.Case, string(e.Room), e.Month} {
		if x != "" {
			head = append(head, x)
		}
	}
	head = append(head, w.Say("reason."+e.Reason))
	class := strings.TrimSpace(string(e.Class) + " " + e.Code)
	if class == "" {
		class = w.Say("fact.unknown")
	}
	many := w.Say("amount.containers", e.Containers)
	if e.Containers == 0 {
		many = w.Say("list.waste-part")
	}
	said := w.Say("list.waste", strings.Join(head, " "), class, many)
	if e.MassMG > 0 {
		said += w.Say("device.and") + w.Amount(e.MassMG, "milligram")
	}
	for _, c := range e.Costs {
		said += w.Say("device.and") + w.Say("list.waste-cost", fmt.Sprintf("%d.%02d", c.Minor/100, c.Minor%100), strings.ToUpper(string(c.Currency)))
	}
	if e.Unpriced > 0 {
		said += w.Say("device.and") + w.Say("list.waste-unpriced", e.Unpriced)
	}
	if e.Unweighed > 0 {
		said += w.Say("device.and") + w.Say("list.waste-unweighed", e.Unweighed)
	}
	return said
}

// boxEvent is one waste container that was closed.
type boxEvent struct {
	Event    string  `json:"event"` // box
	Case     string  `json:"case,omitempty"`
	Room     mesh.ID `json:"room"`
	Class    mesh.ID `json:"class"`
	Code     string  `json:"code,omitempty"`
	Seal     string  `json:"seal,omitempty"`
	LitresT  int64   `json:"tenths_litre"`
	FillT    int64   `json:"fill_tenths_litre"` // three quarters
	Training bool    `json:"training,omitempty"`
}

func (e boxEvent) say(w words.Words) string {
	return w.Say("list.box", e.Room, e.Class, orNobody(w, e.Seal), tenths(e.LitresT), tenths(e.FillT))
}

func tenths(n int64) string { return fmt.Sprintf("%d.%d", n/10, n%10) }

// wasteEvents sum waste by reason and class, on demand also by case, room or
// month, and list the containers that were closed.
func wasteEvents(_ words.Words, v station.View, a *arguments) (all []event, err error) {
	by := kits.ByReason | kits.ByClass
	q := v.WasteQuestion()
	for {
		if key, ok := a.keyword(wordBy); ok && key == wordBy {
			which, _ := a.keyword("case", wordRoom, "month")
			switch which {
			case "case":
				by |= kits.ByCase
			case wordRoom:
				by |= kits.ByRoom
			case "month":
				by |= kits.ByMonth
			default:
				return nil, a.bad()
			}
			continue
		}
		country, ok, err := a.after("in")
		if err != nil {
			return nil, err
		}
		if !ok {
			break
		}
		q.Country = mesh.ID(country)
	}
	fits, err := lookedAt(v, a)
	if err != nil {
		return nil, err
	}
	var rows []kits.WasteRow
	for _, r := range v.Ledger.WasteRows(q) {
		if fits(r.Case, r.Room) {
			rows = append(rows, r)
		}
	}
	for _, x := range kits.SumWaste(rows, by) {
		all = append(all, describeWaste(x))
	}
	for _, b := range v.Ledger.WasteBoxes(q) {
		if !fits(b.Case, b.Room) {
			continue
		}
		e := boxEvent{Event: "box", Room: b.Room, Class: b.Class, Code: string(b.Code), Seal: string(b.Seal), LitresT: b.LitresT, FillT: b.FillT, Training: b.Training}
		if !b.Case.IsZero() {
			e.Case = requests.Code(b.Case)
		}
		all = append(all, e)
	}
	return all, nil
}

func describeWaste(x kits.WasteSum) wasteEvent {
	e := wasteEvent{
		Event: "waste", Room: x.Room, Reason: words.ID(x.Reason), Class: x.Class, Code: string(x.Code), Training: x.Training,
		Containers: x.Containers, MassMG: x.MassMG, Costs: []costOf{}, Unpriced: x.Unpriced, Unweighed: x.Unweighed,
	}
	if !x.Case.IsZero() {
		e.Case = requests.Code(x.Case)
	}
	if x.Month > 0 {
		e.Month = fmt.Sprintf("%04d-%02d", x.Month/100, x.Month%100)
	}
	for _, c := range x.Costs {
		e.Costs = append(e.Costs, costOf{c.Currency, c.Minor})
	}
	return e
}

// labelEvent is the text of a syringe's label.
type labelEvent struct {
	Event   string   `json:"event"` // label
	Syringe string   `json:"syringe"`
	Ref     string   `json:"ref"`
	Name    string   `json:"name"` // tall-man letters by the unit's table
	Class   words.ID `json:"class,omitempty"`
	Amount  amountOf `json:"amount"`
	Lines   []string `json:"lines"`
}

func (e labelEvent) say(words.Words) string { return strings.Join(e.Lines, "\n") }

// labelEvents are the label of one syringe, named as it was recorded, or of all
// syringes of an item that still hold something.
func labelEvents(w words.Words, v station.View, a *arguments) (all []event, err error) {
	name := a.rest()
	if name == "" {
		return nil, a.bad()
	}
	named := syringesNamed(v, name)
	if len(named) == 0 {
		return nil, about(station.ErrNoSyringe, name)
	}
	for _, ref := range named {
		all = append(all, describeLabel(w, v, ref))
	}
	return all, nil
}

// syringesNamed are the syringe of that code or ref, or all of an item that
// still hold something.
func syringesNamed(v station.View, name string) (named []mesh.Ref) {
	if ref := findSyringe(v.Ledger, strings.ToLower(name)); !ref.IsZero() {
		return []mesh.Ref{ref}
	}
	if f := v.Ledger.Find(name); len(f.Items) == 1 {
		for _, b := range v.Ledger.Balances() {
			if c := b.Cell; c.Item == f.Items[0].Number && !c.Syringe.IsZero() && b.N > 0 && c.Place.Sort < kits.Used {
				named = append(named, c.Syringe)
			}
		}
	}
	return named
}

func describeLabel(w words.Words, v station.View, ref mesh.Ref) labelEvent {
	l, _ := v.SyringeLabel(ref)
	c, _ := report.LabelOf(w, v, ref, time.Local)
	return labelEvent{
		Event: "label", Syringe: requests.Code(ref), Ref: ref.Hex(), Name: l.Name, Class: words.ID(l.Class), Amount: amountFrom(l.Amount), Lines: c.Lines(),
	}
}

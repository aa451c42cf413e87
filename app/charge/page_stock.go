package charge

import (
	"fmt"
	"strings"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/kits"
)

// picks are the lines of the pick list in the order of the shelves.
func picks(p kits.RestockPlan) (out []kits.RestockPick) {
	for _, g := range p.Groups {
		out = append(out, g.Picks...)
	}
	return out
}

// restockPage is the pick list: where to go, what to take, of which lots. A tap
// writes the movement, and the line is gone.
func restockPage(w words.Words, s Snapshot) View {
	all := picks(s.Plan)
	v := View{Head: look.BannerFace{Icon: look.IconList, Sentence: w.Say("charge.restock.head"), Hint: w.Count("charge.lines", len(all))}, Empty: w.Say("charge.restock.none")}
	for n, x := range all {
		var lots []string
		for _, l := range x.Lots {
			if l.Lot != "" {
				lots = append(lots, w.Say("charge.restock.lot", l.N, l.Lot, day(w, l.Expiry)))
			}
		}
		f := look.RowFace{
			Word:   thing(w, x.Missing, x.Item),
			Detail: joined(joinedPlace(s, x.From, string(x.Where)), strings.Join(lots, ", ")),
			State:  w.Say("charge.restock.to", s.place(x.Place)),
		}
		if x.Undated > 0 {
			f.Detail = joined(f.Detail, w.Say("charge.no-day"))
		}
		v.line(f, pick{what: picksFetched, n: n})
	}
	if n := len(s.Plan.Orders); n > 0 {
		v.button(w.Say("charge.restock.orders", n), toPage(PageOrders))
	}
	return v
}

// joinedPlace is a place with its shelf.
func joinedPlace(s Snapshot, p kits.Place, shelf string) string {
	if shelf == "" {
		return s.place(p)
	}
	return s.place(p) + ", " + shelf
}

// ordersPage lists what is nowhere in stock.
func ordersPage(w words.Words, s Snapshot) View {
	v := View{Head: look.BannerFace{Icon: look.IconList, Sentence: w.Say("charge.orders.head")}, Empty: w.Say("charge.orders.none")}
	for _, o := range s.Plan.Orders {
		var places []string
		for _, p := range o.For {
			places = append(places, w.Say("charge.orders.for", p.N, s.place(p.Place)))
		}
		f := look.RowFace{Word: named(o.Item), Detail: strings.Join(places, ", "), State: w.Say("charge.orders.order", o.Order), Tone: look.ToneNext}
		if o.Outstanding > 0 {
			f.Detail = joined(f.Detail, w.Say("charge.orders.coming", o.Outstanding))
		}
		p := pick{what: picksBuy, item: o.Item.Number, n: int(o.Order)}
		if o.Order == 0 {
			f.State, f.Tone, p = w.Say("charge.orders.waits"), look.TonePlain, pick{}
		}
		v.line(f, p)
	}
	return v
}

// wasteBys are the ways of telling waste apart, in the order of their buttons.
func wasteBys() []kits.WasteBy {
	return []kits.WasteBy{kits.ByReason, kits.ByClass, kits.ByRoom, kits.ByMonth, kits.ByCase}
}

// byWord is what a way is called.
func byWord(b kits.WasteBy) words.ID {
	return map[kits.WasteBy]words.ID{
		kits.ByReason: "charge.waste.reason", kits.ByClass: "charge.waste.class", kits.ByRoom: "charge.waste.room", kits.ByMonth: "charge.waste.month", kits.ByCase: "charge.waste.case",
	}[b]
}

// wastePage sums up what was thrown away. Currencies and exercises are never
// added to anything else.
func wastePage(w words.Words, s Snapshot) View {
	v := View{Head: look.BannerFace{Icon: look.IconCompare, Sentence: w.Say("charge.waste.head", w.Say(byWord(s.For.By)))}, Empty: w.Say("charge.waste.none")}
	for _, x := range s.Waste.Sums {
		f := look.RowFace{Word: wasteKey(w, s, x), Detail: wasteDetail(w, x), State: money(w, x.Costs)}
		if x.Training {
			f.Icon, f.Tone = look.IconDrill, look.ToneDrill
		}
		v.line(f, pick{})
	}
	for _, b := range s.Waste.Boxes {
		f := look.RowFace{
			Word:   joined(string(b.Name), string(b.Code)),
			Detail: joined(w.Say("charge.box.line", litres(w, b.LitresT), litres(w, b.FillT)), string(b.Room)),
			State:  w.Say("charge.box.seal", b.Seal),
		}
		if b.Seal == "" {
			f.State, f.Tone = w.Say("charge.box.no-seal"), look.ToneNext
		}
		v.line(f, pick{})
	}
	for _, b := range wasteBys() {
		if b != s.For.By {
			v.button(w.Say(byWord(b)), pick{what: picksBy, at: Wanted{Page: PageWaste, By: b}})
		}
	}
	v.button(w.Say("charge.box.close"), pick{what: picksStep, step: stepClass})
	v.button(w.Say("charge.classes.head"), toPage(PageClasses))
	return v
}

// wasteKey is what one sum is of.
func wasteKey(w words.Words, s Snapshot, x kits.WasteSum) string {
	var key string
	switch s.For.By {
	case kits.ByReason:
		key = w.Say("charge.reason." + words.ID(x.Reason))
	case kits.ByClass:
		key = joined(className(s, x), string(x.Code))
	case kits.ByRoom:
		key = string(x.Room)
	case kits.ByMonth:
		key = fmt.Sprintf("%04d-%02d", x.Month/100, x.Month%100)
	case kits.ByCase:
		key = s.Cases[x.Case]
	}
	if key == "" {
		key = w.Say("charge.waste.unknown")
	}
	if x.Training && s.For.By != kits.ByReason {
		key = joined(key, w.Say("charge.reason.training"))
	}
	return key
}

func className(s Snapshot, x kits.WasteSum) string {
	for _, c := range s.Waste.Class {
		if c.ID == x.Class {
			return c.Words
		}
	}
	return string(x.Class)
}

// wasteDetail is how much of it, and of how much no mass or price is known.
func wasteDetail(w words.Words, x kits.WasteSum) string {
	out := []string{w.Say("charge.containers", x.Containers)}
	if x.MassMG != 0 {
		out = append(out, w.Amount(x.MassMG, "milligram"))
	}
	if x.Unweighed != 0 {
		out = append(out, w.Say("charge.waste.unweighed", x.Unweighed))
	}
	if x.Unpriced != 0 {
		out = append(out, w.Say("charge.waste.unpriced", x.Unpriced))
	}
	return joined(out...)
}

// money writes amounts, each in its currency.
func money(w words.Words, all []kits.Money) string {
	var out []string
	for _, m := range all {
		sign, n := "", m.Minor
		if n < 0 {
			sign, n = "-", -n
		}
		out = append(out, fmt.Sprintf("%s%d.%02d %s", sign, n/100, n%100, strings.ToUpper(string(m.Currency))))
	}
	if len(out) == 0 {
		return w.Say("charge.waste.no-price")
	}
	return strings.Join(out, " + ")
}

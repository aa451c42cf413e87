package main

import (
	"encoding/json"
	"fmt"
	"slices"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
)

// readyIn is in how many minutes another patient is asked about: when the air
// of the room is clear, by the estimate.
const readyIn = 40

// state is what the only issue of a controlled drug adds up to, in a list of
// the record; empty where there is none or more than one.
func state(a reply) (found string) {
	for _, l := range a.listed {
		if l.Event == "issue" {
			if found != "" {
				return ""
			}
			found = l.State
		}
	}
	return found
}

// accounts is the count while a device inside is cut off: the controlled drug is
// short until that device's record arrives, and then adds up.
func (s *scene) accounts() {
	var issue, syringe string
	a := s.until(playSpare, "count room A1", func(a reply) bool {
		return slices.ContainsFunc(a.listed, func(l heard) bool { return l.Issue != "" && l.Syringe != "" })
	})
	for _, l := range a.listed {
		if l.Issue != "" {
			issue, syringe = l.Issue, l.Syringe
		}
	}
	s.cut(playSpare)
	s.counted = s.lines(playCharge, "count room A1", "end")
	s.tell(playCharge, "count room A1 accept")
	s.tell(playCharge, "close-issue "+issue+" what is left in the syringe was not recorded yet")
	s.until(playCharge, "controlled room A1", func(a reply) bool { return state(a) == "short" })
	s.short = s.lines(playCharge, "controlled room A1", "issue")
	s.heal(playSpare)
	s.tell(playSpare, "waste-drug syringe "+syringe+" seen-by L2 at -4s")
	s.until(playCharge, "controlled room A1", func(a reply) bool { return state(a) == "balanced" })
	s.balanced = s.lines(playCharge, "controlled room A1", "issue")
	s.tell(playCharge, "count room A1 accept all seen-by O1")
	s.until(playCharge, "count room A1", func(a reply) bool { return len(a.listed) == 0 })
	s.tell(playCharge, "seal-waste infectious W-2201 litres 60 room A1")
}

// lines are those of one event that a list has.
func (s *scene) lines(who, line, event string) (out []heard) {
	a := s.until(who, line, said)
	for _, l := range a.listed {
		if l.Event == event {
			out = append(out, l)
		}
	}
	return out
}

// fills brings kits and places to par again: what was cleaned comes back, the
// tray is filled and sealed, the list is fetched, and what is nowhere is ordered
// and comes.
func (s *scene) fills() {
	for _, l := range s.lines(playCharge, "stock "+kits.Place{Sort: kits.Reprocessing, ID: "A1"}.Words(), "held") {
		s.quick(playCharge, fmt.Sprintf("receive %d x%d from reprocessing/A1", l.Number, l.N))
	}
	s.restock = s.until(playCharge, "restock", said).listed
	s.tellAll(playCharge, "pick kit/tray-1", "prepare tray-1 first-tray by C1 checked-by R2", "seal tray-1 4712")
	s.until(playSecond, "kits", func(a reply) bool { return len(a.listed) == 1 && a.listed[0].Ready })
	s.tell(playSecond, "pick all")
	s.until(playCharge, "restock", func(a reply) bool {
		return !slices.ContainsFunc(a.listed, func(l heard) bool { return l.Event == "restock" })
	})
	for _, l := range s.lines(playCharge, "restock", "order") {
		var e orderEvent
		if json.Unmarshal(l.line, &e) != nil || e.Order == 0 {
			continue
		}
		s.quick(playCharge, fmt.Sprintf("order %d x%d", e.Number, e.Order))
		s.ordered++
		for _, to := range e.For {
			var place string
			var n int64
			if _, err := fmt.Sscan(to, &place, &n); err == nil {
				s.quick(playCharge, fmt.Sprintf("receive %d x%d to %s", e.Number, n, place))
			}
		}
	}
	s.until(playCharge, "restock", func(a reply) bool { return len(a.listed) == 0 })
	s.soon = s.until(playCharge, fmt.Sprintf("ready A1 in %dm", readyIn), func(a reply) bool { return a.Ready }).listed
	s.now = s.until(playCharge, "ready A1", said).listed
}

// quick records without a pause: what a person does in one go.
func (s *scene) quick(who, line string) {
	if s.err == nil {
		_, s.err = s.players[who].do(s.ctx, line)
	}
}

// again reads a line back into the event that it was.
func again[E event](l heard) (e E, ok bool) { return e, json.Unmarshal(l.line, &e) == nil }

// printAccount prints how everything was accounted for, and gives how many
// lines were not.
func (d *demo) printAccount(v station.View, s *scene) (left int) {
	head := func(id words.ID) { fmt.Fprintf(d.out, "\n%s\n", d.w.Say(id)) }
	issues := func(all []heard) {
		for _, l := range all {
			if e, ok := again[issueEvent](l); ok {
				fmt.Fprintf(d.out, "  %s\n", indent(e.say(d.w)))
			}
		}
	}
	head("demo.count")
	d.printCount(s)
	head("demo.short")
	issues(s.short)
	head("demo.balanced")
	issues(s.balanced)
	head("demo.restock")
	for _, l := range s.restock {
		if e, ok := again[restockEvent](l); ok && e.Event == "restock" {
			fmt.Fprintf(d.out, "  %s\n", e.say(d.w))
		}
	}
	fmt.Fprintf(d.out, "  %s\n", d.w.Say("demo.ordered", s.ordered))
	head("demo.kits")
	for _, k := range d.kits(v) {
		fmt.Fprintf(d.out, "  %s\n", k.say(d.w))
	}
	for _, at := range []kits.PlaceSort{kits.InRoom, kits.Door} {
		left += len(v.Ledger.BalancesAt(kits.Place{Sort: at, ID: "A1"}))
	}
	missing := v.Ledger.Plan(kits.RestockQuestion{}).Missing()
	if missing {
		left++
	}
	fmt.Fprintf(d.out, "\n%s\n", d.w.Say("demo.zero", left))
	for _, l := range s.now {
		if e, ok := again[gapEvent](l); ok && e.Event == "gap" {
			fmt.Fprintln(d.out, d.w.Say("demo.ready", e.say(d.w)))
		}
	}
	for _, l := range s.soon {
		if e, ok := again[readyRoomEvent](l); ok && e.Event == "room" {
			fmt.Fprintln(d.out, d.w.Say("demo.soon", readyIn, e.say(d.w)))
		}
	}
	return left
}

// printCount says how much was counted with one tap, and what was asked singly.
func (d *demo) printCount(s *scene) {
	var singly []string
	together := 0
	for _, l := range s.counted {
		e, ok := again[endEvent](l)
		switch {
		case ok && e.Ask != "":
			singly = append(singly, e.say(d.w))
		case ok:
			together++
		}
	}
	fmt.Fprintf(d.out, "  %s\n", d.w.Say("demo.counted", "A1", together))
	fmt.Fprintf(d.out, "  %s\n", d.w.Say("demo.singly", len(singly)))
	for _, said := range singly {
		fmt.Fprintf(d.out, "    %s\n", said)
	}
}

// kits are those of the unit as events.
func (d *demo) kits(v station.View) []event {
	all, err := kitEvents(d.w, v, &arguments{})
	if err != nil {
		return nil
	}
	return all
}

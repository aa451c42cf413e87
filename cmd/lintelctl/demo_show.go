package main

import (
	"fmt"
	"slices"
	"text/tabwriter"
	"time"

	"lintel/app/device"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// moment is one line of the timeline.
type moment struct {
	at        mesh.Wall
	who, said string
}

// printTimeline lists what people recorded, by the time it happened.
func (d *demo) printTimeline(l device.Log) {
	var all []moment
	for _, x := range l.Reading.Entries {
		all = append(all, moments(d.w, l.Reading.View, x)...)
	}
	slices.SortStableFunc(all, func(a, b moment) int { return int(a.at - b.at) })
	fmt.Fprintf(d.out, "\n%s\n", d.w.Say("demo.timeline"))
	for _, m := range all {
		after := time.Duration(m.at-all[0].at) * time.Millisecond
		fmt.Fprintf(d.out, "  +%6.1f s  %-14s %s\n", after.Seconds(), m.who, m.said)
	}
}

// moments are the marks in one entry.
func moments(w words.Words, v station.View, x station.ReadEntry) (out []moment) {
	var by mesh.By
	at := x.Entry.Wall
	for i, p := range x.Entry.Parts {
		if p.Kind == mesh.KindBy && mesh.Decode(p.Body, &by) == nil && by.Happened != 0 {
			at = by.Happened
		}
		fresh, ours := requests.Kinds()[p.Kind]
		if !ours {
			continue
		}
		body := fresh()
		if mesh.Decode(p.Body, body) != nil {
			continue
		}
		if said := saidOf(w, v, x.Entry.Ref(i), body); said != "" {
			out = append(out, moment{at: at, who: fmt.Sprintf("%s %s", by.Tag, by.Role), said: said})
		}
	}
	return out
}

// saidOf words a mark; nothing for what is no mark.
func saidOf(w words.Words, v station.View, mark mesh.Ref, body any) string {
	asked, _ := v.Board.RequestOf(mark)
	r, known := v.Board.Request(asked)
	name := func(t requests.Thing) string { return shownThing(v, t).say(w) }
	subject := requests.Code(asked) + " " + nameOf(v.Ledger, r.Thing.Item)
	urgency := func(u requests.Urgency) string { return w.Say("urgency." + words.UrgencyID(u)) }
	if j, is := body.(*requests.Joined); is {
		return w.Say("mark.joined", requests.Code(j.One), requests.Code(j.Other))
	}
	if !known {
		return ""
	}
	switch b := body.(type) {
	case *requests.Asked:
		id := words.ID("mark.asked")
		switch b.Origin {
		case requests.AskedByVoice:
			id = "mark.voice"
		case requests.PassedIn:
			id = "mark.passed"
		}
		return requests.Code(asked) + " " + w.Say(id, name(b.Thing), urgency(b.Urgency), b.Tag)
	case *requests.Changed:
		return w.Say("mark.changed", name(b.Thing), urgency(b.Urgency))
	case *requests.Offered:
		said := ""
		for i, t := range b.Things {
			if i > 0 {
				said += " / "
			}
			said += name(t)
		}
		return w.Say("mark.offered", subject, said)
	case *requests.InHand:
		return w.Say("mark.in-hand", subject, name(b.Thing))
	case *requests.TakenIn:
		return w.Say("mark.taken-in", subject, b.Count)
	case *requests.CouldNot:
		return w.Say("mark.could-not", subject, b.Why)
	case *requests.PassedOn:
		return w.Say("mark.passed-on", subject, b.To)
	}
	id, why := plainMark(body)
	said := ""
	if why != "" {
		said = w.Say("mark.why", why)
	}
	return w.Say(id, subject, said)
}

// plainMark is the sentence of a mark that says nothing but what it is about
// and, perhaps, why.
func plainMark(body any) (id words.ID, why mesh.Label) {
	switch b := body.(type) {
	case *requests.Acknowledged:
		return "mark.acknowledged", ""
	case *requests.Agreed:
		return "mark.agreed", ""
	case *requests.Refused:
		return "mark.refused", b.Why
	case *requests.AtDoor:
		return "mark.at-door", ""
	case *requests.TakenBack:
		return "mark.taken-back", b.Why
	case *requests.Withdrawn:
		return "mark.withdrawn", b.Why
	case *requests.Undone:
		return "mark.undone", b.Why
	}
	return "mark.other", ""
}

// printFigures is the table of times with their medians. What was never taken
// in stays in the table.
func (d *demo) printFigures(b *requests.Board, l *kits.Ledger) {
	fmt.Fprintf(d.out, "\n%s\n", d.w.Say("demo.figures"))
	table := tabwriter.NewWriter(d.out, 0, 0, 2, ' ', 0)
	row := func(cells ...string) {
		for _, c := range cells {
			_, _ = fmt.Fprintf(table, "  %s\t", c) // it writes to memory until it is flushed
		}
		_, _ = fmt.Fprintln(table)
	}
	row(d.w.Say("demo.columns"), "", d.w.Say("demo.to-ack"), d.w.Say("demo.to-door"))
	var acks, takes []time.Duration
	needs, never := b.Needs(), 0
	for _, need := range needs {
		r, _ := b.Request(need.Requests[0])
		times := b.Times(need)
		ack, isAck := times.ToAcknowledge()
		take, isTaken := times.ToDeliver()
		if isAck {
			acks = append(acks, ack)
		}
		if isTaken {
			takes = append(takes, take)
		} else {
			never++
		}
		row(requests.Code(r.Ref), nameOf(l, r.Thing.Item), d.seconds(ack, isAck), d.seconds(take, isTaken))
	}
	ack, isAck := middle(acks)
	take, isTaken := middle(takes)
	row(d.w.Say("demo.median-short"), "", d.seconds(ack, isAck), d.seconds(take, isTaken))
	_ = table.Flush()
	fmt.Fprintf(d.out, "  %s\n  %s\n", d.w.Say("demo.median"), d.w.Say("demo.left", never, len(needs)))
}

func (d *demo) seconds(t time.Duration, known bool) string {
	if !known {
		return d.w.Say("demo.none")
	}
	return fmt.Sprintf("%.1f", t.Seconds())
}

// middle is the middle value, of an even number the mean of the two middle
// ones; false: there is none.
func middle(all []time.Duration) (time.Duration, bool) {
	if len(all) == 0 {
		return 0, false
	}
	slices.Sort(all)
	n := len(all)
	return (all[(n-1)/2] + all[n/2]) / 2, true
}

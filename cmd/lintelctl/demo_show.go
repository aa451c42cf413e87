package main

import (
	"fmt"
	"slices"
	"strings"
	"text/tabwriter"
	"time"

	"lintel/kits"
	"lintel/requests"
)

// printFigures is the table of times with their medians. What was never taken
// in stays in the table. What was passed in unasked is named below it: nobody
// waited for it, and it has no times.
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
	waited, never := 0, 0
	var unasked []string
	for _, need := range b.Needs() {
		r, _ := b.Request(need.Requests[0])
		if need.Unasked {
			unasked = append(unasked, requests.Code(r.Ref)+" "+nameOf(l, r.Thing.Item))
			continue
		}
		waited++
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
	fmt.Fprintf(d.out, "  %s\n  %s\n", d.w.Say("demo.median"), d.w.Say("demo.left", never, waited))
	if len(unasked) > 0 {
		fmt.Fprintf(d.out, "  %s\n", d.w.Say("demo.unasked", strings.Join(unasked, ", ")))
	}
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

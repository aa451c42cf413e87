package main

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"lintel/app/device"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// result prints everything and says whether it is as it must be.
func (d *demo) result(ctx context.Context, begun time.Time, p played) error {
	logs := map[string]device.Log{}
	n := 0
	for _, who := range d.players {
		all, err := readFolder(ctx, filepath.Join(d.dir, who.name))
		if err != nil {
			return err
		}
		logs[who.name] = all[0]
		if who.dead {
			continue
		}
		for _, f := range logFindings(all[0]) {
			fmt.Fprintf(d.out, "%s: %s\n", who.name, f.say(d.w))
			n++
		}
	}
	last := logs[playCharge]
	v := last.Reading.View
	d.printTimeline(last)
	d.printFigures(v.Board, v.Ledger)
	for _, c := range v.Board.Cases() {
		fmt.Fprintf(d.out, "\n%s\n  %s\n", d.w.Say("demo.case-figures"), indent(figuresOf(v.Board, c).say(d.w)))
	}
	d.printNotes(v, p.scene)
	left := d.printAccount(v, p.scene)
	lost := d.printDead(logs)
	return d.verdict(begun, p.hashes, n+lost+left, len(v.Board.Requests()))
}

// indent sets the lines of a text in, but the first.
func indent(text string) string { return strings.ReplaceAll(text, "\n", "\n  ") }

// printNotes says what people were told meanwhile.
func (d *demo) printNotes(v station.View, s *scene) {
	fmt.Fprintln(d.out)
	if r, err := findRequest(v.Board, s.repeated); err == nil {
		fmt.Fprintln(d.out, d.w.Say("demo.repeated", requests.Code(r.Ref)+" "+nameOf(v.Ledger, r.Thing.Item)))
	}
	id := words.ID("demo.no-cut")
	if s.wasCut {
		id = "demo.cut"
	}
	fmt.Fprintln(d.out, d.w.Say(id, cutFor.Seconds()))
	fmt.Fprintln(d.out, d.w.Say("demo.stay"))
	fmt.Fprintln(d.out, s.air.say(d.w))
}

// printDead says of the devices that died how many of the entries on their
// disks are missing on the charge nurse's, and returns that number.
func (d *demo) printDead(logs map[string]device.Log) (lost int) {
	there := map[mesh.Hash]bool{}
	for _, e := range logs[playCharge].Reading.Entries {
		there[e.At.Hash] = true
	}
	for _, p := range d.players {
		if !p.dead {
			continue
		}
		missing := 0
		for _, e := range logs[p.name].Reading.Entries {
			if !there[e.At.Hash] {
				missing++
			}
		}
		fmt.Fprintf(d.out, "\n%s\n", d.w.Say("demo.died", p.name, len(logs[p.name].Reading.Entries), missing))
		lost += missing
	}
	return lost
}

// verdict prints hashes and audit, and is an error where one is not right.
func (d *demo) verdict(begun time.Time, hashes map[string]string, n, requests int) error {
	fmt.Fprintf(d.out, "\n%s\n", d.w.Say("demo.state"))
	for _, p := range d.players {
		if h, lives := hashes[p.name]; lives {
			fmt.Fprintf(d.out, "  %-10s %s\n", p.name, h)
		}
	}
	same := allEqual(hashes)
	said := words.ID("demo.same")
	if !same {
		said = "demo.differs"
	}
	fmt.Fprintln(d.out, d.w.Say(said))
	fmt.Fprintln(d.out, d.w.Say("demo.audit", auditEvent{Findings: n}.say(d.w)))
	fmt.Fprintln(d.out, d.w.Say("demo.took", requests, fmt.Sprintf("%.1f", time.Since(begun).Seconds())))
	switch {
	case !same:
		return &fault{id: "demo-differs"}
	case n > 0:
		return &fault{id: "audit-findings"}
	}
	return nil
}

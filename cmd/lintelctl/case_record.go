package main

import (
	"context"
	"flag"
	"fmt"
	"io"

	"lintel/app/device"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/requests"
)

// usageCase is how the record of a case is asked for.
const usageCase = "lintelctl case [-json] DIR [CASE]"

// caseRecord prints the record of the cases in one device's data folder: of
// one, named by its code, or of all. It never writes.
func caseRecord(ctx context.Context, w words.Words, args []string, stdout io.Writer) error {
	set := flag.NewFlagSet("case", flag.ContinueOnError)
	json := set.Bool("json", false, "")
	if err := readFlags(set, usageCase, args); err != nil {
		return err
	}
	switch set.NArg() {
	case 0:
		return missing("DIR", usageCase)
	case 1, 2:
	default:
		return &fault{id: "flag", blanks: []any{set.Arg(2), usageCase}, usage: true}
	}
	logs, err := readFolder(ctx, set.Arg(0))
	if err != nil {
		return err
	}
	out := &printer{out: stdout, w: w, json: *json}
	n, err := recordLogs(out, w, logs, set.Arg(1))
	switch {
	case err != nil:
		return err
	case n == 0 && set.Arg(1) != "":
		return &fault{id: "case-none", blanks: []any{set.Arg(1)}}
	case n == 0:
		return &fault{id: "case-empty", blanks: []any{set.Arg(0)}}
	}
	return out.err
}

// recordLogs prints the cases of every unit that the device belonged to.
func recordLogs(out *printer, w words.Words, logs []device.Log, code string) (n int, err error) {
	for _, l := range logs {
		v := l.Reading.View
		for _, c := range v.Board.Cases() {
			if code == "" || requests.Code(c.Ref) == code || c.Ref.Hex() == code {
				record(out, w, v, c)
				n++
			}
		}
		if code == "" && n > 1 {
			out.head("record.all")
			out.print(figuresOf(v.Board, requests.Case{}))
		}
	}
	return n, out.err
}

// record prints one case: head, brief, people, time, requests, figures, debrief.
func record(out *printer, w words.Words, v station.View, c requests.Case) {
	out.print(describeCase(v.Board, c))
	groups := map[words.ID][]factEvent{}
	for _, e := range factsOf(w, v.Board, c) {
		g := groupOf(e.Kind)
		groups[g] = append(groups[g], e)
		if out.json {
			out.print(e) // a program gets each fact once, in the order of the entries
		}
	}
	out.group("brief", groups)
	out.group("people", groups)
	out.head("record.time")
	for _, e := range timelineOf(w, v, c) {
		out.print(e)
	}
	out.head("record.requests")
	for _, ref := range c.Requests {
		if r, known := v.Board.Request(ref); known {
			out.print(describe(v, w, r, lookAt(v, r, v.Peer.Self())))
		}
	}
	out.head("record.figures")
	out.print(figuresOf(v.Board, c))
	out.group("debrief", groups)
	out.space()
}

// groupOf is the part of a record that a fact stands in; none: only in time.
func groupOf(kind words.ID) words.ID {
	switch kind {
	case "role", "tick", "untick", "skipped", "test", "test-heard", "ppe":
		return "brief"
	case "in", "out", "breach", "doff", "ppe-off":
		return "people"
	case "debrief", "no-debrief", "answer":
		return "debrief"
	}
	return ""
}

// group prints the facts of one part of a record, for people.
func (p *printer) group(id words.ID, groups map[words.ID][]factEvent) {
	if p.json || len(groups[id]) == 0 {
		return
	}
	p.head("record." + id)
	for _, e := range groups[id] {
		p.print(e)
	}
}

// head prints a heading for people; lines of JSON have none.
func (p *printer) head(id words.ID) {
	if p.err == nil && !p.json {
		_, p.err = fmt.Fprintf(p.out, "\n%s\n", p.w.Say(id))
	}
}

// space parts two records for people.
func (p *printer) space() {
	if p.err == nil && !p.json {
		_, p.err = fmt.Fprintln(p.out)
	}
}

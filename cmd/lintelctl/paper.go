package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"time"

	"lintel/app/report"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// How papers are asked for.
const (
	usageCard  = "lintelctl card [-out FILE.pdf] [DIR]"
	usagePaper = "lintelctl paper [-out FILE.pdf] exposure DIR TAG [CASE] | record DIR [CASE] | label DIR SYRINGE|ITEM"
)

// outStdout is the file name that means standard output.
const outStdout = "-"

// cardCommand writes the card of the board: of the unit whose data folder is
// given, else of the starter layout.
func cardCommand(ctx context.Context, w words.Words, args []string, stdout io.Writer) error {
	set := flag.NewFlagSet("card", flag.ContinueOnError)
	out := set.String("out", "card.pdf", "")
	if err := readFlags(set, usageCard, args); err != nil {
		return err
	}
	if set.NArg() > 1 {
		return &fault{id: "flag", blanks: []any{set.Arg(1), usageCard}, usage: true}
	}
	starter, err := station.ReadStarter()
	if err != nil {
		return err
	}
	v := station.Read(mesh.GroupID{}, nil, nil, starter).View
	if set.NArg() == 1 {
		if v, err = readUnit(ctx, set.Arg(0)); err != nil {
			return err
		}
	}
	paper, err := report.Card(w, report.CardOf(v, starter))
	return writePaper(w, stdout, *out, paper, err)
}

// readUnit is the view of the unit that a data folder's device belongs to now.
func readUnit(ctx context.Context, dir string) (station.View, error) {
	logs, err := readFolder(ctx, dir)
	if err != nil {
		return station.View{}, err
	}
	return logs[0].Reading.View, nil
}

// writePaper writes a paper that was made without an error.
func writePaper(w words.Words, stdout io.Writer, out string, paper []byte, err error) error {
	if err != nil {
		return &fault{id: "paper", blanks: []any{out}}
	}
	if out == outStdout {
		_, err = stdout.Write(paper)
		return err
	}
	if err := os.WriteFile(out, paper, 0o600); err != nil {
		return &fault{id: "paper", blanks: []any{out}}
	}
	_, err = fmt.Fprintln(stdout, w.Say("paper.written", out))
	return err
}

// paperCommand writes one of the papers of a case. It never writes into the
// data folder.
func paperCommand(ctx context.Context, w words.Words, args []string, stdout io.Writer) error {
	set := flag.NewFlagSet("paper", flag.ContinueOnError)
	out := set.String("out", "", "")
	if err := readFlags(set, usagePaper, args); err != nil {
		return err
	}
	kind, rest := set.Arg(0), set.Args()
	fixed := map[string]int{"exposure": 3, "record": 2, "label": 2}[kind] // words before CASE, or before what the label is of
	switch {
	case kind == "":
		return missing("exposure, record or label", usagePaper)
	case fixed == 0 || len(rest) > fixed+1:
		return &fault{id: "flag", blanks: []any{strings.Join(rest, " "), usagePaper}, usage: true}
	case kind == "label" && len(rest) == fixed:
		return missing("SYRINGE", usagePaper)
	case len(rest) < fixed:
		return missing([]string{"DIR", "TAG"}[len(rest)-1], usagePaper)
	}
	v, err := readUnit(ctx, rest[1])
	if err != nil {
		return err
	}
	if kind == "label" {
		return labelPaper(w, v, rest, *out, stdout)
	}
	c, err := caseNamed(v, rest[1], strings.Join(rest[fixed:], ""))
	if err != nil {
		return err
	}
	code := requests.Code(c.Ref)
	if kind == "record" {
		paper, err := recordPaper(w, v, c)
		return writePaper(w, stdout, orElse(*out, "record-"+code+".pdf"), paper, err)
	}
	e, found := report.ExposureOf(w, v, c, mesh.Tag(rest[2]), time.Local)
	if !found {
		return &fault{id: "paper-tag", blanks: []any{rest[2], strings.Join(tagsOf(c), ", ")}}
	}
	paper, err := report.ExposureSheet(w, e)
	return writePaper(w, stdout, orElse(*out, "exposure-"+rest[2]+"-"+code+".pdf"), paper, err)
}

// labelPaper writes the labels of a syringe, or of all that an item is in.
func labelPaper(w words.Words, v station.View, rest []string, out string, stdout io.Writer) error {
	name := rest[len(rest)-1]
	var all []report.LabelContents
	for _, ref := range syringesNamed(v, name) {
		if c, known := report.LabelOf(w, v, ref, time.Local); known {
			all = append(all, c)
		}
	}
	if len(all) == 0 {
		return about(station.ErrNoSyringe, name)
	}
	paper, err := report.SyringeLabels(w, all)
	return writePaper(w, stdout, orElse(out, "label-"+all[0].Code+".pdf"), paper, err)
}

func orElse(text, other string) string {
	if text == "" {
		return other
	}
	return text
}

// caseNamed is the case with a code or ref; the newest one without.
func caseNamed(v station.View, dir, code string) (requests.Case, error) {
	all := v.Board.Cases()
	for i := len(all) - 1; i >= 0; i-- {
		if c := all[i]; code == "" || requests.Code(c.Ref) == code || c.Ref.Hex() == code {
			return c, nil
		}
	}
	if len(all) == 0 {
		return requests.Case{}, &fault{id: "case-empty", blanks: []any{dir}}
	}
	return requests.Case{}, &fault{id: "case-none", blanks: []any{code}}
}

// recordPaper is the record of a case as it is printed, on paper.
func recordPaper(w words.Words, v station.View, c requests.Case) ([]byte, error) {
	var text bytes.Buffer
	record(&printer{out: &text, w: w}, w, v, c)
	title := w.Say("record.title", requests.Code(c.Ref), c.Room)
	return report.Record(w, title, text.String(), time.UnixMilli(int64(c.Opened.When())))
}

// tagsOf are the tags of whom something was recorded in a case.
func tagsOf(c requests.Case) (out []string) {
	for _, p := range c.People {
		out = append(out, string(p.Tag))
	}
	for _, p := range c.PPE {
		out = append(out, string(p.Wearer))
	}
	for _, b := range c.Breaches {
		out = append(out, string(b.Tag))
	}
	slices.Sort(out)
	return slices.Compact(out)
}

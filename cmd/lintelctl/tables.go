package main

import (
	"context"
	"flag"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"lintel/app/report/table"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
)

// How lists are carried into files and back.
const (
	usageExport = "lintelctl export [-list LIST] [-spreadsheet] [-out FILE.xlsx|FILE.csv] DIR"
	usageImport = "lintelctl import [-json] DIR FILE"

	wordApply       = "apply"
	wordSpreadsheet = "spreadsheet"
)

// tableCommands carry the unit's lists into files and back.
func tableCommands() []command {
	return []command{
		{"export", "export FILE.xlsx|FILE.csv [LIST] [spreadsheet]", "help.export", (*session).exportTable},
		{"import", "import FILE [apply]", "help.import", (*session).importTable},
	}
}

// problemEvent is one thing for which a file cannot be used.
type problemEvent struct {
	Event   string   `json:"event"` // problem
	List    string   `json:"list,omitempty"`
	Row     int      `json:"row,omitempty"` // the heading is 1
	Column  string   `json:"column,omitempty"`
	Cell    string   `json:"cell,omitempty"` // as a spreadsheet calls it
	Problem words.ID `json:"problem"`
	Text    string   `json:"text"` // where and what
}

func (e problemEvent) say(words.Words) string { return e.Text }

// changeEvent is one line that a file would change.
type changeEvent struct {
	Event   string   `json:"event"` // change
	List    string   `json:"list"`
	Row     int      `json:"row"`
	Key     string   `json:"key"`
	Name    string   `json:"name,omitempty"`
	New     bool     `json:"new,omitempty"`
	Columns []string `json:"columns"`
}

func (e changeEvent) say(w words.Words) string {
	if e.New {
		return w.Say("table.new", e.List, e.Row, e.Key, e.Name)
	}
	return w.Say("table.changed", e.List, e.Row, e.Key, e.Name, strings.Join(e.Columns, ", "))
}

// printPlan prints what a file would do; an error says that it cannot be used.
func printPlan(out *printer, w words.Words, p table.Plan) error {
	for _, n := range p.Notes {
		out.print(noteEvent{Event: "note", Note: n.ID, Text: n.Say(w)})
	}
	for _, x := range p.Problems {
		out.print(problemEvent{Event: "problem", List: x.List, Row: x.Row, Column: x.Column, Cell: x.Cell, Problem: x.ID, Text: x.Say(w)})
	}
	for _, c := range p.Changes {
		out.print(changeEvent{Event: "change", List: c.List, Row: c.Row, Key: c.Key, Name: c.Name, New: c.New, Columns: c.Columns})
	}
	if n := len(p.Problems); n > 0 {
		return &fault{id: "table-problems", blanks: []any{w.Count("tables.problems", n)}}
	}
	return out.err
}

// readTable reads a file, and no more of it than shows that it is too long.
func readTable(name string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, &fault{id: "table-file", blanks: []any{name}}
	}
	b, err := io.ReadAll(io.LimitReader(f, table.FileLenMax+1))
	if closing := f.Close(); err != nil || closing != nil {
		return nil, &fault{id: "table-file", blanks: []any{name}}
	}
	return b, nil
}

// tableBytes is what is written into a file of that name: all lists as a
// spreadsheet, or one as CSV, named or called like the file.
func tableBytes(l *kits.Ledger, name, list string, harmless bool) ([]byte, error) {
	ending := strings.ToLower(filepath.Ext(name))
	if ending == ".xlsx" && list == "" {
		return table.XLSX(table.Of(l))
	}
	if list == "" {
		list = strings.TrimSuffix(strings.ToLower(filepath.Base(name)), ending)
	}
	if (ending == ".csv" || name == outStdout) && slices.Contains(table.Lists(), list) {
		return table.CSV(table.Of(l), list, harmless)
	}
	return nil, &fault{id: "table-kind", blanks: []any{name, strings.Join(table.Lists(), ", ")}}
}

// exportCommand writes the lists of a data folder's unit into a file. It never
// writes into the folder.
func exportCommand(ctx context.Context, w words.Words, args []string, stdout io.Writer) error {
	set := flag.NewFlagSet("export-dir", flag.ContinueOnError)
	list, harmless := set.String("list", "", ""), set.Bool(wordSpreadsheet, false, "")
	out := set.String("out", "lists.xlsx", "")
	if err := readFlags(set, usageExport, args); err != nil {
		return err
	}
	if set.NArg() != 1 {
		return missing("DIR", usageExport)
	}
	v, err := readUnit(ctx, set.Arg(0))
	if err != nil {
		return err
	}
	b, err := tableBytes(v.Ledger, *out, *list, *harmless)
	if err != nil {
		return err
	}
	return writePaper(w, stdout, *out, b, nil)
}

// importCommand tells what a file would change in a data folder's unit. Only a
// device at work writes, so this never does.
func importCommand(ctx context.Context, w words.Words, args []string, stdout io.Writer) error {
	set := flag.NewFlagSet("import-dir", flag.ContinueOnError)
	json := set.Bool("json", false, "")
	if err := readFlags(set, usageImport, args); err != nil {
		return err
	}
	if set.NArg() != 2 {
		return missing([]string{"DIR", "FILE", "DIR FILE"}[min(set.NArg(), 2)], usageImport)
	}
	v, err := readUnit(ctx, set.Arg(0))
	if err != nil {
		return err
	}
	b, err := readTable(set.Arg(1))
	if err != nil {
		return err
	}
	p, out := table.Read(set.Arg(1), b, v.Ledger), &printer{out: stdout, w: w, json: *json}
	if err := printPlan(out, w, p); err != nil {
		return err
	}
	n := len(p.Changes)
	out.print(doneEvent{Event: "done", Command: "import", Count: &n, text: trialText(w, n)})
	return out.err
}

func trialText(w words.Words, n int) string {
	if n == 0 {
		return w.Say("tables.same")
	}
	return w.Count("tables.trial", n)
}

// exportTable reads FILE [LIST] [spreadsheet].
func (s *session) exportTable(ctx context.Context, a *arguments) (event, error) {
	name, more := a.next()
	if !more || name == outStdout {
		return nil, a.bad()
	}
	list, _ := a.keyword(table.Lists()...)
	_, harmless := a.keyword(wordSpreadsheet)
	if err := a.done(); err != nil {
		return nil, err
	}
	var b []byte
	err := s.lists(ctx, func(v station.View) (err error) {
		b, err = tableBytes(v.Ledger, name, list, harmless)
		return err
	})
	if err != nil {
		return nil, err
	}
	if err := os.WriteFile(name, b, 0o600); err != nil {
		return nil, &fault{id: "table-out", blanks: []any{name}}
	}
	e := s.said("export")
	e.text = s.w.Say("paper.written", name)
	return e, nil
}

// importTable reads FILE [apply]. Without apply, and where there is a problem,
// nothing is written.
func (s *session) importTable(ctx context.Context, a *arguments) (event, error) {
	name, more := a.next()
	if !more {
		return nil, a.bad()
	}
	_, apply := a.keyword(wordApply)
	if err := a.done(); err != nil {
		return nil, err
	}
	b, err := readTable(name)
	if err != nil {
		return nil, err
	}
	var p table.Plan
	file := table.Open(name, b) // not while the station waits
	if err := s.lists(ctx, func(v station.View) error { p = file.Against(v.Ledger); return nil }); err != nil {
		return nil, err
	}
	if err := printPlan(s.out, s.w, p); err != nil {
		return nil, err
	}
	n := p.Write.Len()
	e := s.said("import")
	e.Count, e.text = &n, trialText(s.w, n)
	if !apply || n == 0 {
		return e, nil
	}
	return s.applyTable(ctx, a, e, p.Write)
}

// applyTable writes the lines of a file, an entry after another. What was written
// when one fails stays, and the same file then changes only the rest.
func (s *session) applyTable(ctx context.Context, a *arguments, e doneEvent, c station.Catalogue) (event, error) {
	st, err := s.unit(ctx)
	if err != nil {
		return nil, err
	}
	saved, written := true, 0
	entries := c.Entries()
	for _, act := range entries {
		r, err := st.Do(ctx, s.by(a), act)
		switch {
		case err != nil && written == 0:
			return nil, err
		case err != nil:
			return nil, &fault{id: "table-half", blanks: []any{written, c.Len()}}
		}
		saved, written = saved && r.Saved, written+act.Len()
	}
	e.Saved, e.Entries, e.text = &saved, len(entries), s.w.Count("tables.applied", written)
	return e, nil
}

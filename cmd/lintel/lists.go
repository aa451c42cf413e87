package main

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"lintel/app/charge"
	"lintel/app/report/table"
	"lintel/app/station"
)

// lists reads and writes the unit's lists as files, beside the window, one after
// another with its papers.
type lists struct{ papers *papers }

// ReadLists is charge.Lists: the file is taken apart before the station is asked.
func (x lists) ReadLists(path string, done func(charge.Import, error)) {
	x.papers.errands.take(func(ctx context.Context) {
		out, err := x.read(ctx, path)
		x.papers.post(func() { done(out, err) })
	}, func(err error) { done(charge.Import{}, err) })
}

func (x lists) read(ctx context.Context, path string) (out charge.Import, err error) {
	b, err := readListFile(path)
	if err != nil {
		return out, err
	}
	st, err := x.papers.worker.dev.Station()
	if err != nil {
		return out, err
	}
	file, plan := table.Open(filepath.Base(path), b), table.Plan{}
	if err := st.Look(ctx, func(v station.View) { plan = file.Against(v.Ledger) }); err != nil {
		return out, err
	}
	w := x.papers.words
	for _, p := range plan.Problems {
		out.Problems = append(out.Problems, p.Say(w))
	}
	for _, n := range plan.Notes {
		out.Notes = append(out.Notes, n.Say(w))
	}
	for _, c := range plan.Changes {
		if c.New {
			out.Changes = append(out.Changes, w.Say("table.new", c.List, c.Row, c.Key, c.Name))
		} else {
			out.Changes = append(out.Changes, w.Say("table.changed", c.List, c.Row, c.Key, c.Name, strings.Join(c.Columns, ", ")))
		}
	}
	out.Write = plan.Write
	return out, nil
}

// readListFile reads a file, and no more of it than shows that it is too long.
func readListFile(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, &fault{id: "table-file", blanks: []any{path}}
	}
	b, err := io.ReadAll(io.LimitReader(f, table.FileLenMax+1))
	if closing := f.Close(); err != nil || closing != nil {
		return nil, &fault{id: "table-file", blanks: []any{path}}
	}
	return b, nil
}

// WriteLists is charge.Lists: a spreadsheet with all lists, or one list as CSV,
// called like the list. A file that is there already stays as it is.
func (x lists) WriteLists(path string, done func(string, error)) {
	x.papers.errands.take(func(ctx context.Context) {
		err := x.write(ctx, path)
		x.papers.post(func() { done(path, err) })
	}, func(err error) { done("", err) })
}

func (x lists) write(ctx context.Context, path string) error {
	st, err := x.papers.worker.dev.Station()
	if err != nil {
		return err
	}
	var all station.Catalogue
	if err := st.Look(ctx, func(v station.View) { all = table.Of(v.Ledger) }); err != nil {
		return err
	}
	var b []byte
	ending := strings.ToLower(filepath.Ext(path))
	list := strings.TrimSuffix(strings.ToLower(filepath.Base(path)), ending)
	switch {
	case ending == ".xlsx":
		b, err = table.XLSX(all)
	case ending == ".csv" && slices.Contains(table.Lists(), list):
		b, err = table.CSV(all, list, true)
	default:
		return &fault{id: "table-kind", blanks: []any{path, strings.Join(table.Lists(), ", ")}}
	}
	if err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return &fault{id: "window-paper", blanks: []any{path}}
	}
	_, err = f.Write(b)
	if closing := f.Close(); err != nil || closing != nil {
		return &fault{id: "window-paper", blanks: []any{path}}
	}
	return nil
}

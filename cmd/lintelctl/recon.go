package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"lintel/app/words"
	"lintel/kits"
)

// usageRecon is how written cases of controlled drugs are worked out.
const usageRecon = "lintelctl recon [-json] FILE.json"

// reconEvent is what a written case adds up to.
type reconEvent struct {
	Event string `json:"event"` // recon
	kits.ReconResult
}

func (e reconEvent) say(w words.Words) string {
	said := w.Say("recon.line", e.ID, w.Say("issue."+words.ID(e.Word)), e.Issued, e.Given, e.Wasted, e.Broken, e.Returned, e.Destroyed, e.Left)
	if e.Residual != 0 {
		said += w.Say("device.and") + w.Say("recon.residual", e.Residual)
	}
	if len(e.Listed) > 0 {
		var listed []string
		for _, id := range e.Listed {
			listed = append(listed, w.Say("listed."+words.ID(id)))
		}
		said += w.Say("device.and") + w.Say("recon.listed", strings.Join(listed, ", "))
	}
	return said
}

// reconCommand works out the cases of one file; - is standard input.
func reconCommand(_ context.Context, w words.Words, args []string, stdin io.Reader, stdout io.Writer) error {
	set := flag.NewFlagSet("recon", flag.ContinueOnError)
	json := set.Bool("json", false, "")
	if err := readFlags(set, usageRecon, args); err != nil {
		return err
	}
	if set.NArg() != 1 {
		return missing("FILE.json", usageRecon)
	}
	b, err := readBounded(set.Arg(0), stdin)
	if err != nil {
		return &fault{id: "file", blanks: []any{set.Arg(0)}}
	}
	cases, err := kits.ReadRecon(b)
	if err != nil {
		return &fault{id: "recon", blanks: []any{afterColon(err)}}
	}
	out := &printer{out: stdout, w: w, json: *json}
	for _, c := range cases {
		r, err := kits.Recon(c)
		if err != nil {
			return &fault{id: "recon", blanks: []any{afterColon(err)}}
		}
		out.print(reconEvent{"recon", r})
	}
	return out.err
}

// readBounded reads at most one byte more than a reconciliation takes.
func readBounded(name string, stdin io.Reader) ([]byte, error) {
	if name == outStdout {
		return io.ReadAll(io.LimitReader(stdin, kits.ReconLenMax+1))
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	b, err := io.ReadAll(io.LimitReader(f, kits.ReconLenMax+1))
	return b, errors.Join(err, f.Close())
}

// afterColon is what an error says behind its sentinel.
func afterColon(err error) string {
	_, said, _ := strings.Cut(fmt.Sprint(err), ": ")
	return said
}

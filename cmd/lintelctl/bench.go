package main

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"slices"
	"time"

	"lintel/mesh"
)

// Kinds of work that bench run knows.
const (
	workReceipt  = "receipt"
	workAck      = "ack"
	workPipeline = "pipeline"
	workFanout   = "fanout"
	workCatchup  = "catchup"
)

// Bounds of what bench takes.
const (
	benchCountMax       = 1_000_000
	benchOutstandingMax = 10_000
	benchDevicesMax     = 50 // within what one address may have half open at once
	benchSizeMax        = (mesh.PartsMax - 1) * mesh.TextLenMax
)

// benchCommand measures devices as they ship, so that they can be set beside
// other programs in one run.
func benchCommand(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) error {
	if len(args) == 0 {
		return &fault{id: "command-missing", usage: true}
	}
	var err error
	switch args[0] {
	case "describe":
		err = printJSON(stdout, describeBench())
	case "run":
		p, wrong := readPlan(args[1:])
		if wrong != nil {
			return wrong
		}
		err = benchRun(ctx, p, stdout, stderr)
	case "idle":
		peers, dir, wrong := readIdle(args[1:])
		if wrong != nil {
			return wrong
		}
		err = benchIdle(ctx, peers, dir, stdin, stdout, stderr)
	case benchDeviceCommand: // what run and idle start; not for people
		err = benchDevice(ctx, args[1:], stdin, stdout)
	case "help", "-h", "-help", "--help":
		return &helpAsked{about: "help.bench-all", usage: usageBench}
	default:
		return &fault{id: "command", blanks: []any{"bench " + args[0]}, usage: true}
	}
	var worded *fault
	if err == nil || errors.As(err, &worded) {
		return err
	}
	return &fault{id: "bench", blanks: []any{err}}
}

// benchPlan is one repetition.
type benchPlan struct {
	Work        string        `json:"work"`
	N           int           `json:"n"`
	Size        int           `json:"size"`        // bytes of an entry's own part
	Outstanding int           `json:"outstanding"` // taps under way at once in pipeline
	Receivers   int           `json:"receivers"`   // in fanout
	Limit       time.Duration `json:"limit"`       // for what is measured, starting and joining apart
	Dir         string        `json:"-"`
}

// unsupported says why a plan cannot be carried out by this program, or nothing.
func (p benchPlan) unsupported() string {
	switch {
	case !slices.Contains([]string{workReceipt, workAck, workPipeline, workFanout, workCatchup}, p.Work):
		return fmt.Sprintf("there is no work %q", p.Work)
	case p.Size > benchSizeMax:
		return fmt.Sprintf("an entry carries at most %d bytes of text, not %d", benchSizeMax, p.Size)
	case p.Work == workFanout && p.Receivers > benchDevicesMax:
		return fmt.Sprintf("at most %d receivers on one machine, not %d", benchDevicesMax, p.Receivers)
	}
	return ""
}

func readPlan(args []string) (p benchPlan, err error) {
	f := flag.NewFlagSet("bench-run", flag.ContinueOnError)
	f.StringVar(&p.Work, "work", "", "")
	f.IntVar(&p.N, "n", 0, "")
	f.IntVar(&p.Size, "size", 200, "")
	f.IntVar(&p.Outstanding, "outstanding", 1000, "")
	f.IntVar(&p.Receivers, "receivers", 8, "")
	f.DurationVar(&p.Limit, "limit", 2500*time.Millisecond, "")
	f.StringVar(&p.Dir, "dir", "", "")
	if err := parseBench(f, usageBenchRun, args); err != nil {
		return p, err
	}
	option, value := "", any(nil)
	switch {
	case p.Work == "":
		return p, missing("-work", usageBenchRun)
	case p.N == 0:
		return p, missing("-n", usageBenchRun)
	case p.N < 1 || p.N > benchCountMax:
		option, value = "-n", p.N
	case p.Size < 0:
		option, value = "-size", p.Size
	case p.Outstanding < 1 || p.Outstanding > benchOutstandingMax:
		option, value = "-outstanding", p.Outstanding
	case p.Receivers < 1:
		option, value = "-receivers", p.Receivers
	case p.Limit <= 0:
		option, value = "-limit", p.Limit
	}
	if option != "" {
		return p, outOfRange(option, value, usageBenchRun)
	}
	return p, takeEmpty(p.Dir, usageBenchRun)
}

func readIdle(args []string) (peers int, dir string, err error) {
	f := flag.NewFlagSet("bench-idle", flag.ContinueOnError)
	f.IntVar(&peers, "peers", 8, "")
	f.StringVar(&dir, "dir", "", "")
	if err := parseBench(f, usageBenchIdle, args); err != nil {
		return 0, "", err
	}
	if peers < 1 || peers > benchDevicesMax {
		return 0, "", outOfRange("-peers", peers, usageBenchIdle)
	}
	return peers, dir, takeEmpty(dir, usageBenchIdle)
}

func parseBench(f *flag.FlagSet, usage string, args []string) error {
	if err := readFlags(f, usage, args); err != nil {
		return err
	}
	if f.NArg() > 0 {
		return &fault{id: "flag", blanks: []any{f.Arg(0), usage}, usage: true}
	}
	return nil
}

// outOfRange says that an option has a value that it cannot have.
func outOfRange(option string, value any, usage string) error {
	return &fault{id: "flag", blanks: []any{fmt.Sprintf("%s %v", option, value), usage}, usage: true}
}

// takeEmpty wants a folder with nothing in it, made if it is missing: what is
// measured must not depend on what was there, and nothing may be overwritten.
func takeEmpty(dir, usage string) error {
	if dir == "" {
		return missing("-dir", usage)
	}
	return emptyFolder(dir)
}

// printJSON writes v as one line.
func printJSON(w io.Writer, v any) error { return json.NewEncoder(w).Encode(v) }

package main

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"time"

	"lintel/mesh"
)

// benchUsage is what bench says about itself.
const benchUsage = `usage:
  lintelctl bench describe
      one JSON line: what is measured and promised, and what is less than the whole product
  lintelctl bench run -work receipt|ack|pipeline|fanout|catchup -n N -dir EMPTY
      [-size 200] [-outstanding 1000] [-receivers 8] [-limit 2.5s]
      one repetition between real processes over loopback; the last line is JSON
  lintelctl bench idle -dir EMPTY [-peers 8]
      devices with nothing to do; prints READY {"process name":[pid,…]} and lives
      until standard input closes
`

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

// errBenchUsage marks what the caller of bench did wrong: exit code 2.
var errBenchUsage = errors.New("usage")

// bench measures devices as they ship, so that they can be set beside other
// programs in one run. It answers with the exit code.
func bench(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	err := benchCommand(ctx, args, stdin, stdout, stderr)
	switch {
	case err == nil:
		return 0
	case errors.Is(err, flag.ErrHelp):
		_, _ = io.WriteString(stdout, benchUsage) // nobody is left to tell
		return 0
	case errors.Is(err, errBenchUsage):
		fmt.Fprintf(stderr, "lintelctl bench: %v\n%s", err, benchUsage)
		return 2
	}
	fmt.Fprintf(stderr, "lintelctl bench: %v\n", err)
	return 1
}

func benchCommand(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) error {
	if len(args) == 0 {
		return fmt.Errorf("%w: say describe, run or idle", errBenchUsage)
	}
	switch args[0] {
	case "describe":
		return printJSON(stdout, describeBench())
	case "run":
		p, err := readPlan(args[1:])
		if err != nil {
			return err
		}
		return benchRun(ctx, p, stdout, stderr)
	case "idle":
		peers, dir, err := readIdle(args[1:])
		if err != nil {
			return err
		}
		return benchIdle(ctx, peers, dir, stdin, stdout, stderr)
	case benchDeviceCommand: // what run and idle start; not for people
		return benchDevice(ctx, args[1:], stdin, stdout)
	case "help", "-h", "-help", "--help":
		return flag.ErrHelp
	}
	return fmt.Errorf("%w: there is no %q", errBenchUsage, args[0])
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
	f := flag.NewFlagSet("bench run", flag.ContinueOnError)
	f.SetOutput(io.Discard)
	f.StringVar(&p.Work, "work", "", "")
	f.IntVar(&p.N, "n", 0, "")
	f.IntVar(&p.Size, "size", 200, "")
	f.IntVar(&p.Outstanding, "outstanding", 1000, "")
	f.IntVar(&p.Receivers, "receivers", 8, "")
	f.DurationVar(&p.Limit, "limit", 2500*time.Millisecond, "")
	f.StringVar(&p.Dir, "dir", "", "")
	if err := parseBench(f, args); err != nil {
		return p, err
	}
	switch {
	case p.Work == "":
		return p, fmt.Errorf("%w: -work is missing", errBenchUsage)
	case p.N < 1 || p.N > benchCountMax:
		return p, fmt.Errorf("%w: -n is 1 to %d, not %d", errBenchUsage, benchCountMax, p.N)
	case p.Size < 0:
		return p, fmt.Errorf("%w: -size cannot be %d", errBenchUsage, p.Size)
	case p.Outstanding < 1 || p.Outstanding > benchOutstandingMax:
		return p, fmt.Errorf("%w: -outstanding is 1 to %d, not %d", errBenchUsage, benchOutstandingMax, p.Outstanding)
	case p.Receivers < 1:
		return p, fmt.Errorf("%w: -receivers cannot be %d", errBenchUsage, p.Receivers)
	case p.Limit <= 0:
		return p, fmt.Errorf("%w: -limit cannot be %v", errBenchUsage, p.Limit)
	}
	return p, takeEmpty(p.Dir)
}

func readIdle(args []string) (peers int, dir string, err error) {
	f := flag.NewFlagSet("bench idle", flag.ContinueOnError)
	f.SetOutput(io.Discard)
	f.IntVar(&peers, "peers", 8, "")
	f.StringVar(&dir, "dir", "", "")
	if err := parseBench(f, args); err != nil {
		return 0, "", err
	}
	if peers < 1 || peers > benchDevicesMax {
		return 0, "", fmt.Errorf("%w: -peers is 1 to %d, not %d", errBenchUsage, benchDevicesMax, peers)
	}
	return peers, dir, takeEmpty(dir)
}

func parseBench(f *flag.FlagSet, args []string) error {
	err := f.Parse(args)
	switch {
	case errors.Is(err, flag.ErrHelp):
		return err
	case err != nil:
		return fmt.Errorf("%w: %v", errBenchUsage, err)
	case f.NArg() > 0:
		return fmt.Errorf("%w: %q is too much", errBenchUsage, f.Arg(0))
	}
	return nil
}

// takeEmpty wants a folder with nothing in it, made if it is missing: what is
// measured must not depend on what was there, and nothing may be overwritten.
func takeEmpty(dir string) error {
	if dir == "" {
		return fmt.Errorf("%w: -dir is missing: an empty folder for the devices' logs", errBenchUsage)
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return fmt.Errorf("%w: -dir: %v", errBenchUsage, err)
	}
	names, err := os.ReadDir(dir)
	if err != nil {
		return fmt.Errorf("%w: -dir: %v", errBenchUsage, err)
	}
	if len(names) > 0 {
		return fmt.Errorf("%w: the folder %s is not empty: name an empty one", errBenchUsage, dir)
	}
	return nil
}

// printJSON writes v as one line.
func printJSON(w io.Writer, v any) error { return json.NewEncoder(w).Encode(v) }

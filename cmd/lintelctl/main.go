package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"

	"lintel/app/words"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

// Exit codes.
const (
	exitFine    = 0
	exitFailure = 1
	exitUsage   = 2
)

// run is the whole program: it carries out one command and gives the exit code.
func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	w := words.English()
	if len(args) == 0 {
		return fail(w, stderr, &fault{id: "command-missing", usage: true})
	}
	var err error
	switch name, rest := args[0], args[1:]; name {
	case "device":
		err = deviceCommand(ctx, w, rest, stdin, stdout)
	case "demo":
		err = demoCommand(ctx, w, rest, stdout)
	case "audit":
		err = auditCommand(ctx, w, rest, stdout)
	case "replay":
		err = replayCommand(ctx, w, rest, stdout)
	case "case":
		err = caseRecord(ctx, w, rest, stdout)
	case "card":
		err = cardCommand(ctx, w, rest, stdout)
	case "paper":
		err = paperCommand(ctx, w, rest, stdout)
	case "export":
		err = exportCommand(ctx, w, rest, stdout)
	case "import":
		err = importCommand(ctx, w, rest, stdout)
	case "scan":
		err = scanCommand(ctx, w, rest, stdin, stdout)
	case "ready":
		err = readyCommand(ctx, w, rest, stdout)
	case "recon":
		err = reconCommand(ctx, w, rest, stdin, stdout)
	case "bench":
		err = benchCommand(ctx, rest, stdin, stdout, stderr)
	case "help", "-h", "-help", "--help":
		printProgramHelp(w, stdout)
	default:
		if l, known := lookNamed(name); known {
			err = lookCommand(ctx, w, l, rest, stdout)
			break
		}
		err = unknownCommand(name)
	}
	var help *helpAsked
	if errors.As(err, &help) {
		printUsage(w, stdout, help.usage, help.about)
		return exitFine
	}
	return fail(w, stderr, err)
}

// unknownCommand tells a command of a device from what is none at all.
func unknownCommand(name string) error {
	for _, c := range commands() {
		if c.name == name {
			return &fault{id: "command-device", blanks: []any{name, c.usage}, usage: true}
		}
	}
	return &fault{id: "command", blanks: []any{name}, usage: true}
}

// fail says an error and gives the exit code that goes with it.
func fail(w words.Words, stderr io.Writer, err error) int {
	if err == nil {
		return exitFine
	}
	sentence, hint := explain(w, err)
	fmt.Fprintf(stderr, "lintelctl: %s\n           %s\n", sentence, hint)
	if isUsage(err) {
		return exitUsage
	}
	return exitFailure
}

// Usage of the commands, as help and usage errors show it.
const (
	usageDevice = "lintelctl device -data DIR -name N -role R [-tag T] [-room A1]… [-listen ADDR] [-peer ADDR]… [-find=false] [-json] [-stay]"
	usageDemo   = "lintelctl demo [-seed N] [-out DIR]"
	usageAudit  = "lintelctl audit [-json] DIR"
	usageReplay = "lintelctl replay [-json] DIR"
	usageBench  = "lintelctl bench describe|run|idle …"

	usageBenchRun  = "lintelctl bench run -work receipt|ack|pipeline|fanout|catchup -n N -dir EMPTY [-size 200] [-outstanding 1000] [-receivers 8] [-limit 2.5s]"
	usageBenchIdle = "lintelctl bench idle -dir EMPTY [-peers 8]"
)

// printUsage says how a command is written and what it is for.
func printUsage(w words.Words, out io.Writer, usage string, about words.ID) {
	fmt.Fprintf(out, "  %s\n      %s\n", usage, w.Say(about))
}

func printProgramHelp(w words.Words, out io.Writer) {
	fmt.Fprintln(out, w.Say("help.program"))
	for _, line := range []struct {
		usage string
		id    words.ID
	}{
		{usageDevice, "help.device"}, {usageDemo, "help.demo"}, {usageAudit, "help.audit"}, {usageReplay, "help.replay"}, {usageCase, "help.case-record"},
		{usageCard, "help.card"}, {usagePaper, "help.paper"}, {usageExport, "help.export-dir"}, {usageImport, "help.import-dir"}, {usageScan, "help.scan"}, {usageReady, "help.ready"}, {usageRecon, "help.recon"}, {usageBench, "help.bench"},
	} {
		printUsage(w, out, line.usage, line.id)
	}
	for _, l := range kitLooks() {
		printUsage(w, out, l.folderUsage(), l.about)
	}
	fmt.Fprintf(out, "\n%s\n", w.Say("help.more"))
}

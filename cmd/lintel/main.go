package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"

	"lintel/app/words"
	_ "lintel/cmd/lintel/tongue" // before the toolkit asks for a language
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

// run is the whole program. It must be called from the main goroutine, which
// becomes the one that paints.
func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	w := words.English()
	o, err := readOptions(args)
	if err == nil {
		switch {
		case o.gallery != "":
			err = drawGallery(w, o.gallery, stdout)
		case o.demo:
			err = demoCommand(ctx, w, stdout, stderr)
		default:
			err = deviceCommand(ctx, w, o, stdin, stdout)
		}
	}
	return fail(w, stderr, err)
}

// fail says an error and gives the exit code that goes with it.
func fail(w words.Words, stderr io.Writer, err error) int {
	if err == nil {
		return exitFine
	}
	sentence, hint := explain(w, err)
	fmt.Fprintf(stderr, "lintel: %s\n        %s\n", sentence, hint)
	if isUsage(err) {
		return exitUsage
	}
	return exitFailure
}

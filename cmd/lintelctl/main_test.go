package main

import (
	"context"
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// actAsProgram, set in the environment, makes the test binary the program: for
// the processes that the demonstration and the bench start of themselves.
const actAsProgram = "LINTELCTL_TEST_ACT"

// TestMain is the program first, where the test binary was started as one, and
// only then a test: otherwise it would start itself for ever.
func TestMain(m *testing.M) {
	program := func() { os.Exit(run(context.Background(), os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }
	if os.Getenv(actAsProgram) != "" {
		program()
	}
	testscript.Main(m, map[string]func(){"lintelctl": program})
}

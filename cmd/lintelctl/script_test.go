package main

import (
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestTranscripts plays the scripts, each headed by what causes it, with the
// program as a process of its own.
func TestTranscripts(t *testing.T) {
	testscript.Run(t, testscript.Params{Dir: "testdata/script", RequireExplicitExec: true})
}

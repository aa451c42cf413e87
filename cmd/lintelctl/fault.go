package main

import (
	"errors"
	"flag"
	"io"
	"strings"

	"lintel/app/device"
	"lintel/app/words"
)

// fault is an error that knows its sentence.
type fault struct {
	id     words.ID
	blanks []any
	list   []string // what may have been meant; it follows the hint
	usage  bool     // exit code 2
}

// Error is for tests; people see the sentence.
func (f *fault) Error() string { return string(f.id) }

// blanked is an error of the packages below whose sentence has a blank that
// only the caller can fill.
type blanked struct {
	err    error
	blanks []any
}

// Error is for tests; people see the sentence.
func (b *blanked) Error() string { return b.err.Error() }

// Unwrap gives the error below.
func (b *blanked) Unwrap() error { return b.err }

// about fills the blank of err's sentence.
func about(err error, blanks ...any) error {
	if err == nil {
		return nil
	}
	return &blanked{err: err, blanks: blanks}
}

// explain words an error: one sentence, and what to do about it.
func explain(w words.Words, err error) (sentence, hint string) {
	var f *fault
	if errors.As(err, &f) {
		sentence, hint = w.Fault(f.id, f.blanks...)
		if len(f.list) > 0 {
			return sentence, hint + strings.Join(f.list, "; ")
		}
		return sentence, strings.TrimSuffix(strings.TrimSuffix(hint, " Near: "), ": ")
	}
	id, blanks := device.Fault(err)
	var b *blanked
	if len(blanks) == 0 && errors.As(err, &b) {
		blanks = b.blanks
	}
	return w.Fault(id, blanks...)
}

func isUsage(err error) bool {
	var f *fault
	return errors.As(err, &f) && f.usage
}

// helpAsked is no fault: somebody asked how a command is written.
type helpAsked struct {
	about words.ID
	usage string
}

// Error is for tests; people see the usage.
func (h *helpAsked) Error() string { return h.usage }

// readFlags reads options; usage is what the hint shows, and what -h asks for.
// The set is called as the command.
func readFlags(set *flag.FlagSet, usage string, args []string) error {
	set.SetOutput(io.Discard)
	err := set.Parse(args)
	if errors.Is(err, flag.ErrHelp) {
		return &helpAsked{about: words.ID("help." + set.Name()), usage: usage}
	}
	if err != nil {
		return &fault{id: "flag", blanks: []any{err.Error(), usage}, usage: true}
	}
	return nil
}

// missing says that an option is needed.
func missing(option, usage string) error {
	return &fault{id: "flag-missing", blanks: []any{option, usage}, usage: true}
}

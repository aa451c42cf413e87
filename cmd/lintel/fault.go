package main

import (
	"cmp"
	"errors"

	"lintel/app/device"
	"lintel/app/words"
)

// fault is an error that knows its sentence.
type fault struct {
	id     words.ID
	blanks []any
	usage  bool // exit code 2
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

// explain words an error for a command line: one sentence, and what to do about it.
func explain(w words.Words, err error) (sentence, hint string) {
	id, blanks := worded(err)
	return w.Fault(id, blanks...)
}

// explainHere words an error for whoever has the window before them.
func explainHere(w words.Words, err error) (sentence, hint string) {
	id, blanks := worded(err)
	sentence, hint = w.Fault(id, blanks...)
	return sentence, cmp.Or(w.ScreenHint(id, blanks...), hint)
}

// worded is the id of an error's sentence with what fills its blanks.
func worded(err error) (id words.ID, blanks []any) {
	var f *fault
	if errors.As(err, &f) {
		return f.id, f.blanks
	}
	if errors.Is(err, errBusy) {
		return "network-busy", nil
	}
	id, blanks = device.Fault(err)
	var b *blanked
	if len(blanks) == 0 && errors.As(err, &b) {
		blanks = b.blanks
	}
	return id, blanks
}

func isUsage(err error) bool {
	var f *fault
	return errors.As(err, &f) && f.usage
}

package main

import (
	"errors"

	"lintel/app/words"
)

// Errors of opening a window.
var (
	errNoDisplay = errors.New("no display")
	errNoOpenGL  = errors.New("no OpenGL")
	errNoDriver  = errors.New("built without windows")
)

// noWindow says in one line why there is no window.
func noWindow(w words.Words, err error) string {
	switch {
	case errors.Is(err, errNoDriver):
		return w.Say("window.no-driver")
	case errors.Is(err, errNoDisplay):
		return w.Say("window.no-display")
	case errors.Is(err, errNoOpenGL):
		return w.Say("window.no-opengl")
	}
	return err.Error()
}

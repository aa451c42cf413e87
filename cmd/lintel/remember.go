package main

import (
	"encoding/json"
	"os"
	"path/filepath"

	"lintel/app/look"
)

// remembered is what a window keeps beside the device: nothing that matters.
type remembered struct {
	Density float32 `json:"density,omitempty"` // dp for 20 mm, as it was measured
	Shade   string  `json:"shade,omitempty"`
	// Keys are places of the board by the key that presses them.
	Keys map[string]int `json:"keys,omitempty"`
}

const windowFile = "window.json"

// Shades as they are written.
const (
	shadeDark  = "dark"
	shadeLight = "light"
)

// remember reads what was kept; what cannot be used is as if it were not there.
func remember(dir string) (r remembered) {
	b, err := os.ReadFile(filepath.Join(dir, windowFile))
	if err != nil || json.Unmarshal(b, &r) != nil {
		return remembered{}
	}
	if _, err := look.NewScale(r.Density); err != nil {
		r.Density = 0
	}
	return r
}

// keep writes it in one piece.
func (r remembered) keep(dir string) error {
	b, err := json.Marshal(r)
	if err != nil {
		return err
	}
	next := filepath.Join(dir, windowFile+".next")
	if err := os.WriteFile(next, b, 0o600); err != nil {
		return err
	}
	return os.Rename(next, filepath.Join(dir, windowFile))
}

// lookOptions are how the window looks: options first, then what was kept.
func (r remembered) lookOptions(o options) look.Options {
	l := look.Defaults()
	if r.Density != 0 {
		l.Density = r.Density
	}
	if o.density != 0 {
		l.Density = o.density
	}
	if shade := o.shade; shade == shadeLight || shade == "" && r.Shade == shadeLight {
		l.Shade = look.Light
	}
	l.Reads = look.RunnerLine
	return l
}

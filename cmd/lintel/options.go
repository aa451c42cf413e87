package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/mesh"
	"lintel/requests"
)

const usage = "lintel [-data DIR] [-name N] [-role R] [-tag T] [-room A1]… [-listen ADDR] [-peer ADDR]… | lintel -demo | lintel -gallery DIR"

// options are those of the program.
type options struct {
	dir, name, listen string
	holds             requests.Holds // who has the device; empty: as before
	peers             []string
	find              bool

	size    fyne.Size
	full    bool
	density float32 // 0: as remembered, or that of a desktop
	shade   string  // "": as remembered, or dark

	demo    bool
	gallery string
	steer   bool
	hints   bool // say what to try
}

// texts collects the values of an option that may be given several times.
type texts []string

func (t *texts) String() string     { return strings.Join(*t, " ") }
func (t *texts) Set(s string) error { *t = append(*t, s); return nil }

// Bounds of a window, in dp.
const (
	windowMin = 160
	windowMax = 16384
)

func readOptions(args []string) (o options, err error) {
	set := flag.NewFlagSet("lintel", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	var rooms, peers texts
	var role, tag, size string
	var density float64
	set.StringVar(&o.dir, "data", "", "")
	set.StringVar(&o.name, "name", "", "")
	set.StringVar(&role, "role", "", "")
	set.StringVar(&tag, "tag", "", "")
	set.StringVar(&o.listen, "listen", "", "")
	set.Var(&rooms, "room", "")
	set.Var(&peers, "peer", "")
	set.BoolVar(&o.find, "find", true, "")
	set.StringVar(&size, "window", "1280x800", "")
	set.BoolVar(&o.full, "full", false, "")
	set.Float64Var(&density, "density", 0, "")
	set.StringVar(&o.shade, "shade", "", "")
	set.BoolVar(&o.demo, "demo", false, "")
	set.StringVar(&o.gallery, "gallery", "", "")
	set.BoolVar(&o.steer, "steer", false, "")
	set.BoolVar(&o.hints, "hints", false, "")
	if err := set.Parse(args); err != nil {
		return o, wrongly(err.Error())
	}
	if set.NArg() > 0 {
		return o, wrongly(set.Arg(0))
	}
	o.holds = requests.Holds{Role: mesh.ID(role), Tag: mesh.Tag(tag)}
	for _, r := range rooms {
		o.holds.Rooms = append(o.holds.Rooms, mesh.ID(r))
	}
	o.peers, o.density = peers, float32(density)
	if o.size, err = readSize(size); err != nil {
		return o, err
	}
	return o, o.check()
}

func wrongly(what string) error {
	return &fault{id: "window-flag", blanks: []any{what, usage}, usage: true}
}

// readSize reads WIDTHxHEIGHT in dp.
func readSize(text string) (fyne.Size, error) {
	var width, height float32
	n, err := fmt.Sscanf(text, "%fx%f", &width, &height)
	if err != nil || n != 2 || min(width, height) < windowMin || max(width, height) > windowMax {
		return fyne.Size{}, wrongly("-window " + text)
	}
	return fyne.NewSize(width, height), nil
}

// check reports what could not be recorded or used later.
func (o *options) check() error {
	for _, p := range o.peers {
		if !strings.Contains(p, ":") {
			return &fault{id: "address", blanks: []any{p}, usage: true}
		}
	}
	if o.density != 0 {
		if _, err := look.NewScale(o.density); err != nil {
			return wrongly(fmt.Sprintf("-density %g", o.density))
		}
	}
	if o.shade != "" && o.shade != shadeDark && o.shade != shadeLight {
		return wrongly("-shade " + o.shade)
	}
	errs := []error{mesh.Label(o.name).Valid(), o.holds.Tag.Valid()}
	if o.holds.Role != "" {
		errs = append(errs, o.holds.Role.Valid())
	}
	for _, r := range o.holds.Rooms {
		errs = append(errs, r.Valid())
	}
	if errors.Join(errs...) != nil {
		return &fault{id: "text", usage: true}
	}
	return nil
}

// ownFolder is where a device lives that was given no folder.
func ownFolder() (string, error) {
	home, err := os.UserHomeDir()
	if err != nil {
		return "", err
	}
	switch runtime.GOOS {
	case "windows":
		if local := os.Getenv("LOCALAPPDATA"); local != "" {
			return filepath.Join(local, "lintel"), nil
		}
	case "darwin":
		return filepath.Join(home, "Library", "Application Support", "lintel"), nil
	}
	if data := os.Getenv("XDG_DATA_HOME"); filepath.IsAbs(data) {
		return filepath.Join(data, "lintel"), nil
	}
	return filepath.Join(home, ".local", "share", "lintel"), nil
}

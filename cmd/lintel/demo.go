package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"

	"lintel/app/words"
)

// part is one device of the demonstration.
type part struct{ role, tag, size string }

// parts are the devices in the order of starting. Sizes are in dp: a tablet and
// two phones, drawn smaller than they are so that they lie beside each other on
// an ordinary screen.
func parts() []part {
	return []part{{"lead", "L1", "1024x690"}, {"runner", "R1", "300x690"}, {"charge", "C1", "300x690"}}
}

// demoDensity is how many dp the demonstration draws for 20 mm.
const demoDensity = "80"

// demoCommand opens three windows, or without a display plays the whole in text.
func demoCommand(ctx context.Context, w words.Words, stdout, stderr io.Writer) (err error) {
	if err := mayOpen(); err != nil {
		fmt.Fprintln(stdout, noWindow(w, err)+" "+w.Say("window.demo-plain"))
		return plainDemo(ctx, stdout, stderr)
	}
	dir, err := os.MkdirTemp("", "lintel-demo-")
	if err != nil {
		return about(err, os.TempDir())
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	fmt.Fprintln(stdout, w.Say("window.demo"))
	d := &demo{dir: dir, stderr: stderr}
	failed := d.start(ctx)
	if failed == nil {
		fmt.Fprintln(stdout, w.Say("window.demo-paired"))
		d.wait(ctx)
	}
	d.end()
	if failed != nil && ctx.Err() == nil {
		return failed
	}
	fmt.Fprintln(stdout, w.Say("window.demo-over"))
	return nil
}

// plainDemo runs the demonstration without windows, which is the other program.
func plainDemo(ctx context.Context, stdout, stderr io.Writer) error {
	own, err := os.Executable()
	if err != nil {
		return &fault{id: "no-plain"}
	}
	name := "lintelctl"
	if runtime.GOOS == "windows" {
		name += ".exe"
	}
	path := filepath.Join(filepath.Dir(own), name)
	if _, err := os.Stat(path); err != nil {
		return &fault{id: "no-plain"}
	}
	c := exec.CommandContext(ctx, path, "demo")
	c.Stdout, c.Stderr = stdout, stderr
	var ended *exec.ExitError
	if err := c.Run(); errors.As(err, &ended) {
		return &fault{id: "demo-window", blanks: []any{name, ended.Error()}}
	} else if err != nil {
		return &fault{id: "no-plain"}
	}
	return nil
}

// demo is the running demonstration. The main goroutine owns it.
type demo struct {
	dir    string
	stderr io.Writer
	all    []*player
}

// start opens all windows at once and then brings the devices together.
func (d *demo) start(ctx context.Context) error {
	program, err := os.Executable()
	if err != nil {
		return err
	}
	for _, p := range parts() {
		c := exec.Command(program, "-steer", "-hints", "-data", filepath.Join(d.dir, p.role), "-name", p.role, "-role", p.role, "-tag", p.tag,
			"-room", "A1", "-listen", "127.0.0.1:0", "-window", p.size, "-density", demoDensity)
		c.Stderr = d.stderr
		child, err := startPlayer(p.role, c)
		if err != nil {
			return err
		}
		d.all = append(d.all, child)
	}
	var addresses []string
	for i, p := range d.all {
		ready, err := p.next(ctx)
		if err != nil {
			return err
		}
		addresses = append(addresses, ready.Address)
		lines := []string{"found Anvil unit, invented", "stock", "case"}
		if i > 0 {
			a, err := d.all[0].do(ctx, "invite")
			if err != nil {
				return err
			}
			lines = []string{"join " + a.Code + " " + addresses[0]}
			for _, earlier := range addresses[1:i] {
				lines = append(lines, "dial "+earlier)
			}
		}
		for _, l := range lines {
			if _, err := p.do(ctx, l); err != nil {
				return err
			}
		}
	}
	return nil
}

// wait waits until every window was closed.
func (d *demo) wait(ctx context.Context) {
	for _, p := range d.all {
		select {
		case <-p.ended:
		case <-ctx.Done():
			return
		}
	}
}

// end ends what still runs.
func (d *demo) end() {
	for _, p := range d.all {
		p.end()
	}
}

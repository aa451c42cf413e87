package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"time"
)

// benchUnit is a unit of devices that are processes of this program. One
// goroutine owns it.
type benchUnit struct {
	program string // this program's own file
	dir     string
	stderr  io.Writer
	devices []*benchChild
}

// benchChild is one device's process.
type benchChild struct {
	name    string
	cmd     *exec.Cmd
	orders  io.WriteCloser
	answers *json.Decoder
}

func newBenchUnit(dir string, stderr io.Writer) (*benchUnit, error) {
	program, err := os.Executable()
	if err != nil {
		return nil, fmt.Errorf("finding this program's file: %w", err)
	}
	return &benchUnit{program: program, dir: dir, stderr: &sharedWriter{w: stderr}}, nil
}

// sharedWriter lets several processes complain to one place.
type sharedWriter struct {
	mu sync.Mutex // guards w
	w  io.Writer
}

// Write writes b whole.
func (s *sharedWriter) Write(b []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.w.Write(b)
}

// start starts a device on its own folder. It ends with ctx, with end, or when
// this process is gone.
func (u *benchUnit) start(ctx context.Context, name string, answers bool) (*benchChild, error) {
	c := &benchChild{name: name}
	c.cmd = exec.CommandContext(ctx, u.program, "bench", benchDeviceCommand, "-data", u.folder(name), "-name", name, fmt.Sprintf("-answers=%t", answers))
	c.cmd.Stderr = u.stderr
	c.cmd.WaitDelay = endWithin
	var err error
	if c.orders, err = c.cmd.StdinPipe(); err != nil {
		return nil, err
	}
	out, err := c.cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := c.cmd.Start(); err != nil {
		return nil, fmt.Errorf("starting a device: %w", err)
	}
	c.answers = json.NewDecoder(out)
	u.devices = append(u.devices, c)
	return c, nil
}

func (u *benchUnit) folder(name string) string { return filepath.Join(u.dir, name) }

// ask gives a device an order and waits for the answer.
func (c *benchChild) ask(o benchOrder) (a benchAnswer, err error) {
	if err = json.NewEncoder(c.orders).Encode(o); err == nil {
		err = c.answers.Decode(&a)
	}
	switch {
	case err != nil:
		return a, fmt.Errorf("the device %q has ended: %w", c.name, err)
	case a.Error != "":
		return a, fmt.Errorf("the device %q, told %q: %s", c.name, o.Do, a.Error)
	}
	return a, nil
}

// endWithin is how long a device may take to end by itself.
const endWithin = 10 * time.Second

// end closes the device's input and waits for it; one that goes on is killed.
func (c *benchChild) end() error {
	if c.cmd.ProcessState != nil {
		return nil // it has ended already
	}
	_ = c.orders.Close()
	late := time.AfterFunc(endWithin, func() { _ = c.cmd.Process.Kill() })
	defer late.Stop()
	if err := c.cmd.Wait(); err != nil {
		return fmt.Errorf("the device %q: %w", c.name, err)
	}
	return nil
}

// end ends all devices.
func (u *benchUnit) end() error {
	var failed error
	for _, c := range u.devices {
		_ = c.orders.Close() // all at once, so that none waits for another
	}
	for _, c := range u.devices {
		failed = errors.Join(failed, c.end())
	}
	return failed
}

// join starts devices that become one unit, the first one its founder, each
// with a link to every other one.
func (u *benchUnit) join(ctx context.Context, answers bool, names ...string) error {
	for _, name := range names {
		if _, err := u.start(ctx, name, answers); err != nil {
			return err
		}
	}
	founder := u.devices[0]
	if _, err := founder.ask(benchOrder{Do: doFound}); err != nil {
		return err
	}
	for _, c := range u.devices[1:] {
		shown, err := founder.ask(benchOrder{Do: doInvite})
		if err != nil {
			return err
		}
		if _, err := c.ask(benchOrder{Do: doJoin, Address: shown.Address, Code: shown.Code}); err != nil {
			return err
		}
	}
	return u.linkAll()
}

// linkAll has every pair of devices linked, as they are when they find each
// other on a network.
func (u *benchUnit) linkAll() error {
	for i, c := range u.devices[1:] {
		shown, err := c.ask(benchOrder{Do: doInvite}) // for its address; nobody uses the code
		if err != nil {
			return err
		}
		for _, d := range u.devices[i+2:] {
			if _, err := d.ask(benchOrder{Do: doKeep, Address: shown.Address}); err != nil {
				return err
			}
		}
	}
	for _, c := range u.devices {
		if _, err := c.ask(benchOrder{Do: doLinks, Count: len(u.devices) - 1}); err != nil {
			return err
		}
	}
	return nil
}

// used is the CPU time of all devices and of this process so far, in microseconds.
func (u *benchUnit) used() (sum int64, err error) {
	sum = cpuTime().Microseconds()
	for _, c := range u.devices {
		if c.cmd.ProcessState != nil {
			continue // it ended before what is measured began
		}
		a, err := c.ask(benchOrder{Do: doUsed})
		if err != nil {
			return 0, err
		}
		sum += a.Used
	}
	return sum, nil
}

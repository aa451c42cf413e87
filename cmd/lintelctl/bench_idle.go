package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"path/filepath"
)

// benchIdle starts a unit with nothing to do, says which processes it is made
// of (not this one, which only waits), and ends them when its input closes.
func benchIdle(ctx context.Context, peers int, dir string, stdin io.Reader, stdout, stderr io.Writer) error {
	u, err := newBenchUnit(dir, stderr)
	if err != nil {
		return err
	}
	names := make([]string, 0, peers+1)
	for i := range peers + 1 {
		names = append(names, fmt.Sprintf("device-%d", i+1))
	}
	if err = u.join(ctx, false, names...); err == nil {
		err = u.idle(ctx, stdin, stdout)
	}
	return errors.Join(err, u.end())
}

// idle prints the processes and waits until the input closes or ctx ends.
func (u *benchUnit) idle(ctx context.Context, stdin io.Reader, stdout io.Writer) error {
	pids := []int{}
	for _, c := range u.devices {
		pids = append(pids, c.cmd.Process.Pid)
	}
	line, err := json.Marshal(map[string][]int{filepath.Base(u.program): pids})
	if err != nil {
		return err
	}
	if _, err := fmt.Fprintf(stdout, "READY %s\n", line); err != nil {
		return err
	}
	closed := make(chan error, 1)
	go func() { // ends with the input; when ctx ends first, with the process
		_, err := io.Copy(io.Discard, stdin)
		closed <- err
	}()
	select {
	case <-ctx.Done():
		return nil // asked to end
	case err := <-closed:
		return err
	}
}

package main

import (
	"bufio"
	"context"
	"encoding/json"
	"io"
	"os/exec"
	"time"
)

// player is one device of the demonstration: a process of its own. The main
// goroutine owns it.
type player struct {
	name    string
	command *exec.Cmd
	stdin   io.WriteCloser
	answers chan answer   // one line at a time is under way
	ended   chan struct{} // closed when the process said its last
}

// leaveWithin is how long a device may take to end after its input was closed.
const leaveWithin = 5 * time.Second

// startPlayer starts a device whose command was made ready.
func startPlayer(name string, c *exec.Cmd) (*player, error) {
	p := &player{name: name, command: c, answers: make(chan answer, 1), ended: make(chan struct{})}
	var err error
	if p.stdin, err = c.StdinPipe(); err != nil {
		return nil, err
	}
	out, err := c.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := c.Start(); err != nil {
		return nil, err
	}
	go func() { // joined by end, through ended
		defer close(p.ended)
		for lines := bufio.NewScanner(out); lines.Scan(); {
			var a answer
			if json.Unmarshal(lines.Bytes(), &a) == nil {
				p.answers <- a
			}
		}
	}()
	return p, nil
}

// next waits for the device's next line.
func (p *player) next(ctx context.Context) (answer, error) {
	select {
	case a := <-p.answers:
		if a.Event == "error" {
			return a, &fault{id: "demo-window", blanks: []any{p.name, a.Error}}
		}
		return a, nil
	case <-p.ended:
		return answer{}, &fault{id: "demo-window", blanks: []any{p.name, "–"}}
	case <-ctx.Done():
		return answer{}, ctx.Err()
	}
}

// do gives the device a line and waits for its answer.
func (p *player) do(ctx context.Context, line string) (answer, error) {
	if _, err := io.WriteString(p.stdin, line+"\n"); err != nil {
		return answer{}, &fault{id: "demo-window", blanks: []any{p.name, "–"}}
	}
	return p.next(ctx)
}

// end closes the device's input and waits; a device that does not end is ended
// by its own process id.
func (p *player) end() {
	_ = p.stdin.Close() // it may have ended already
	select {
	case <-p.ended:
	case <-time.After(leaveWithin):
		_ = p.command.Process.Kill() // it may have ended just now
		<-p.ended
	}
	_ = p.command.Wait() // its code says nothing that its lines did not
}

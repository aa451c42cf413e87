package main

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"strings"
	"sync"
	"time"
)

// heard is one JSON line of a device of the demonstration.
type heard struct {
	Event   string `json:"event"`
	Command string `json:"command"`
	Request string `json:"request"`
	Ref     string `json:"ref"`
	Shown   string `json:"shown"`
	Marks   int    `json:"marks"`
	Error   string `json:"error"`
	Code    string `json:"code"`
	Address string `json:"address"`
	Hash    string `json:"hash"`
	Level   uint8  `json:"level"`
	Name    string `json:"name"`
	Health  string `json:"health"`
	May     bool   `json:"may"`
	Ready   bool   `json:"ready"`
	State   string `json:"state"`
	Number  uint32 `json:"number"`
	Order   int64  `json:"order"`
	N       int64  `json:"n"`
	Issue   string `json:"issue"`
	Syringe string `json:"syringe"`
	line    []byte
}

// reply is what a command was answered with, and the lines listed before it.
type reply struct {
	heard
	listed []heard
}

// player is one device of the demonstration: a process of its own.
type player struct {
	name    string
	command *exec.Cmd
	dead    bool // killed; only the scene sets it
	stdin   io.WriteCloser
	ready   chan heard // has room for the one ready line
	answers chan reply // one command at a time is under way
	read    chan struct{}

	mu       sync.Mutex // guards the rest
	requests map[string]heard
	changed  chan struct{} // closed and made anew with every request line
}

// startPlayer starts a device whose command was made ready.
func startPlayer(name string, command *exec.Cmd) (*player, error) {
	p := &player{
		name: name, command: command,
		ready: make(chan heard, 1), answers: make(chan reply, 1), read: make(chan struct{}),
		requests: map[string]heard{}, changed: make(chan struct{}),
	}
	var err error
	if p.stdin, err = p.command.StdinPipe(); err != nil {
		return nil, err
	}
	out, err := p.command.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := p.command.Start(); err != nil {
		return nil, err
	}
	go func() { // joined by end, through read
		defer close(p.read)
		p.listen(out)
	}()
	return p, nil
}

// listen takes the device's lines until it ends.
func (p *player) listen(out io.Reader) {
	var listed []heard
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		h := heard{line: append([]byte(nil), lines.Bytes()...)}
		if json.Unmarshal(h.line, &h) != nil {
			continue
		}
		switch h.Event {
		case "ready":
			p.ready <- h
		case "done", "error":
			p.answers <- reply{h, listed}
			listed = nil
		case "fact", "link", "copied", "note", "joined", "left":
		case "request":
			p.mu.Lock()
			p.requests[h.Ref] = h
			close(p.changed)
			p.changed = make(chan struct{})
			p.mu.Unlock()
		default:
			listed = append(listed, h)
		}
	}
}

// do gives the device a command and waits for its answer.
func (p *player) do(ctx context.Context, line string) (reply, error) {
	if _, err := io.WriteString(p.stdin, line+"\n"); err != nil {
		return reply{}, p.gone()
	}
	select {
	case a := <-p.answers:
		if a.Event == "error" {
			return a, &fault{id: "demo-child", blanks: []any{p.name, line + ": " + strings.TrimSuffix(a.Error, ".")}}
		}
		return a, nil
	case <-p.read:
		return reply{}, p.gone()
	case <-ctx.Done():
		return reply{}, late(ctx, p.name+": "+line)
	}
}

// late says why a wait ended.
func late(ctx context.Context, what string) error {
	if errors.Is(ctx.Err(), context.Canceled) {
		return &fault{id: "interrupted"}
	}
	return &fault{id: "demo-late", blanks: []any{what}}
}

func (p *player) gone() error {
	return &fault{id: "demo-child", blanks: []any{p.name, "it has ended"}}
}

// until waits until the device shows a request with at least so many marks.
func (p *player) until(ctx context.Context, ref string, marks int) (heard, error) {
	for {
		p.mu.Lock()
		h, changed := p.requests[ref], p.changed
		p.mu.Unlock()
		if h.Marks >= marks {
			return h, nil
		}
		select {
		case <-changed:
		case <-p.read:
			return h, p.gone()
		case <-ctx.Done():
			return h, late(ctx, fmt.Sprintf("%s: %s", p.name, h.Request))
		}
	}
}

// kill ends the device as a dead battery would.
func (p *player) kill() {
	p.dead = true
	_ = p.command.Process.Kill() // by its own process id; one that ended already is as dead
	<-p.read
	_ = p.command.Wait()
}

// leaveWithin is how long a device may take to end after its input was closed.
const leaveWithin = 5 * time.Second

// end closes the device's input and waits; a device that does not end is ended
// by its own process id.
func (p *player) end() {
	if p.dead {
		return
	}
	p.goOn() // it may have been stopped when something failed
	_ = p.stdin.Close()
	select {
	case <-p.read:
	case <-time.After(leaveWithin):
		_ = p.command.Process.Kill()
		<-p.read
	}
	_ = p.command.Wait() // its code says nothing that its lines did not
}

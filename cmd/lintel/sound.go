package main

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"sync"
	"time"

	"lintel/app/look"
)

// programSounder plays sounds through a program of the system: Go has no sound
// of its own, and a library would be a condition for starting.
type programSounder struct {
	dir     string          // holds the sounds as files
	changed func()          // called when whether it works became another thing; must not block
	queue   chan look.Sound // soundsMax wait while another is played
	find    func() []string // the program and its options, without the file; nil: none
	mu      sync.Mutex      // guards the rest
	works   bool
	known   bool
}

// soundsMax bounds the sounds that wait for the one that is played.
const soundsMax = 2

// soundMax bounds how long one sound may take to be played.
const soundMax = 5 * time.Second

// newProgramSounder makes one; run plays.
func newProgramSounder(dir string, changed func()) *programSounder {
	return &programSounder{dir: dir, changed: changed, queue: make(chan look.Sound, soundsMax), find: findPlayer}
}

// Play is part of sounder.
func (p *programSounder) Play(s look.Sound) {
	select {
	case p.queue <- s:
	default: // enough will be heard
	}
}

// Works is part of sounder. Before the first sound it is not known.
func (p *programSounder) Works() (works, known bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.works, p.known
}

// run plays until ctx ends.
func (p *programSounder) run(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case s := <-p.queue:
			p.note(p.play(ctx, s) == nil)
		}
	}
}

func (p *programSounder) note(works bool) {
	p.mu.Lock()
	same := p.known && p.works == works
	p.works, p.known = works, true
	p.mu.Unlock()
	if !same {
		p.changed()
	}
}

// play writes the sound into a file and waits until the program has played it.
func (p *programSounder) play(ctx context.Context, s look.Sound) error {
	command := p.find()
	if command == nil {
		return exec.ErrNotFound
	}
	path := filepath.Join(p.dir, soundFile(s))
	if err := os.WriteFile(path, s.WAV(), 0o600); err != nil {
		return err
	}
	ctx, stop := context.WithTimeout(ctx, soundMax)
	defer stop()
	return exec.CommandContext(ctx, command[0], append(command[1:], path)...).Run()
}

func soundFile(s look.Sound) string {
	switch s {
	case look.SoundCall:
		return "call.wav"
	case look.SoundReminder:
		return "reminder.wav"
	}
	return "tick.wav"
}

// findPlayer is the first program of the system that plays a file and says by
// its exit code whether it could.
func findPlayer() []string {
	players := [][]string{{"pw-play"}, {"paplay"}, {"aplay", "-q"}}
	switch runtime.GOOS {
	case "darwin":
		players = [][]string{{"afplay"}}
	case "windows":
		players = [][]string{{"powershell", "-NoProfile", "-Command", "& {(New-Object Media.SoundPlayer $args[0]).PlaySync()}"}}
	}
	for _, command := range players {
		if path, err := exec.LookPath(command[0]); err == nil {
			return append([]string{path}, command[1:]...)
		}
	}
	return nil
}

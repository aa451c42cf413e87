package integration

import (
	"bufio"
	"bytes"
	"encoding/json"
	"io"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// heard is one JSON line of a device, as far as the tests read it.
type heard struct {
	Event, Command                                 string
	Request, Ref, Mark, Shown, Loop, Delivery, Tag string
	Error, Hint, Note, Text                        string
	Code, Address, Device, Name, Health, Hash      string
	Finding, Where, Status, Tap                    string
	Number, Count, Copies, Entries, Findings, Seq  int
	Saved, Ringing, Far, Current                   bool

	raw string
}

// Bounds on how long a test waits for a process.
const (
	hearWithin  = 25 * time.Second // for a line
	leaveWithin = 10 * time.Second // for the end, once its input was closed
)

// readLines reads what a command printed with -json.
func readLines(t *testing.T, out string) (all []heard) {
	t.Helper()
	for text := range strings.Lines(out) {
		h := heard{raw: text}
		require.NoError(t, json.Unmarshal([]byte(text), &h), text)
		all = append(all, h)
	}
	return all
}

// process is one device at work. The test's goroutine gives it commands; another
// one reads its lines.
type process struct {
	t       *testing.T
	name    string
	command *exec.Cmd
	stdin   io.WriteCloser
	stderr  bytes.Buffer  // to be read after ended
	ended   chan struct{} // closed when the process is gone and all it said was read
	address string
	device  string

	mu    sync.Mutex // guards the rest
	lines []heard
	more  chan struct{} // closed and made anew with every line
}

// launch starts a device and does not wait until it is ready. wrap comes before
// the program.
func launch(t *testing.T, name string, wrap []string, args ...string) *process {
	t.Helper()
	path, err := program()
	require.NoError(t, err)
	all := append(append(append([]string{}, wrap...), path, "device", "-json"), args...)
	p := &process{t: t, name: name, command: exec.Command(all[0], all[1:]...), ended: make(chan struct{}), more: make(chan struct{})}
	p.command.Stderr = &p.stderr
	p.stdin, err = p.command.StdinPipe()
	require.NoError(t, err)
	// A pipe of our own: Wait may close StdoutPipe before the last line was read.
	out, in, err := os.Pipe()
	require.NoError(t, err)
	p.command.Stdout = in
	require.NoError(t, p.command.Start())
	require.NoError(t, in.Close())
	go func() { // joined by the cleanup, through ended
		defer close(p.ended)
		p.listen(out)
		_ = out.Close()
		_ = p.command.Wait() // its code is looked at by whoever needs it
	}()
	t.Cleanup(func() { p.kill() })
	return p
}

// listen takes the lines until the process ends.
func (p *process) listen(out io.Reader) {
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		h := heard{raw: lines.Text()}
		if err := json.Unmarshal(lines.Bytes(), &h); err != nil {
			h.Event = "no JSON"
		}
		p.mu.Lock()
		p.lines = append(p.lines, h)
		close(p.more)
		p.more = make(chan struct{})
		p.mu.Unlock()
	}
}

// isReady waits for the ready line.
func (p *process) isReady() *process {
	p.t.Helper()
	h := p.await("the ready line", 0, func(h heard) bool { return h.Event == "ready" || h.Event == "error" })
	require.Equal(p.t, "ready", h.Event, "%s: %s", p.name, h.raw)
	p.address, p.device = h.Address, h.Device
	return p
}

// said is how many lines the device has said so far.
func (p *process) said() int {
	p.mu.Lock()
	defer p.mu.Unlock()
	return len(p.lines)
}

// find waits for a line from a place on that fits: its place, or -1 when the
// process ended or the time is over.
func (p *process) find(from int, fits func(heard) bool) (heard, int) {
	late := time.NewTimer(hearWithin)
	defer late.Stop()
	for gone := false; ; {
		p.mu.Lock()
		lines, more := p.lines, p.more
		p.mu.Unlock()
		for ; from < len(lines); from++ {
			if fits(lines[from]) {
				return lines[from], from
			}
		}
		if gone {
			return heard{}, -1
		}
		select {
		case <-more:
		case <-p.ended:
			gone = true // look once more
		case <-late.C:
			return heard{}, -1
		}
	}
}

// await is find where the line must come.
func (p *process) await(what string, from int, fits func(heard) bool) heard {
	p.t.Helper()
	h, at := p.find(from, fits)
	if at < 0 {
		p.t.Fatalf("%s did not say %s; its last lines:\n%s", p.name, what, p.tail())
	}
	return h
}

// tailMax is how many lines a failure shows.
const tailMax = 25

func (p *process) tail() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	var out []string
	for _, h := range p.lines[max(0, len(p.lines)-tailMax):] {
		out = append(out, h.raw)
	}
	return strings.Join(out, "\n")
}

// try gives a command and waits for its answer; ok is false if the process ended
// before it answered.
func (p *process) try(line string) (answer heard, listed []heard, ok bool) {
	p.t.Helper()
	from := p.said()
	if _, err := io.WriteString(p.stdin, line+"\n"); err != nil {
		return answer, nil, false
	}
	answer, at := p.find(from, func(h heard) bool { return h.Event == "done" || h.Event == "error" })
	if at < 0 {
		select {
		case <-p.ended:
			return answer, nil, false
		default:
			p.t.Fatalf("%s did not answer %q; its last lines:\n%s", p.name, line, p.tail())
		}
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	return answer, p.lines[from:at], true
}

// do gives a command that must be carried out.
func (p *process) do(line string) heard {
	p.t.Helper()
	answer, _, ok := p.try(line)
	require.True(p.t, ok, "%s ended at %q: %s", p.name, line, p.tail())
	require.Equal(p.t, "done", answer.Event, "%s: %q: %s", p.name, line, answer.raw)
	return answer
}

// list gives a command that lists things and returns those of one kind.
func (p *process) list(line, event string) (out []heard) {
	p.t.Helper()
	answer, listed, ok := p.try(line)
	require.True(p.t, ok && answer.Event == "done", "%s: %q: %s", p.name, line, answer.raw)
	for _, h := range listed {
		if h.Event == event {
			out = append(out, h)
		}
	}
	return out
}

// refused gives a command that must not be carried out, and must say why and what to do.
func (p *process) refused(line string) heard {
	p.t.Helper()
	answer, _, ok := p.try(line)
	require.True(p.t, ok && answer.Event == "error", "%s: %q: %s", p.name, line, answer.raw)
	require.NotEmpty(p.t, answer.Error)
	require.NotEmpty(p.t, answer.Hint)
	return answer
}

// kill ends the process with SIGKILL, if it still runs, and waits for its end.
func (p *process) kill() {
	_ = p.command.Process.Kill() // it may have ended already
	<-p.ended
}

// leave closes the device's input and gives its exit code; a process that does
// not end is a failure.
func (p *process) leave() int {
	p.t.Helper()
	_ = p.stdin.Close() // it may have ended already
	late := time.NewTimer(leaveWithin)
	defer late.Stop()
	select {
	case <-p.ended:
	case <-late.C:
		p.kill()
		p.t.Errorf("%s went on when its input was closed", p.name)
	}
	return p.command.ProcessState.ExitCode()
}

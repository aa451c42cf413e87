package main

import (
	"bufio"
	"context"
	"encoding/json"
	"strings"

	"fyne.io/fyne/v2"

	"lintel/mesh"
)

// answer is one JSON line.
type answer struct {
	Event   string   `json:"event"`
	Address string   `json:"address,omitempty"`
	Device  string   `json:"device,omitempty"`
	Code    string   `json:"code,omitempty"`
	Error   string   `json:"error,omitempty"`
	Hint    string   `json:"hint,omitempty"`
	Targets []target `json:"targets,omitempty"`
}

// steer obeys lines until its input ends, and with that ends the window.
func (b *beside) steer(ctx context.Context) {
	say := json.NewEncoder(b.stdout)
	_ = say.Encode(answer{Event: "ready", Address: b.worker.dev.Address(), Device: b.worker.dev.Key().Hex()}) // whoever listens no more closes the input
	lines := bufio.NewScanner(b.stdin)
	for lines.Scan() {
		line := strings.Fields(lines.Text())
		if len(line) == 0 {
			continue
		}
		if line[0] == "quit" {
			break
		}
		if say.Encode(b.answer(ctx, line)) != nil {
			break
		}
	}
	b.window.end()
}

// answer obeys one line, unless everything ends.
func (b *beside) answer(ctx context.Context, line []string) answer {
	b.steering.Lock()
	defer b.steering.Unlock()
	a, err := obey(ctx, line, b.worker, b.window)
	if err != nil {
		a = answer{Event: "error"}
		a.Error, a.Hint = explain(b.window.words, err)
	}
	return a
}

// obey carries out one line.
func obey(ctx context.Context, line []string, w *worker, x *window) (a answer, err error) {
	a.Event = "done"
	switch verb, rest := line[0], line[1:]; {
	case verb == "found" && len(rest) > 0:
		return a, w.found(ctx, mesh.Label(strings.Join(rest, " ")))
	case verb == "stock":
		return a, w.stock(ctx)
	case verb == "invite":
		code, _, err := w.dev.Invite(ctx, w.by(), func(mesh.Key, error) {})
		a.Code = strings.ReplaceAll(code, " ", "")
		return a, err
	case verb == "join" && len(rest) == 2:
		return a, w.join(ctx, rest[0], rest[1])
	case verb == "dial" && len(rest) == 1:
		w.dev.Keep(rest[0])
		return a, nil
	case verb == "case":
		return a, w.begin(ctx)
	case verb == "page" && len(rest) == 1:
		p, known := pageNames()[rest[0]]
		if !known {
			return a, wrongly(strings.Join(line, " "))
		}
		fyne.DoAndWait(func() { x.frame.open(p) })
		return a, nil
	case verb == "targets":
		a.Event = "targets"
		fyne.DoAndWait(func() { a.Targets = targets(x.win.Canvas()) })
		return a, nil
	}
	return a, wrongly(strings.Join(line, " "))
}

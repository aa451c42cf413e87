package main

import (
	"bufio"
	"context"
	"encoding/json"
	"io"
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
func steer(ctx context.Context, stdin io.Reader, stdout io.Writer, w *worker, x *window) {
	say := json.NewEncoder(stdout)
	_ = say.Encode(answer{Event: "ready", Address: w.dev.Address(), Device: w.dev.Key().Hex()}) // whoever listens no more closes the input
	lines := bufio.NewScanner(stdin)
	for lines.Scan() && ctx.Err() == nil {
		words := strings.Fields(lines.Text())
		if len(words) == 0 {
			continue
		}
		if words[0] == "quit" {
			break
		}
		a, err := obey(ctx, words, w, x)
		if err != nil {
			a = answer{Event: "error"}
			a.Error, a.Hint = explain(x.words, err)
		}
		if say.Encode(a) != nil {
			break
		}
	}
	fyne.Do(fyne.CurrentApp().Quit)
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
	case verb == "targets":
		a.Event = "targets"
		fyne.DoAndWait(func() { a.Targets = targets(x.win.Canvas()) })
		return a, nil
	}
	return a, wrongly(strings.Join(line, " "))
}

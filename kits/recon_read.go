package kits

import (
	"cmp"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// ReadRecon reads written cases: an object with cases, one case, or a list of
// cases. An event is a list: word, amount, who, witness or reason. A word may
// carry the name of its record behind a #. Only close and void need no amount. A
// case without an id is called by its place in the list, from 1.
func ReadRecon(b []byte) ([]ReconCase, error) {
	type written struct {
		ID       string              `json:"id"`
		Measure  string              `json:"measure"`
		Events   [][]json.RawMessage `json:"events"`
		Register *struct {
			Start *int64 `json:"start"`
		} `json:"register_balance"`
	}
	if len(b) > ReconLenMax {
		return nil, fmt.Errorf("%w: %d bytes, at most %d", ErrRecon, len(b), ReconLenMax)
	}
	var file struct {
		Cases []written `json:"cases"`
		written
	}
	var err error
	if strings.HasPrefix(strings.TrimSpace(string(b)), "[") {
		err = json.Unmarshal(b, &file.Cases)
	} else {
		err = json.Unmarshal(b, &file)
	}
	if err != nil {
		return nil, fmt.Errorf("%w: %v", ErrRecon, err)
	}
	if file.Cases == nil && file.Events != nil {
		file.Cases = []written{file.written}
	}
	if len(file.Cases) == 0 || len(file.Cases) > ReconCasesMax {
		return nil, fmt.Errorf("%w: %d cases, 1 to %d", ErrRecon, len(file.Cases), ReconCasesMax)
	}
	var out []ReconCase
	for n, w := range file.Cases {
		c := ReconCase{ID: cmp.Or(w.ID, strconv.Itoa(n+1)), Measure: w.Measure}
		if w.Register != nil {
			c.Start = w.Register.Start
		}
		if c.Events, err = readEvents(c.ID, w.Events); err != nil {
			return nil, err
		}
		out = append(out, c)
	}
	return out, nil
}

func readEvents(id string, events [][]json.RawMessage) (out []ReconEvent, err error) {
	if len(events) > ReconEventsMax {
		return nil, fmt.Errorf("%w: case %s: %d events, at most %d", ErrRecon, id, len(events), ReconEventsMax)
	}
	for i, fields := range events {
		var e ReconEvent
		into := []any{&e.Word, &e.Amount, &e.Who, &e.Witness}
		if len(fields) == 0 || len(fields) > len(into) {
			return nil, fmt.Errorf("%w: case %s, event %d: %d fields", ErrRecon, id, i, len(fields))
		}
		for n, f := range fields {
			if err := json.Unmarshal(f, into[n]); err != nil {
				return nil, fmt.Errorf("%w: case %s, event %d: %s cannot be its %s", ErrRecon, id, i, f, reconField(n))
			}
		}
		e.Word, e.Name, _ = strings.Cut(e.Word, "#")
		if ends := e.Word == "close" || e.Word == "void"; !ends && (len(fields) < 2 || string(fields[1]) == "null") {
			return nil, fmt.Errorf("%w: case %s, event %d: %q without an amount", ErrRecon, id, i, e.Word)
		}
		out = append(out, e)
	}
	return out, nil
}

// reconField is what the n-th field of an event is.
func reconField(n int) string { return [...]string{"word", "whole amount", "person", "witness"}[n] }

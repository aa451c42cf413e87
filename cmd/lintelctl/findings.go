package main

import (
	"fmt"
	"strings"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
)

// findingEvent is something that does not add up, or cannot be read.
type findingEvent struct {
	Event   string   `json:"event"` // finding
	Finding words.ID `json:"finding"`
	Where   string   `json:"where,omitempty"` // a place and item, a feed, a position in the log
	Refs    []string `json:"refs,omitempty"`
	Want    int64    `json:"want,omitempty"`
	Got     int64    `json:"got,omitempty"`
	Drill   bool     `json:"drill,omitempty"` // it is about exercises alone
}

func (e findingEvent) say(w words.Words) string {
	said := w.Say("finding."+e.Finding, e.Where, e.Want, e.Got)
	if e.Drill {
		return w.Say("audit.drill", said)
	}
	return said
}

// found is a finding without figures.
func found(id words.ID, where string, refs ...mesh.Ref) findingEvent {
	e := findingEvent{Event: "finding", Finding: id, Where: where}
	for _, r := range refs {
		e.Refs = append(e.Refs, r.Hex())
	}
	return e
}

// findings lists everything in a folded state that a person should look at; what
// is about exercises alone comes last.
func findings(v station.View) (out []findingEvent) {
	for _, f := range v.Peer.Forks() {
		out = append(out, found("forked", f.String()))
	}
	for _, r := range v.Peer.Conflicts() {
		out = append(out, found("conflict", r.String(), r))
	}
	for _, h := range v.Peer.Above() {
		out = append(out, found("above-cut", fmt.Sprintf("%s %d", h.Feed, h.Seq)))
	}
	for _, u := range v.Board.Unreadable() {
		out = append(out, found("unread-part", u.Ref.String(), u.Ref))
	}
	for _, m := range v.Board.Loose() {
		out = append(out, found("loose", m.Ref.String(), m.Ref))
	}
	for _, m := range v.Board.UnmetJoins() {
		out = append(out, found("loose-join", m.Ref.String(), m.Ref))
	}
	for _, m := range v.Board.Orphans() {
		out = append(out, found("orphan", m.Ref.String(), m.Ref))
	}
	var drilled []findingEvent
	exercise := v.Training()
	for _, f := range v.Ledger.Audit() {
		e := found(words.ID(f.ID), whereOf(v.Ledger, f), f.Refs...)
		e.Want, e.Got = f.Want, f.Got
		if e.Drill = v.Ledger.OfExercise(f, exercise); e.Drill {
			drilled = append(drilled, e)
			continue
		}
		out = append(out, e)
	}
	return append(out, drilled...)
}

// whereOf says what a finding of the ledger is about.
func whereOf(l *kits.Ledger, f kits.Finding) string {
	var said []string
	if f.Cell.Item != 0 {
		said = append(said, nameOf(l, f.Cell.Item))
	}
	if f.Cell.Place.Sort != 0 {
		said = append(said, f.Cell.Place.Words())
	}
	for _, r := range f.Refs {
		said = append(said, r.String())
	}
	return strings.Join(said, " ")
}

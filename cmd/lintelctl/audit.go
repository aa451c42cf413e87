package main

import (
	"context"
	"flag"
	"io"
	"slices"
	"time"

	"lintel/app/device"
	"lintel/app/words"
	"lintel/mesh"
)

// readFolderArgs reads [-json] DIR.
func readFolderArgs(name, usage string, args []string) (dir string, json bool, err error) {
	set := flag.NewFlagSet(name, flag.ContinueOnError)
	set.BoolVar(&json, "json", false, "")
	if err := readFlags(set, usage, args); err != nil {
		return "", false, err
	}
	if set.NArg() != 1 {
		return "", false, missing("DIR", usage)
	}
	return set.Arg(0), json, nil
}

// Reading a folder in which a device is just writing may meet half a batch at
// the end, which the next look finds whole.
const (
	looksMax  = 5
	lookAgain = 100 * time.Millisecond
)

// readFolder reads a data folder, again where its end looks torn.
func readFolder(ctx context.Context, dir string) (logs []device.Log, err error) {
	for range looksMax {
		logs, err = device.ReadFolder(dir)
		if err != nil || !slices.ContainsFunc(logs, func(l device.Log) bool { return l.Found.Torn != nil }) {
			break
		}
		select {
		case <-ctx.Done():
			return nil, &fault{id: "interrupted"}
		case <-time.After(lookAgain):
		}
	}
	return logs, about(err, dir)
}

// logEvent heads one unit's log.
type logEvent struct {
	Event   string `json:"event"` // log
	Unit    string `json:"unit"`
	Group   string `json:"group"`
	Entries int    `json:"entries"`
	Devices int    `json:"devices"`
	Current bool   `json:"current"` // false: the device left this unit
}

func (e logEvent) say(w words.Words) string {
	s := w.Say("audit.head", e.Unit, e.Group[:8], e.Entries, e.Devices)
	if !e.Current {
		s += w.Say("device.and") + w.Say("audit.earlier")
	}
	return s
}

func headOf(l device.Log) logEvent {
	v := l.Reading.View
	return logEvent{
		Event: "log", Unit: string(v.Peer.Unit()), Group: l.Group.Hex(), Entries: len(l.Reading.Entries),
		Devices: len(v.Peer.Devices()), Current: l.Current,
	}
}

// stateEvent is the folded state.
type stateEvent struct {
	Event   string `json:"event"` // state
	Hash    string `json:"hash"`
	Fold    int    `json:"fold"`
	Entries int    `json:"entries"`
}

func (e stateEvent) say(w words.Words) string { return w.Say("audit.state", e.Hash, e.Fold) }

func stateOf(l device.Log) stateEvent {
	return stateEvent{Event: "state", Hash: l.Reading.View.StateHash().Hex(), Fold: mesh.FoldVersion, Entries: len(l.Reading.Entries)}
}

// logFindings lists what is wrong with a log as it lies on the disk, then with
// what it says.
func logFindings(l device.Log) (out []findingEvent) {
	if l.Found.Torn != nil {
		out = append(out, found("torn", l.Found.Torn.String()))
	}
	for _, d := range l.Found.Damage {
		out = append(out, found("damage", d.String()))
	}
	for _, n := range l.Reading.Noted {
		switch n.Note {
		case mesh.NoteBadSigned:
			out = append(out, found("unsigned", n.Feed.String()))
		case mesh.NoteRubbish:
			out = append(out, found("unreadable-entry", ""))
		}
	}
	for _, f := range l.Reading.Wrong {
		out = append(out, found("bad-signature", f.String()))
	}
	for _, f := range l.Reading.Gaps {
		out = append(out, found("gap", f.String()))
	}
	return append(out, findings(l.Reading.View)...)
}

// auditEvent ends an audit.
type auditEvent struct {
	Event    string `json:"event"` // audit
	Findings int    `json:"findings"`
	Drills   int    `json:"drills,omitempty"` // how many of them are about exercises alone
}

func (e auditEvent) say(w words.Words) string {
	if e.Findings == 0 {
		return w.Say("audit.clean")
	}
	said := w.Count("audit.findings", e.Findings)
	if e.Drills > 0 {
		said += w.Say("device.and") + w.Say("audit.drills", e.Drills)
	}
	return said
}

// auditCommand checks the logs in one device's data folder. It never writes.
func auditCommand(ctx context.Context, w words.Words, args []string, stdout io.Writer) error {
	dir, json, err := readFolderArgs("audit", usageAudit, args)
	if err != nil {
		return err
	}
	logs, err := readFolder(ctx, dir)
	if err != nil {
		return err
	}
	out := &printer{out: stdout, w: w, json: json}
	n, drills := 0, 0
	for _, l := range logs {
		out.print(headOf(l))
		for _, f := range logFindings(l) {
			out.print(f)
			n++
			if f.Drill {
				drills++
			}
		}
		out.print(stateOf(l))
	}
	out.print(auditEvent{Event: "audit", Findings: n, Drills: drills})
	if n > 0 {
		return &fault{id: "audit-findings"}
	}
	return out.err
}

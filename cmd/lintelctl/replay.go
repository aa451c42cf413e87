package main

import (
	"context"
	"encoding/hex"
	"fmt"
	"io"
	"strings"
	"time"

	"lintel/app/device"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// entryEvent is one stored entry.
type entryEvent struct {
	Event  string   `json:"event"` // entry
	Turn   uint64   `json:"turn"`
	Feed   string   `json:"feed"`
	Seq    uint64   `json:"seq"`
	Hash   string   `json:"hash"`
	Tap    string   `json:"tap"`
	Wall   int64    `json:"wall"` // milliseconds since 1970 UTC, by the author's clock
	Device string   `json:"device"`
	Name   string   `json:"name"`
	Role   string   `json:"role,omitempty"`
	Tag    string   `json:"tag,omitempty"`
	Kinds  []string `json:"kinds"` // of its parts, By apart
}

func (e entryEvent) say(w words.Words) string {
	at := time.UnixMilli(e.Wall).UTC().Format("2006-01-02 15:04:05.000")
	who := strings.TrimSpace(e.Role + " " + e.Tag)
	if who == "" {
		who = w.Say("replay.program")
	}
	return w.Say("replay.entry", at, e.Turn, e.Feed, e.Seq, e.Name, who, strings.Join(e.Kinds, ", "))
}

// replayCommand lists the entries in one device's data folder in turn, then
// state and hash. It never writes.
func replayCommand(ctx context.Context, w words.Words, args []string, stdout io.Writer) error {
	dir, json, err := readFolderArgs("replay", usageReplay, args)
	if err != nil {
		return err
	}
	logs, err := readFolder(ctx, dir)
	if err != nil {
		return err
	}
	out := &printer{out: stdout, w: w, json: json}
	for _, l := range logs {
		replay(out, w, l)
	}
	return out.err
}

// replay prints one unit's log.
func replay(out *printer, w words.Words, l device.Log) {
	out.print(headOf(l))
	names := map[mesh.Key]string{}
	for _, d := range l.Reading.View.Peer.Devices() {
		names[d.Key] = string(d.Name)
	}
	for _, x := range l.Reading.Entries {
		e := entryEvent{
			Event: "entry", Turn: uint64(x.At.Turn), Feed: x.At.Feed.String(), Seq: uint64(x.At.Seq), Hash: x.At.Hash.Hex(),
			Tap: hex.EncodeToString(x.Entry.Tap[:]), Wall: int64(x.Entry.Wall),
			Device: x.Entry.Author.Hex(), Name: names[x.Entry.Author],
		}
		e.readParts(x.Entry.Parts)
		out.print(e)
	}
	for _, r := range l.Reading.View.Board.Requests() {
		out.print(describe(l.Reading.View, w, r, lookAt(l.Reading.View, r, mesh.Key{})))
	}
	out.print(stateOf(l))
}

// readParts notes who recorded an entry and what.
func (e *entryEvent) readParts(parts []mesh.Part) {
	e.Kinds = []string{}
	for _, p := range parts {
		var by mesh.By
		if p.Kind == mesh.KindBy && mesh.Decode(p.Body, &by) == nil {
			e.Role, e.Tag = string(by.Role), string(by.Tag)
			continue
		}
		e.Kinds = append(e.Kinds, kindName(p.Kind))
	}
}

// kindName is a kind as people read it: the name of its body, or its number.
func kindName(k mesh.Kind) string {
	for _, kinds := range []map[mesh.Kind]func() any{mesh.MeshKinds(), requests.Kinds(), kits.KitsKinds()} {
		if fresh, known := kinds[k]; known {
			name := fmt.Sprintf("%T", fresh())
			return name[strings.LastIndex(name, ".")+1:]
		}
	}
	return fmt.Sprintf("%#04x", uint16(k))
}

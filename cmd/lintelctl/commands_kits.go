package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"
	"time"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
)

// kitLook lists something of kits and stock, on a device and in a folder alike.
type kitLook struct {
	name  string
	usage string // without the program
	about words.ID
	read  func(words.Words, station.View, *arguments) ([]event, error)
}

// kitLooks are those that only read.
func kitLooks() []kitLook {
	return []kitLook{
		{"stock", "stock [PLACE]", "help.stock", stockEvents},
		{"kits", "kits", "help.kits", kitEvents},
		{"lot", "lot LOT [ITEM]", "help.lot", lotEvents},
		{"restock", "restock [PLACE]", "help.restock", planEvents},
		{"controlled", "controlled [sheet|list] [room A1|CASE]", "help.controlled", controlledEvents},
		{"waste", "waste [by case|room|month] [in COUNTRY] [room A1|CASE]", "help.waste", wasteEvents},
		{"label", "label SYRINGE|ITEM", "help.label", labelEvents},
		{"count", "count ROOM", "help.count-dir", endEvents}, // a device has its own, which also accepts
	}
}

// kitCommands are those of a device: the looks, the count, and what records.
func kitCommands() (out []command) {
	for _, l := range kitLooks() {
		if l.name == "restock" || l.name == "count" {
			continue // these stand elsewhere among the commands of a device
		}
		out = append(out, command{l.name, l.usage, l.about, func(s *session, ctx context.Context, a *arguments) (event, error) {
			return s.looks(ctx, l, a)
		}})
	}
	return append(out, []command{
		{"ready", "ready [ROOM] [in 40m]", "help.ready", (*session).ready},
		{"count", "count [room A1] [accept [all] | item ITEM [END]] [seen-by T] [glass]", "help.count", (*session).countCommand},
		{"counted", "counted PLACE [whole] [ITEM xN|none [/ ITEM xN|none]…]", "help.counted", (*session).counted},
		{"prepare", "prepare KIT TEMPLATE [by T] [checked-by T]", "help.prepare", (*session).prepare},
		{"check-kit", "check-kit KIT [TAG]", "help.check-kit", (*session).checkKit},
		{"seal", "seal KIT SEAL [expires YYYYMMDD]", "help.seal", (*session).seal},
		{"open-kit", "open-kit KIT [seal SEAL] [broken] [inside] [room A1]", "help.open-kit", (*session).openKit},
		{"break-down", "break-down KIT", "help.break-down", (*session).breakDown},
		{"issue", "issue ITEM xN|for REQ [at-door] [lot L] [from PLACE] [by T] [checked-by T] [role R] [page P] [room A1]", "help.issue", (*session).issue},
		{"give", "give ITEM xN|ITEM N mL|syringe SYRINGE [N mL] [room A1]", "help.give", (*session).give},
		{"waste-drug", "waste-drug ITEM xN|ITEM N mL|syringe SYRINGE [N mL] [seen-by T] [glass] [room A1]", "help.waste-drug", (*session).wasteDrug},
		{"witness", "witness MOVEMENT… [tag T] [glass|later]", "help.witness", (*session).witness},
		{"close-issue", "close-issue ISSUE [WHY]", "help.close-issue", (*session).closeIssue},
		{"reverse", "reverse MOVEMENT WHY", "help.reverse", (*session).reverse},
		{"settle", "settle MOVEMENT N…", "help.settle", (*session).settle},
		{"order", "order ITEM xN [from WORDS]", "help.order", (*session).order},
		{"receive", "receive ITEM xN [lot L] [expires YYYYMMDD] [scanned] [from PLACE] [to PLACE]", "help.receive", (*session).receive},
		{"hold-lot", "hold-lot ITEM lot L [WHY]", "help.hold-lot", (*session).holdLot},
		{"free-lot", "free-lot ITEM lot L", "help.free-lot", (*session).freeLot},
		{"pick", "pick all|PLACE [ITEM]", "help.pick", (*session).pick},
		{"seal-waste", "seal-waste CLASS SEAL [litres N] [room A1]", "help.seal-waste", (*session).sealWaste},
	}...)
}

// looks answers a look on a device.
func (s *session) looks(ctx context.Context, l kitLook, a *arguments) (event, error) {
	var all []event
	err := s.lists(ctx, func(v station.View) (err error) {
		all, err = l.read(s.w, v, a)
		return err
	})
	return s.list(l.name, all, err)
}

// restock lists what is missing where, lots as they are to be picked.
func (s *session) restock(ctx context.Context, a *arguments) (event, error) {
	for _, l := range kitLooks() {
		if l.name == "restock" {
			return s.looks(ctx, l, a)
		}
	}
	return nil, a.bad()
}

// lookNamed finds the look that a program's argument names.
func lookNamed(name string) (kitLook, bool) {
	for _, l := range kitLooks() {
		if l.name == name {
			return l, true
		}
	}
	return kitLook{}, false
}

// folderUsage is how a look is asked for in a data folder.
func (l kitLook) folderUsage() string {
	_, rest, _ := cutWord(l.usage)
	return "lintelctl " + l.name + " [-json] DIR" + rest
}

// lookCommand answers a look from a data folder, for the unit that the device
// belongs to now. It never writes.
func lookCommand(ctx context.Context, w words.Words, l kitLook, args []string, stdout io.Writer) error {
	set := flag.NewFlagSet(l.name, flag.ContinueOnError)
	json := set.Bool("json", false, "")
	if err := readFlags(set, l.folderUsage(), args); err != nil {
		return err
	}
	if set.NArg() == 0 {
		return missing("DIR", l.folderUsage())
	}
	v, err := readUnit(ctx, set.Arg(0))
	if err != nil {
		return err
	}
	v.Now = mesh.Now{Wall: mesh.Wall(time.Now().UnixMilli())}
	a := &arguments{usage: l.folderUsage()}
	for _, text := range set.Args()[1:] {
		a.words = append(a.words, word{text: text})
	}
	all, err := l.read(w, v, a)
	var f *fault
	if errors.As(err, &f) && f.id == "usage" {
		return &fault{id: "flag", blanks: []any{strings.Join(set.Args()[1:], " "), l.folderUsage()}, usage: true}
	}
	if err != nil {
		return err
	}
	out := &printer{out: stdout, w: w, json: *json}
	for _, e := range all {
		out.print(e)
	}
	if len(all) == 0 && !*json {
		_, err := fmt.Fprintln(stdout, w.Say("list.empty"))
		return err
	}
	return out.err
}

package main

import (
	"context"
	"errors"
	"flag"
	"io"
	"net"
	"os"
	"strconv"
	"strings"
	"time"

	"lintel/app/device"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
)

// deviceOptions are those of lintelctl device.
type deviceOptions struct {
	dir, name, role, tag, listen string
	rooms                        []mesh.ID
	peers                        []string
	json, stay, find             bool
}

// texts collects the values of an option that may be given several times.
type texts []string

func (t *texts) String() string     { return strings.Join(*t, " ") }
func (t *texts) Set(s string) error { *t = append(*t, s); return nil }

func readDeviceOptions(args []string) (o deviceOptions, err error) {
	set := flag.NewFlagSet("device", flag.ContinueOnError)
	var rooms, peers texts
	set.StringVar(&o.dir, "data", "", "")
	set.StringVar(&o.name, "name", "", "")
	set.StringVar(&o.role, "role", "", "")
	set.StringVar(&o.tag, "tag", "", "")
	set.StringVar(&o.listen, "listen", "", "")
	set.Var(&rooms, "room", "")
	set.Var(&peers, "peer", "")
	set.BoolVar(&o.find, "find", true, "")
	set.BoolVar(&o.json, "json", false, "")
	set.BoolVar(&o.stay, "stay", false, "")
	if err := readFlags(set, usageDevice, args); err != nil {
		return o, err
	}
	switch {
	case set.NArg() > 0:
		return o, &fault{id: "flag", blanks: []any{set.Arg(0), usageDevice}, usage: true}
	case o.dir == "":
		return o, missing("-data", usageDevice)
	case o.name == "":
		return o, missing("-name", usageDevice)
	case o.role == "":
		return o, missing("-role", usageDevice)
	}
	if _, port, err := net.SplitHostPort(o.listen); o.listen != "" && (err != nil || !isPort(port)) {
		return o, &fault{id: "listen", usage: true}
	}
	for _, r := range rooms {
		o.rooms = append(o.rooms, mesh.ID(r))
	}
	for _, p := range peers {
		if !strings.Contains(p, ":") {
			return o, &fault{id: "address", blanks: []any{p}, usage: true}
		}
	}
	o.peers = peers
	return o, o.checkTexts()
}

func isPort(s string) bool {
	_, err := strconv.ParseUint(s, 10, 16)
	return err == nil
}

// checkTexts reports a name, tag or room that could not be recorded.
func (o deviceOptions) checkTexts() error {
	type given struct {
		option, value string
		bad           error
	}
	all := []given{
		{"-name", o.name, mesh.Label(o.name).Valid()}, {"-role", o.role, mesh.ID(o.role).Valid()}, {"-tag", o.tag, mesh.Tag(o.tag).Valid()},
	}
	for _, r := range o.rooms {
		all = append(all, given{"-room", string(r), r.Valid()})
	}
	for _, x := range all {
		if x.bad != nil {
			return &fault{id: "option-text", blanks: []any{x.option, strconv.Quote(x.value)}, usage: true}
		}
	}
	return nil
}

// deviceCommand is one device at work until its input, or ctx, ends.
func deviceCommand(ctx context.Context, w words.Words, args []string, stdin io.Reader, stdout io.Writer) error {
	o, err := readDeviceOptions(args)
	if err != nil {
		return err
	}
	out := &printer{out: stdout, w: w, json: o.json}
	err = o.work(ctx, w, stdin, out)
	if err != nil && o.json {
		sentence, hint := explain(w, err)
		out.print(errorEvent{Event: "error", Error: sentence, Hint: hint})
	}
	return err
}

// work opens the device, runs it beside the session's loop, and ends both.
func (o deviceOptions) work(ctx context.Context, w words.Words, stdin io.Reader, out *printer) error {
	if _, err := os.Stat(o.dir); err != nil {
		if err := starterRole(o.role); err != nil {
			return err // before a folder is made for it
		}
	}
	m := newMail()
	dev, err := device.Open(device.Options{
		Dir: o.dir, Name: mesh.Label(o.name), Listen: o.listen, Peers: o.peers, Quiet: !o.find, Told: m.told, Failed: m.failed,
		Pairing: func(_ int, until time.Time) {
			at := until.Local().Format(time.TimeOnly)
			m.post(aboutNote{note: "pairing-closed"}, noteEvent{Event: "note", Note: "pairing-closed", Text: w.Say("note.pairing-closed", at)})
		},
	})
	if err != nil {
		return about(err, o.dir)
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	var failed error
	ended := make(chan struct{})
	go func() { // joined by the receive from ended below
		defer close(ended)
		failed = dev.Run(ctx)
	}()
	select {
	case <-dev.Ready():
		err = newSession(dev, w, out, m, o).run(ctx, o, stdin, ended)
	case <-ended:
	}
	stop()
	<-ended
	if failed != nil && !errors.Is(failed, context.Canceled) {
		err = errors.Join(err, about(failed, o.dir))
	}
	return err
}

// starterRole reports a role that is not in the list that every unit starts with.
func starterRole(role string) error {
	starter, err := station.ReadStarter()
	if err != nil {
		return err
	}
	var ids []string
	for _, r := range starter.Roles.Roles {
		if string(r.ID) == role {
			return nil
		}
		ids = append(ids, string(r.ID))
	}
	return &fault{id: "no-role", blanks: []any{role, strings.Join(ids, " ")}, usage: true}
}

// run says what the start found, then that the device is ready, and obeys.
func (s *session) run(ctx context.Context, o deviceOptions, stdin io.Reader, ended <-chan struct{}) error {
	if err := s.knownRole(ctx, s.hold.Role); err != nil {
		return err
	}
	s.started()
	if err := s.holdAgain(ctx); err != nil && !errors.Is(err, device.ErrNoUnit) {
		return err
	}
	s.out.print(readyEvent{Event: "ready", Address: s.dev.Address(), Device: s.dev.Key().Hex()})
	s.report(ctx)
	lines, stop := make(chan inputLine), make(chan struct{})
	defer close(stop)
	go readLines(stdin, lines, stop) // ends with stdin, or with the process: a read cannot be broken off
	s.loop(ctx, lines, o.stay, ended)
	return nil
}

// started tells what opening the log found.
func (s *session) started() {
	f := s.dev.Opened()
	if f == nil {
		return
	}
	if f.Torn != nil {
		s.note("torn", "", f.Torn.String())
	}
	for _, d := range f.Damage {
		if d.New {
			s.note("damage", "", d.String())
		}
	}
	if f.NotWritable != nil {
		s.note("not-writable", "")
	}
}

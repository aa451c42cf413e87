package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"time"

	"lintel/app/words"
)

// Bounds of the demonstration.
const (
	demoMax   = 60 * time.Second // from start to end
	settleMax = 8 * time.Second  // for all devices to hold the same
	settleGap = 50 * time.Millisecond
)

// demo is one demonstration.
type demo struct {
	w       words.Words
	out     io.Writer
	dir     string
	seed    uint64
	players []*player // in the order of starting
}

// demoCommand starts seven devices, plays an invented case and audits it.
func demoCommand(ctx context.Context, w words.Words, args []string, stdout io.Writer) (err error) {
	set := flag.NewFlagSet("demo", flag.ContinueOnError)
	seed := set.Uint64("seed", 1, "")
	dir := set.String("out", "", "")
	if err := readFlags(set, usageDemo, args); err != nil {
		return err
	}
	if set.NArg() > 0 {
		return &fault{id: "flag", blanks: []any{set.Arg(0), usageDemo}, usage: true}
	}
	d := &demo{w: w, out: stdout, dir: *dir, seed: *seed}
	if d.dir == "" {
		if d.dir, err = os.MkdirTemp("", "lintel-demo-"); err != nil {
			return about(err, os.TempDir())
		}
		defer func() { err = errors.Join(err, os.RemoveAll(d.dir)) }()
	} else if err := emptyFolder(d.dir); err != nil {
		return err
	}
	ctx, stop := context.WithTimeout(ctx, demoMax)
	defer stop()
	err = d.perform(ctx)
	if *dir != "" {
		fmt.Fprintln(d.out, w.Say("demo.folders", d.dir))
	}
	return err
}

// emptyFolder makes a folder where there is none, and reports one that holds
// something or that cannot be written.
func emptyFolder(dir string) error {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return about(err, dir)
	}
	all, err := os.ReadDir(dir)
	if err != nil {
		return about(err, dir)
	}
	if len(all) > 0 {
		return &fault{id: "folder-full", blanks: []any{dir}, usage: true}
	}
	tried, err := os.MkdirTemp(dir, "")
	if err != nil {
		return about(err, dir)
	}
	return about(os.Remove(tried), dir)
}

// perform runs everything with the devices up, ends them, and looks at what
// lies on their disks.
func (d *demo) perform(ctx context.Context) error {
	begun := time.Now()
	fmt.Fprintln(d.out, d.w.Say("demo.head", d.seed))
	played, err := d.live(ctx)
	for _, p := range d.players {
		p.end()
	}
	if err != nil {
		return err
	}
	return d.result(ctx, begun, played)
}

// played is what was left when the case had been played.
type played struct {
	scene  *scene
	hashes map[string]string // by player, of those that live
}

// live starts the devices, plays the case and waits until all hold the same.
func (d *demo) live(ctx context.Context) (out played, err error) {
	if err := d.start(ctx); err != nil {
		return out, err
	}
	fmt.Fprintln(d.out, d.w.Say("demo.started", len(d.players)))
	s := &scene{
		ctx: ctx, players: map[string]*player{}, marks: map[string]int{},
		random: rand.New(rand.NewPCG(d.seed, d.seed)),
	}
	out.scene = s
	for _, p := range d.players {
		s.players[p.name] = p
	}
	if s.play(); s.err != nil {
		return out, s.err
	}
	out.hashes, err = d.settle(ctx)
	return out, err
}

// start starts the devices and pairs them by code.
func (d *demo) start(ctx context.Context) error {
	program, err := os.Executable()
	if err != nil {
		return err
	}
	var addresses []string
	for _, who := range []struct{ name, role, tag string }{
		{playLead, "lead", "L1"}, {playAssistant, "assistant", "D1"}, {playRunner, "runner", "R1"}, {playCharge, "charge", "C1"},
		{playSecond, "runner", "R2"}, {playObserver, "observer", "O1"}, {playSpare, "observer", ""},
	} {
		p, err := startPlayer(who.name, exec.Command(program,
			"device", "-data", filepath.Join(d.dir, who.name), "-name", who.name, "-role", who.role, "-tag", who.tag,
			"-room", "A1", "-listen", "127.0.0.1:0", "-json"))
		if err != nil {
			return err
		}
		d.players = append(d.players, p)
		select {
		case h := <-p.ready:
			addresses = append(addresses, h.Address)
		case <-p.read:
			return p.gone()
		case <-ctx.Done():
			return late(ctx, p.name)
		}
		if err := d.enter(ctx, p, addresses); err != nil {
			return err
		}
	}
	return nil
}

// enter founds the unit with the first device, and lets every other one in.
func (d *demo) enter(ctx context.Context, p *player, addresses []string) error {
	lines := []string{"found Anvil unit, invented", "stock-demo"}
	if first := d.players[0]; p != first {
		a, err := first.do(ctx, "invite")
		if err != nil {
			return err
		}
		lines = []string{"join " + a.Code + " " + addresses[0]}
		for _, other := range addresses[1 : len(addresses)-1] {
			lines = append(lines, "dial "+other)
		}
	}
	for _, l := range lines {
		if _, err := p.do(ctx, l); err != nil {
			return err
		}
	}
	return nil
}

// settle waits until all devices that live have the same state and returns the
// hashes: the last ones where they never agreed in time.
func (d *demo) settle(ctx context.Context) (hashes map[string]string, err error) {
	until := time.Now().Add(settleMax)
	for {
		hashes = map[string]string{}
		for _, p := range d.players {
			if p.dead {
				continue
			}
			a, err := p.do(ctx, "hash")
			if err != nil {
				return nil, err
			}
			hashes[p.name] = a.Hash
		}
		if allEqual(hashes) || time.Now().After(until) {
			return hashes, nil
		}
		select {
		case <-time.After(settleGap):
		case <-ctx.Done():
			return hashes, nil
		}
	}
}

func allEqual(hashes map[string]string) bool {
	different := map[string]bool{}
	for _, h := range hashes {
		different[h] = true
	}
	return len(different) <= 1
}

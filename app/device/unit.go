package device

import (
	"context"
	"errors"
	"time"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/mesh/lan"
)

// Found begins a new unit with this device as its first member. What the device
// recorded alone before is entered again there.
func (d *Device) Found(unit mesh.Label) error {
	before := d.settings.get()
	if before.Group != "" && !before.Alone {
		return ErrHasUnit
	}
	taps, err := d.leaveAlone(d.ctx)
	if err != nil {
		return err
	}
	if err := d.found(unit, false, before.Group); err != nil {
		return err
	}
	return d.enterAgain(d.ctx, taps)
}

// FoundAlone begins a unit only to have somewhere to record: a later Join
// takes over what was recorded.
func (d *Device) FoundAlone() error {
	if c := d.settings.get(); c.Group != "" {
		return nil
	}
	return d.found("this device alone", true, "")
}

// found begins a unit after the one that is left, if any.
func (d *Device) found(unit mesh.Label, alone bool, left string) error {
	g, item, err := mesh.Found(d.Key(), d.signer, unit, fill, wallNow())
	if err != nil {
		return err
	}
	if err := d.begin(g, &item); err != nil {
		return err
	}
	if s, err := d.Station(); err == nil && d.Name() != "" {
		if _, err := s.Do(d.ctx, mesh.By{}, station.Name{Key: d.Key(), Name: d.Name()}); err != nil {
			return err
		}
	}
	return d.settings.change(func(c *config) { c.Group, c.Alone, c.Left = mesh.Key(g).Hex(), alone, left })
}

// Invite shows a code with which one device can join this one's unit. done is
// told how it ended.
func (d *Device) Invite(ctx context.Context, by mesh.By, done func(mesh.Key, error)) (code string, until time.Time, err error) {
	s, err := d.Station()
	if err != nil {
		return "", time.Time{}, err
	}
	return d.net.Show(ctx, lan.PairOffer{
		Role: lan.RoleMember, Name: d.Name(),
		Admit: func(ctx context.Context, j lan.Joiner) (lan.Welcome, error) { return d.admit(ctx, s, by, j) },
		Done:  func(_ lan.Welcome, k mesh.Key, err error) { done(k, err) },
	})
}

// ErrNotWritten says that an admission is not on the disk, so it was not given.
var ErrNotWritten = errors.New("the admission could not be written to the disk")

// admit writes the admission and returns what the joiner needs.
func (d *Device) admit(ctx context.Context, s *station.Station, by mesh.By, j lan.Joiner) (w lan.Welcome, err error) {
	r, err := s.Do(ctx, by, station.Admit{Key: j.Key, Name: j.Name})
	if err != nil {
		return w, err
	}
	if !r.Saved {
		return w, ErrNotWritten
	}
	w.Inviter = d.Name()
	err = s.Look(ctx, func(v station.View) {
		w.Group = v.Peer.Group()
		v.Peer.EachItem(func(at mesh.Order, it mesh.Item) {
			if mesh.GroupID(at.Hash) == w.Group {
				w.Founding = it
			}
			if at.Hash == r.At.Hash {
				w.Admission = it
			}
		})
	})
	return w, err
}

// Join enters the unit of a device that shows a code. What this device
// recorded alone before is entered again there.
func (d *Device) Join(ctx context.Context, addr, code string) error {
	before := d.settings.get()
	if before.Group != "" && !before.Alone {
		return ErrHasUnit
	}
	w, inviter, err := d.net.Type(ctx, addr, code, lan.PairOffer{Role: lan.RoleJoiner, Name: d.Name()})
	if err != nil {
		return err
	}
	if err := mesh.CheckFounding(w.Group, w.Founding, Verifier{}); err != nil {
		return lan.ErrWelcome
	}
	taps, err := d.leaveAlone(ctx)
	if err != nil {
		return err
	}
	err = d.settings.change(func(c *config) {
		c.Group, c.Alone, c.Trusted = mesh.Key(w.Group).Hex(), false, []string{inviter.Hex()}
		c.Left = before.Group
		if w.Address != "" {
			c.Peers = append(c.Peers, w.Address)
		}
	})
	if err != nil {
		return err
	}
	if err := d.begin(w.Group, &w.Founding); err != nil {
		return err
	}
	if w.Address != "" {
		d.net.Remember(w.Address)
	}
	return d.enterAgain(ctx, taps)
}

// recorded is one tap as it was written.
type recorded struct {
	tap   mesh.Tap
	parts []mesh.Part
}

// addRecorded adds an entry to taps if a person made it.
func addRecorded(taps []recorded, e *mesh.Entry) []recorded {
	if e.Parts[0].Kind != mesh.KindBy {
		return taps
	}
	return append(taps, recorded{tap: e.Tap, parts: e.Parts})
}

// leaveAlone ends the unit that this device had for itself and returns what
// people recorded in it.
func (d *Device) leaveAlone(ctx context.Context) (taps []recorded, err error) {
	s, err := d.Station()
	if err != nil {
		return nil, nil // it had none
	}
	err = s.Look(ctx, func(v station.View) {
		v.Peer.EachItem(func(_ mesh.Order, it mesh.Item) {
			if e, err := mesh.DecodeEntry(it.Bytes); err == nil {
				taps = addRecorded(taps, e)
			}
		})
	})
	d.end()
	return taps, err
}

// enterAgain records in the new unit what was recorded alone, under the same
// names, so that what names it still fits. Until all of it is on the disk,
// device.json says from which unit it comes.
func (d *Device) enterAgain(ctx context.Context, taps []recorded) error {
	s, err := d.Station()
	if err != nil {
		return err
	}
	saved := true
	for _, t := range taps {
		r, err := s.Enter(ctx, t.tap, t.parts)
		if err != nil {
			return err
		}
		saved = saved && r.Saved
	}
	if !saved || d.settings.get().Left == "" {
		return nil
	}
	return d.settings.change(func(c *config) { c.Left = "" })
}

// enterLeft enters again what a device that was ended while it joined had not
// yet. What is there already counts once, by its name. Where it cannot be done,
// the next start tries again.
func (d *Device) enterLeft(ctx context.Context) error {
	left, err := mesh.ParseKey(d.settings.get().Left)
	if err != nil {
		return nil // nothing is left
	}
	l, err := readLog(d.opt.Dir, mesh.GroupID(left))
	if err != nil {
		return err
	}
	var taps []recorded
	for _, e := range l.Reading.Entries {
		taps = addRecorded(taps, e.Entry)
	}
	return d.enterAgain(ctx, taps)
}

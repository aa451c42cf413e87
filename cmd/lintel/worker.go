package main

import (
	"context"
	"errors"
	"slices"
	"sync"
	"time"

	"lintel/app/brief"
	"lintel/app/charge"
	"lintel/app/debrief"
	"lintel/app/device"
	"lintel/app/join"
	"lintel/app/look"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// worker owns the device: it runs it, looks at it after every change and brings
// what it saw. Its loop owns the fields without a word about them.
type worker struct {
	dev    *device.Device
	dir    string      // of the device
	bring  func(sight) // shows a sight; blocks no longer than a queue
	sound  sounder
	hints  bool
	layout station.BoardLayout // that the unit began with
	calls  calls
	after  glimpse[mesh.Ref, debrief.Snapshot]
	stocks glimpse[charge.Wanted, charge.Snapshot]
	tested bool          // whether there is sound was tried
	fault  error         // what hinders the device
	news   chan struct{} // has a value when something changed outside of the station
	health station.Condition
	felt   time.Time // when health was read

	mu     sync.Mutex // guards the rest
	holds  requests.Holds
	open   page     // of the window
	wanted mesh.Ref // the case of the debrief; zero: the newest
	want   charge.Wanted
}

// sounder makes sounds. Play does not wait: one that comes while another lasts
// is dropped. It is called from the worker's loop and the window's goroutine.
type sounder interface {
	Play(look.Sound)
	Works() (works, known bool)
}

// newWorker makes one over a device that is open.
func newWorker(dev *device.Device, o options, news chan struct{}, sound sounder) *worker {
	return &worker{dev: dev, dir: o.dir, holds: o.holds, hints: o.hints, news: news, sound: sound, bring: func(sight) {}}
}

// wake makes the loop look again.
func wake(news chan struct{}) {
	select {
	case news <- struct{}{}:
	default: // it will look anyway
	}
}

// lookEvery is how often the device is looked at while something calls, and
// before there is a station, which itself tells of a change once a second. It is
// also the half of a flash, which so stays below 2 Hz.
const lookEvery = 500 * time.Millisecond

// run works until ctx ends and returns why the device ended.
func (w *worker) run(ctx context.Context, began func()) (failed error) {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	ended := make(chan struct{})
	go func() { // joined by the receives from ended below
		defer close(ended)
		failed = w.dev.Run(ctx)
	}()
	select {
	case <-w.dev.Ready():
		if err := w.holdAgain(ctx); err != nil && !errors.Is(err, device.ErrNoUnit) {
			w.fault = err
		}
		began()
		w.loop(ctx, ended)
	case <-ended:
	}
	stop()
	<-ended
	if errors.Is(failed, context.Canceled) {
		return nil
	}
	return failed
}

// loop looks and brings.
func (w *worker) loop(ctx context.Context, ended <-chan struct{}) {
	tick := time.NewTicker(lookEvery)
	defer tick.Stop()
	for {
		var changed <-chan struct{}
		if st, err := w.dev.Station(); err == nil {
			changed = st.Changed()
		}
		s := w.look(ctx, time.Now())
		w.bring(s)
		ticks := tick.C
		if changed != nil && len(s.Calls) == 0 {
			ticks = nil
		}
		select {
		case <-ctx.Done():
			return
		case <-ended:
			return
		case <-changed:
		case <-ticks:
		case <-w.news:
		}
	}
}

// look fills a sight.
func (w *worker) look(ctx context.Context, now time.Time) (s sight) {
	st, err := w.dev.Station()
	if err == nil {
		g := glance{hints: w.hints, layout: w.layout, after: &w.after, stock: &w.stocks}
		w.mu.Lock()
		g.at, w.after.of, w.stocks.of = w.open, w.wanted, w.want
		w.mu.Unlock()
		err = st.Look(ctx, func(v station.View) { s = sightOf(v, g) })
	}
	if err != nil { // there is no unit, or its station ends
		s = sight{Page: pageDevice, Join: &join.Snapshot{Now: mesh.Wall(now.UnixMilli())}}
	}
	if s.Join != nil {
		s.Join.Address, s.Join.Name = w.dev.Address(), string(w.dev.Name())
		s.Nearby = w.dev.Nearby()
	}
	if s.Brief != nil {
		s.Health = w.feel(now)
	}
	due, flash := w.calls.next(s.waiting, now)
	s.Sounds = s.Side != 0 && s.Side != requests.Inside
	if s.Sounds {
		w.play(due)
		s.SoundWorks, s.SoundKnown = w.sound.Works()
	}
	s.Flash, s.Fault = flash, w.fault
	return s
}

// feelEvery is how often battery and disk are looked at for the brief.
const feelEvery = 10 * time.Second

// feel is what the system tells of this device. No system tells whether its
// screen stays on, so that is never said.
func (w *worker) feel(now time.Time) brief.Health {
	if now.Sub(w.felt) >= feelEvery {
		w.health, w.felt = w.dev.Condition(), now
	}
	return brief.Health{Battery: int(w.health.Battery), Charging: w.health.Charging, DiskMB: w.health.DiskMB}
}

// opened takes the page that the window shows from now on.
func (w *worker) opened(p page) {
	w.mu.Lock()
	w.open = p
	w.mu.Unlock()
	wake(w.news)
}

// choose takes the case that the debrief is of from now on.
func (w *worker) choose(of mesh.Ref) {
	w.mu.Lock()
	w.wanted = of
	w.mu.Unlock()
	wake(w.news)
}

// wants takes what the page of stock shows from now on.
func (w *worker) wants(of charge.Wanted) {
	w.mu.Lock()
	w.want = of
	w.mu.Unlock()
	wake(w.news)
}

// play makes the sounds that are due. The first of all is one soft knock, to
// know whether there is a sound before anything calls.
func (w *worker) play(due []look.Sound) {
	if !w.tested {
		due = append([]look.Sound{look.SoundTick}, due...)
		w.tested = true
	}
	for _, sound := range due {
		w.sound.Play(sound)
	}
}

// Do is part of station.Doer. A device that belongs to no unit founds one of
// its own first, so that nothing a person records is lost.
func (w *worker) Do(ctx context.Context, by mesh.By, act station.Act) (station.Result, error) {
	if hold, is := act.(station.Hold); is {
		w.mu.Lock()
		w.holds = hold.Holds
		w.mu.Unlock()
	}
	st, err := w.dev.Station()
	if errors.Is(err, device.ErrNoUnit) {
		if err := w.dev.FoundAlone(); err != nil {
			return station.Result{}, err
		}
		if err := w.holdAgain(ctx); err != nil {
			return station.Result{}, err
		}
		st, err = w.dev.Station()
	}
	if err != nil {
		return station.Result{}, err
	}
	return st.Do(ctx, by, act)
}

// holdAgain records who has this device, where that was said and is not what stands.
func (w *worker) holdAgain(ctx context.Context) error {
	w.mu.Lock()
	holds := w.holds
	w.mu.Unlock()
	st, err := w.dev.Station()
	if err != nil || holds.Role == "" {
		return err
	}
	same := false
	err = st.Look(ctx, func(v station.View) {
		h, known := v.Board.Holder(w.dev.Key())
		same = known && h.Role == holds.Role && h.Tag == holds.Tag && slices.Equal(h.Rooms, holds.Rooms)
	})
	if err != nil || same {
		return err
	}
	_, err = st.Do(ctx, mesh.By{Role: holds.Role, Tag: holds.Tag}, station.Hold{Holds: holds})
	return err
}

// found begins a unit.
func (w *worker) found(ctx context.Context, unit mesh.Label) error {
	if err := w.dev.Found(unit); err != nil {
		return err
	}
	defer wake(w.news)
	return w.holdAgain(ctx)
}

// join enters the unit of a device that shows a code.
func (w *worker) join(ctx context.Context, code, address string) error {
	if err := about(w.dev.Join(ctx, address, code), address); err != nil {
		return err
	}
	defer wake(w.news)
	return w.holdAgain(ctx)
}

// by is who has this device.
func (w *worker) by() mesh.By {
	w.mu.Lock()
	defer w.mu.Unlock()
	return mesh.By{Role: w.holds.Role, Tag: w.holds.Tag}
}

// stock fills the invented unit.
func (w *worker) stock(ctx context.Context) error {
	acts, _, err := station.DemoStock()
	if err != nil {
		return err
	}
	return w.doAll(ctx, acts)
}

func (w *worker) doAll(ctx context.Context, acts []station.Act) error {
	for _, act := range acts {
		if _, err := w.Do(ctx, w.by(), act); err != nil {
			return err
		}
	}
	return nil
}

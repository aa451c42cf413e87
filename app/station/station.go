package station

import (
	"context"
	"errors"
	"sync"
	"time"

	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Store writes to the disk. Append blocks until everything is synced; its
// error is final. It is called from one goroutine.
type Store interface{ Append(mesh.Append) error }

// Network moves frames. Neither method blocks; both are called from the loop.
type Network interface {
	Send(link mesh.LinkID, s mesh.Stream, frame []byte)
	Hang(link mesh.LinkID, why string)
}

// Options make a Station. All fields are needed unless said otherwise.
type Options struct {
	Self     mesh.Key
	Group    mesh.GroupID
	Signer   mesh.Signer
	Random   func([]byte) // called from the loop
	Store    Store        // nil: everything lives in memory
	Stock    mesh.Stock   // what the disk holds
	Net      Network
	Now      func() mesh.Now
	Ticks    <-chan time.Time // once a second
	Roles    requests.Defaults
	Starter  kits.Defaults
	Settings mesh.Settings // zero: mesh.Defaults()
	Paired   bool          // see mesh.Options
	// Condition reads battery, charger and free space. It is called from the
	// loop and must not block. Nil: nobody knows.
	Condition func() Condition
	// Told is called from the loop for every effect that people may want to
	// know of (Saved, Copied, LinkState, Noted, Learnt once the folds have it,
	// …). It must not block and must not change a fact. Nil: nobody.
	Told func(mesh.Effect)
	// Members is called from the loop when who belongs to the group changed.
	// It must not block. Nil: nobody.
	Members func([]mesh.Device)
}

// Station is one device at work. Run owns all of its state but gate.
type Station struct {
	opt    Options
	peer   *mesh.Peer
	board  *requests.Board
	ledger *kits.Ledger

	events  chan mesh.Event
	acts    chan order
	looks   chan func(View)
	wrote   chan mesh.Wrote
	toWrite chan mesh.Append
	changed chan struct{}
	stopped chan struct{}

	waiting map[mesh.Tap]waiter
	busy    bool
	folded  bool // the folds have changed since pace looked
	watched watched
	cuts    cutting
	clock   mesh.Now

	gate sync.Mutex // guards full
	room *sync.Cond // full changed, or the loop ended
	full map[mesh.LinkID]bool
	over bool
}

// Bounds of the queues into the loop. When one is full, its sender waits.
const (
	eventsMax = 256
	actsMax   = 64
)

// ErrStopped answers whoever still asks when the loop has ended.
var ErrStopped = errors.New("the device is shutting down")

// New makes a station from what the disk holds. Run starts it.
func New(o Options) *Station {
	if o.Settings == (mesh.Settings{}) {
		o.Settings = mesh.Defaults()
	}
	if o.Store == nil {
		o.Stock.Memory = true
	}
	s := &Station{
		opt:     o,
		peer:    mesh.New(mesh.Options{Self: o.Self, Group: o.Group, Signer: o.Signer, Random: o.Random, Settings: o.Settings, Paired: o.Paired}),
		events:  make(chan mesh.Event, eventsMax),
		acts:    make(chan order, actsMax),
		looks:   make(chan func(View)),
		wrote:   make(chan mesh.Wrote, 1),
		toWrite: make(chan mesh.Append, 1),
		changed: make(chan struct{}, 1),
		stopped: make(chan struct{}),
		waiting: map[mesh.Tap]waiter{},
		full:    map[mesh.LinkID]bool{},
		cuts:    newCutting(),
	}
	s.room = sync.NewCond(&s.gate)
	s.refold(nil)
	return s
}

// Run works until ctx ends. What was handed to the store is finished first.
func (s *Station) Run(ctx context.Context) error {
	var writer sync.WaitGroup
	writer.Add(1)
	go func() { // joined by writer.Wait below
		defer writer.Done()
		s.writeAll()
	}()
	s.clock = s.opt.Now()
	s.carryOut(s.peer.Load(s.clock, s.opt.Stock))
	s.opt.Stock = mesh.Stock{}
	s.tellMembers()
	s.loop(ctx)
	close(s.toWrite)
	writer.Wait()
	close(s.stopped)
	s.gate.Lock()
	s.over = true
	s.room.Broadcast()
	s.gate.Unlock()
	return ctx.Err()
}

func (s *Station) loop(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case w := <-s.wrote:
			s.step(w)
		case ev := <-s.events:
			s.step(ev)
		case o := <-s.acts:
			s.obey(o)
		case look := <-s.looks:
			look(s.view())
			continue
		case <-s.opt.Ticks:
			s.tick()
		}
		s.pace()
		select {
		case s.changed <- struct{}{}:
		default: // a change that nobody has looked at yet is announced already
		}
	}
}

// writeAll carries out Appends one after another, verifying beside the sync.
func (s *Station) writeAll() {
	for a := range s.toWrite {
		bad := make(chan []int, 1)
		if len(a.Checks) == 0 {
			bad <- nil // starting a goroutine for nothing wakes a thread
		} else {
			go func() { bad <- s.verify(a.Checks) }() // joined by the receive below
		}
		var err error
		if s.opt.Store == nil {
			err = ErrNoStore
		} else {
			err = s.opt.Store.Append(a)
		}
		s.wrote <- mesh.Wrote{Batch: a.Batch, Err: err, Bad: <-bad}
	}
}

// ErrNoStore says that the device was started without a disk.
var ErrNoStore = errors.New("there is no disk to write to")

func (s *Station) verify(checks []mesh.SignatureCheck) (bad []int) {
	for i, c := range checks {
		if !s.opt.Signer.Verify(c.By, c.Text, c.Signature) {
			bad = append(bad, i)
		}
	}
	return bad
}

// step gives the Peer one event and does what it asks for.
func (s *Station) step(ev mesh.Event) {
	if !s.pass(ev) {
		return
	}
	s.carryOut(s.peer.Step(s.opt.Now(), ev))
	s.measureQueues(ev)
}

func (s *Station) carryOut(effects []mesh.Effect) {
	for _, ef := range effects {
		switch e := ef.(type) {
		case mesh.Send:
			if !s.cuts.holds(e.Link) {
				s.opt.Net.Send(e.Link, e.Stream, e.Frame)
			}
			continue
		case mesh.Hang:
			s.opt.Net.Hang(e.Link, e.Why)
		case mesh.Append:
			s.toWrite <- e // never full: the Peer has at most one under way
			continue
		case mesh.Learnt:
			s.learn(e.Facts)
		case mesh.Refold:
			s.refold(e.Facts)
			continue
		case mesh.Saved:
			s.answer(e.Tap, Result{Tap: e.Tap, At: e.At, Saved: true})
		case mesh.NotSaved:
			s.answer(e.Tap, Result{Tap: e.Tap, At: e.At})
		case mesh.Refused:
			s.answer(e.Tap, Result{Tap: e.Tap, Err: e.Err})
		}
		if s.opt.Told != nil {
			s.opt.Told(ef)
		}
	}
}

func (s *Station) learn(facts []mesh.Fact) {
	s.folded = true
	told := false
	for _, f := range facts {
		s.board.Add(f)
		s.ledger.Add(f)
		told = told || f.Kind == mesh.KindFounded || f.Kind == mesh.KindAdmitted || f.Kind == mesh.KindRemoved
	}
	if told {
		s.tellMembers()
	}
}

// refold begins both folds again.
func (s *Station) refold(facts []mesh.Fact) {
	s.folded = true
	s.board = requests.NewBoard(s.opt.Roles)
	moved := 0
	for _, f := range facts {
		if f.Kind == kits.KindMoved {
			moved++
		}
	}
	s.ledger = kits.NewLedger(kits.Options{Defaults: s.opt.Starter, Expect: moved})
	for _, f := range facts {
		s.board.Add(f)
		s.ledger.Add(f)
	}
	s.tellMembers()
}

func (s *Station) tellMembers() {
	if s.opt.Members != nil {
		s.opt.Members(s.peer.Devices())
	}
}

// sleepMin is how far wall and monotonic clock may part between two ticks
// before the device must have slept or been set.
const sleepMin = time.Second

func (s *Station) tick() {
	now := s.opt.Now()
	step := time.Duration(now.Wall-s.clock.Wall)*time.Millisecond - (now.Mono - s.clock.Mono)
	s.clock = now
	if step > sleepMin || step < -sleepMin {
		s.step(mesh.ClockSet{Step: step})
	}
	s.step(mesh.Tick{})
	s.cutLinks()
	s.watchCondition()
}

// pace has the links watched closely while something is open.
func (s *Station) pace() {
	if !s.folded {
		return
	}
	s.folded = false
	s.cutLinks()
	if busy := s.board.Busy(); busy != s.busy {
		s.busy = busy
		s.step(mesh.Pace{Busy: busy})
	}
}

// Deliver takes an event of the network. For a frame it waits while too much
// of that link's earlier frames waits for verification and the disk: then the
// link is not read, and the other side has to wait.
func (s *Station) Deliver(ev mesh.Event) {
	if a, ok := ev.(mesh.Arrived); ok {
		s.gate.Lock()
		for s.full[a.Link] && !s.over {
			s.room.Wait()
		}
		s.gate.Unlock()
	}
	select {
	case s.events <- ev:
	case <-s.stopped:
	}
}

// measureQueues notes which links must wait.
func (s *Station) measureQueues(ev mesh.Event) {
	switch e := ev.(type) {
	case mesh.Arrived:
		if s.peer.Waiting(e.Link) > mesh.WaitingMax {
			s.gate.Lock()
			s.full[e.Link] = true
			s.gate.Unlock()
		}
	case mesh.Wrote, mesh.LinkDown:
		s.gate.Lock()
		for id := range s.full {
			if s.peer.Waiting(id) <= mesh.WaitingMax/2 {
				delete(s.full, id)
			}
		}
		s.room.Broadcast()
		s.gate.Unlock()
	}
}

// Changed has a value whenever something may look different from the last time
// it was read.
func (s *Station) Changed() <-chan struct{} { return s.changed }

// View is the state between two steps. It is valid only inside Look.
type View struct {
	Board  *requests.Board
	Ledger *kits.Ledger
	Peer   *mesh.Peer
	Now    mesh.Now
}

func (s *Station) view() View {
	return View{Board: s.board, Ledger: s.ledger, Peer: s.peer, Now: s.opt.Now()}.witnessed()
}

// StateHash is what devices with the same entries have in common.
func (v View) StateHash() mesh.Hash {
	return mesh.HashState(v.Peer.State(), v.Board.State(), v.Ledger.State())
}

// Look calls look between two steps and waits for it. look must not keep the
// View nor change anything.
func (s *Station) Look(ctx context.Context, look func(View)) error {
	done := make(chan struct{})
	select {
	case s.looks <- func(v View) { look(v); close(done) }:
		<-done
		return nil
	case <-ctx.Done():
		return ctx.Err()
	case <-s.stopped:
		return ErrStopped
	}
}

package mesh

import (
	"cmp"
	"maps"
	"slices"
	"time"
)

// Settings are the figures of the talk between devices. Defaults explains each.
type Settings struct {
	WindowFrames  int           // items frames under way on one link; more fills a fast link, less keeps taps prompt
	BatchLenMax   int           // bytes in one disk write; more costs a longer wait, less more syncs
	BusyPing      int           // ticks between pings while a case or request is open
	QuietPing     int           // ticks between pings otherwise
	BusyDoubt     time.Duration // silence after which a link is doubtful while busy
	BusyLost      time.Duration // silence after which it is not connected while busy
	QuietDoubt    time.Duration
	QuietLost     time.Duration
	HealPeersMax  int           // links coming up together that are asked for everything
	FarPerSecond  int           // signed receipts a second
	NoisyRateMax  int           // entries a second of one feed …
	NoisyTicks    int           // … for so many ticks make it noisy
	ClockChange   time.Duration // a clock entry is written when the offset moved by more
	ClockEvery    time.Duration // … and the last one about that device is older than this
	ClockFar      time.Duration // an entry or clock further off is flagged
	ParkedMax     int           // frames that wait for an admission still being written
	TakenPatience time.Duration // after this a vector counts although frames seem under way
}

// Defaults gives the settings that devices ship with.
func Defaults() Settings {
	return Settings{
		WindowFrames: 8, BatchLenMax: 1 << 20,
		BusyPing: 1, QuietPing: 5,
		BusyDoubt: 2 * time.Second, BusyLost: 3 * time.Second,
		QuietDoubt: 10 * time.Second, QuietLost: 15 * time.Second,
		HealPeersMax: 3, FarPerSecond: 10,
		NoisyRateMax: 50, NoisyTicks: 10,
		ClockChange: 250 * time.Millisecond, ClockEvery: 10 * time.Second, ClockFar: 60 * time.Second,
		ParkedMax: 16, TakenPatience: 4 * time.Second,
	}
}

// Options make a Peer.
type Options struct {
	Self     Key
	Group    GroupID
	Signer   Signer
	Random   func([]byte) // fills the slice; from a seed in the simulation
	Settings Settings
	// Paired says that a member let this device in by a code: what it writes
	// counts here also before the admission has arrived.
	Paired bool
}

// Peer is one device's part of the shared log and of the talk about it. It is
// a state machine without I/O: Step takes an event and returns what to do. One
// goroutine owns it; nothing in it blocks or looks at a clock.
type Peer struct {
	opt     Options
	self    Key
	group   GroupID
	members Members
	facts   *factSet
	feeds   map[Feed]*feedTree
	turnMax Turn

	own     ownFeed
	writing writer
	links   map[LinkID]*link
	copies  map[Feed]map[Key][]copyMark // who said to have stored how much of a feed
	far     farBook
	clocks  map[Key]clockMark // what was last written of each clock
	busy    bool
	ticks   uint64
	healed  int // links that came up since the last tick

	out []Effect // of the step under way
	now Now
}

// ownFeed is what this device writes to.
type ownFeed struct {
	feed   Feed
	branch *branch // nil before the first entry of the incarnation
	fresh  Why     // not 0: begin a new incarnation at the next write
	taps   map[Tap]Order
	warned map[Key]bool // who has shown, unproved, another head of the feed written to
}

// clockMark is the last clock entry about a device.
type clockMark struct {
	offsetMS int64
	at       time.Duration // on the Now.Mono scale; 0: before the start
}

// copyMark is how far a device has stored one line of a feed.
type copyMark struct {
	br  *branch
	seq Seq
}

// New makes a Peer that holds nothing yet. Load gives it what the disk holds.
func New(o Options) *Peer {
	p := &Peer{
		opt: o, self: o.Self, group: o.Group, members: Members{group: o.Group},
		facts: newFactSet(), feeds: map[Feed]*feedTree{},
		own:   ownFeed{taps: map[Tap]Order{}, warned: map[Key]bool{}},
		links: map[LinkID]*link{}, copies: map[Feed]map[Key][]copyMark{},
		far: farBook{seen: map[farName]Seq{}, due: map[Feed]Receipt{}, source: map[Feed]LinkID{}}, clocks: map[Key]clockMark{},
	}
	p.members.later = p.later
	if o.Paired {
		p.members.paired = o.Self
	}
	return p
}

// Step takes one event and returns the effects in the order in which to carry
// them out. It never fails: what cannot be used is noted and changes nothing.
func (p *Peer) Step(now Now, ev Event) []Effect {
	p.now, p.out = now, nil
	switch e := ev.(type) {
	case Tick:
		p.tick()
	case Enter:
		p.enter(e.Tap, e.Parts)
	case LinkUp:
		p.linkUp(e)
	case LinkDown:
		p.linkDown(e)
	case Arrived:
		p.arrived(e)
	case Wrote:
		p.wrote(e)
	case ClockSet:
		p.clockSet(e)
	case Pace:
		p.busy = e.Busy
	}
	p.flush()
	return p.out
}

func (p *Peer) emit(e Effect) { p.out = append(p.out, e) }

func (p *Peer) note(n Note, k Key, f Feed, text string) {
	p.emit(Noted{Note: n, Peer: k, Feed: f, Text: text})
}

// tree returns what is known of a feed, made empty if nothing is.
func (p *Peer) tree(f Feed) *feedTree {
	t := p.feeds[f]
	if t == nil {
		t = &feedTree{feed: f}
		p.feeds[f] = t
	}
	return t
}

// sortedFeeds lists the feeds in the order in which they are served: noisy
// ones last, then by how early their author was admitted, so that admissions
// come before what the admitted wrote.
func (p *Peer) sortedFeeds() []*feedTree {
	return slices.SortedFunc(maps.Values(p.feeds), func(a, b *feedTree) int {
		if a.noisy != b.noisy {
			if b.noisy {
				return -1
			}
			return 1
		}
		if c := cmp.Compare(p.members.rank[a.feed.Author()], p.members.rank[b.feed.Author()]); c != 0 {
			return c
		}
		return a.feed.Compare(b.feed)
	})
}

// sortedLinks lists the links in the order of their ids.
func (p *Peer) sortedLinks() []*link {
	return slices.SortedFunc(maps.Values(p.links), func(a, b *link) int { return cmp.Compare(a.id, b.id) })
}

// linkTo returns the link to a device, or nil.
func (p *Peer) linkTo(k Key) *link {
	for _, l := range p.links {
		if l.peer == k {
			return l // the only one: a newer link replaces an older one
		}
	}
	return nil
}

// randomBelow gives a number in 0 … n-1.
func (p *Peer) randomBelow(n int) int {
	var b [4]byte
	p.opt.Random(b[:])
	return int((uint64(b[0])<<24 | uint64(b[1])<<16 | uint64(b[2])<<8 | uint64(b[3])) % uint64(n))
}

// tick is everything that happens once a second.
func (p *Peer) tick() {
	p.ticks++
	p.healed = 0
	for _, t := range p.feeds {
		if t.growth > p.opt.Settings.NoisyRateMax {
			t.hot++
		} else {
			t.hot, t.noisy = 0, false
		}
		if t.hot == p.opt.Settings.NoisyTicks {
			t.noisy = true
		}
		t.growth = 0
	}
	p.noteNoisy()
	p.far.left = p.opt.Settings.FarPerSecond
	p.flushFar()
	p.watchLinks()
	if p.ticks%2 == 0 && len(p.links) > 0 {
		links := p.sortedLinks()
		p.sendVector(links[p.randomBelow(len(links))], true, true)
	}
}

func (p *Peer) noteNoisy() {
	for _, t := range p.sortedFeeds() {
		if t.noisy && t.hot == p.opt.Settings.NoisyTicks {
			p.note(NoteNoisy, t.feed.Author(), t.feed, "")
		}
	}
}

// clockSet takes notice that the wall clock jumped or the device slept: what
// was measured is stale, and much may have been missed.
func (p *Peer) clockSet(e ClockSet) {
	for _, l := range p.links {
		l.measured = false
		l.clockCause = ClockStepped
	}
	for i, l := range p.sortedLinks() {
		p.ping(l)
		if i < p.opt.Settings.HealPeersMax {
			p.sendVector(l, true, true)
		}
	}
}

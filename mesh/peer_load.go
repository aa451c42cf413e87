package mesh

import "slices"

// Stock is what a device starts with.
type Stock struct {
	Records  []Record   // in log order
	Places   []VoidMark // where each stands on the disk; empty: nothing can be taken back
	Newest   uint64     // the number of the newest batch on the disk
	Verified int        // Records[:Verified] were verified before they were marked as such
	Fresh    Why        // not 0: begin a new incarnation at the next write
	Memory   bool       // the store cannot be written: everything new lives in memory
	Unstored bool       // the records themselves are not on the disk (a unit founded on a full disk)
}

// Load takes what the disk holds, once, before the first Step. Entries whose
// feed has a gap are left out: peers will send them again. Entries behind the
// mark whose signature does not verify are left out as well.
func (p *Peer) Load(now Now, s Stock) []Effect {
	p.now, p.out = now, nil
	p.writing.memory, p.writing.batch = s.Memory, s.Newest
	trusted := map[*node]bool{}
	places := map[*node]VoidMark{}
	waiting := []*node{}
	for i, r := range s.Records {
		e, err := DecodeEntry(r.Item.Bytes)
		if err != nil || e.Group != p.group && GroupID(HashEntry(r.Item.Bytes)) != p.group {
			p.note(NoteRubbish, p.self, Feed{}, "a stored entry cannot be read")
			continue
		}
		n := &node{
			hash: HashEntry(r.Item.Bytes), seq: e.Seq, turn: e.Turn, item: r.Item, received: r.Received,
			entry: e, members: hasMembership(e), stored: !s.Unstored,
		}
		trusted[n] = i < s.Verified
		if i < len(s.Places) {
			places[n] = s.Places[i]
		}
		if e.Author == p.self {
			p.own.feed = e.Feed()
		}
		if !p.loadNode(n) {
			waiting = append(waiting, n)
		}
	}
	for grown := true; grown; {
		rest := waiting
		waiting, grown = nil, false
		for _, n := range rest {
			if p.loadNode(n) {
				grown = true
			} else {
				waiting = append(waiting, n)
			}
		}
	}
	p.own.fresh = s.Fresh
	if p.own.fresh == 0 && slices.ContainsFunc(waiting, func(n *node) bool { return n.entry.Author == p.self }) {
		p.own.fresh = WhyDamage
	}
	p.dropUnproved(trusted, places)
	if s.Memory && p.own.fresh == 0 {
		p.own.fresh = WhyNotWritten
	}
	p.holdLoaded()
	return p.out
}

// loadNode adds one stored entry, or says that the one before is missing.
func (p *Peer) loadNode(n *node) bool {
	t := p.tree(n.entry.Feed())
	if t.find(n.seq, n.hash) != nil {
		return true
	}
	return t.add(n, n.entry.Before) != nil
}

// dropUnproved cuts from every branch what no verified signature vouches for,
// and has the next batch take it back.
func (p *Peer) dropUnproved(trusted map[*node]bool, places map[*node]VoidMark) {
	for _, t := range p.sortedFeeds() {
		for i := 0; i < len(t.branches); i++ {
			b := t.branches[i]
			for s := b.head(); s > b.from; s-- {
				n := b.at(s)
				if trusted[n] || len(n.item.Signature) > 0 && p.proved(t.feed, n) {
					break
				}
				p.note(NoteBadSigned, t.feed.Author(), t.feed, "a stored entry is not signed")
				if v, ok := places[n]; ok {
					p.writing.void = append(p.writing.void, v)
				}
				t.cut(b, s)
				if t.feed.Author() == p.self && p.own.fresh == 0 {
					p.own.fresh = WhyDamage
				}
			}
			if len(b.nodes) == 0 {
				i = -1 // the branch is gone: look at all again
			}
		}
	}
}

func (p *Peer) proved(f Feed, n *node) bool {
	c := p.checkOf(f, n)
	return p.opt.Signer.Verify(c.By, c.Text, c.Signature)
}

// holdLoaded lets everything that was loaded count.
func (p *Peer) holdLoaded() {
	forkedOwn := false
	for _, t := range p.sortedFeeds() {
		for _, b := range t.branches {
			for s := b.from + 1; s <= b.head(); s++ {
				n := b.at(s)
				p.turnMax = max(p.turnMax, n.turn)
				at := Order{Turn: n.turn, Feed: t.feed, Seq: n.seq, Hash: n.hash}
				for i, part := range n.entry.Parts {
					if ok, err := p.members.add(t.feed, at, n.entry.Ref(i), part); !ok && err == nil && part.Kind == KindClock && t.feed.Author() == p.self {
						p.rememberClock(part)
					}
				}
				if t.feed.Author() == p.self {
					p.own.taps[n.entry.Tap] = at
				}
				n.entry = nil
			}
			b.held = b.head()
		}
		t.lines = len(t.heads())
		forkedOwn = forkedOwn || t.feed == p.own.feed && len(t.branches) > 1
	}
	p.members.compute(p.wroteAny)
	if t := p.feeds[p.own.feed]; t != nil && len(t.branches) > 0 {
		p.own.branch = t.branches[0]
	}
	if forkedOwn && p.own.fresh == 0 {
		p.own.fresh = WhyPeerKnows
	}
	if facts := p.Facts(); len(facts) > 0 {
		p.emit(Learnt{Facts: facts})
	}
}

func (p *Peer) rememberClock(part Part) {
	var c Clock
	if Decode(part.Body, &c) == nil {
		p.clocks[c.Peer] = clockMark{offsetMS: c.OffsetMS}
	}
}

// Found makes the founding entry of a new group by this device. The group's id
// is the hash of its bytes.
func Found(self Key, s Signer, unit Label, random func([]byte), wall Wall) (GroupID, Item, error) {
	body := Founded{Founder: self, Unit: unit}
	random(body.Nonce[:])
	part, err := MakePart(KindFounded, &body)
	if err != nil {
		return GroupID{}, Item{}, err
	}
	e := &Entry{Version: Version, Author: self, Seq: 1, Turn: 1, Wall: wall, Parts: []Part{part}}
	random(e.Incarnation[:])
	random(e.Tap[:])
	b, err := EncodeEntry(e)
	if err != nil {
		return GroupID{}, Item{}, err
	}
	h := HashEntry(b)
	sig := s.Sign(SignedText(GroupID(h), e.Feed(), e.Seq, h))
	return GroupID(h), Item{Bytes: b, Signature: sig[:]}, nil
}

// CheckFounding tells whether an item is the properly signed founding entry of a group.
func CheckFounding(g GroupID, it Item, s Signer) error {
	e, err := DecodeEntry(it.Bytes)
	if err != nil {
		return err
	}
	h := HashEntry(it.Bytes)
	if GroupID(h) != g || e.Parts[0].Kind != KindFounded || len(it.Signature) != len(Signature{}) ||
		!s.Verify(e.Author, SignedText(g, e.Feed(), e.Seq, h), Signature(it.Signature)) {
		return ErrEntry
	}
	return nil
}

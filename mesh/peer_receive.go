package mesh

import (
	"fmt"
)

// arrived takes a frame. What cannot be read is noted and changes nothing.
func (p *Peer) arrived(e Arrived) {
	l := p.links[e.Link]
	if l == nil {
		return
	}
	p.heard(l)
	body, err := DecodeFrame(e.Frame)
	if err != nil {
		p.note(NoteRubbish, l.peer, Feed{}, err.Error())
		p.hang(l, "it sent a frame that cannot be read")
		return
	}
	switch f := body.(type) {
	case *Items:
		p.items(l, f, e)
	case *Receipt:
		p.receipt(l.peer, *f, false)
	case *FarReceipt:
		p.farReceipt(l, *f)
	case *Vector:
		p.vector(l, f)
	case *Ladder:
		p.ladder(l, f)
	case *Ping:
		p.pinged(l, f)
	case *Pong:
		p.ponged(l, f)
	case *Credit:
		l.credited = max(l.credited, min(f.Taken, l.sentFrames))
		p.pump(l)
	case *Addresses:
		p.addresses(l, f)
	case *Links:
		l.sees = map[Short]bool{}
		for _, k := range f.Keys {
			l.sees[k] = true
		}
	}
}

// items takes a run of entries of one feed. Only what continues something that
// is here is used; the run's last signature vouches for all of it.
func (p *Peer) items(l *link, f *Items, from Arrived) {
	nodes, err := p.readRun(f.Items)
	if err != nil {
		p.note(NoteRubbish, l.peer, Feed{}, err.Error())
		p.hang(l, "it sent entries that cannot be read")
		return
	}
	feed := nodes[0].entry.Feed()
	if !p.mayWrite(nodes[0]) {
		if p.writing.membershipUnderWay() && len(l.parked) < p.opt.Settings.ParkedMax {
			l.parked = append(l.parked, from)
			return
		}
		p.taken(l) // of an author nobody admitted, as far as is known here: asked for again by the next vector
		return
	}
	p.taken(l)
	t := p.feeds[feed]
	if t == nil {
		t = &feedTree{feed: feed} // becomes known with its first entry
	}
	fresh := nodes
	for len(fresh) > 0 && t.find(fresh[0].seq, fresh[0].hash) != nil {
		fresh = fresh[1:]
	}
	if len(fresh) == 0 {
		p.knownRun(l, t, nodes[len(nodes)-1])
		return
	}
	first := fresh[0]
	if first.seq > 1 && t.find(first.seq-1, first.entry.Before) == nil {
		p.doesNotFit(l, t, first, nodes[len(nodes)-1])
		return
	}
	p.accept(l, t, fresh)
}

// readRun decodes entries that must follow each other in one feed, the last
// one signed, membership entries signed each.
func (p *Peer) readRun(items []Item) ([]*node, error) {
	nodes := make([]*node, 0, len(items))
	for i, it := range items {
		e, err := DecodeEntry(it.Bytes)
		if err != nil {
			return nil, err
		}
		n := &node{hash: HashEntry(it.Bytes), seq: e.Seq, turn: e.Turn, item: it, received: p.now.Wall, entry: e, members: hasMembership(e)}
		if e.Group != p.group && (e.Group != GroupID{} || GroupID(n.hash) != p.group) {
			return nil, fmt.Errorf("%w: it belongs to another group", ErrEntry)
		}
		if i > 0 {
			last := nodes[i-1]
			if e.Feed() != last.entry.Feed() || e.Seq != last.seq+1 || e.Before != last.hash {
				return nil, fmt.Errorf("%w: the run has a gap", ErrEntry)
			}
		}
		if n.members && len(it.Signature) == 0 {
			return nil, fmt.Errorf("%w: a membership entry without its own signature", ErrEntry)
		}
		nodes = append(nodes, n)
	}
	if len(items[len(items)-1].Signature) == 0 {
		return nil, fmt.Errorf("%w: the run's last entry is not signed", ErrEntry)
	}
	return nodes, nil
}

// mayWrite tells whether an entry's author was ever admitted.
func (p *Peer) mayWrite(n *node) bool {
	return p.members.ever[n.entry.Author] || GroupID(n.hash) == p.group
}

// membershipUnderWay tells whether an admission waits for the disk.
func (w *writer) membershipUnderWay() bool {
	for _, list := range [][]*placed{w.inFlight, w.queue} {
		for _, q := range list {
			if q.node.members {
				return true
			}
		}
	}
	return false
}

// accept places new nodes and queues them for the disk, the signature check
// beside the write.
func (p *Peer) accept(l *link, t *feedTree, fresh []*node) {
	last := len(fresh) - 1
	if t.feed.Author() == p.self && !p.proved(t.feed, fresh[last]) {
		p.badSigned(l, t.feed) // before anything of this device's own changes by it
		return
	}
	p.writing.frame++
	frame := p.writing.frame
	p.feeds[t.feed] = t
	for i, n := range fresh {
		b := t.add(n, n.entry.Before)
		if t.feed == p.own.feed {
			p.own.fresh = WhyPeerKnows
		}
		t.growth++
		q := &placed{tree: t, br: b, node: n, frame: frame, from: l.id}
		if i == last || n.members {
			q.check = p.checkOf(t.feed, n)
		} else {
			n.item.Signature = nil // not verified, so not kept
		}
		l.waiting += len(n.item.Bytes)
		l.knows(b, n.seq)
		p.writing.queue = append(p.writing.queue, q)
	}
	if l.peer != t.feed.Author() {
		p.far.source[t.feed] = l.id
	}
}

func (p *Peer) checkOf(f Feed, n *node) *SignatureCheck {
	return &SignatureCheck{By: f.Author(), Text: SignedText(p.group, f, n.seq, n.hash), Signature: Signature(n.item.Signature)}
}

// noteForks tells of feeds that have more lines than before.
func (p *Peer) noteForks(batch []*placed) {
	for i, q := range batch {
		if i+1 < len(batch) && batch[i+1].tree == q.tree {
			continue
		}
		lines := len(q.tree.heads())
		if lines > max(1, q.tree.lines) {
			p.note(NoteForked, q.tree.feed.Author(), q.tree.feed, "")
		}
		q.tree.lines = lines
	}
}

// knownRun answers a run of which nothing is new: its author may have missed the receipt.
func (p *Peer) knownRun(l *link, t *feedTree, last *node) {
	b := t.find(last.seq, last.hash)
	l.knows(b, last.seq)
	if n := b.at(last.seq); n.stored && l.peer == t.feed.Author() {
		p.send(l, StreamTap, FrameReceipt, &Receipt{Feed: t.feed, Seq: n.seq, Hash: n.hash})
	}
}

// doesNotFit handles a run whose first new entry names one that is not here:
// either earlier ones are missing, or the feed has forked further back.
func (p *Peer) doesNotFit(l *link, t *feedTree, first, last *node) {
	longest := Seq(0)
	for _, b := range t.branches {
		longest = max(longest, b.head())
	}
	if first.seq-1 > longest {
		if c := p.checkOf(t.feed, last); p.opt.Signer.Verify(c.By, c.Text, c.Signature) {
			p.emit(EarlySeen{Entry: last.entry})
		}
		if !l.askedNow {
			l.askedNow = true
			p.sendVector(l, true, true)
		}
		return
	}
	p.sendLadder(l, t.longest(), true)
}

// badSigned hangs up on whoever sent an entry that its author did not sign.
func (p *Peer) badSigned(l *link, f Feed) {
	p.note(NoteBadSigned, l.peer, f, "")
	p.hang(l, "it sent an entry that its author did not sign")
}

// workedOff notes that an entry waits no more for verification and disk.
func (p *Peer) workedOff(q *placed) {
	if l := p.links[q.from]; l != nil && !q.own {
		l.waiting -= len(q.node.item.Bytes)
	}
}

// hold lets entries count: the folds learn them, their author gets a receipt,
// and whoever the author cannot reach gets them from here.
func (p *Peer) hold(batch []*placed) {
	learnt := []Fact{}
	for _, q := range batch {
		n := q.node
		q.br.held = n.seq
		p.turnMax = max(p.turnMax, n.turn)
		p.holdMembers(q)
		p.workedOff(q)
	}
	p.noteForks(batch)
	refold := p.members.compute(p.wroteAny)
	for _, q := range batch {
		learnt, refold = p.offerFacts(q.tree, q.node, learnt, refold)
		if q.own {
			at := Order{Turn: q.node.turn, Feed: q.tree.feed, Seq: q.node.seq, Hash: q.node.hash}
			if q.node.stored {
				p.emit(Saved{Tap: q.node.entry.Tap, At: at})
			} else {
				p.emit(NotSaved{Tap: q.node.entry.Tap, At: at})
			}
		}
	}
	p.sendReceipts(batch) // before the folds, which others need not wait for
	p.pushOn(batch)
	if refold {
		p.emit(Refold{Facts: p.Facts()})
	} else if len(learnt) > 0 {
		p.emit(Learnt{Facts: learnt})
	}
	for _, q := range batch {
		q.node.entry = nil
	}
	p.hangStrangers()
}

// wroteAny tells whether entries of a device are held.
func (p *Peer) wroteAny(k Key) bool {
	for f, t := range p.feeds {
		if f.Author() == k && len(t.heads()) > 0 {
			return true
		}
	}
	return false
}

// later tells whether entry b stands behind entry a in one line of one feed.
func (p *Peer) later(a, b Order) bool {
	t := p.feeds[a.Feed]
	if t == nil || b.Feed != a.Feed || b.Seq <= a.Seq {
		return false
	}
	line := t.find(b.Seq, b.Hash)
	return line != nil && line.at(a.Seq).hash == a.Hash
}

// holdMembers tells the fold of members of one entry.
func (p *Peer) holdMembers(q *placed) {
	at := Order{Turn: q.node.turn, Feed: q.tree.feed, Seq: q.node.seq, Hash: q.node.hash}
	for i, part := range q.node.entry.Parts {
		ok, err := p.members.add(q.tree.feed, at, q.node.entry.Ref(i), part)
		if ok && err == nil && part.Kind == KindRemoved {
			p.note(NoteRemoved, q.tree.feed.Author(), q.tree.feed, "")
		}
	}
}

// offerFacts gives the parts of one entry to the set of facts.
func (p *Peer) offerFacts(t *feedTree, n *node, learnt []Fact, refold bool) ([]Fact, bool) {
	if !p.members.counts(t.feed, n.seq) {
		return learnt, refold
	}
	for _, f := range factsOf(n.entry, n.hash) {
		p.noteClock(f)
		switch p.facts.offer(f) {
		case factNew:
			learnt = append(learnt, f)
		case factBefore:
			refold = true
		}
	}
	return learnt, refold
}

// Facts lists every fact that counts, each name once.
func (p *Peer) Facts() []Fact {
	p.facts = newFactSet()
	all := []Fact{}
	p.eachHeld(func(t *feedTree, n *node) {
		if !p.members.counts(t.feed, n.seq) {
			return
		}
		e, err := DecodeEntry(n.item.Bytes)
		if err != nil {
			return // it was readable when it came
		}
		for _, f := range factsOf(e, n.hash) {
			p.facts.offer(f)
			all = append(all, f)
		}
	})
	out := all[:0]
	for _, f := range all {
		if p.facts.chosen(f) {
			out = append(out, f)
		}
	}
	return out
}

// eachHeld visits every entry that is held, each once.
func (p *Peer) eachHeld(visit func(*feedTree, *node)) {
	for _, t := range p.sortedFeeds() {
		for _, b := range t.branches {
			for s := b.from + 1; s <= b.held; s++ {
				visit(t, b.at(s))
			}
		}
	}
}

// noteClock flags an entry that was written with a clock far off this one's.
func (p *Peer) noteClock(f Fact) {
	l := p.linkTo(f.At.Feed.Author())
	if f.Ref.Part() != 0 || l == nil {
		return
	}
	off := int64(f.Wall) - int64(p.now.Wall)
	far := p.opt.Settings.ClockFar.Milliseconds()
	if l.measured && (l.offsetMS > far || l.offsetMS < -far) && (off > far || off < -far) && !l.flagged {
		l.flagged = true
		p.note(NoteClockFar, l.peer, f.At.Feed, fmt.Sprintf("%d ms", l.offsetMS))
	}
}

// unpark tries again the frames that waited for an admission.
func (p *Peer) unpark() {
	for _, l := range p.sortedLinks() {
		parked := l.parked
		l.parked = nil
		for _, e := range parked {
			if p.links[l.id] == l {
				p.arrived(e)
			}
		}
	}
}

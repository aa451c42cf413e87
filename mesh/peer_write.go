package mesh

import "slices"

// writer owns the way of entries to the disk. At most one batch is under way;
// whatever comes meanwhile goes into the next one, so a sync is shared by all
// that wait for it.
type writer struct {
	batch    uint64
	busy     bool      // a batch is under way
	inFlight []*placed // its nodes
	checks   []uint64  // the frame that each check of that batch stands for
	queue    []*placed // waits for the next batch
	void     []VoidMark
	memory   bool // the store failed: nothing is written any more
	frame    uint64
}

// placed is a node on its way to the disk.
type placed struct {
	tree  *feedTree
	br    *branch
	node  *node
	own   bool
	check *SignatureCheck // beside the write; covers every node placed before it from the same frame
	frame uint64          // nodes of one frame stand or fall together; 0 for own ones
	from  LinkID
}

// enter writes one entry with these parts into this device's feed.
func (p *Peer) enter(tap Tap, parts []Part) {
	if at, ok := p.own.taps[tap]; ok {
		p.answerAgain(tap, at)
		return
	}
	if p.own.fresh != 0 || p.own.branch == nil {
		p.beginIncarnation()
	}
	if _, err := p.place(tap, parts); err != nil {
		p.emit(Refused{Tap: tap, Err: err})
	}
}

// answerAgain repeats what was said of a tap that is already entered.
func (p *Peer) answerAgain(tap Tap, at Order) {
	t := p.feeds[at.Feed]
	if t == nil {
		return
	}
	if b := t.find(at.Seq, at.Hash); b != nil && at.Seq <= b.held {
		if b.at(at.Seq).stored {
			p.emit(Saved{Tap: tap, At: at})
		} else {
			p.emit(NotSaved{Tap: tap, At: at})
		}
	}
}

// beginIncarnation starts a new feed of this device. If there was one before,
// the first entry names its head.
func (p *Peer) beginIncarnation() {
	before, why := p.own, p.own.fresh
	var inc Incarnation
	p.opt.Random(inc[:])
	p.own.feed, p.own.branch, p.own.fresh = MakeFeed(p.self, inc), nil, 0
	if why == 0 {
		return // the first feed of this device in this group
	}
	body := FeedBefore{Why: why}
	if t := p.feeds[before.feed]; t != nil {
		for _, h := range t.heads() {
			if b := t.findShort(h.Seq, h.Hash); b != nil && h.Seq > body.Seq {
				body.Incarnation, body.Seq, body.Hash = before.feed.Incarnation(), h.Seq, b.at(h.Seq).hash
			}
		}
	}
	part, err := MakePart(KindFeedBefore, &body)
	if err != nil {
		panic("mesh: " + err.Error()) // every value above is in range
	}
	var tap Tap
	p.opt.Random(tap[:])
	if _, err := p.place(tap, []Part{part}); err != nil {
		panic("mesh: " + err.Error())
	}
	p.note(NoteIncarnation, p.self, p.own.feed, "")
}

// place makes the entry and queues it.
func (p *Peer) place(tap Tap, parts []Part) (*Entry, error) {
	e := &Entry{
		Version: Version, Group: p.group, Author: p.self, Incarnation: p.own.feed.Incarnation(),
		Seq: 1, Turn: min(p.turnMax+1, TurnMax), Wall: wallWithin(p.now.Wall), Tap: tap, Parts: parts,
	}
	if b := p.own.branch; b != nil {
		e.Seq, e.Before = b.head()+1, b.at(b.head()).hash
	}
	bytes, err := EncodeEntry(e)
	if err != nil {
		return nil, err
	}
	n := &node{hash: HashEntry(bytes), seq: e.Seq, turn: e.Turn, item: Item{Bytes: bytes}, received: p.now.Wall, entry: e, members: hasMembership(e)}
	t := p.tree(p.own.feed)
	b := t.add(n, e.Before)
	p.own.branch = b
	p.own.taps[tap] = Order{Turn: e.Turn, Feed: p.own.feed, Seq: e.Seq, Hash: n.hash}
	p.turnMax = max(p.turnMax, e.Turn)
	p.writing.queue = append(p.writing.queue, &placed{tree: t, br: b, node: n, own: true})
	return e, nil
}

// wallWithin brings a clock that is set to nonsense into what can be written.
func wallWithin(w Wall) Wall { return min(max(w, 0), WallMax) }

func hasMembership(e *Entry) bool {
	return slices.ContainsFunc(e.Parts, func(q Part) bool {
		return q.Kind == KindFounded || q.Kind == KindAdmitted || q.Kind == KindRemoved
	})
}

// flush sends the queue to the disk if the disk is idle, or, when the store
// has failed, takes it into memory.
func (p *Peer) flush() {
	w := &p.writing
	if w.busy || len(w.queue) == 0 && (len(w.void) == 0 || w.memory) {
		return
	}
	take, size := 0, 0
	for take < len(w.queue) && (take == 0 || size+len(w.queue[take].node.item.Bytes) <= p.opt.Settings.BatchLenMax) {
		size += len(w.queue[take].node.item.Bytes)
		take++
	}
	for take > 0 && take < len(w.queue) && w.queue[take].frame != 0 && w.queue[take-1].frame == w.queue[take].frame {
		take++ // a frame stands or falls together: its check is on its last node
	}
	batch := w.queue[:take:take]
	w.queue = slices.Clone(w.queue[take:])
	p.signRuns(batch)
	if w.memory {
		p.intoMemory(batch)
		return
	}
	w.batch++
	w.busy, w.inFlight = true, batch
	a := Append{Batch: w.batch, Void: w.void}
	w.void, w.checks = nil, nil
	for _, q := range batch {
		a.Records = append(a.Records, Record{Received: q.node.received, Item: q.node.item})
		if q.check != nil {
			a.Checks = append(a.Checks, *q.check)
			w.checks = append(w.checks, q.frame)
		}
	}
	p.emit(a)
}

// signRuns gives one signature to the last entry of each run of this device's
// own entries, and one to every membership entry.
func (p *Peer) signRuns(batch []*placed) {
	size, count := 0, 0
	for i, q := range batch {
		if !q.own {
			continue
		}
		size += len(q.node.item.Bytes)
		count++
		next := p.nextOwn(batch[i+1:])
		if next != nil && next.br == q.br && count < ItemsMax && size+len(next.node.item.Bytes) <= RunLenMax && !q.node.members {
			continue
		}
		sig := p.opt.Signer.Sign(SignedText(p.group, q.tree.feed, q.node.seq, q.node.hash))
		q.node.item.Signature = sig[:]
		size, count = 0, 0
	}
}

func (p *Peer) nextOwn(rest []*placed) *placed {
	for _, q := range rest {
		if q.own {
			return q
		}
	}
	return nil
}

// wrote takes the disk's answer.
func (p *Peer) wrote(e Wrote) {
	w := &p.writing
	if e.Batch != w.batch || !w.busy {
		return
	}
	batch := w.inFlight
	w.busy, w.inFlight = false, nil
	bad := map[uint64]bool{}
	for _, i := range e.Bad {
		if i >= 0 && i < len(w.checks) {
			bad[w.checks[i]] = true
		}
	}
	batch = p.dropBad(batch, bad, e.Err == nil)
	if e.Err != nil {
		p.poisoned(batch, e.Err)
		return
	}
	for _, q := range batch {
		q.node.stored = true
	}
	p.hold(batch)
	p.unpark()
}

// poisoned goes on in memory for good. What was on its way is not lost: the
// device's own entries are entered again under their tap in a new incarnation,
// those of others are held in memory, unacknowledged.
func (p *Peer) poisoned(batch []*placed, err error) {
	w := &p.writing
	w.memory = true
	p.note(NotePoisoned, p.self, p.own.feed, err.Error())
	all := append(slices.Clone(batch), w.queue...)
	w.queue, w.void = nil, nil
	again := []*Entry{}
	for _, q := range all {
		if q.own {
			again = append(again, q.node.entry)
		}
	}
	for _, q := range all {
		if q.own {
			q.tree.cut(q.br, q.node.seq)
			delete(p.own.taps, q.node.entry.Tap)
		}
	}
	p.intoMemory(slices.DeleteFunc(slices.Clone(batch), func(q *placed) bool { return q.own }))
	for _, q := range all[len(batch):] {
		if !q.own {
			w.queue = append(w.queue, q)
		}
	}
	p.own.fresh = WhyNotWritten
	for _, e := range again {
		if e.Parts[0].Kind == KindFeedBefore {
			continue // the new incarnation names its own
		}
		p.enter(e.Tap, e.Parts)
	}
}

// intoMemory holds a batch without a disk; signatures are checked here.
func (p *Peer) intoMemory(batch []*placed) {
	bad := map[uint64]bool{}
	for _, q := range batch {
		if c := q.check; c != nil && !p.opt.Signer.Verify(c.By, c.Text, c.Signature) {
			bad[q.frame] = true
		}
	}
	p.hold(p.dropBad(batch, bad, false))
	p.unpark()
}

// dropBad takes the frames whose signature did not verify out of memory, and
// out of the log if they were written, and hangs up on who sent them.
func (p *Peer) dropBad(batch []*placed, bad map[uint64]bool, written bool) []*placed {
	if len(bad) == 0 {
		return batch
	}
	gone := map[*node]bool{}
	for _, q := range batch {
		if bad[q.frame] && q.frame != 0 {
			p.dropFrom(q, gone)
		}
	}
	kept := []*placed{}
	for i, q := range batch {
		if !gone[q.node] {
			kept = append(kept, q)
			continue
		}
		p.workedOff(q)
		if written {
			p.writing.void = append(p.writing.void, VoidMark{Batch: p.writing.batch, Index: uint32(i)})
		}
	}
	p.writing.queue = slices.DeleteFunc(p.writing.queue, func(q *placed) bool {
		if gone[q.node] {
			p.workedOff(q)
		}
		return gone[q.node]
	})
	return kept
}

// dropFrom removes a node and everything behind it, and hangs up on its sender.
func (p *Peer) dropFrom(q *placed, gone map[*node]bool) {
	if gone[q.node] {
		return
	}
	for _, b := range q.tree.branches {
		for s := q.node.seq; s <= b.head(); s++ {
			if b.at(q.node.seq) == q.node {
				gone[b.at(s)] = true
			}
		}
	}
	q.tree.cut(q.br, q.node.seq)
	if len(q.tree.branches) == 0 {
		delete(p.feeds, q.tree.feed) // a feed that nobody wrote
	}
	if l := p.links[q.from]; l != nil {
		p.badSigned(l, q.tree.feed)
	}
}

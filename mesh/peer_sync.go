package mesh

import "slices"

// sendVector tells the other side what is held here. With answer it sends its
// own back; with all it sends whatever is lacking here, else only its own.
func (p *Peer) sendVector(l *link, answer, all bool) {
	heads := p.Heads()
	for first := true; first || len(heads) > 0; first = false {
		n := min(len(heads), HeadsPerFrame)
		v := &Vector{
			Heads: heads[:n:n], More: n < len(heads), Answer: answer, All: all,
			Stored: !p.writing.memory, Taken: l.took,
		}
		heads = heads[n:]
		p.send(l, StreamCatchUp, FrameVector, v)
	}
}

// Heads is this device's vector, sorted: what it holds of every feed.
func (p *Peer) Heads() []Head {
	out := []Head{}
	for _, t := range p.feeds {
		out = append(out, t.heads()...)
	}
	slices.SortFunc(out, compareHeads)
	return out
}

// vector takes what the other side holds and sends what it lacks.
func (p *Peer) vector(l *link, v *Vector) {
	if l.gathered++; l.gathered > VectorMax {
		p.hang(l, "its vector does not end")
		return
	}
	l.gathering = append(l.gathering, v.Heads...)
	if v.More {
		return
	}
	theirs := map[Feed][]Head{}
	for _, h := range l.gathering {
		theirs[h.Feed] = append(theirs[h.Feed], h)
	}
	l.gathering, l.gathered = nil, 0
	if v.Taken == l.sentFrames || p.now.Mono-l.since > p.opt.Settings.TakenPatience {
		l.sent = map[*branch]Seq{} // nothing is under way: the vector says it all
		l.since = p.now.Mono
		l.credited = max(l.credited, min(v.Taken, l.sentFrames))
		if v.Taken != l.sentFrames {
			l.credited = l.sentFrames // frames were lost with an older stream
		}
	}
	p.ownHeads(l, theirs, v.Stored)
	if v.Stored {
		p.othersStored(l.peer, theirs)
	}
	l.want = nil
	for _, t := range p.sortedFeeds() {
		p.compareFeed(l, t, theirs[t.feed])
	}
	if !v.All {
		l.want = slices.DeleteFunc(l.want, func(w wanted) bool { return w.tree.feed.Author() != p.self })
	}
	p.pump(l)
	if v.Answer && l.answered < AnswersMax {
		l.answered += AnswersMax / 4 // a vector costs more than a ladder
		p.sendVector(l, false, true)
	}
}

// ownHeads looks at what the other side shows of this device's own feeds: a
// receipt, or the news that this device has forgotten or forked something.
func (p *Peer) ownHeads(l *link, theirs map[Feed][]Head, stored bool) {
	for _, f := range slices.SortedFunc(keysOf(theirs), Feed.Compare) {
		if f.Author() != p.self {
			continue
		}
		for _, h := range theirs[f] {
			t := p.feeds[f]
			var b *branch
			if t != nil {
				b = t.findShort(h.Seq, h.Hash)
			}
			switch {
			case b == nil && f == p.own.feed && !p.own.warned[l.peer]:
				p.own.fresh = WhyPeerKnows
				p.own.warned[l.peer] = true // a second time only for entries that this device signed
			case b == nil && p.own.branch == nil && p.own.fresh == 0:
				p.own.feed, p.own.fresh = f, WhyPeerKnows
			case b != nil && stored:
				p.receipt(l.peer, Receipt{Feed: f, Seq: h.Seq, Hash: b.at(h.Seq).hash}, false)
			}
		}
	}
}

// othersStored takes what a healthy store shows of everybody else's feeds as
// what it has stored of them.
func (p *Peer) othersStored(by Key, theirs map[Feed][]Head) {
	for f, heads := range theirs {
		t := p.feeds[f]
		if t == nil || f.Author() == p.self {
			continue
		}
		for _, h := range heads {
			if b := t.findShort(h.Seq, h.Hash); b != nil {
				p.noteStored(by, Receipt{Feed: f, Seq: h.Seq, Hash: b.at(h.Seq).hash})
			}
		}
	}
}

func keysOf(m map[Feed][]Head) func(func(Feed) bool) {
	return func(yield func(Feed) bool) {
		for f := range m {
			if !yield(f) {
				return
			}
		}
	}
}

// reached is how far along one line the other side is known to be.
type reached struct {
	br  *branch
	seq Seq
}

// compareFeed finds what the other side lacks of one feed, and asks where the
// two part when it shows a head that must have forked. One ladder a feed is
// enough: the answer to it is everything behind the last common entry.
func (p *Peer) compareFeed(l *link, t *feedTree, heads []Head) {
	rest, known, unknown := t.match(l, heads)
	for _, b := range rest {
		top, have := b.heldHead().seq, Seq(0)
		for _, r := range known {
			have = max(have, min(r.seq, shared(b, r.br)))
		}
		l.knows(b, have)
		if have == 0 && len(unknown) > 0 {
			continue // it is further on, or the ladder finds the last common entry
		}
		if top > l.sent[b] {
			l.want = append(l.want, wanted{tree: t, br: b, next: max(have, l.sent[b]) + 1})
		}
	}
	if b := t.longest(); b != nil && slices.ContainsFunc(unknown, func(s Seq) bool { return s <= b.held }) {
		p.sendLadder(l, b, true)
	}
}

// match sets the branches whose head the other side shows apart from the rest,
// so that what both have costs little, however often a feed forked. It returns
// the others, how far along what lines the other side is, and the heads of it
// that are not known here.
func (t *feedTree) match(l *link, heads []Head) (rest []*branch, known []reached, unknown []Seq) {
	theirs := make(map[Rung]bool, len(heads))
	for _, h := range heads {
		theirs[Rung{Seq: h.Seq, Hash: h.Hash}] = true
	}
	for _, b := range t.branches {
		top := b.heldHead()
		if top == nil {
			continue
		}
		r := Rung{Seq: top.seq, Hash: top.hash.Short()}
		if !theirs[r] {
			rest = append(rest, b)
			continue
		}
		delete(theirs, r)
		l.knows(b, top.seq)
		known = append(known, reached{br: b, seq: top.seq})
	}
	for _, h := range heads {
		if !theirs[Rung{Seq: h.Seq, Hash: h.Hash}] {
			continue
		}
		if c := t.findShort(h.Seq, h.Hash); c != nil {
			known = append(known, reached{br: c, seq: h.Seq})
		} else {
			unknown = append(unknown, h.Seq)
		}
	}
	return rest, known, unknown
}

// pump sends what the other side lacks, as much as may be under way at once.
func (p *Peer) pump(l *link) {
	for len(l.want) > 0 && l.sentFrames-l.credited < uint64(p.opt.Settings.WindowFrames) {
		w := &l.want[0]
		items, last := run(w.br, max(w.next, l.sent[w.br]+1))
		if len(items) == 0 {
			l.want = l.want[1:]
			continue
		}
		p.sendItems(l, StreamCatchUp, w.br, items)
		l.knows(w.br, last)
		w.next = last + 1
	}
}

// sendItems sends a run of b. While earlier runs of b are under way on the other
// stream it follows them there: one that overtakes them would not fit.
func (p *Peer) sendItems(l *link, s Stream, b *branch, items []Item) {
	if before := l.lanes[b]; before.frame > l.credited {
		s = before.stream
	}
	l.sentFrames++
	l.lanes[b] = lane{stream: s, frame: l.sentFrames}
	p.send(l, s, FrameItems, &Items{Items: items})
}

// taken notes that an items frame of l was worked off, and lets more come.
func (p *Peer) taken(l *link) {
	l.took++
	if l.took%2 == 0 {
		p.send(l, StreamCatchUp, FrameCredit, &Credit{Taken: l.took})
	}
}

// run collects entries that count, from a sequence on, as many as fit a frame
// and end with a signature.
func run(b *branch, from Seq) (items []Item, last Seq) {
	bytes, frame, signed := 0, itemsHeadLen, 0
	for s := from; s <= max(b.held, b.from); s++ {
		n := b.at(s)
		bytes += len(n.item.Bytes)
		frame += len(n.item.Bytes) + len(n.item.Signature) + itemHeadLen
		if bytes > RunLenMax || frame > FrameLenMax || len(items) == ItemsMax {
			break
		}
		items = append(items, n.item)
		if len(n.item.Signature) > 0 {
			signed, last = len(items), s
		}
	}
	return items[:signed], last
}

// AnswersMax bounds the ladders of one link between two ticks; a vector that
// answers one costs a quarter of it. Whatever is left out comes with a later vector.
const AnswersMax = 256

// ItemsMax bounds the entries in one items frame and in one run: with their
// heads and the run's one signature they stay below FrameLenMax.
const ItemsMax = 300

// What an items frame adds: once, and to each item's bytes and signature.
const (
	itemsHeadLen = 1 + 1 + 3 // kind, struct, list
	itemHeadLen  = 1 + 3 + 2 // struct, bytes, signature
)

// sendLadder names entries of a branch from its head down, at doubling steps.
func (p *Peer) sendLadder(l *link, b *branch, answer bool) {
	if b == nil || l.answered >= AnswersMax {
		return
	}
	l.answered++
	top := b.heldHead()
	rungs := []Rung{}
	for s, step := top.seq, Seq(1); ; step *= 2 {
		rungs = append(rungs, Rung{Seq: s, Hash: b.at(s).hash.Short()})
		if s == 1 || len(rungs) == RungsMax {
			break
		}
		if s > step {
			s -= step
		} else {
			s = 1
		}
	}
	p.send(l, StreamCatchUp, FrameLadder, &Ladder{Feed: b.feed, Rungs: rungs, Answer: answer})
}

// ladder finds the highest entry that both have and sends every branch from
// there on. Whatever the other side already has of it changes nothing there.
func (p *Peer) ladder(l *link, f *Ladder) {
	t := p.feeds[f.Feed]
	if t == nil {
		return
	}
	var common *branch
	var seq Seq
	for _, r := range f.Rungs {
		if c := t.findShort(r.Seq, r.Hash); c != nil && r.Seq > seq {
			common, seq = c, r.Seq
		}
	}
	for _, b := range t.branches {
		top := b.heldHead()
		if top == nil {
			continue
		}
		from := Seq(0)
		if common != nil {
			from = min(seq, shared(b, common))
		}
		if top.seq > from {
			l.sent[b] = from
			l.want = append(l.want, wanted{tree: t, br: b, next: from + 1})
		}
	}
	if f.Answer {
		p.sendLadder(l, t.longest(), false)
	}
	p.pump(l)
}

package mesh

import (
	"maps"
	"slices"
)

// farName names one receiver's receipts for one feed.
type farName struct {
	receiver Key
	feed     Feed
}

// farBook owns the receipts that travel through others.
type farBook struct {
	left   int              // still allowed in this second
	due    map[Feed]Receipt // the newest one waiting, by feed
	seen   map[farName]Seq  // passed on or taken up to here
	source map[Feed]LinkID  // where a feed came from, if not from its author
}

// sendReceipts answers the authors of what is now on the disk.
func (p *Peer) sendReceipts(batch []*placed) {
	newest := map[Feed]Receipt{}
	for _, q := range batch {
		if q.node.stored && !q.own {
			newest[q.tree.feed] = Receipt{Feed: q.tree.feed, Seq: q.node.seq, Hash: q.node.hash}
		}
	}
	for _, f := range slices.SortedFunc(maps.Keys(newest), Feed.Compare) {
		if l := p.linkTo(f.Author()); l != nil {
			r := newest[f]
			p.send(l, StreamTap, FrameReceipt, &r)
		} else {
			p.far.due[f] = newest[f]
		}
	}
	p.flushFar()
}

// flushFar signs and sends waiting receipts, as many as this second allows.
func (p *Peer) flushFar() {
	for _, f := range slices.SortedFunc(maps.Keys(p.far.due), Feed.Compare) {
		l := p.links[p.far.source[f]]
		if l == nil {
			delete(p.far.due, f)
			continue
		}
		if p.far.left == 0 {
			return
		}
		p.far.left--
		r := p.far.due[f]
		delete(p.far.due, f)
		sig := p.opt.Signer.Sign(ReceiptText(p.group, p.self, r.Feed, r.Seq, r.Hash))
		p.send(l, StreamTap, FrameFar, &FarReceipt{Receiver: p.self, Receipt: r, Signature: sig})
	}
}

// farReceipt takes or passes on a receipt that came through others. Only the
// receiver's own signature makes it believed.
func (p *Peer) farReceipt(l *link, f FarReceipt) {
	r := f.Receipt
	name := farName{receiver: f.Receiver, feed: r.Feed}
	if p.feeds[r.Feed] == nil || p.far.seen[name] >= r.Seq || f.Receiver == p.self || p.members.Status(f.Receiver) != Member {
		return
	}
	if !p.opt.Signer.Verify(f.Receiver, ReceiptText(p.group, f.Receiver, r.Feed, r.Seq, r.Hash), f.Signature) {
		p.note(NoteBadSigned, l.peer, r.Feed, "")
		return
	}
	p.far.seen[name] = r.Seq
	if r.Feed.Author() == p.self {
		p.receipt(f.Receiver, r, true)
		return
	}
	next := p.linkTo(r.Feed.Author())
	if next == nil {
		next = p.links[p.far.source[r.Feed]]
	}
	if next != nil && next != l {
		p.send(next, StreamTap, FrameFar, &f)
	}
}

// receipt notes that another device has stored this device's entries.
func (p *Peer) receipt(by Key, r Receipt, far bool) {
	if r.Feed.Author() != p.self {
		return
	}
	if p.noteStored(by, r) {
		p.emit(Copied{By: by, At: Head{Feed: r.Feed, Seq: r.Seq, Hash: r.Hash.Short()}, Far: far})
	}
}

// noteStored remembers that a device said, of any feed, up to where it has
// stored it. False: that was known, or no such entry counts here.
func (p *Peer) noteStored(by Key, r Receipt) bool {
	t := p.feeds[r.Feed]
	if t == nil {
		return false
	}
	b := t.find(r.Seq, r.Hash)
	if b == nil || r.Seq > max(b.held, b.from) {
		return false
	}
	if p.copies[r.Feed] == nil {
		p.copies[r.Feed] = map[Key][]copyMark{}
	}
	marks := p.copies[r.Feed][by]
	if slices.ContainsFunc(marks, func(m copyMark) bool { return m.covers(r.Seq, r.Hash) }) {
		return false
	}
	now := copyMark{br: b, seq: r.Seq}
	marks = slices.DeleteFunc(marks, func(m copyMark) bool { return now.covers(m.seq, m.br.at(m.seq).hash) })
	p.copies[r.Feed][by] = append(marks, now)
	return true
}

// covers tells whether an entry lies on the line that m says is stored.
func (m copyMark) covers(s Seq, h Hash) bool {
	if s > m.seq {
		return false
	}
	n := m.br.at(s)
	return n != nil && n.hash == h
}

// pushOn sends what now counts to those who need it from here: this device's
// own entries to everyone, others' to whom their author has no link.
func (p *Peer) pushOn(batch []*placed) {
	firsts := map[*branch]Seq{}
	order := []*placed{}
	for _, q := range batch {
		if s, ok := firsts[q.br]; !ok || q.node.seq < s {
			if !ok {
				order = append(order, q)
			}
			firsts[q.br] = q.node.seq
		}
	}
	for _, l := range p.sortedLinks() {
		for _, q := range order {
			author := q.tree.feed.Author()
			if author == l.peer || q.from == l.id && !q.own || !q.own && l.sees[Hash(author).Short()] {
				continue
			}
			p.pushRuns(l, q.br, firsts[q.br])
		}
	}
}

// pushRuns sends a branch from a sequence on; what is already under way to
// this link is not sent twice.
func (p *Peer) pushRuns(l *link, b *branch, from Seq) {
	if slices.ContainsFunc(l.want, func(w wanted) bool { return w.br == b }) {
		return // earlier ones wait for the window; these follow when their turn comes
	}
	for from = max(from, l.sent[b]+1); ; {
		items, last := run(b, from)
		if len(items) == 0 {
			return
		}
		if l.sentFrames-l.credited >= uint64(p.opt.Settings.WindowFrames)*4 {
			l.want = append(l.want, wanted{tree: p.tree(b.feed), br: b, next: from})
			return
		}
		p.sendItems(l, StreamTap, b, items)
		l.knows(b, last)
		from = last + 1
	}
}

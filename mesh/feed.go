package mesh

import "slices"

// node is one entry in memory. It belongs to one branch of one feed.
type node struct {
	hash     Hash
	seq      Seq
	turn     Turn
	item     Item
	received Wall
	entry    *Entry // kept until the node is held, then dropped: the bytes say it all
	members  bool   // it holds a membership part
	stored   bool   // it is on this device's disk
}

// branch is one line of a feed's entries without a gap. A feed that never
// forked has one branch. A branch that split off shares its parent's entries
// up to from.
type branch struct {
	feed   Feed
	parent *branch
	from   Seq     // the last sequence shared with parent; 0 without one
	nodes  []*node // sequences from+1, from+2, …
	held   Seq     // up to here entries count; behind it they wait for the disk
}

// feedTree is everything a device knows of one feed.
type feedTree struct {
	feed     Feed
	branches []*branch // the first one is the first seen; order never leaves this device
	growth   int       // entries since the last tick
	hot      int       // ticks in a row with growth over NoisyRateMax
	noisy    bool
	lines    int // heads when forks were last noted
}

func (b *branch) head() Seq { return b.from + Seq(len(b.nodes)) }

// at returns the entry with this sequence on this line, or nil.
func (b *branch) at(s Seq) *node {
	for b != nil && s <= b.from {
		b = b.parent
	}
	if b == nil || s == 0 || s > b.head() {
		return nil
	}
	return b.nodes[s-b.from-1]
}

// heldHead is the newest entry of this branch's own that counts, or nil.
func (b *branch) heldHead() *node {
	if b.held <= b.from {
		return nil
	}
	return b.at(b.held)
}

// longest returns the branch with the highest entry that counts, or nil.
func (t *feedTree) longest() (out *branch) {
	for _, b := range t.branches {
		if b.heldHead() != nil && (out == nil || b.held > out.held) {
			out = b
		}
	}
	return out
}

// shared is the last sequence that two branches of one feed have in common.
func shared(b, c *branch) Seq {
	limit := min(b.head(), c.head())
	for b != c {
		if b.depth() < c.depth() {
			b, c = c, b
		}
		if b.parent == nil {
			return 0 // they differ from the first entry on
		}
		limit = min(limit, b.from)
		b = b.parent
	}
	return limit
}

func (b *branch) depth() (n int) {
	for ; b.parent != nil; b = b.parent {
		n++
	}
	return n
}

// find returns a branch that has the entry with this sequence and hash.
func (t *feedTree) find(s Seq, h Hash) *branch {
	for _, b := range t.branches {
		if n := b.at(s); n != nil && n.hash == h {
			return b
		}
	}
	return nil
}

// findShort is find for the first bytes of a hash, among entries that count.
func (t *feedTree) findShort(s Seq, h Short) *branch {
	for _, b := range t.branches {
		if n := b.at(s); n != nil && n.hash.Short() == h && s <= max(b.held, b.from) {
			return b
		}
	}
	return nil
}

// add puts n behind the entry that it names as the one before. It returns the
// branch that took it, or nil if that entry is not here. The caller has made
// sure that n is not here yet.
func (t *feedTree) add(n *node, before Hash) (b *branch) {
	if n.seq == 1 {
		b = &branch{feed: t.feed}
		t.branches = append(t.branches, b)
		b.nodes = append(b.nodes, n)
		return b
	}
	for _, c := range t.branches {
		if c.head() == n.seq-1 && c.at(c.head()).hash == before {
			c.nodes = append(c.nodes, n)
			return c
		}
	}
	if b = t.find(n.seq-1, before); b == nil {
		return nil
	}
	b = &branch{feed: t.feed, parent: b, from: n.seq - 1, nodes: []*node{n}}
	t.branches = append(t.branches, b)
	return b
}

// cut drops everything on b from sequence s on, and every branch that split off there.
func (t *feedTree) cut(b *branch, s Seq) {
	for _, c := range slices.Clone(t.branches) {
		if c.parent == b && c.from >= s {
			t.cut(c, c.from+1)
		}
	}
	if s <= b.from+1 {
		t.branches = slices.DeleteFunc(t.branches, func(c *branch) bool { return c == b })
		b.nodes = nil
	} else if s <= b.head() {
		b.nodes = b.nodes[:s-b.from-1]
	}
}

// heads lists the newest entry that counts of every line. A branch from whose
// end another goes on (it once ended in entries that nobody signed) is no line
// of its own.
func (t *feedTree) heads() (out []Head) {
	goesOn := map[*branch]bool{}
	for _, b := range t.branches {
		if b.parent != nil && b.from >= b.parent.held && b.heldHead() != nil {
			goesOn[b.parent] = true
		}
	}
	for _, b := range t.branches {
		if n := b.heldHead(); n != nil && !goesOn[b] {
			out = append(out, Head{Feed: t.feed, Seq: n.seq, Hash: n.hash.Short()})
		}
	}
	slices.SortFunc(out, compareHeads)
	return out
}

// forked tells whether two entries that count have the same sequence.
func (t *feedTree) forked() bool { return len(t.heads()) > 1 }

package mesh

import (
	"maps"
	"slices"
)

// Forks lists the feeds that have two branches, in the order of their bytes.
func (p *Peer) Forks() (out []Feed) {
	for _, f := range slices.SortedFunc(maps.Keys(p.feeds), Feed.Compare) {
		if p.feeds[f].forked() {
			out = append(out, f)
		}
	}
	return out
}

// Conflicts lists the names that stand for two different bodies, in the order
// of their bytes.
func (p *Peer) Conflicts() []Ref { return p.facts.conflicting() }

// Above lists the heads of feeds that reach above their author's cut: what is
// kept and does not count.
func (p *Peer) Above() (out []Head) {
	for _, h := range p.Heads() {
		if !p.members.counts(h.Feed, h.Seq) {
			out = append(out, h)
		}
	}
	return out
}

package mesh

// Kept is how many feeds and how many far receipts a Peer remembers, for tests
// of what strangers and forgers can make it remember.
func (p *Peer) Kept() (feeds, far int) { return len(p.feeds), len(p.far.seen) }

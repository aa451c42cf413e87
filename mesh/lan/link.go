package lan

import (
	"errors"
	"fmt"
	"sync"

	"lintel/mesh"
)

// link is a session that stands. Its run owns the carrier; others only end it
// and put frames into its outbox.
type link struct {
	id      mesh.LinkID
	c       *carrier
	dialled bool
	address string // where the other side listens
	run     runID  // the other side's run
	rank    rank
	out     *outbox

	once  sync.Once
	done  chan struct{} // closed once why and code are set
	code  closeCode
	why   string
	swept chan struct{} // closed when LinkDown was delivered
}

func (n *Net) newLink(c *carrier, dialled bool) *link {
	return &link{
		c: c, dialled: dialled, address: c.remote,
		out:   newOutbox(len(c.lanes), n.opt.Limits.QueueLenMax),
		done:  make(chan struct{}),
		swept: make(chan struct{}),
	}
}

// end makes the link go down. It never blocks; only the first reason counts.
func (l *link) end(code closeCode, why string) {
	l.once.Do(func() {
		l.code, l.why = code, why
		close(l.done)
	})
}

// carry runs a link from LinkUp to LinkDown. It returns when all its goroutines
// have ended.
func (n *Net) carry(l *link) {
	defer close(l.swept)
	n.opt.Deliver(mesh.LinkUp{Link: l.id, Peer: l.c.peer, Dialled: l.dialled, Via: l.c.via, Address: l.address})
	var lanes sync.WaitGroup // joined below
	for i, ln := range l.c.lanes {
		lanes.Go(func() { n.readLane(l, ln) })
		lanes.Go(func() { n.writeLane(l, i, ln) })
	}
	<-l.done
	n.links.remove(l)
	l.c.end(l.code, l.why)
	lanes.Wait()
	n.opt.Deliver(mesh.LinkDown{Link: l.id, Why: l.why})
}

// readLane delivers frames until the link ends or sends what cannot be read.
func (n *Net) readLane(l *link, ln lane) {
	for {
		stream, frame, err := l.c.read(ln, mesh.FrameLenMax)
		if err != nil {
			code := closedHung
			if errors.Is(err, errFrame) {
				code = closedRubbish
			}
			l.end(code, err.Error())
			return
		}
		_ = stream // a frame says itself what it is; its stream only kept its order
		select {
		case <-l.done:
			return
		default:
			n.opt.Deliver(mesh.Arrived{Link: l.id, Frame: frame})
		}
	}
}

// writeLane sends what is put into the outbox until the link ends.
func (n *Net) writeLane(l *link, number int, ln lane) {
	var b []byte
	for {
		b = l.out.take(number, ln, b[:0])
		if len(b) == 0 {
			select {
			case <-l.done:
				return
			case <-l.out.wake[number]:
			}
			continue
		}
		if _, err := ln.w.Write(b); err != nil {
			l.end(closedHung, fmt.Sprintf("sending: %v", err))
			return
		}
	}
}

// Send puts a frame on a link and keeps it; the caller must not change it any
// more. It never blocks. A link that cannot take it is ended; a link that is no
// more takes nothing, and its LinkDown is on its way or was delivered.
func (n *Net) Send(id mesh.LinkID, s mesh.Stream, frame []byte) {
	l := n.links.get(id)
	switch {
	case l == nil:
	case s > mesh.StreamCatchUp || len(frame) == 0 || len(frame) > mesh.FrameLenMax:
		l.end(closedHung, fmt.Sprintf("a frame of %d bytes for stream %d cannot be sent", len(frame), s))
	case !l.out.put(s, frame):
		l.end(closedSlow, "the other side takes too little: the queue is full")
	}
}

// Hang ends a link. It never blocks; LinkDown follows.
func (n *Net) Hang(id mesh.LinkID, why string) {
	if l := n.links.get(id); l != nil {
		l.end(closedHung, why)
	}
}

package lan

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"net"
	"strconv"
	"sync"
	"time"

	"github.com/quic-go/quic-go"

	"lintel/mesh"
)

// opened is a connection that this device dialled: for frames with the other
// side's hello, else without.
type opened struct {
	c       *carrier
	theirs  Hello
	attempt uint64
	err     error
}

// way is one transport to dial by.
type way struct {
	after time.Duration // how long to leave the others a chance
	open  func(ctx context.Context, addr, protocol string) opened
}

// ways lists the transports in the order in which they are tried.
func (n *Net) ways() []way {
	return []way{{open: n.openQUIC}, {after: n.opt.Limits.TCPAfter, open: n.openTCP}}
}

// race dials addr by several ways, one after the other, and returns the first
// that opens. The others are ended before it returns. A way that has failed
// lets the next begin at once.
func (n *Net) race(ctx context.Context, addr, protocol string, ways []way) (opened, error) {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	ended := make(chan opened, len(ways))
	failed := make(chan struct{}, len(ways))
	var dials sync.WaitGroup // joined below
	for i, w := range ways {
		dials.Go(func() {
			if i > 0 && !wait(ctx, w.after, failed) {
				ended <- opened{err: ctx.Err()}
				return
			}
			o := w.open(ctx, addr, protocol)
			ended <- o
			failed <- struct{}{}
		})
	}
	var first opened
	var errs []error
	for range ways {
		o := <-ended
		switch {
		case o.err != nil:
			if errs = append(errs, o.err); !errors.Is(reason(errs), ErrNoAnswer) {
				cancel() // somebody answered; no other way will answer otherwise
			}
		case first.c == nil:
			first = o
			cancel()
		default:
			o.c.end(closedReplaced, errStands.Error())
		}
	}
	dials.Wait()
	if first.c == nil {
		return first, reason(errs)
	}
	return first, nil
}

// wait lets time pass, less if early is signalled; false when ctx has ended.
func wait(ctx context.Context, d time.Duration, early <-chan struct{}) bool {
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-ctx.Done():
		return false
	case <-timer.C:
	case <-early:
	}
	return ctx.Err() == nil
}

// reason chooses from the failures of all ways the one that says most.
func reason(errs []error) error {
	for _, telling := range []error{ErrAddress, ErrOwnAddress, ErrOtherGroup, ErrOtherVersion, ErrNotAdmitted, ErrRefused, errStands} {
		for _, err := range errs {
			if errors.Is(err, telling) {
				return telling
			}
		}
	}
	for _, err := range errs {
		if alerted(err) {
			return ErrRefused
		}
	}
	return fmt.Errorf("%w: %v", ErrNoAnswer, errors.Join(errs...))
}

// alerted tells whether err is a TLS alert of the other side: it ended the
// handshake, and the only thing there to dislike is the key.
func alerted(err error) bool {
	var overTCP *net.OpError
	var overQUIC *quic.TransportError
	return errors.As(err, &overTCP) && overTCP.Op == "remote error" ||
		errors.As(err, &overQUIC) && overQUIC.Remote && overQUIC.ErrorCode.IsCryptoError()
}

// resolve reads "host:port", or "host" for PortDefault.
func resolve(ctx context.Context, addr string) (*net.UDPAddr, error) {
	host, service, err := net.SplitHostPort(addr)
	if err != nil {
		host, service = addr, strconv.Itoa(PortDefault)
	}
	port, err := strconv.ParseUint(service, 10, 16)
	if err != nil || port == 0 || host == "" {
		return nil, fmt.Errorf("%w: %q", ErrAddress, addr)
	}
	found, err := net.DefaultResolver.LookupIPAddr(ctx, host)
	if err != nil || len(found) == 0 {
		return nil, fmt.Errorf("%w: %q: %v", ErrAddress, addr, err)
	}
	to := found[0]
	for _, a := range found {
		if a.IP.To4() != nil { // what isolated networks have, and what "localhost" means most often
			to = a
			break
		}
	}
	return &net.UDPAddr{IP: to.IP, Zone: to.Zone, Port: int(port)}, nil
}

func (n *Net) openQUIC(ctx context.Context, addr, protocol string) opened {
	to, err := resolve(ctx, addr)
	if err != nil {
		return opened{err: err}
	}
	conf := n.tlsConfig(protocol)
	conf.ServerName = to.String() // only names the kept tokens
	qc, err := n.transport.Dial(ctx, to, conf, n.quicConfig())
	if err != nil {
		return opened{err: err}
	}
	c, err := quicCarrier(qc)
	if err != nil {
		_ = qc.CloseWithError(quic.ApplicationErrorCode(closedRubbish), "")
		return opened{err: err}
	}
	names := []byte{byte(mesh.StreamTap), byte(mesh.StreamCatchUp)}
	if protocol != forFrames {
		names = names[:1]
	}
	if err := c.openStreams(ctx, qc, names...); err != nil {
		c.endFor(err)
		return opened{err: err}
	}
	return n.awaitHello(ctx, c, protocol)
}

func (n *Net) openTCP(ctx context.Context, addr, protocol string) opened {
	to, err := resolve(ctx, addr)
	if err != nil {
		return opened{err: err}
	}
	raw, err := new(net.Dialer).DialContext(ctx, "tcp", to.String())
	if err != nil {
		return opened{err: err}
	}
	bounded(raw)
	tc := tls.Client(raw, n.tlsConfig(protocol))
	if err := tc.HandshakeContext(ctx); err != nil {
		_ = raw.Close()
		return opened{err: err}
	}
	c, err := tcpCarrier(tc)
	if err != nil {
		_ = raw.Close()
		return opened{err: err}
	}
	return n.awaitHello(ctx, c, protocol)
}

// awaitHello reads the accepting side's hello: only it says that this device
// was let in. When pairing, and for pictures, there is none.
func (n *Net) awaitHello(ctx context.Context, c *carrier, protocol string) opened {
	if until, ok := ctx.Deadline(); ok {
		c.deadline(until)
	}
	o := opened{c: c, attempt: n.attempts.Add(1)}
	if protocol != forFrames {
		return o
	}
	stop := context.AfterFunc(ctx, func() { c.end(closedReplaced, "another connection was quicker") })
	o.theirs, o.err = c.greeting()
	stop()
	if o.err == nil {
		o.err = n.fits(o.theirs)
	}
	if o.err != nil {
		c.endFor(o.err)
	}
	return o
}

// fits compares a hello's group with this device's.
func (n *Net) fits(theirs Hello) error {
	ours, err := n.hello()
	if err == nil && ours.Group != theirs.Group {
		err = ErrOtherGroup
	}
	return err
}

// dial makes a link with the device at addr. It returns the device's key, also
// with errStands: then a link with it stands that is kept instead.
func (n *Net) dial(ctx context.Context, addr string, want intent, ways []way) (*link, mesh.Key, error) {
	ctx, cancel := context.WithTimeout(ctx, n.opt.Limits.OpenWithin)
	defer cancel()
	o, err := n.race(ctx, addr, forFrames, ways)
	if err != nil {
		return nil, mesh.Key{}, err
	}
	l, err := n.take(o, want)
	if err != nil {
		o.c.endFor(err)
	}
	return l, o.c.peer, err
}

// take makes a connection whose hello came a link, unless a better one stands,
// and answers the hello.
func (n *Net) take(o opened, want intent) (*link, error) {
	ours, err := n.hello()
	if err != nil {
		return nil, err
	}
	o.c.deadline(time.Time{})
	l := n.newLink(o.c, true)
	if err := n.links.settleDialled(l, o.theirs, n.run, o.attempt, want); err != nil {
		return nil, err
	}
	ours.Epoch, ours.Attempt = l.rank.epoch, l.rank.attempt
	b, err := encodeHello(ours)
	if err != nil {
		l.end(closedHung, err.Error())
	} else {
		l.out.put(mesh.StreamTap, b) // the first frame of this side
	}
	n.working.Go(func() { n.carry(l) }) // joined by Run, which outlives every dial
	return l, nil
}

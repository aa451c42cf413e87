package lan

import (
	"context"
	"crypto/ed25519"
	"crypto/rand"
	"crypto/tls"
	"errors"
	"fmt"
	"net"
	"sync"
	"sync/atomic"
	"time"

	"github.com/quic-go/quic-go"

	"lintel/mesh"
)

// acceptPause is how long accepting waits when the system has no more sockets.
const acceptPause = 50 * time.Millisecond

// Tokens kept of earlier QUIC sessions, see quicConfig.
const (
	tokenPeersMax = 128
	tokensEach    = 2
)

// Net is one device on the network. Its methods may be called concurrently.
type Net struct {
	opt         Options
	key         mesh.Key
	run         runID
	certificate tls.Certificate
	tokens      quic.TokenStore
	sockets     sockets
	transport   *quic.Transport
	accepting   *quic.Listener
	gate        *gate
	links       *links
	attempts    atomic.Uint64
	failures    *failures
	picturing   chan struct{} // one token for each picture that is being given
	showing     showing
	keepers     keepers
	finder      *finder
	tending     sync.Mutex     // one at a time dials what was found
	working     sync.WaitGroup // everything started on behalf of Run; Run joins it
}

// New binds the sockets. Nothing is accepted or dialled before Run.
func New(o Options) (*Net, error) {
	o, err := checked(o)
	if err != nil {
		return nil, err
	}
	n := &Net{opt: o, gate: newGate(o.Limits), tokens: quic.NewLRUTokenStore(tokenPeersMax, tokensEach)}
	copy(n.key[:], o.Key.Public().(ed25519.PublicKey))
	if _, err := rand.Read(n.run[:]); err != nil {
		return nil, fmt.Errorf("random: %w", err)
	}
	n.links = newLinks(n.key)
	n.failures = newFailures(o)
	n.picturing = make(chan struct{}, o.Limits.PicturesAtOnce)
	n.keepers.all = map[string]*keeper{}
	if n.certificate, err = certify(o.Key); err != nil {
		return nil, err
	}
	if n.sockets, err = bind(o.Listen); err != nil {
		return nil, err
	}
	if n.finder, err = newFinder(); err != nil {
		n.sockets.close()
		return nil, err
	}
	n.finder.port, n.finder.group, n.finder.wall = uint16(n.Port()), o.Group, o.Now
	n.finder.table.linked = n.linked
	n.transport = &quic.Transport{
		Conn:                n.sockets.udp,
		StatelessResetKey:   resetKey(o.Key),
		VerifySourceAddress: n.gate.crowded,
		ConnContext:         n.enterQUIC,
	}
	n.accepting, err = n.transport.Listen(n.tlsConfig(forFrames, forPairing, forPicture), n.quicConfig())
	if err != nil {
		n.sockets.close()
		return nil, fmt.Errorf("listen for QUIC: %w", err)
	}
	return n, nil
}

// Key is this device's public key.
func (n *Net) Key() mesh.Key { return n.key }

// Run accepts and dials until ctx ends, then ends all links and returns when
// everything it started has ended. It closes the sockets; a Net runs once.
func (n *Net) Run(ctx context.Context) error {
	n.startFinding(ctx)
	n.working.Go(func() { n.acceptQUIC(ctx) }) // joined below, as all of n.working
	n.working.Go(func() { n.acceptTCP(ctx) })
	n.keepers.start(ctx, n)
	<-ctx.Done()
	n.keepers.stop()
	n.Cancel()
	n.links.close()
	_ = n.sockets.tcp.Close()
	_ = n.accepting.Close()
	n.working.Wait()
	err := n.transport.Close()
	_ = n.sockets.udp.Close()
	return err
}

// Close frees the sockets of a Net that was never run.
func (n *Net) Close() error {
	err := n.transport.Close()
	n.sockets.close()
	return err
}

// slotKey finds a half-open connection's slot in its context.
type slotKey struct{}

// enterQUIC counts a QUIC connection from its first packet on.
func (n *Net) enterQUIC(ctx context.Context, who *quic.ClientInfo) (context.Context, error) {
	s := n.gate.enter(who.RemoteAddr)
	if s == nil {
		return nil, errors.New("too many half-open connections")
	}
	context.AfterFunc(ctx, s.leave)
	return context.WithValue(ctx, slotKey{}, s), nil
}

func (n *Net) acceptQUIC(ctx context.Context) {
	for {
		qc, err := n.accepting.Accept(ctx)
		if err != nil {
			return // ctx has ended, or the socket is gone and Run with it
		}
		n.working.Go(func() { n.greetQUIC(ctx, qc) })
	}
}

func (n *Net) acceptTCP(ctx context.Context) {
	for {
		c, err := n.sockets.tcp.Accept()
		switch {
		case errors.Is(err, net.ErrClosed):
			return
		case err != nil: // out of sockets, say
			select {
			case <-ctx.Done():
				return
			case <-time.After(acceptPause):
			}
			continue
		}
		s := n.gate.enter(c.RemoteAddr())
		if s == nil {
			_ = c.Close()
			continue
		}
		n.working.Go(func() { n.greetTCP(ctx, c, s) })
	}
}

// greetQUIC takes a QUIC connection whose handshake is done.
func (n *Net) greetQUIC(ctx context.Context, qc *quic.Conn) {
	s := qc.Context().Value(slotKey{}).(*slot) // put there by enterQUIC
	defer s.leave()
	open, cancel := context.WithTimeout(ctx, n.opt.Limits.OpenWithin)
	defer cancel()
	c, err := quicCarrier(qc)
	if err != nil {
		_ = qc.CloseWithError(quic.ApplicationErrorCode(closedRubbish), "")
		return
	}
	streams := 1
	if c.tls.NegotiatedProtocol == forFrames {
		streams = 2
	}
	if err := c.acceptStreams(open, qc, streams); err != nil {
		c.endFor(err)
		return
	}
	n.greet(ctx, open, c, s)
}

// greetTCP takes a TCP connection from its first byte on.
func (n *Net) greetTCP(ctx context.Context, raw net.Conn, s *slot) {
	defer s.leave()
	bounded(raw)
	open, cancel := context.WithTimeout(ctx, n.opt.Limits.OpenWithin)
	defer cancel()
	tc := tls.Server(raw, n.tlsConfig(forFrames, forPairing, forPicture))
	if err := tc.HandshakeContext(open); err != nil {
		_ = raw.Close()
		return
	}
	c, err := tcpCarrier(tc)
	if err != nil {
		_ = raw.Close()
		return
	}
	n.greet(ctx, open, c, s)
}

// greet answers a connection that is open: by pairing, by giving a picture, or
// by becoming a link.
func (n *Net) greet(ctx, open context.Context, c *carrier, s *slot) {
	until, _ := open.Deadline()
	c.deadline(until)
	if c.tls.NegotiatedProtocol == forPairing {
		n.answerPairing(ctx, c, s)
		return
	}
	if c.tls.NegotiatedProtocol == forPicture {
		n.answerPicture(ctx, c, s)
		return
	}
	stop := context.AfterFunc(ctx, func() { c.end(closedLeaving, "the program ends") })
	l, err := n.acceptLink(c)
	stop()
	if err != nil {
		c.endFor(err)
		return
	}
	s.leave()
	n.carry(l)
}

// acceptLink exchanges hellos on the accepting side.
func (n *Net) acceptLink(c *carrier) (*link, error) {
	ours, err := n.hello()
	if err != nil {
		return nil, err
	}
	n.links.standing(c.peer, &ours)
	if err := c.greet(ours); err != nil {
		return nil, err
	}
	theirs, err := c.greeting()
	if err != nil {
		return nil, err
	}
	if theirs.Group != ours.Group {
		return nil, ErrOtherGroup
	}
	c.deadline(time.Time{})
	l := n.newLink(c, false)
	l.address = hostPort(c.remote, theirs.Port)
	return l, n.links.settleAccepted(l, theirs)
}

// hello is what both sides' hellos have in common.
func (n *Net) hello() (Hello, error) {
	group, ok := n.opt.Group()
	if !ok {
		return Hello{}, ErrOtherGroup
	}
	return Hello{Group: group, Wall: mesh.Wall(n.opt.Now().UnixMilli()), Run: n.run, Port: uint16(n.Port())}, nil
}

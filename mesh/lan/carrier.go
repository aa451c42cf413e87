package lan

import (
	"bufio"
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"io"
	"net"
	"time"

	"github.com/quic-go/quic-go"

	"lintel/mesh"
)

// A carrier is one connection with the other side's key proved, over QUIC or
// TCP. It is owned by one goroutine until it becomes a link.
type carrier struct {
	via      mesh.Transport
	peer     mesh.Key
	remote   string
	tls      tls.ConnectionState
	lanes    []lane // QUIC for frames: taps, catch-up; everything else has one
	deadline func(time.Time)
	// end closes at once and, if it can, tells the other side why. It may be
	// called more than once and from several goroutines.
	end func(code closeCode, words string)
}

// lane is one ordered sequence of bytes each way.
type lane struct {
	r     *bufio.Reader
	w     io.Writer
	named bool // a byte before each frame names its stream
}

// closeCode says to the other side why a connection ends.
type closeCode uint8

// The codes. They are numbered once.
const (
	closedLeaving  closeCode = 1 // the program ends
	closedHung     closeCode = 2 // the caller hung up
	closedReplaced closeCode = 3 // another connection is kept
	closedGroup    closeCode = 4 // another group
	closedVersion  closeCode = 5 // another version
	closedRubbish  closeCode = 6 // what came cannot be read
	closedSlow     closeCode = 7 // the other side takes too little
	closedDone     closeCode = 8 // pairing is over
)

// closedError says that the other side ended the connection, and why.
type closedError struct {
	code  closeCode
	words string
}

func (e *closedError) Error() string { return "the other side: " + e.words }

// Unwrap maps the codes that people should know about.
func (e *closedError) Unwrap() error {
	switch e.code {
	case closedGroup:
		return ErrOtherGroup
	case closedVersion:
		return ErrOtherVersion
	case closedReplaced:
		return errStands
	}
	return nil
}

const (
	wordsLenMax  = 200                    // bytes of a reason
	goodbyeAfter = 200 * time.Millisecond // a TCP connection that cannot take its goodbye by then goes without
	readLenStep  = 4 << 10                // bytes of a lane's read buffer
	tcpBufferLen = 256 << 10              // bytes the system keeps for a TCP connection, each way
)

// quicCarrier wraps a QUIC connection without streams.
func quicCarrier(c *quic.Conn) (*carrier, error) {
	cs := c.ConnectionState().TLS
	peer, err := keyOf(cs)
	if err != nil {
		return nil, err
	}
	return &carrier{
		via:    mesh.OverQUIC,
		peer:   peer,
		remote: c.RemoteAddr().String(),
		tls:    cs,
		end: func(code closeCode, words string) {
			_ = c.CloseWithError(quic.ApplicationErrorCode(code), cut(words))
		},
	}, nil
}

// use makes streams the carrier's lanes.
func (c *carrier) use(streams ...*quic.Stream) {
	for _, s := range streams {
		c.lanes = append(c.lanes, lane{r: bufio.NewReaderSize(s, readLenStep), w: s})
	}
	c.deadline = func(t time.Time) {
		for _, s := range streams {
			_ = s.SetDeadline(t)
		}
	}
}

// openStreams opens and names one stream per name.
func (c *carrier) openStreams(ctx context.Context, qc *quic.Conn, names ...byte) error {
	var streams []*quic.Stream
	for _, name := range names {
		s, err := qc.OpenStreamSync(ctx)
		if err != nil {
			return err
		}
		if _, err := s.Write([]byte{name}); err != nil {
			return err
		}
		streams = append(streams, s)
	}
	c.use(streams...)
	return nil
}

// acceptStreams waits for the streams of the dialling side, whose names must be
// 0 to count-1, each once.
func (c *carrier) acceptStreams(ctx context.Context, qc *quic.Conn, count int) error {
	streams := make([]*quic.Stream, count)
	for range count {
		s, err := qc.AcceptStream(ctx)
		if err != nil {
			return err
		}
		if until, ok := ctx.Deadline(); ok {
			_ = s.SetReadDeadline(until)
		}
		var name [1]byte
		if _, err := io.ReadFull(s, name[:]); err != nil {
			return err
		}
		if int(name[0]) >= count || streams[name[0]] != nil {
			return fmt.Errorf("%w: stream %d", errFrame, name[0])
		}
		streams[name[0]] = s
	}
	c.use(streams...)
	return nil
}

// tcpCarrier wraps a TCP connection whose handshake is done.
func tcpCarrier(c *tls.Conn) (*carrier, error) {
	cs := c.ConnectionState()
	peer, err := keyOf(cs)
	if err != nil {
		return nil, err
	}
	named := cs.NegotiatedProtocol == forFrames
	return &carrier{
		via:      mesh.OverTCP,
		peer:     peer,
		remote:   c.RemoteAddr().String(),
		tls:      cs,
		lanes:    []lane{{r: bufio.NewReaderSize(c, readLenStep), w: c, named: named}},
		deadline: func(t time.Time) { _ = c.SetDeadline(t) },
		end: func(code closeCode, words string) {
			if named {
				_ = c.SetWriteDeadline(time.Now().Add(goodbyeAfter))
				_, _ = c.Write(appendFrame(nil, true, goodbye, append([]byte{byte(code)}, cut(words)...)))
			}
			_ = c.Close()
		},
	}, nil
}

// bounded keeps the system from buffering more for us than the limits say.
func bounded(c net.Conn) {
	if t, ok := c.(*net.TCPConn); ok {
		_ = t.SetReadBuffer(tcpBufferLen)
		_ = t.SetWriteBuffer(tcpBufferLen)
	}
}

// read reads one frame of a lane. A goodbye and QUIC's close are a *closedError.
func (c *carrier) read(ln lane, lenMax int) (stream byte, frame []byte, err error) {
	stream, frame, err = readFrame(ln.r, ln.named, lenMax)
	if err == nil && stream == goodbye {
		return 0, nil, &closedError{code: closeCode(frame[0]), words: plain(frame[1:])}
	}
	var closed *quic.ApplicationError
	if errors.As(err, &closed) && closed.Remote {
		return 0, nil, &closedError{code: closeCode(min(closed.ErrorCode, 255)), words: plain([]byte(closed.ErrorMessage))}
	}
	return stream, frame, err
}

// greet writes the hello on the first lane.
func (c *carrier) greet(h Hello) error {
	b, err := encodeHello(h)
	if err != nil {
		return err
	}
	_, err = c.lanes[0].w.Write(appendFrame(nil, c.lanes[0].named, byte(mesh.StreamTap), b))
	return err
}

// greeting reads the other side's hello.
func (c *carrier) greeting() (Hello, error) {
	stream, frame, err := c.read(c.lanes[0], openFrameLenMax)
	if err != nil {
		return Hello{}, err
	}
	if stream != byte(mesh.StreamTap) {
		return Hello{}, fmt.Errorf("%w: it came on stream %d", errHello, stream)
	}
	return decodeHello(frame)
}

// endFor closes with the code that goes with err.
func (c *carrier) endFor(err error) {
	switch {
	case errors.Is(err, ErrOtherGroup):
		c.end(closedGroup, err.Error())
	case errors.Is(err, ErrOtherVersion):
		c.end(closedVersion, err.Error())
	case errors.Is(err, errStands):
		c.end(closedReplaced, err.Error())
	default:
		c.end(closedRubbish, "the hello did not come or cannot be read")
	}
}

// cut shortens a reason to what may be sent.
func cut(words string) string { return words[:min(len(words), wordsLenMax)] }

// plain makes a reason that came from outside fit for a log: printable ASCII.
func plain(words []byte) string {
	out := []byte(cut(string(words)))
	for i, b := range out {
		if b < ' ' || b > '~' {
			out[i] = '?'
		}
	}
	return string(out)
}

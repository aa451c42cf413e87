package lan

import (
	"crypto/ed25519"
	"fmt"
	"time"

	"lintel/mesh"
)

// PortDefault is the port tried first; it is registered to nobody. The next
// three are tried when it is taken.
const PortDefault = 29460

// PortsTried is how many ports, from PortDefault, are tried.
const PortsTried = 4

// Options is what a Net needs. New copies it.
type Options struct {
	// Key is the device. Its public half is what others admit.
	Key ed25519.PrivateKey
	// Listen is "" for PortDefault or one of the three behind it on every
	// address, or one exact "host:port"; port 0 lets the system choose.
	Listen string
	// Find makes the device look for others of its group by mDNS and beacons,
	// and dial the addresses that members pass on. Without it only kept
	// addresses are dialled, and nobody is called.
	Find bool
	// Group returns the group of the device, false before it belongs to one.
	// It is called by many goroutines and must not block.
	Group func() (mesh.GroupID, bool)
	// Member tells whether a key is admitted now. As Group.
	Member func(mesh.Key) bool
	// Deliver takes LinkUp, LinkDown and Arrived. For one link they come in
	// that order, LinkUp first and LinkDown last, frames of one stream in order;
	// it is called by several goroutines, so for several links (and the two
	// streams of one) at once. While it blocks, that stream is not read. Once
	// the context of Run has ended it must return.
	Deliver func(mesh.Event)
	// Picture, if not nil, gives the bytes of a picture by their hash, at most
	// PictureLenMax, to members that ask for it; false: this device does not
	// have it. It may read a file; several goroutines call it.
	Picture func(mesh.Hash) ([]byte, bool)
	// Tries keeps the failures of pairing.
	Tries Tries
	// PairingClosed, if not nil, is told when wrong codes have closed pairing.
	// It must not block.
	PairingClosed func(failures int, until time.Time)
	// Failed, if not nil, is told why an address given to Keep could not be
	// reached, each time it was tried. It must not block.
	Failed func(addr string, err error)
	// Now is the wall clock; nil is time.Now.
	Now func() time.Time
	// Limits are the bounds; the zero value is Defaults().
	Limits Limits
}

// Limits bound what strangers and slow devices can cost, and how long to wait.
type Limits struct {
	HalfOpenPerAddress int // connections without a hello from one address; fewer refuse honest devices behind one router
	HalfOpenLoopback   int // the same from this machine
	HalfOpenTotal      int // the same in all
	RetryOver          int // half-open connections beyond which a QUIC address must first prove itself

	OpenWithin time.Duration // handshake and hello, and each step of proving a code
	TCPAfter   time.Duration // TCP joins when QUIC has brought no hello by then
	QUICAgain  time.Duration // a link on TCP tries QUIC again this often
	RedialMin  time.Duration // the first pause between two dials of a kept address; it doubles
	RedialMax  time.Duration // and the longest
	IdleMax    time.Duration // silence that ends a QUIC session; must exceed the longest sleep that is to be survived

	QueueLenMax   int // bytes waiting to be sent on one link; beyond it the link is ended
	WaitingLenMax int // bytes from one device that wait unread in its QUIC session, both streams together

	CodeValid     time.Duration // how long a shown code can be used
	CodeTries     int           // wrong proofs that end a shown code
	FailuresMax   int           // wrong proofs within FailureWindow that close pairing
	FailureWindow time.Duration
	ClosedFor     time.Duration // how long pairing stays closed
	AdmitWithin   time.Duration // writing an admission, once the code is proved

	PicturesAtOnce int           // that are given to others at one time; the next are asked to come later
	PictureWithin  time.Duration // fetching or giving one
}

// Defaults returns the limits that are shipped.
func Defaults() Limits {
	return Limits{
		HalfOpenPerAddress: 16,
		HalfOpenLoopback:   64,
		HalfOpenTotal:      64,
		RetryOver:          16,
		OpenWithin:         5 * time.Second,
		TCPAfter:           time.Second,
		QUICAgain:          10 * time.Second,
		RedialMin:          time.Second,
		RedialMax:          10 * time.Second,
		IdleMax:            90 * time.Second,
		QueueLenMax:        4 << 20,
		WaitingLenMax:      1 << 20,
		CodeValid:          2 * time.Minute,
		CodeTries:          2,
		FailuresMax:        5,
		FailureWindow:      10 * time.Minute,
		ClosedFor:          10 * time.Minute,
		AdmitWithin:        30 * time.Second,
		PicturesAtOnce:     4,
		PictureWithin:      20 * time.Second,
	}
}

// checked returns o with its defaults filled in, or names what is wrong.
func checked(o Options) (Options, error) {
	switch {
	case len(o.Key) != ed25519.PrivateKeySize:
		return o, fmt.Errorf("%w: Key has %d bytes", ErrOptions, len(o.Key))
	case o.Group == nil, o.Member == nil, o.Deliver == nil:
		return o, fmt.Errorf("%w: Group, Member and Deliver are needed", ErrOptions)
	case o.Tries == nil:
		return o, fmt.Errorf("%w: Tries is needed", ErrOptions)
	}
	if o.Limits == (Limits{}) {
		o.Limits = Defaults()
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.PairingClosed == nil {
		o.PairingClosed = func(int, time.Time) {}
	}
	if o.Picture == nil {
		o.Picture = func(mesh.Hash) ([]byte, bool) { return nil, false }
	}
	if o.Failed == nil {
		o.Failed = func(string, error) {}
	}
	l := o.Limits
	for _, d := range []time.Duration{l.OpenWithin, l.TCPAfter, l.QUICAgain, l.RedialMin, l.RedialMax, l.IdleMax,
		l.CodeValid, l.FailureWindow, l.ClosedFor, l.AdmitWithin, l.PictureWithin} {
		if d <= 0 {
			return o, fmt.Errorf("%w: a time of %v in Limits", ErrOptions, d)
		}
	}
	for _, n := range []int{l.HalfOpenPerAddress, l.HalfOpenLoopback, l.HalfOpenTotal, l.RetryOver, l.CodeTries, l.FailuresMax, l.PicturesAtOnce} {
		if n <= 0 {
			return o, fmt.Errorf("%w: a count of %d in Limits", ErrOptions, n)
		}
	}
	if l.QueueLenMax < mesh.FrameLenMax || l.WaitingLenMax < 2*mesh.FrameLenMax {
		return o, fmt.Errorf("%w: QueueLenMax %d, WaitingLenMax %d", ErrOptions, l.QueueLenMax, l.WaitingLenMax)
	}
	return o, nil
}

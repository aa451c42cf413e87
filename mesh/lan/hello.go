package lan

import (
	"fmt"

	"lintel/mesh"
)

// helloVersion is the version of the talk between devices.
const helloVersion = 1

// runID names one run of the program on a device.
type runID [8]byte

// Hello is the first frame of each side. It is exported for its encoding only.
type Hello struct {
	Group mesh.GroupID
	Wall  mesh.Wall // the sender's wall clock when it was sent
	Run   runID
	Port  uint16 // on which the sender listens
	// In the dialling side's hello, the rank of this connection. In the
	// accepting side's, that of the link which stands on its side with run
	// KnownRun of the other; ByAccepter then says who dialled that one.
	Epoch      uint64
	Attempt    uint64
	ByAccepter bool
	KnownRun   runID
}

// Valid reports a number that no program sends.
func (h Hello) Valid() error {
	if h.Port == 0 {
		return fmt.Errorf("%w: port 0", errHello)
	}
	if h.Epoch > rankMax || h.Attempt > rankMax {
		return fmt.Errorf("%w: epoch %d, attempt %d", errHello, h.Epoch, h.Attempt)
	}
	return nil
}

// rankMax bounds epochs and attempts, so that one more still is a number.
const rankMax = 1 << 53

// encodeHello writes the version and the hello.
func encodeHello(h Hello) ([]byte, error) {
	b, err := mesh.Encode(&h)
	if err != nil {
		return nil, err
	}
	return append([]byte{helloVersion}, b...), nil
}

// decodeHello reads what encodeHello wrote; another version is ErrOtherVersion.
func decodeHello(b []byte) (h Hello, err error) {
	switch {
	case len(b) == 0 || len(b) > openFrameLenMax:
		return h, fmt.Errorf("%w: %d bytes", errHello, len(b))
	case b[0] != helloVersion:
		return h, fmt.Errorf("%w: %d, here %d", ErrOtherVersion, b[0], helloVersion)
	}
	if err := mesh.Decode(b[1:], &h); err != nil {
		return Hello{}, fmt.Errorf("%w: %v", errHello, err)
	}
	return h, nil
}

// rank orders the connections between two runs of two devices.
type rank struct {
	epoch     uint64
	bySmaller bool // dialled by the smaller key
	attempt   uint64
}

// over tells whether a connection of rank r replaces one of rank s.
func (r rank) over(s rank) bool {
	switch {
	case r.epoch != s.epoch:
		return r.epoch > s.epoch
	case r.bySmaller != s.bySmaller:
		return r.bySmaller
	}
	return r.attempt > s.attempt
}

package lan

import (
	"sync"

	"lintel/mesh"
)

// batchLenMax is about how many bytes are handed to a transport at once.
const batchLenMax = 64 << 10

// outbox holds what one link has still to send. Nobody waits for it: when it
// is full, the link has to end.
type outbox struct {
	lenMax int
	wake   []chan struct{} // one per lane, each holding at most one signal

	mu     sync.Mutex // guards the rest
	frames [2][][]byte
	len    int
}

func newOutbox(lanes, lenMax int) *outbox {
	o := &outbox{lenMax: lenMax}
	for range lanes {
		o.wake = append(o.wake, make(chan struct{}, 1))
	}
	return o
}

// put queues a frame and keeps it; false when there is no room.
func (o *outbox) put(s mesh.Stream, frame []byte) bool {
	o.mu.Lock()
	fits := o.len+len(frame) <= o.lenMax
	if fits {
		o.frames[s] = append(o.frames[s], frame)
		o.len += len(frame)
	}
	o.mu.Unlock()
	if !fits {
		return false
	}
	select {
	case o.wake[min(int(s), len(o.wake)-1)] <- struct{}{}:
	default: // a signal is already there and will find this frame too
	}
	return true
}

// take appends waiting frames of a lane to b, taps first, until batchLenMax.
// Nothing waiting leaves b as it is.
func (o *outbox) take(laneNumber int, ln lane, b []byte) []byte {
	o.mu.Lock()
	defer o.mu.Unlock()
	for s := range o.frames {
		if len(o.wake) > 1 && s != laneNumber {
			continue
		}
		for len(o.frames[s]) > 0 && len(b) < batchLenMax {
			f := o.frames[s][0]
			o.frames[s][0] = nil
			o.frames[s] = o.frames[s][1:]
			o.len -= len(f)
			b = appendFrame(b, ln.named, byte(s), f)
		}
	}
	return b
}

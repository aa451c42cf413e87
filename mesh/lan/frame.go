package lan

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"

	"lintel/mesh"
)

// Lengths of frames, in bytes.
const (
	frameHeadLen    = 4
	openFrameLenMax = 1 << 10 // before the hello, and before the code is proved
)

// goodbye names, on TCP, the frame that says why a connection ends.
const goodbye = 255

// readFrame reads one frame of at most lenMax bytes. On a named lane (TCP) a
// byte before it names its stream. Nothing is allocated for a length over lenMax.
func readFrame(r io.Reader, named bool, lenMax int) (stream byte, frame []byte, err error) {
	var head [1 + frameHeadLen]byte
	h := head[1:]
	if named {
		h = head[:]
	}
	if _, err := io.ReadFull(r, h); err != nil {
		return 0, nil, err
	}
	stream = head[0]
	if stream > byte(mesh.StreamCatchUp) && stream != goodbye {
		return 0, nil, fmt.Errorf("%w: stream %d", errFrame, stream)
	}
	n := binary.BigEndian.Uint32(head[1:])
	if n == 0 || n > uint32(lenMax) {
		return 0, nil, fmt.Errorf("%w: %d bytes of at most %d", errFrame, n, lenMax)
	}
	frame = make([]byte, n)
	if _, err := io.ReadFull(r, frame); err != nil {
		if errors.Is(err, io.EOF) {
			err = io.ErrUnexpectedEOF
		}
		return 0, nil, err
	}
	return stream, frame, nil
}

// appendFrame writes what readFrame reads.
func appendFrame(b []byte, named bool, stream byte, frame []byte) []byte {
	if named {
		b = append(b, stream)
	}
	b = binary.BigEndian.AppendUint32(b, uint32(len(frame)))
	return append(b, frame...)
}

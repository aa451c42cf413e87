package lan

import (
	"fmt"
	"time"

	"lintel/mesh"
)

// Numbers of the messages of pairing, the first byte of each frame.
const (
	msgBegin   = 1
	msgShare   = 2
	msgConfirm = 3
	msgAbout   = 4
	msgWelcome = 5
	msgDone    = 6
	msgRefused = 7
)

// The messages, exported for their encoding only.
type (
	// Begin comes from the side that types the code.
	Begin struct {
		Role  PairRole
		Share [shareLen]byte
	}
	// Share answers it.
	Share struct{ Share [shareLen]byte }
	// Confirm proves that its sender has the same key.
	Confirm struct{ Tag [tagLen]byte }
	// About says what the joiner is called and on which port it listens.
	About struct {
		Name mesh.Label
		Port uint16
	}
	// Greeting is a Welcome and the port on which the member listens.
	Greeting struct {
		Group     mesh.GroupID
		Founding  mesh.Item
		Inviter   mesh.Label
		Admission mesh.Item
		Port      uint16
	}
	// Done says that the joiner has the Greeting.
	Done struct{}
	// Refusal ends pairing.
	Refusal struct {
		Why     refusal
		Left    uint8  // refusedWrong: tries that the code has left
		Seconds uint32 // refusedClosed: how long still
	}
)

// refusal says why pairing ends.
type refusal uint8

// Reasons of refusal.
const (
	refusedWrong    refusal = 1 // the code was not proved
	refusedClosed   refusal = 2 // too many wrong codes
	refusedNoCode   refusal = 3 // no code is shown for this
	refusedDeclined refusal = 4 // the admission could not be written
	refusedWelcome  refusal = 5 // the joiner cannot use the welcome
)

// Valid reports an unknown reason.
func (r refusal) Valid() error {
	return mesh.Within("reason", int64(r), int64(refusedWrong), int64(refusedWelcome))
}

// Valid reports an unknown role.
func (r PairRole) Valid() error {
	return mesh.Within("role", int64(r), int64(RoleMember), int64(RoleJoiner))
}

// encodeMessage writes a message's frame.
func encodeMessage(number byte, v any) ([]byte, error) {
	b, err := mesh.Encode(v)
	if err != nil {
		return nil, err
	}
	return append([]byte{number}, b...), nil
}

// decodeMessage reads a frame that must be the message number into v.
func decodeMessage(frame []byte, number byte, v any) error {
	if len(frame) == 0 || frame[0] != number {
		return fmt.Errorf("%w: not message %d", errFrame, number)
	}
	if err := mesh.Decode(frame[1:], v); err != nil {
		return fmt.Errorf("%w: message %d: %v", errFrame, number, err)
	}
	return nil
}

// talk is one conversation of pairing. It belongs to one goroutine.
type talk struct {
	c      *carrier
	lenMax int // of what is read, raised once the code is proved
	now    func() time.Time
}

func (t *talk) say(number byte, v any) error {
	b, err := encodeMessage(number, v)
	if err != nil {
		return err
	}
	_, err = t.c.lanes[0].w.Write(appendFrame(nil, false, 0, b))
	return err
}

// hear reads the message number. A refusal instead is returned as its error.
func (t *talk) hear(number byte, v any) error {
	_, frame, err := t.c.read(t.c.lanes[0], t.lenMax)
	if err != nil {
		return err
	}
	if frame[0] != msgRefused || number == msgRefused {
		return decodeMessage(frame, number, v)
	}
	var r Refusal
	if err := decodeMessage(frame, msgRefused, &r); err != nil {
		return err
	}
	return t.refused(r)
}

// refused turns the other side's refusal into an error.
func (t *talk) refused(r Refusal) error {
	switch r.Why {
	case refusedWrong:
		return &CodeWrongError{Left: int(r.Left)}
	case refusedClosed:
		return &PairingClosedError{Until: t.now().Add(time.Duration(r.Seconds) * time.Second)}
	case refusedNoCode:
		return ErrNoInvitation
	case refusedWelcome:
		return ErrWelcome
	}
	return ErrDeclined
}

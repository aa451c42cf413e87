package lan

import (
	"errors"
	"time"
)

// Errors of New.
var (
	ErrOptions   = errors.New("an option is missing or wrong")
	ErrPortInUse = errors.New("another program uses the port")
)

// Errors of dialling. They reach Options.Failed and Type.
var (
	ErrAddress      = errors.New("the address cannot be read")
	ErrNoAnswer     = errors.New("nobody answers at the address")
	ErrOwnAddress   = errors.New("the address is this device's own")
	ErrNotAdmitted  = errors.New("the device at the address is not admitted here")
	ErrRefused      = errors.New("the device at the address does not admit this one")
	ErrOtherGroup   = errors.New("the device at the address belongs to another unit")
	ErrOtherVersion = errors.New("the device at the address speaks another version")
)

// Errors of pairing.
var (
	ErrCodeTyped     = errors.New("the code is mistyped: its check digit does not fit")
	ErrCodeWrong     = errors.New("the code is wrong")
	ErrPairingClosed = errors.New("pairing is closed after too many wrong codes")
	ErrNoInvitation  = errors.New("the other device shows no code for this")
	ErrCodeOver      = errors.New("the code is no longer valid")
	ErrNoGroup       = errors.New("the device belongs to no unit yet, so it can let nobody in")
	ErrDeclined      = errors.New("the code was right, but the admission could not be written")
	ErrWelcome       = errors.New("the other device's unit does not fit its own founding entry")
	ErrUnconfirmed   = errors.New("the admission is written, but the other device did not confirm it")
)

// Errors inside this package; they end one connection, or pass over one datagram.
var (
	errFrame  = errors.New("the frame cannot be read")
	errProof  = errors.New("the code was not proved")
	errStands = errors.New("another link to the device stands")
	errHello  = errors.New("the hello cannot be read")
	errBeacon = errors.New("the datagram is no beacon")
)

// CodeWrongError is an ErrCodeWrong with the tries that the shown code has left.
type CodeWrongError struct{ Left int }

// Error is for logs; people see a sentence of the program.
func (e *CodeWrongError) Error() string { return ErrCodeWrong.Error() }

// Is makes errors.Is(err, ErrCodeWrong) true.
func (e *CodeWrongError) Is(target error) bool { return target == ErrCodeWrong }

// PairingClosedError is an ErrPairingClosed with the time of this device's wall
// clock at which pairing opens again, there or here.
type PairingClosedError struct{ Until time.Time }

// Error is for logs; people see a sentence of the program.
func (e *PairingClosedError) Error() string { return ErrPairingClosed.Error() }

// Is makes errors.Is(err, ErrPairingClosed) true.
func (e *PairingClosedError) Is(target error) bool { return target == ErrPairingClosed }

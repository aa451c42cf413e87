package lan

import (
	"context"
	"errors"
	"fmt"
	"time"

	"lintel/mesh"
)

// Type pairs with the device at addr by the code that it shows; spaces in the
// code do not matter. It returns the welcome that the joiner got, and the other
// side's key. Errors: ErrCodeTyped (nothing was dialled and no try is lost),
// ErrCodeWrong (a *CodeWrongError says how many tries the code has left),
// ErrPairingClosed (a *PairingClosedError says until when, here or there),
// ErrNoInvitation, ErrNoAnswer and the others of dialling and pairing. With
// ErrUnconfirmed the admission stands although the joiner may not know.
func (n *Net) Type(ctx context.Context, addr, code string, o PairOffer) (Welcome, mesh.Key, error) {
	digits, err := ReadCode(code)
	if err == nil {
		err = n.checkOffer(o)
	}
	if err != nil {
		return Welcome{}, mesh.Key{}, err
	}
	if until, _ := n.failures.closedUntil(); !until.IsZero() {
		return Welcome{}, mesh.Key{}, &PairingClosedError{Until: until}
	}
	dialling, cancel := context.WithTimeout(ctx, n.opt.Limits.OpenWithin)
	defer cancel()
	opened, err := n.race(dialling, addr, forPairing, n.ways())
	if err != nil {
		return Welcome{}, mesh.Key{}, err
	}
	stop := context.AfterFunc(ctx, func() { opened.c.end(closedLeaving, "given up") })
	defer stop()
	defer opened.c.end(closedDone, "")
	t := &talk{c: opened.c, lenMax: openFrameLenMax, now: n.opt.Now}
	// The other side may be busy with another proof for as long as one takes.
	opened.c.deadline(time.Now().Add(2 * n.opt.Limits.OpenWithin))
	if err := n.proveTyped(t, digits, o.Role); err != nil {
		return Welcome{}, opened.c.peer, told(err)
	}
	w, key, err := n.pair(ctx, t, o)
	return w, key, told(err)
}

// told leaves the errors that callers know and turns those of a connection that
// broke into ErrNoAnswer.
func told(err error) error {
	if err == nil {
		return nil
	}
	for _, known := range []error{ErrCodeWrong, ErrPairingClosed, ErrNoInvitation, ErrDeclined, ErrWelcome, ErrUnconfirmed} {
		if errors.Is(err, known) {
			return err
		}
	}
	return fmt.Errorf("%w: the connection broke off: %v", ErrNoAnswer, err)
}

// proveTyped is the proof on the typing side. A wrong proof counts on this
// device too: what it dialled may be the one that is guessing.
func (n *Net) proveTyped(t *talk, code string, role PairRole) error {
	p, err := newProof(t.c, n.key, code, role, true)
	if err != nil {
		return err
	}
	if err := t.say(msgBegin, &Begin{Role: role, Share: p.share()}); err != nil {
		return err
	}
	var s Share
	if err := t.hear(msgShare, &s); err != nil {
		return err
	}
	if err := p.meet(s.Share); err != nil {
		n.failures.failed()
		return err
	}
	if role == RoleJoiner {
		return n.confirmFirst(t, p)
	}
	var c Confirm
	if err := t.hear(msgConfirm, &c); err != nil {
		return err
	}
	if !p.holds(c.Tag) {
		n.failures.failed()
		return t.wrongTyped()
	}
	return t.say(msgConfirm, &Confirm{Tag: p.mine})
}

// confirmFirst is the joiner's end of the proof. Having confirmed, it counts
// everything but success.
func (n *Net) confirmFirst(t *talk, p *proof) error {
	if err := t.say(msgConfirm, &Confirm{Tag: p.mine}); err != nil {
		return err
	}
	var c Confirm
	err := t.hear(msgConfirm, &c)
	if err == nil && !p.holds(c.Tag) {
		err = &CodeWrongError{Left: 0} // who else would answer wrongly?
	}
	if err != nil {
		n.failures.failed()
	}
	return err
}

// wrongTyped tells the showing side that its confirmation does not hold, and
// hears how many tries its code has left.
func (t *talk) wrongTyped() error {
	if err := t.say(msgRefused, &Refusal{Why: refusedWrong}); err != nil {
		return &CodeWrongError{}
	}
	var r Refusal
	if err := t.hear(msgRefused, &r); err != nil || r.Why != refusedWrong {
		return &CodeWrongError{}
	}
	return &CodeWrongError{Left: int(r.Left)}
}

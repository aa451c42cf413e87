package lan

import (
	"context"
	"sync"
	"time"

	"lintel/mesh"
)

// showing is the one code that this device shows, if any.
type showing struct {
	mu  sync.Mutex // guards now and everything in the invitation that says so
	now *invitation
}

// invitation is one shown code. It is open until it was proved, has run out,
// was wrong too often or was cancelled; Done is called once, at its end.
type invitation struct {
	offer PairOffer
	code  string
	until time.Time
	busy  chan struct{} // one proof at a time; holds one token while one runs

	open bool // guarded by showing.mu, as left
	left int  // tries
	stop []func() bool
}

// Show shows a code: it returns the code as it is shown ("123 456 7") and until
// when it is valid. Showing another ends the one before. Errors: ErrOptions,
// ErrNoGroup, ErrPairingClosed (a *PairingClosedError).
func (n *Net) Show(ctx context.Context, o PairOffer) (code string, until time.Time, err error) {
	if err := n.checkOffer(o); err != nil {
		return "", until, err
	}
	if until, _ := n.failures.closedUntil(); !until.IsZero() {
		return "", until, &PairingClosedError{Until: until}
	}
	digits, err := drawCode()
	if err != nil {
		return "", until, err
	}
	if o.Done == nil {
		o.Done = func(Welcome, mesh.Key, error) {}
	}
	inv := &invitation{
		offer: o, code: digits, until: n.opt.Now().Add(n.opt.Limits.CodeValid),
		busy: make(chan struct{}, 1), open: true, left: n.opt.Limits.CodeTries,
	}
	n.Cancel()
	n.showing.mu.Lock()
	n.showing.now = inv
	inv.stop = []func() bool{
		context.AfterFunc(ctx, func() { n.endOpen(inv, context.Cause(ctx)) }),
		time.AfterFunc(n.opt.Limits.CodeValid, func() { n.endOpen(inv, ErrCodeOver) }).Stop,
	}
	n.showing.mu.Unlock()
	return ShowCode(digits), inv.until, nil
}

// Cancel ends the shown code, if any, with ErrCodeOver.
func (n *Net) Cancel() {
	n.showing.mu.Lock()
	inv := n.showing.now
	n.showing.mu.Unlock()
	if inv != nil {
		n.endOpen(inv, ErrCodeOver)
	}
}

// close takes inv out of use; false if it was no longer open.
func (s *showing) close(inv *invitation) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	was := inv.open
	inv.open = false
	if s.now == inv {
		s.now = nil
	}
	for _, stop := range inv.stop {
		stop()
	}
	return was
}

// endOpen ends an invitation that nobody has proved.
func (n *Net) endOpen(inv *invitation, why error) {
	if n.showing.close(inv) {
		inv.offer.Done(Welcome{}, mesh.Key{}, why)
	}
}

// wrong counts a failed proof and returns the tries left; with none, or when
// pairing closes, the code is over.
func (n *Net) wrong(inv *invitation) (left int) {
	n.failures.failed()
	closed, _ := n.failures.closedUntil()
	n.showing.mu.Lock()
	inv.left--
	if left = inv.left; !closed.IsZero() {
		left = 0
	}
	n.showing.mu.Unlock()
	if left <= 0 {
		n.endOpen(inv, &CodeWrongError{Left: 0})
		return 0
	}
	return left
}

// inviting returns the shown code that is meant for a side with this role, or
// nil; nil too while pairing is closed. A code that has run out is over even if
// its timer is late.
func (n *Net) inviting(role PairRole) *invitation {
	if closed, _ := n.failures.closedUntil(); !closed.IsZero() {
		return nil
	}
	n.showing.mu.Lock()
	defer n.showing.mu.Unlock()
	inv := n.showing.now
	if inv == nil || !inv.open || inv.offer.Role != role.other() || !n.opt.Now().Before(inv.until) {
		return nil
	}
	return inv
}

// answerPairing is the showing side of one conversation.
func (n *Net) answerPairing(ctx context.Context, c *carrier, s *slot) {
	stop := context.AfterFunc(ctx, func() { c.end(closedLeaving, "the program ends") })
	defer stop()
	defer c.end(closedDone, "")
	t := &talk{c: c, lenMax: openFrameLenMax, now: n.opt.Now}
	var b Begin
	if err := t.hear(msgBegin, &b); err != nil {
		return
	}
	inv := n.inviting(b.Role)
	if inv == nil {
		n.refuseUninvited(t)
		return
	}
	select {
	case inv.busy <- struct{}{}:
		defer func() { <-inv.busy }()
	case <-ctx.Done():
		return
	case <-time.After(n.opt.Limits.OpenWithin):
		return // whoever holds it is cut off by then; this one has to come again
	}
	if n.inviting(b.Role) != inv {
		n.refuseUninvited(t)
		return
	}
	c.deadline(time.Now().Add(n.opt.Limits.OpenWithin))
	if err := n.proveShown(t, inv, b.Share); err != nil {
		return
	}
	if !n.showing.close(inv) {
		n.refuseUninvited(t)
		return
	}
	s.leave()
	inv.offer.Done(n.pair(ctx, t, inv.offer))
}

// refuseUninvited says that pairing is closed, or that no code is shown.
func (n *Net) refuseUninvited(t *talk) {
	r := Refusal{Why: refusedNoCode}
	if until, _ := n.failures.closedUntil(); !until.IsZero() {
		r = Refusal{Why: refusedClosed, Seconds: uint32(until.Sub(n.opt.Now()).Seconds()) + 1}
	}
	t.refuse(r)
}

// proveShown is the proof on the showing side. A joiner's confirmation lets a
// false member test one guess, so everything but success behind it costs a try.
func (n *Net) proveShown(t *talk, inv *invitation, share [shareLen]byte) error {
	p, err := newProof(t.c, n.key, inv.code, inv.offer.Role, false)
	if err != nil {
		return err
	}
	if err := p.meet(share); err != nil {
		return n.refuseWrong(t, inv)
	}
	if err := t.say(msgShare, &Share{Share: p.share()}); err != nil {
		return err
	}
	var c Confirm
	if inv.offer.Role == RoleMember {
		if err := t.hear(msgConfirm, &c); err != nil {
			return err
		}
		if !p.holds(c.Tag) {
			return n.refuseWrong(t, inv)
		}
		return t.say(msgConfirm, &Confirm{Tag: p.mine})
	}
	if err := t.say(msgConfirm, &Confirm{Tag: p.mine}); err != nil {
		return n.refuseWrong(t, inv)
	}
	if err := t.hear(msgConfirm, &c); err != nil || !p.holds(c.Tag) {
		return n.refuseWrong(t, inv)
	}
	return nil
}

// refuseWrong counts a failed proof before it says so.
func (n *Net) refuseWrong(t *talk, inv *invitation) error {
	left := n.wrong(inv)
	t.c.deadline(time.Now().Add(n.opt.Limits.OpenWithin)) // the old one may be what ended the proof
	t.refuse(Refusal{Why: refusedWrong, Left: uint8(min(left, 255))})
	return errProof
}

// refuse says why pairing ends and waits for the other side to close: closing
// first could overtake the words.
func (t *talk) refuse(r Refusal) {
	if t.say(msgRefused, &r) == nil {
		t.linger()
	}
}

// lingerMax bounds waiting for the other side to close.
const lingerMax = 2 * time.Second

// linger waits for the other side to close.
func (t *talk) linger() {
	t.c.deadline(time.Now().Add(lingerMax))
	_, _, _ = t.c.read(t.c.lanes[0], openFrameLenMax)
}

package inside

import (
	"time"

	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/app/words"
)

// lock says that touches are ignored, and for how long yet. What arrives is
// shown meanwhile.
func (r *Rows) lock(w words.Words, h hand, now time.Time) {
	if !now.Before(h.locked) {
		return
	}
	r.Lock = look.LockFace{
		Sentence: w.Say("inside.locked"),
		Left:     look.ClockText(h.locked.Sub(now) + time.Second - 1), // a second that has begun counts
	}
	if !r.CalledBy.IsZero() {
		r.Lock.Sentence = r.Called.Number + ": " + r.Called.Word
	}
}

// lockFor ignores every touch for the wet-contact time.
func (s *Screen) lockFor(d time.Duration) {
	s.show(pageBoard)
	s.hand.locked = s.opt.Now().Add(d)
	s.Paint()
}

// unlocked makes of what a target does something that waits for the end of the lock.
func (s *Screen) unlocked(tapped func()) func() {
	return func() {
		if !s.opt.Now().Before(s.hand.locked) {
			tapped()
		}
	}
}

// hold gives the keyboard to the lock while there is one, and takes it back.
func (s *Screen) hold() {
	locked := s.rows.Lock != (look.LockFace{})
	if locked == s.held {
		return
	}
	s.held = locked
	c := fyne.CurrentApp().Driver().CanvasForObject(s.root)
	switch {
	case c == nil:
	case locked:
		s.parts.lock.Grab(c)
	default:
		c.Unfocus()
	}
}

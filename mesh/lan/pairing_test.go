package lan

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// outcome is what Done was called with.
type outcome struct {
	w   Welcome
	key mesh.Key
	err error
}

// party is a device with what it offers and what became of it.
type party struct {
	*device
	offer PairOffer
	asked chan Joiner  // what Admit was called with
	done  chan outcome // what Done was called with
}

func welcome() Welcome {
	founding := []byte("a founding entry")
	return Welcome{
		Group: mesh.GroupID(mesh.HashEntry(founding)), Founding: mesh.Item{Bytes: founding, Signature: bytes.Repeat([]byte{5}, 64)},
		Inviter: "Desk", Admission: mesh.Item{Bytes: bytes.Repeat([]byte{6}, mesh.EntryLenMax), Signature: []byte{}},
	}
}

func (u *unit) party(t *testing.T, role PairRole, change ...func(*Options)) *party {
	p := &party{device: u.start(t, change...), asked: make(chan Joiner, 9), done: make(chan outcome, 9)}
	p.offer = PairOffer{
		Role: role, Name: "Tablet 3",
		Done: func(w Welcome, k mesh.Key, err error) { p.done <- outcome{w, k, err} },
	}
	if role == RoleMember {
		p.offer.Admit = func(_ context.Context, j Joiner) (Welcome, error) { p.asked <- j; return welcome(), nil }
	}
	return p
}

// shows shows a code and returns it.
func (p *party) shows() string {
	code, _, err := p.Show(context.Background(), p.offer)
	require.NoError(p.t, err)
	return code
}

// types types a code for the device at addr.
func (p *party) types(addr, code string) outcome {
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	w, k, err := p.Type(ctx, addr, code, p.offer)
	return outcome{w, k, err}
}

// ended waits for Done.
func (p *party) ended() outcome {
	select {
	case o := <-p.done:
		return o
	case <-time.After(patience):
		p.t.Fatal("Done was not called")
		return outcome{}
	}
}

// otherCode returns a code whose check digit fits and that is not code.
func otherCode(code string) string {
	digits, _ := ReadCode(code)
	body := []byte(digits[:codeRandomDigits])
	body[0] = '0' + (body[0]-'0'+1)%10
	check, _ := mesh.Damm(string(body))
	return string(body) + string(check)
}

// bothRoles runs a test with the joiner typing and with the member typing.
func bothRoles(t *testing.T, f func(t *testing.T, shower PairRole)) {
	t.Run("the joiner types", func(t *testing.T) { f(t, RoleMember) })
	t.Run("the member types", func(t *testing.T) { f(t, RoleJoiner) })
}

// Goal: pairing by code gives the joiner the welcome and the member the joiner,
// whoever shows, over both transports. Method: all four ways; codes typed with
// and without their spaces.
func TestPairingByCode(t *testing.T) {
	for _, r := range reaches() {
		t.Run(r.name, func(t *testing.T) {
			bothRoles(t, func(t *testing.T, shower PairRole) {
				u := newUnit()
				show, typ := u.party(t, shower), u.party(t, shower.other())
				code := show.shows()
				require.Regexp(t, `^\d{3} \d{3} \d$`, code)
				if r.via == mesh.OverTCP {
					code = strings.ReplaceAll(code, " ", "")
				}
				typed := typ.types(r.to(t, show.device), code)
				shown := show.ended()
				require.NoError(t, typed.err)
				require.NoError(t, shown.err)
				require.Equal(t, show.Key(), typed.key)
				require.Equal(t, typ.Key(), shown.key)

				member, joiner, atMember, atJoiner := show, typ, shown, typed
				if shower == RoleJoiner {
					member, joiner, atMember, atJoiner = typ, show, typed, shown
				}
				asked := <-member.asked
				require.Equal(t, joiner.Key(), asked.Key)
				require.Equal(t, mesh.Label("Tablet 3"), asked.Name)
				require.Equal(t, joiner.Address(), asked.Address)
				require.Equal(t, member.Address(), atJoiner.w.Address)
				atJoiner.w.Address = ""
				require.Equal(t, welcome(), atJoiner.w)
				require.Equal(t, welcome(), atMember.w)

				require.ErrorIs(t, typ.types(show.Address(), code).err, ErrNoInvitation, "a code works once")
				require.Zero(t, show.linksEver()+typ.linksEver())
			})
		})
	}
}

// Goal: a wrong code costs one of two tries and then the code, said on both
// sides; a mistyped one costs none and dials nobody. Method: two wrong codes,
// then the right one.
func TestTwoWrongCodesEndTheCode(t *testing.T) {
	bothRoles(t, func(t *testing.T, shower PairRole) {
		u := newUnit()
		tries := new(MemoryTries)
		show := u.party(t, shower, func(o *Options) { o.Tries = tries })
		typ := u.party(t, shower.other())
		code := show.shows()
		for range 5 {
			require.ErrorIs(t, typ.types("192.0.2.1:1", "123 456 7").err, ErrCodeTyped)
			require.ErrorIs(t, typ.types(show.Address(), code[:len(code)-1]).err, ErrCodeTyped)
		}
		var wrong *CodeWrongError
		require.ErrorAs(t, typ.types(show.Address(), otherCode(code)).err, &wrong)
		require.Equal(t, 1, wrong.Left)
		require.ErrorAs(t, typ.types(show.Address(), otherCode(code)).err, &wrong)
		require.Equal(t, 0, wrong.Left)
		require.ErrorIs(t, show.ended().err, ErrCodeWrong)
		require.ErrorIs(t, typ.types(show.Address(), code).err, ErrNoInvitation)
		require.Len(t, tries.Failures(time.Time{}), 2)
		require.Empty(t, show.asked)
		require.Empty(t, typ.asked)
	})
}

// clock is a wall clock that a test sets.
type clock struct {
	mu sync.Mutex // guards at
	at time.Time
}

func (c *clock) now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.at
}

func (c *clock) pass(d time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.at = c.at.Add(d)
}

// Goal: five wrong codes within ten minutes, over several codes and a new start
// of the program, close pairing for ten minutes, reported once; then it opens
// again. Method: a clock of our own; five different typing devices, so that
// only the showing side counts to five.
func TestFiveFailuresClosePairing(t *testing.T) {
	bothRoles(t, func(t *testing.T, shower PairRole) {
		at := &clock{at: time.Unix(1_800_000_000, 0)}
		tries := new(MemoryTries)
		closed := make(chan time.Time, 9)
		change := func(o *Options) {
			o.Tries, o.Now = tries, at.now
			o.PairingClosed = func(n int, until time.Time) {
				require.Equal(t, 5, n)
				closed <- until
			}
		}
		u := newUnit()
		show := u.party(t, shower, change)
		for i := range 5 {
			if i == 3 { // start again
				show.stop()
				show = u.party(t, shower, change)
			}
			typ := u.party(t, shower.other(), func(o *Options) { o.Now = at.now })
			require.Empty(t, closed)
			require.ErrorIs(t, typ.types(show.Address(), otherCode(show.shows())).err, ErrCodeWrong)
			at.pass(2 * time.Minute)
		}
		until := <-closed
		last := show.ended().err
		for errors.Is(last, ErrCodeOver) { // the codes before it
			last = show.ended().err
		}
		require.ErrorIs(t, last, ErrCodeWrong, "the code in use ends with it")
		_, _, err := show.Show(context.Background(), show.offer)
		var over *PairingClosedError
		require.ErrorAs(t, err, &over)
		require.Equal(t, until, over.Until)
		typ := u.party(t, shower.other(), func(o *Options) { o.Now = at.now })
		require.ErrorAs(t, typ.types(show.Address(), "000 000 0").err, &over)
		require.WithinDuration(t, until, over.Until, 2*time.Second)
		at.pass(8 * time.Minute)
		require.NoError(t, typ.types(show.Address(), show.shows()).err)
		require.Empty(t, closed)
	})
}

// Goal: the device that types counts its failures too, since what it dials may
// be guessing. Method: five wrong codes typed for five devices.
func TestTypingSideClosesToo(t *testing.T) {
	u := newUnit()
	typ := u.party(t, RoleJoiner)
	for range 5 {
		show := u.party(t, RoleMember)
		require.ErrorIs(t, typ.types(show.Address(), otherCode(show.shows())).err, ErrCodeWrong)
	}
	show := u.party(t, RoleMember)
	require.ErrorIs(t, typ.types(show.Address(), show.shows()).err, ErrPairingClosed)
}

// Goal: failures that cannot be stored count all the same. Method: a Tries
// whose disk is full.
func TestFailuresCountWithoutADisk(t *testing.T) {
	o := Options{Limits: Defaults(), Now: time.Now, Tries: fullDisk{}, PairingClosed: func(int, time.Time) {}}
	f := newFailures(o)
	for range o.Limits.FailuresMax {
		until, _ := f.closedUntil()
		require.Zero(t, until)
		f.failed()
	}
	until, n := f.closedUntil()
	require.NotZero(t, until)
	require.Equal(t, 5, n)
}

type fullDisk struct{}

func (fullDisk) Failed(time.Time) error             { return errors.New("disk full") }
func (fullDisk) Failures(time.Time) (t []time.Time) { return nil }

// Goal: a code ends after two minutes, by Cancel, with its context, and when
// another is shown, each time told once. Method: each way, then the old code.
func TestACodeEnds(t *testing.T) {
	at := &clock{at: time.Unix(1_800_000_000, 0)}
	u := newUnit()
	show := u.party(t, RoleMember, func(o *Options) { o.Now = at.now })
	typ := u.party(t, RoleJoiner)
	code, until, err := show.Show(context.Background(), show.offer)
	require.NoError(t, err)
	require.Equal(t, at.now().Add(2*time.Minute), until)
	at.pass(2 * time.Minute)
	require.ErrorIs(t, typ.types(show.Address(), code).err, ErrNoInvitation)

	first := show.shows()
	require.ErrorIs(t, show.ended().err, ErrCodeOver)
	show.shows()
	require.ErrorIs(t, show.ended().err, ErrCodeOver)
	require.ErrorIs(t, typ.types(show.Address(), first).err, ErrCodeWrong, "the first is gone")
	show.Cancel()
	require.ErrorIs(t, show.ended().err, ErrCodeOver)

	ctx, cancel := context.WithCancel(context.Background())
	code, _, err = show.Show(ctx, show.offer)
	require.NoError(t, err)
	cancel()
	require.ErrorIs(t, show.ended().err, context.Canceled)
	require.ErrorIs(t, typ.types(show.Address(), code).err, ErrNoInvitation)
	require.Empty(t, show.done)
}

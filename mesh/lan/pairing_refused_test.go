package lan

import (
	"context"
	"crypto/tls"
	"errors"
	"io"
	"net"
	"testing"
	"time"

	"github.com/quic-go/quic-go"
	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// inTheMiddle answers pairing on its own certificate and copies every byte to
// a second session with the device, and back, over QUIC or TCP.
func inTheMiddle(t *testing.T, to string, via mesh.Transport) string {
	private, _ := newKey(t)
	conf := strangerTLS(t, private, forPairing)
	conf.ClientAuth = tls.RequireAnyClientCert
	ctx, cancel := context.WithCancel(context.Background())
	t.Cleanup(cancel)
	both := func(a, b io.ReadWriteCloser) {
		go func() { _, _ = io.Copy(a, b); _ = a.Close() }() // ends with either connection
		go func() { _, _ = io.Copy(b, a); _ = b.Close() }()
	}
	if via == mesh.OverTCP {
		front, err := tls.Listen("tcp", "127.0.0.1:0", conf)
		require.NoError(t, err)
		t.Cleanup(func() { _ = front.Close() })
		go func() { // ends with front
			for {
				near, err := front.Accept()
				if err != nil {
					return
				}
				if far, err := tls.Dial("tcp", to, conf); err == nil {
					both(near, far)
				}
			}
		}()
		return front.Addr().String()
	}
	front, err := quic.ListenAddr("127.0.0.1:0", conf, nil)
	require.NoError(t, err)
	t.Cleanup(func() { _ = front.Close() })
	go func() { // ends with front
		for {
			near, err := front.Accept(ctx)
			if err != nil {
				return
			}
			far, err := quic.DialAddr(ctx, to, conf, nil)
			if err != nil {
				return
			}
			s1, err1 := near.AcceptStream(ctx)
			s2, err2 := far.OpenStreamSync(ctx)
			if err1 == nil && err2 == nil {
				both(s1, s2)
			}
		}
	}()
	return front.Addr().String()
}

// Goal: relayed pairing (two TLS sessions, copied bytes, the right code) is
// refused by both sides: the typing side gets no welcome, the showing side
// admits nobody and counts a failure. Method: a man in the middle over each
// transport, with either role typing.
func TestRelayedPairingIsRefusedOnBothSides(t *testing.T) {
	for _, via := range []mesh.Transport{mesh.OverQUIC, mesh.OverTCP} {
		bothRoles(t, func(t *testing.T, shower PairRole) {
			u := newUnit()
			shown, typed := new(MemoryTries), new(MemoryTries)
			short := func(o *Options) { o.Limits.OpenWithin = 2 * time.Second }
			show := u.party(t, shower, short, func(o *Options) { o.Tries = shown })
			typ := u.party(t, shower.other(), short, func(o *Options) { o.Tries = typed })
			out := typ.types(inTheMiddle(t, show.Address(), via), show.shows())
			require.ErrorIs(t, out.err, ErrCodeWrong)
			require.Zero(t, out.w)
			require.Len(t, typed.Failures(time.Time{}), 1)
			require.Len(t, shown.Failures(time.Time{}), 1)
			require.Empty(t, show.asked)
			require.Empty(t, typ.asked)
			require.Empty(t, show.done, "one try is left")
		})
	}
}

// Goal: each other way to fail has its own name. Method: nobody there, no code
// shown, two of the same role, no group, an admission that fails, a founding
// entry that is not the group's.
func TestWhyPairingFailsIsNamed(t *testing.T) {
	u := newUnit()
	show, typ := u.party(t, RoleMember), u.party(t, RoleJoiner)
	require.ErrorIs(t, typ.types(show.Address(), "000 000 0").err, ErrNoInvitation)
	gone, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	require.NoError(t, gone.Close())
	quick := u.party(t, RoleJoiner, func(o *Options) { o.Limits.OpenWithin = 500 * time.Millisecond })
	require.ErrorIs(t, quick.types(gone.Addr().String(), "000 000 0").err, ErrNoAnswer)
	require.ErrorIs(t, u.party(t, RoleMember).types(show.Address(), show.shows()).err, ErrNoInvitation)

	alone := u.party(t, RoleMember, func(o *Options) { o.Group = func() (mesh.GroupID, bool) { return mesh.GroupID{}, false } })
	_, _, err = alone.Show(context.Background(), alone.offer)
	require.ErrorIs(t, err, ErrNoGroup)

	full := errors.New("the disk is full")
	show.offer.Admit = func(context.Context, Joiner) (Welcome, error) { return Welcome{}, full }
	code := show.shows()
	require.ErrorIs(t, show.ended().err, ErrCodeOver)
	require.ErrorIs(t, typ.types(show.Address(), code).err, ErrDeclined)
	declined := show.ended().err
	require.ErrorIs(t, declined, ErrDeclined)
	require.ErrorIs(t, declined, full)

	show.offer.Admit = func(context.Context, Joiner) (Welcome, error) {
		w := welcome()
		w.Group[0]++
		return w, nil
	}
	require.ErrorIs(t, typ.types(show.Address(), show.shows()).err, ErrWelcome)
	require.ErrorIs(t, show.ended().err, ErrUnconfirmed)
}

// Goal: before the code is proved nothing over 1 KiB is read, and rubbish does
// not hurt the code. Method: a stranger sends too long a frame, a frame of the
// wrong kind, a low-order share; then the right code still works.
func TestStrangersCannotFloodPairing(t *testing.T) {
	u := newUnit()
	show, typ := u.party(t, RoleMember), u.party(t, RoleJoiner)
	code := show.shows()
	private, _ := newKey(t)
	long := appendFrame(nil, false, 0, make([]byte, openFrameLenMax+1))
	low, err := encodeMessage(msgBegin, &Begin{Role: RoleJoiner})
	require.NoError(t, err)
	for i, bytes := range [][]byte{long, appendFrame(nil, false, 0, []byte{msgDone, 0x90}), appendFrame(nil, false, 0, low)} {
		tc, err := tls.Dial("tcp", show.Address(), strangerTLS(t, private, forPairing))
		require.NoError(t, err)
		_, _ = tc.Write(bytes)
		_ = tc.CloseWrite()
		answer := readAll(tc)
		if i < 2 {
			require.Empty(t, answer)
		} else {
			require.Equal(t, byte(msgRefused), answer[frameHeadLen])
		}
		_ = tc.Close()
	}
	require.NoError(t, typ.types(show.Address(), code).err)
}

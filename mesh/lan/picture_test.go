package lan

import (
	"bytes"
	"context"
	"crypto/ed25519"
	"crypto/sha256"
	"crypto/tls"
	"io"
	"net"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// shelf holds pictures of a device.
type shelf map[mesh.Hash][]byte

func (s shelf) picture(h mesh.Hash) ([]byte, bool) { b, ok := s[h]; return b, ok }

func (s shelf) put(b []byte) mesh.Hash {
	h := mesh.Hash(sha256.Sum256(b))
	s[h] = b
	return h
}

// Goal: a picture comes as it was, over both transports, also the longest one,
// and the link beside it stays. Method: two devices, links of both kinds.
func TestPicturesAreFetchedByTheirHash(t *testing.T) {
	for _, r := range reaches() {
		t.Run(r.name, func(t *testing.T) {
			u, held := newUnit(), shelf{}
			small, large := held.put([]byte("small")), held.put(bytes.Repeat([]byte{7}, PictureLenMax))
			tooLong := held.put(bytes.Repeat([]byte{8}, PictureLenMax+1))
			a, b := u.start(t), u.start(t, func(o *Options) { o.Picture = held.picture })
			a.Keep(r.to(t, b))
			require.Equal(t, r.via, a.linked(b.Key()).Via)
			b.linked(a.Key())
			for _, h := range []mesh.Hash{small, large} {
				got, err := a.FetchPicture(t.Context(), b.Key(), h)
				require.NoError(t, err)
				require.Equal(t, held[h], got)
			}
			for _, h := range []mesh.Hash{{1}, tooLong} {
				_, err := a.FetchPicture(t.Context(), b.Key(), h)
				require.ErrorIs(t, err, ErrNoPicture)
			}
			a.greets(b, "still there")
			require.Equal(t, 1, b.linksEver())
		})
	}
}

// Goal: whoever has no pictures, no link, or too many askers says so. Method:
// one device each.
func TestWhyNoPictureComesIsNamed(t *testing.T) {
	u, held := newUnit(), shelf{}
	h := held.put([]byte("picture"))
	entered, leave := make(chan struct{}), make(chan struct{})
	a := u.start(t)
	b := u.start(t, func(o *Options) {
		o.Limits.PicturesAtOnce = 1
		o.Picture = func(h mesh.Hash) ([]byte, bool) {
			entered <- struct{}{}
			<-leave
			return held.picture(h)
		}
	})
	_, err := a.FetchPicture(t.Context(), b.Key(), h)
	require.ErrorIs(t, err, ErrNotLinked)
	a.Keep(b.Address())
	a.linked(b.Key())
	first := make(chan error, 1)
	go func() { // joined by the receive from first
		_, err := a.FetchPicture(context.Background(), b.Key(), h)
		first <- err
	}()
	<-entered
	_, err = a.FetchPicture(t.Context(), b.Key(), h)
	require.ErrorIs(t, err, ErrPictureLater)
	close(leave)
	require.NoError(t, <-first)
	b.linked(a.Key())
	_, err = b.FetchPicture(t.Context(), a.Key(), h)
	require.ErrorIs(t, err, ErrNoPicture, "a device without pictures")
	over, cancel := context.WithCancel(t.Context())
	cancel()
	_, err = a.FetchPicture(over, b.Key(), h)
	require.Error(t, err)
}

// falseMember answers every ask on an address of its own, with a member's key.
func falseMember(t *testing.T, key ed25519.PrivateKey, answer func(io.Writer)) string {
	front, err := tls.Listen("tcp", "127.0.0.1:0", func() *tls.Config {
		c := strangerTLS(t, key, forPicture)
		c.ClientAuth = tls.RequireAnyClientCert
		return c
	}())
	require.NoError(t, err)
	var all sync.WaitGroup // joined by the cleanup
	var mu sync.Mutex      // guards open
	var open []net.Conn
	t.Cleanup(func() {
		_ = front.Close()
		mu.Lock()
		for _, c := range open {
			_ = c.Close()
		}
		mu.Unlock()
		all.Wait()
	})
	all.Go(func() {
		for {
			c, err := front.Accept()
			if err != nil {
				return
			}
			mu.Lock()
			open = append(open, c)
			mu.Unlock()
			all.Go(func() {
				var ask [pictureAskLen]byte
				if _, err := io.ReadFull(c, ask[:]); err == nil {
					answer(c)
				}
			})
		}
	})
	return front.Addr().String()
}

// Goal: a member that answers with other bytes, with a false length, without
// end, slowly or not at all costs a bounded time and memory, and what it sent is
// not taken. Method: such a member at the address of a real one.
func TestFalseAnswersAreNotTaken(t *testing.T) {
	u := newUnit()
	key, public := newKey(t)
	a := u.start(t, func(o *Options) {
		o.Limits.PictureWithin = 500 * time.Millisecond
		o.Limits.TCPAfter = time.Millisecond
	})
	b := u.start(t, func(o *Options) { o.Key = key })
	u.admit(public, true)
	a.Keep(b.Address())
	a.linked(public)
	wanted := mesh.Hash(sha256.Sum256([]byte("picture")))
	for name, x := range map[string]struct {
		answer func(io.Writer)
		want   error
	}{
		"other bytes":  {func(w io.Writer) { _, _ = w.Write(appendPicture(nil, pictureHeld, []byte("pictures"))) }, ErrPictureWrong},
		"false length": {func(w io.Writer) { _, _ = w.Write([]byte{1, 0xFF, 0xFF, 0xFF, 0xFF}) }, ErrPictureWrong},
		"unknown code": {func(w io.Writer) { _, _ = w.Write([]byte{9, 0, 0, 0, 1, 1}) }, ErrPictureWrong},
		"nothing held": {func(w io.Writer) { _, _ = w.Write([]byte{1, 0, 0, 0, 0}) }, ErrPictureWrong},
		"silence":      {func(io.Writer) {}, ErrNoAnswer},
		"slow":         {func(w io.Writer) { _, _ = w.Write([]byte{1, 0, 0, 0, 7, 'p', 'i'}) }, ErrNoAnswer},
		"endless": {func(w io.Writer) {
			_, err := w.Write([]byte{1, 0, 0, 0, 7})
			for err == nil {
				_, err = w.Write([]byte("endless "))
			}
		}, ErrPictureWrong},
	} {
		to := falseMember(t, key, x.answer)
		require.Eventually(t, func() bool { // the link may be replaced once by a later dial
			l, _ := a.links.with(public)
			if l == nil {
				return false
			}
			a.links.mu.Lock()
			l.address = to
			a.links.mu.Unlock()
			return true
		}, patience, time.Millisecond)
		began := time.Now()
		got, err := a.FetchPicture(t.Context(), public, wanted)
		require.ErrorIs(t, err, x.want, name)
		require.Nil(t, got, name)
		require.Less(t, time.Since(began), patience, name)
	}
	stranger, _ := newKey(t)
	l, _ := a.links.with(public)
	require.NotNil(t, l)
	a.links.mu.Lock()
	l.address = falseMember(t, stranger, func(io.Writer) { t.Error("a stranger was asked") })
	a.links.mu.Unlock()
	_, err := a.FetchPicture(t.Context(), public, wanted)
	require.ErrorIs(t, err, ErrNotAdmitted)
}

// askBy opens a picture session with a key and writes into it.
func askBy(t *testing.T, to *device, private ed25519.PrivateKey, words []byte) *tls.Conn {
	tc, err := tls.Dial("tcp", to.Address(), strangerTLS(t, private, forPicture))
	require.NoError(t, err)
	t.Cleanup(func() { _ = tc.Close() })
	_, _ = tc.Write(words) // a stranger's may fail
	return tc
}

// Goal: strangers, other groups and other versions read not one byte, and asking
// costs a device a bounded time. Method: sessions of our own making; one that
// says nothing and one that takes nothing are cut off.
func TestAskersAreBounded(t *testing.T) {
	u, held := newUnit(), shelf{}
	h := held.put(bytes.Repeat([]byte{7}, PictureLenMax))
	b := u.start(t, func(o *Options) {
		o.Picture = held.picture
		o.Limits.OpenWithin, o.Limits.PictureWithin, o.Limits.PicturesAtOnce = 300*time.Millisecond, 300*time.Millisecond, 1
	})
	good := appendAsk(nil, u.group, h)
	stranger, _ := newKey(t)
	require.Empty(t, readAll(askBy(t, b, stranger, good)), "a stranger")
	member, public := newKey(t)
	u.admit(public, true)
	later := bytes.Clone(good)
	later[0]++
	for name, ask := range map[string][]byte{
		"another group": appendAsk(nil, mesh.GroupID{9}, h), "another version": later, "half an ask": good[:20], "nothing": nil,
	} {
		require.Empty(t, readAll(askBy(t, b, member, ask)), name)
	}
	for range 3 { // each gives its place back
		slow := askBy(t, b, member, good)
		require.Eventually(t, func() bool { return len(b.picturing) == 0 }, patience, time.Millisecond)
		got := readAll(slow)
		require.LessOrEqual(t, len(got), pictureHeadLen+PictureLenMax)
	}
	got := readAll(askBy(t, b, member, good))
	require.Equal(t, appendPicture(nil, pictureHeld, held[h]), got)
}

// pictureSeeds are answers, with what is read from each; nil: none.
func pictureSeeds() map[string][]byte {
	return map[string][]byte{
		string(appendPicture(nil, pictureHeld, []byte("p"))):       []byte("p"),
		string(appendPicture(nil, pictureHeld, []byte("p"))) + "x": []byte("p"),
		string(appendPicture(nil, pictureNotHeld, nil)):            nil,
		string(appendPicture(nil, pictureNotHeld, []byte("p"))):    nil,
		string(appendPicture(nil, pictureLater, nil)):              nil,
		"":                      nil,
		"\x01\x00\x00":          nil,
		"\x01\x00\x00\x00\x02p": nil,
		"\x01\x00\x04\x00\x01":  nil,
		"\x01\xff\xff\xff\xff":  nil,
		"\x03\x00\x00\x00\x01p": nil,
	}
}

// Goal: an answer has one form. Method: the seeds of the fuzz target.
func TestPictureAnswersHaveOneForm(t *testing.T) {
	for text, want := range pictureSeeds() {
		got, err := readPicture(bytes.NewReader([]byte(text)))
		require.Equal(t, want, got, "%x", text)
		require.Equal(t, want == nil, err != nil, "%x", text)
	}
}

// FuzzPicture: what is read is within its bounds and is written again as it came.
func FuzzPicture(f *testing.F) {
	for text := range pictureSeeds() {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		r := bytes.NewReader(b)
		got, err := readPicture(r)
		if err != nil {
			require.Nil(t, got)
			return
		}
		require.LessOrEqual(t, len(got), PictureLenMax)
		require.Equal(t, b[:len(b)-r.Len()], appendPicture(nil, pictureHeld, got))
	})
}

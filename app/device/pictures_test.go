package device

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/picture"
	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
	"lintel/mesh/lan"
)

// photo is a picture that differs from others by its number.
func photo(t testing.TB, number int) []byte {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, 60, 40))
	for i := range m.Pix {
		m.Pix[i] = byte(i * (number + 3))
	}
	m.Set(1, 1, color.White)
	var file bytes.Buffer
	require.NoError(t, png.Encode(&file, m))
	b, err := picture.OfItem(file.Bytes())
	require.NoError(t, err)
	return b
}

// pictured keeps a picture on a device and gives it to an item.
func pictured(t *testing.T, d *Device, item mesh.Number, b []byte) mesh.Hash {
	t.Helper()
	h, err := d.KeepPicture(t.Context(), b)
	require.NoError(t, err)
	r, err := stationOf(t, d).Do(t.Context(), mesh.By{Tag: "C1"}, station.SetPicture{Item: item, Hash: h})
	require.NoError(t, err)
	require.True(t, r.Saved)
	return h
}

// Goal: a picture set on one device is shown on another, also on one that was
// off and comes later, and on one whose file was damaged. Method: three devices
// over loopback; the third joins when the first has gone.
func TestPicturesReachDevicesThatComeLater(t *testing.T) {
	require.Equal(t, picture.LenMax, lan.PictureLenMax)
	had := make(chan struct{}, 1)
	a, stop := started(t, t.TempDir(), nil)
	dir := t.TempDir()
	b, _ := started(t, dir, func() {
		select {
		case had <- struct{}{}:
		default:
		}
	})
	require.NoError(t, a.Found("Invented unit"))
	joined(t, a, b)
	photoBytes := photo(t, 1)
	h := pictured(t, a, 1032, photoBytes)
	plan := []byte("shelf map,Corridor,Trolley\nwords,left,top,width,height\ndrawer 1,0,0,1000,1000\n")
	m, err := a.KeepPicture(t.Context(), plan)
	require.NoError(t, err)
	place := kits.Place{Sort: kits.Trolley, ID: "airway"}
	_, err = stationOf(t, a).Do(t.Context(), mesh.By{Tag: "C1"}, station.SetMap{Place: place, Hash: m})
	require.NoError(t, err)
	shows(t, b, h, photoBytes)
	shows(t, b, m, plan)
	<-had
	stop()
	c, _ := started(t, t.TempDir(), nil)
	joined(t, b, c)
	shows(t, c, h, photoBytes)
	shows(t, c, m, plan)
	file := filepath.Join(dir, picturesName, h.Hex())
	require.NoError(t, os.WriteFile(file, []byte("damaged"), 0o600))
	b.pictures.mu.Lock()
	delete(b.pictures.held, h) // as at a start
	b.pictures.mu.Unlock()
	shows(t, b, h, photoBytes)
	require.FileExists(t, file+picturesAside)
}

// started is running with a func that is told of pictures, and a func to end it.
func started(t *testing.T, dir string, pictured func()) (*Device, func()) {
	t.Helper()
	d, err := Open(Options{Dir: dir, Name: "device", Listen: "127.0.0.1:0", Pictured: pictured})
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- d.Run(ctx) }() // awaited by stop
	gone := false
	stop := func() {
		if cancel(); !gone {
			<-ended
			gone = true
		}
	}
	t.Cleanup(stop)
	<-d.Ready()
	return d, stop
}

// shows waits until a device gives the bytes of a picture.
func shows(t *testing.T, d *Device, h mesh.Hash, want []byte) {
	t.Helper()
	require.Eventually(t, func() bool {
		got, ok := d.Picture(h)
		return ok && bytes.Equal(got, want)
	}, 20*time.Second, 10*time.Millisecond)
}

// Goal: what was kept is there after a start, and only under its own hash.
// Method: put, open again, read without waiting until it was read, then bytes
// of another picture under the name, a folder, a name that is none, one too long.
func TestKeptPicturesAreCheckedAgainstTheirNames(t *testing.T) {
	dir, lost := t.TempDir(), 0
	p := openPictures(dir, nil)
	h, err := p.put(photo(t, 1), nil)
	require.NoError(t, err)
	again, err := p.put(photo(t, 1), nil)
	require.NoError(t, err)
	require.Equal(t, h, again)
	wrong := station.HashPicture([]byte("another"))
	require.NoError(t, os.WriteFile(filepath.Join(dir, picturesName, wrong.Hex()), photo(t, 2), 0o600))
	require.NoError(t, os.Mkdir(filepath.Join(dir, picturesName, mesh.Hash{1}.Hex()), 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(dir, picturesName, "note.txt"), nil, 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, picturesName, mesh.Hash{2}.Hex()), make([]byte, picture.LenMax+1), 0o600))

	news := make(chan struct{}, 9)
	p = openPictures(dir, func() { news <- struct{}{} })
	p.lost = func() { lost++ }
	require.Len(t, p.files, 2)
	_, ok := p.get(h)
	require.False(t, ok, "it was not read yet")
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan struct{})
	go func() { defer close(ended); p.readAsked(ctx) }() // joined by the receive below
	<-news
	stop()
	<-ended
	b, ok := p.get(h)
	require.True(t, ok)
	require.Equal(t, photo(t, 1), b)
	_, ok = p.read(wrong)
	require.False(t, ok)
	require.False(t, p.has(wrong))
	require.Equal(t, 1, lost)
	require.FileExists(t, p.path(wrong)+picturesAside)
	for own := range p.own {
		require.True(t, p.has(own))
		_, ok := p.get(own)
		require.True(t, ok, "embedded ones are at hand")
	}
}

// Goal: pictures never fill the disk, those that the catalogue names stay, and
// what is no picture is not kept. Method: a store with room for two.
func TestPicturesThatNobodyNamesMakeRoom(t *testing.T) {
	p := openPictures(t.TempDir(), nil)
	p.room = int64(len(photo(t, 1)) + len(photo(t, 2)))
	one, err := p.put(photo(t, 1), nil)
	require.NoError(t, err)
	two, err := p.put(photo(t, 2), nil)
	require.NoError(t, err)
	small := []byte("shelf map,A,B\nwords,left,top,width,height\nc,0,0,10,10\n")
	_, err = p.put(small, []mesh.Hash{one, two})
	require.ErrorIs(t, err, ErrPicturesFull)
	three, err := p.put(small, []mesh.Hash{two})
	require.NoError(t, err)
	require.False(t, p.has(one))
	require.True(t, p.has(two) && p.has(three))
	_, err = p.put([]byte("no picture"), nil)
	var refused *picture.Refused
	require.ErrorAs(t, err, &refused)
	p.held, p.order, p.sum = map[mesh.Hash][]byte{}, nil, 0
	for i := range byte(3) {
		p.hold(mesh.Hash{i}, make([]byte, picturesHeldMax/2))
	}
	require.Len(t, p.held, 2, "memory is bounded too")
	require.Nil(t, p.held[mesh.Hash{0}])
}

// Goal: fetching asks others in turn, stops when it has what it wants, asks
// nobody again for what is no picture, and asks only so often in one round.
// Method: rounds of a fetcher over invented devices.
func TestFetchingAsksInTurnAndNoMoreThanItMust(t *testing.T) {
	want := []mesh.Hash{{1}, {2}, {3}}
	have, asks := map[mesh.Hash]bool{}, []string{}
	answer := map[string]error{}
	put := error(nil)
	f := &fetcher{
		broken: map[mesh.Hash]bool{}, has: func(h mesh.Hash) bool { return have[h] },
		look: func(context.Context) ([]mesh.Hash, []mesh.Key, error) { return want, []mesh.Key{{7}, {8}}, nil },
		ask: func(_ context.Context, k mesh.Key, h mesh.Hash) ([]byte, error) {
			s := fmt.Sprintf("%d:%d", k[0], h[0])
			asks = append(asks, s)
			return h[:], answer[s]
		},
		put: func(b []byte, _ []mesh.Hash) (mesh.Hash, error) {
			if put == nil {
				have[mesh.Hash(b)] = true
			}
			return mesh.Hash(b), put
		},
	}
	answer["7:2"], answer["7:3"], answer["8:3"] = lan.ErrNoPicture, lan.ErrNoPicture, lan.ErrNoAnswer
	missing, got := f.round(t.Context())
	require.True(t, missing && got)
	require.Equal(t, []string{"7:1", "7:2", "8:2", "7:3", "8:3"}, asks)
	asks, answer["8:3"] = nil, nil
	missing, got = f.round(t.Context())
	require.True(t, !missing && got)
	require.Equal(t, []string{"8:3"}, asks, "another one begins")
	asks, want = nil, append(want, mesh.Hash{4})
	put = &picture.Refused{Why: picture.WhyHidden}
	missing, _ = f.round(t.Context())
	require.False(t, missing)
	require.Len(t, asks, 1)
	_, _ = f.round(t.Context())
	require.Len(t, asks, 1, "what is no picture is not asked for again")
	asks, want, put = nil, []mesh.Hash{{5}, {6}, {9}}, ErrPicturesFull
	missing, got = f.round(t.Context())
	require.True(t, missing && !got)
	require.Len(t, asks, 1, "a full disk ends the round")
	asks, want, put = nil, nil, nil
	for i := range byte(100) {
		want = append(want, mesh.Hash{10, i})
		answer[fmt.Sprintf("%d:10", 7)], answer[fmt.Sprintf("%d:10", 8)] = lan.ErrNoPicture, lan.ErrNoPicture
	}
	_, _ = f.round(t.Context())
	require.Len(t, asks, fetchesMax)
}

// Goal: a device is quiet when nothing is missing, asks ever less often where
// nobody has what is missing, and at once when something changes. Method: the
// times of its looks in an hour of false time.
func TestFetchingIsQuiet(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		began, looks, lacks := time.Now(), []time.Duration{}, false
		f := &fetcher{
			wake: make(chan struct{}, 1), has: func(mesh.Hash) bool { return !lacks },
			look: func(context.Context) ([]mesh.Hash, []mesh.Key, error) {
				looks = append(looks, time.Since(began))
				return []mesh.Hash{{1}}, nil, nil
			},
		}
		ctx, stop := context.WithCancel(t.Context())
		ended := make(chan struct{})
		go func() { defer close(ended); f.run(ctx) }() // joined below
		time.Sleep(11 * time.Minute)
		synctest.Wait()
		require.Equal(t, []time.Duration{0, 5 * time.Minute, 10 * time.Minute}, looks)
		lacks, looks, began = true, nil, time.Now()
		f.wakeUp()
		f.wakeUp()
		time.Sleep(time.Hour)
		synctest.Wait()
		require.Equal(t, []time.Duration{1 * time.Second, 2 * time.Second, 4 * time.Second, 8 * time.Second}, looks[:4])
		require.Less(t, len(looks), 25)
		stop()
		<-ended
	})
}

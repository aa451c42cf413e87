package device

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"lintel/app/picture"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/mesh/disk"
)

// Bounds of the pictures of one device.
const (
	picturesName    = "pictures"
	picturesAside   = ".aside"  // ends the name of one whose bytes are not those of its name
	picturesLenMax  = 256 << 20 // bytes on the disk, all together
	picturesHeldMax = 16 << 20  // bytes in memory
	picturesAsked   = 64        // that wait to be read from the disk; more are asked for again
)

// ErrPicturesFull says that no more pictures can be kept: all that are kept are
// named by the catalogue.
var ErrPicturesFull = errors.New("there is no room for more pictures")

// pictures are the bytes that hashes in the catalogue stand for: one file each,
// named by its hash, and those that are embedded. A file counts only while its
// bytes have that hash.
type pictures struct {
	dir    string
	own    map[mesh.Hash][]byte // embedded; never changes
	room   int64                // picturesLenMax
	news   func()               // told when one can be had that could not before; does not block
	lost   func()               // told when one is missing that was there; does not block
	asked  chan mesh.Hash       // to be read from the disk
	writes sync.Mutex           // one writer at a time

	mu    sync.Mutex // guards the rest
	files map[mesh.Hash]int64
	total int64
	held  map[mesh.Hash][]byte
	order []mesh.Hash // of held, the oldest first
	sum   int         // of held, bytes
}

// openPictures lists what is there. A folder that is missing is made with the
// first picture; one that cannot be read is an empty one.
func openPictures(dir string, news func()) *pictures {
	p := &pictures{
		dir: filepath.Join(dir, picturesName), own: station.EmbeddedPictures(), room: picturesLenMax, news: news, lost: func() {},
		asked: make(chan mesh.Hash, picturesAsked), files: map[mesh.Hash]int64{}, held: map[mesh.Hash][]byte{},
	}
	if p.news == nil {
		p.news = func() {}
	}
	entries, _ := os.ReadDir(p.dir) // nothing kept is nothing lost: it is fetched again
	for _, e := range entries {
		h, is := hashOf(e.Name())
		st, err := e.Info()
		if !is || err != nil || !st.Mode().IsRegular() || st.Size() > picture.LenMax {
			continue
		}
		p.files[h], p.total = st.Size(), p.total+st.Size()
	}
	return p
}

// hashOf reads the name of a file.
func hashOf(name string) (h mesh.Hash, is bool) {
	b, err := hex.DecodeString(name)
	if err != nil || len(b) != len(h) || strings.ToLower(name) != name {
		return h, false
	}
	return mesh.Hash(b), true
}

func (p *pictures) path(h mesh.Hash) string { return filepath.Join(p.dir, h.Hex()) }

// has tells whether a picture is here, without reading it.
func (p *pictures) has(h mesh.Hash) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	_, onDisk := p.files[h]
	return onDisk || p.own[h] != nil
}

// get gives a picture from memory and never blocks. One that lies on the disk
// is read for the next time, and news tells of it.
func (p *pictures) get(h mesh.Hash) ([]byte, bool) {
	if b := p.own[h]; b != nil {
		return b, true
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if b := p.held[h]; b != nil {
		return b, true
	}
	if _, onDisk := p.files[h]; onDisk {
		select {
		case p.asked <- h:
		default: // whoever shows it asks again
		}
	}
	return nil, false
}

// readAsked reads what was asked for, until ctx ends.
func (p *pictures) readAsked(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case h := <-p.asked:
			p.mu.Lock()
			already := p.held[h] != nil
			p.mu.Unlock()
			if already {
				continue // asked for twice
			}
			if _, ok := p.read(h); ok {
				p.news()
			}
		}
	}
}

// read gives a picture, from the disk if need be. Bytes that are not those of
// the name are set aside, and the picture is missing from then on.
func (p *pictures) read(h mesh.Hash) ([]byte, bool) {
	if b := p.own[h]; b != nil {
		return b, true
	}
	p.mu.Lock()
	b, onDisk := p.held[h], p.files[h] > 0
	p.mu.Unlock()
	if b != nil || !onDisk {
		return b, b != nil
	}
	b, err := readBounded(p.path(h))
	if err == nil && sha256.Sum256(b) == h {
		p.hold(h, b)
		return b, true
	}
	p.writes.Lock()
	defer p.writes.Unlock()
	if !errors.Is(err, fs.ErrNotExist) {
		_ = os.Rename(p.path(h), p.path(h)+picturesAside) // what cannot be moved is replaced
	}
	p.forget(h)
	p.lost()
	return nil, false
}

// readBounded reads a file of at most picture.LenMax bytes.
func readBounded(path string) ([]byte, error) {
	st, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if st.Size() > picture.LenMax {
		return nil, &picture.Refused{Why: picture.WhyLong}
	}
	return os.ReadFile(path)
}

// hold keeps a picture in memory and lets the oldest go.
func (p *pictures) hold(h mesh.Hash, b []byte) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.held[h] != nil {
		return
	}
	p.held[h], p.order, p.sum = b, append(p.order, h), p.sum+len(b)
	for p.sum > picturesHeldMax {
		p.sum -= len(p.held[p.order[0]])
		delete(p.held, p.order[0])
		p.order = p.order[1:]
	}
}

// forget takes a picture out of the list.
func (p *pictures) forget(h mesh.Hash) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.total -= p.files[h]
	delete(p.files, h)
	if b := p.held[h]; b != nil {
		p.sum -= len(b)
		delete(p.held, h)
		p.order = slices.DeleteFunc(p.order, func(x mesh.Hash) bool { return x == h })
	}
}

// put keeps a picture; when it returns nil the bytes are on the disk. Where there
// is no room, pictures that are not among wanted go first. Errors:
// *picture.Refused, ErrPicturesFull, those of the system.
func (p *pictures) put(b []byte, wanted []mesh.Hash) (h mesh.Hash, err error) {
	if _, err := picture.Check(b); err != nil {
		return h, err
	}
	h = station.HashPicture(b)
	p.writes.Lock()
	defer p.writes.Unlock()
	if p.has(h) {
		return h, nil
	}
	if err := p.makeRoom(int64(len(b)), wanted); err != nil {
		return h, err
	}
	if err := disk.MakeFolder(p.dir); err != nil {
		return h, err
	}
	if err := disk.ReplaceFile(p.path(h), b, 0o600); err != nil {
		return h, fmt.Errorf("picture: %w", err)
	}
	p.mu.Lock()
	p.files[h], p.total = int64(len(b)), p.total+int64(len(b))
	p.mu.Unlock()
	p.hold(h, b)
	p.news()
	return h, nil
}

// makeRoom removes what nobody names until n more bytes fit. writes is held.
func (p *pictures) makeRoom(n int64, wanted []mesh.Hash) error {
	p.mu.Lock()
	var idle []mesh.Hash
	for h := range p.files {
		if !slices.Contains(wanted, h) {
			idle = append(idle, h)
		}
	}
	full := p.total+n > p.room
	p.mu.Unlock()
	for _, h := range idle {
		if !full {
			return nil
		}
		if err := os.Remove(p.path(h)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			continue // another one may go
		}
		p.forget(h)
		p.mu.Lock()
		full = p.total+n > p.room
		p.mu.Unlock()
	}
	if full {
		return ErrPicturesFull
	}
	return nil
}

// Picture gives the bytes of a picture and never blocks; false: the device does
// not have it, or not yet. Options.Pictured tells when to ask again.
func (d *Device) Picture(h mesh.Hash) ([]byte, bool) { return d.pictures.get(h) }

// HasPicture tells whether a picture is here: embedded, or on the disk.
func (d *Device) HasPicture(h mesh.Hash) bool { return d.pictures.has(h) }

// KeepPicture keeps the bytes of a picture, so that they are on the disk before
// an entry names them. Errors: *picture.Refused, ErrPicturesFull, ErrNoUnit, those
// of the system.
func (d *Device) KeepPicture(ctx context.Context, b []byte) (mesh.Hash, error) {
	wanted, err := d.wantedPictures(ctx)
	if err != nil {
		return mesh.Hash{}, err
	}
	return d.pictures.put(b, wanted)
}

// wantedPictures are those that the catalogue names.
func (d *Device) wantedPictures(ctx context.Context) (all []mesh.Hash, err error) {
	s, err := d.Station()
	if err != nil {
		return nil, err
	}
	err = s.Look(ctx, func(v station.View) { all = v.Pictures() })
	return all, err
}

package disk

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"lintel/mesh"
)

const (
	markName   = "mark"
	markLenMax = 1 << 10

	stateOpen   = "open"
	stateClosed = "closed"
)

var errMark = errors.New("the mark is damaged")

// position is a place in the log: the newest batch, and where the next one goes.
type position struct {
	batch, segment uint64
	offset         int64
}

// mark says where the log lives and how far it reached. The Store owns it.
type mark struct {
	machine string   // a hash of the machine's id
	folder  Identity // of the group's folder
	file    Identity // of the mark itself
	end     position
	state   string
	at      mesh.Wall
	owed    mesh.Why // 0, or why the device's next entry must begin an incarnation
	recheck uint64   // batches up to here are vouched for only by later ones
}

// encode gives the one byte form of m.
func (m *mark) encode() []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "lintel mark 1\nmachine %s\n", m.machine)
	fmt.Fprintf(&b, "folder %d:%d:%d\n", m.folder.Device, m.folder.Inode, m.folder.Born)
	fmt.Fprintf(&b, "file %d:%d:%d\n", m.file.Device, m.file.Inode, m.file.Born)
	fmt.Fprintf(&b, "end %d %d %d\n", m.end.batch, m.end.segment, m.end.offset)
	fmt.Fprintf(&b, "state %s\nat %d\n", m.state, m.at)
	fmt.Fprintf(&b, "owed %d\nrecheck %d\n", m.owed, m.recheck)
	fmt.Fprintf(&b, "sum %08x\n", checksum(0, b.Bytes()))
	return b.Bytes()
}

// decodeMark reads what encode wrote and nothing else.
func decodeMark(b []byte) (*mark, error) {
	m := new(mark)
	var sum uint32
	_, err := fmt.Sscanf(string(b), "lintel mark 1\nmachine %s\nfolder %d:%d:%d\nfile %d:%d:%d\nend %d %d %d\nstate %s\nat %d\nowed %d\nrecheck %d\nsum %x\n",
		&m.machine, &m.folder.Device, &m.folder.Inode, &m.folder.Born, &m.file.Device, &m.file.Inode, &m.file.Born,
		&m.end.batch, &m.end.segment, &m.end.offset, &m.state, &m.at, &m.owed, &m.recheck, &sum)
	if err != nil || !bytes.Equal(m.encode(), b) {
		return nil, errMark
	}
	if m.owed != 0 && m.owed.Valid() != nil || m.state != stateOpen && m.state != stateClosed {
		return nil, errMark
	}
	return m, nil
}

// readMark gives the mark in dir: fs.ErrNotExist if there is none, any other
// error if it cannot be read.
func readMark(fsys FS, dir string) (*mark, error) {
	b, _, err := fsys.ReadFile(filepath.Join(dir, markName), markLenMax)
	if err != nil {
		return nil, err
	}
	return decodeMark(b)
}

// fits tells whether the mark in dir was written for this machine, this folder
// and a log that reached no further than r does.
func (m *mark) fits(fsys FS, dir, machine string, r *reading) bool {
	folder, err := fsys.Identify(dir)
	if err != nil {
		return false
	}
	file, err := fsys.Identify(filepath.Join(dir, markName))
	if err != nil || m.machine != machine || m.folder != folder || m.file != file {
		return false
	}
	if m.end.batch > r.newest {
		return false
	}
	for _, b := range r.batches {
		if b.number == m.end.batch {
			return b.segment == m.end.segment && b.to == m.end.offset
		}
	}
	return true
}

// write puts m in the place of the mark in dir.
func (m *mark) write(fsys FS, dir string) (err error) {
	if m.folder, err = fsys.Identify(dir); err != nil {
		return err
	}
	return replace(fsys, filepath.Join(dir, markName), 0o600, func(id Identity) []byte {
		m.file = id
		return m.encode()
	})
}

// hashMachine hides a machine's id, which must not be shown to others.
func hashMachine(id string) string {
	sum := sha256.Sum256([]byte("lintel machine 1" + id))
	return hex.EncodeToString(sum[:16])
}

// readMachine gives the machine's id: systemd's, else the host's name.
func readMachine() string {
	if b, _, err := Real().ReadFile("/etc/machine-id", markLenMax); err == nil && len(b) > 0 {
		return strings.TrimSpace(string(b))
	}
	name, err := os.Hostname()
	if err != nil {
		return "a machine without a name"
	}
	return name
}

package device

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"

	"lintel/mesh"
	"lintel/mesh/disk"
)

const configName = "device.json"

// ErrConfig says that device.json is there and cannot be read. It is never
// replaced by a guess.
var ErrConfig = errors.New("device.json cannot be read")

// config is device.json.
type config struct {
	Name     string      `json:"name"`
	Group    string      `json:"group,omitempty"`    // hexadecimal; empty: no unit yet
	Alone    bool        `json:"alone,omitempty"`    // the unit was founded only to have somewhere to record
	Left     string      `json:"left,omitempty"`     // the alone unit whose records are not yet entered again
	Trusted  []string    `json:"trusted,omitempty"`  // ids of the device that let this one in, and of members
	Peers    []string    `json:"peers,omitempty"`    // addresses that once worked
	Failures []time.Time `json:"failures,omitempty"` // wrong pairing codes
}

// settings owns device.json.
type settings struct {
	mu   sync.Mutex // guards now and the file
	path string
	now  config
}

func readSettings(dir string) (*settings, error) {
	s := &settings{path: filepath.Join(dir, configName)}
	b, err := os.ReadFile(s.path)
	if errors.Is(err, fs.ErrNotExist) {
		return s, nil
	}
	if err == nil {
		err = json.Unmarshal(b, &s.now)
	}
	if err != nil {
		return nil, fmt.Errorf("%w: %v", ErrConfig, err)
	}
	return s, nil
}

// get gives a copy.
func (s *settings) get() config {
	s.mu.Lock()
	defer s.mu.Unlock()
	c := s.now
	c.Trusted, c.Peers, c.Failures = slices.Clone(c.Trusted), slices.Clone(c.Peers), slices.Clone(c.Failures)
	return c
}

// change alters the settings and writes them. On an error the change holds in
// memory only.
func (s *settings) change(alter func(*config)) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	alter(&s.now)
	b, err := json.MarshalIndent(s.now, "", "  ")
	if err != nil {
		return err
	}
	return disk.ReplaceFile(s.path, append(b, '\n'), 0o600)
}

// Failed keeps one wrong pairing code; it makes settings a lan.Tries.
func (s *settings) Failed(at time.Time) error {
	return s.change(func(c *config) { c.Failures = append(c.Failures, at.UTC()) })
}

// failuresMax bounds the failures kept; older ones are of no interest.
const failuresMax = 100

// Failures returns the failures since a time.
func (s *settings) Failures(since time.Time) (out []time.Time) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.now.Failures = slices.DeleteFunc(s.now.Failures, func(t time.Time) bool { return t.Before(since) })
	if n := len(s.now.Failures); n > failuresMax {
		s.now.Failures = s.now.Failures[n-failuresMax:]
	}
	return slices.Clone(s.now.Failures)
}

// noteMembers adds the members to the trusted devices and takes out whoever the
// log says is none. A device that the log does not know stays as it is. self is
// not listed. It writes only what is new.
func (s *settings) noteMembers(self mesh.Key, all []mesh.Device) error {
	trusted := s.get().Trusted
	var next []string
	for _, id := range trusted {
		if !slices.ContainsFunc(all, func(d mesh.Device) bool { return d.Key.Hex() == id && d.Status != mesh.Member }) {
			next = append(next, id)
		}
	}
	for _, d := range all {
		if id := d.Key.Hex(); d.Status == mesh.Member && d.Key != self && !slices.Contains(next, id) {
			next = append(next, id)
		}
	}
	if slices.Equal(trusted, next) {
		return nil
	}
	return s.change(func(c *config) { c.Trusted = next })
}

// trusted tells whether device.json says that a device may be talked to.
func (c config) trusted(k mesh.Key) bool { return slices.Contains(c.Trusted, k.Hex()) }

// group is the unit that the device belongs to.
func (c config) group() (g mesh.GroupID, ok bool) {
	k, err := mesh.ParseKey(c.Group)
	return mesh.GroupID(k), err == nil
}

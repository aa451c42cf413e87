package device

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/mesh/disk"
)

// Errors of reading a folder.
var (
	ErrNoFolder = errors.New("there is no such folder")
	ErrNoLog    = errors.New("the folder holds no unit's log")
)

// Log is one unit's log as it lies in a data folder.
type Log struct {
	Group   mesh.GroupID
	Current bool // the device belongs to this unit now; else it left it
	Found   *disk.Found
	Reading station.Reading
}

// ReadFolder reads the logs in a data folder, that of the device's unit first,
// and changes nothing: it takes no lock, so that it also works while a device
// runs on the folder. An entry that is being written at that moment may look
// like a torn tail. Errors: ErrNoFolder, ErrNoLog, ErrConfig, those of
// disk.Open, or the system's.
func ReadFolder(dir string) ([]Log, error) {
	switch st, err := os.Stat(dir); {
	case errors.Is(err, fs.ErrNotExist) || err == nil && !st.IsDir():
		return nil, ErrNoFolder
	case err != nil:
		return nil, err
	}
	settings, err := readSettings(dir)
	if err != nil {
		return nil, err
	}
	groups, err := disk.Groups(dir)
	if err != nil {
		return nil, err
	}
	current, _ := settings.get().group()
	var out []Log
	for _, g := range groups {
		l, err := readLog(dir, g)
		if err != nil {
			return nil, err
		}
		if l.Current = g == current; l.Current {
			out = append([]Log{l}, out...)
		} else {
			out = append(out, l)
		}
	}
	if len(out) == 0 {
		return nil, ErrNoLog
	}
	return out, nil
}

func readLog(dir string, g mesh.GroupID) (l Log, err error) {
	o := disk.Defaults()
	o.Dir, o.Group, o.ReadOnly = dir, g, true
	store, found, err := disk.Open(o)
	if err != nil {
		return l, err
	}
	defer func() { err = errors.Join(err, store.Close()) }()
	starter, err := station.ReadStarter()
	if err != nil {
		return l, fmt.Errorf("starter lists: %w", err)
	}
	return Log{Group: g, Found: found, Reading: station.Read(g, found.Records, Verifier{}, starter)}, nil
}

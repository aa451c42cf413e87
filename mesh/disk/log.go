package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"lintel/mesh"
)

const (
	groupsName = "groups"
	asideName  = "aside"
	lockName   = "lock"
	segmentExt = ".seg"
)

// groupDir is where a group's log lies.
func groupDir(dir string, g mesh.GroupID) string { return filepath.Join(dir, groupsName, g.Hex()) }

func segmentName(number uint64) string { return fmt.Sprintf("%08d%s", number, segmentExt) }

// asideFile names the copy of a damaged place.
func (s Spot) asideFile() string {
	return fmt.Sprintf("%08d-%d-%d.bin", s.Segment, s.Offset, s.Offset+s.Length)
}

// Groups lists the groups that have a folder in the data folder dir, in the
// order of their bytes. A data folder without any is no error.
func Groups(dir string) ([]mesh.GroupID, error) {
	names, err := Real().ReadDir(filepath.Join(dir, groupsName))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var found []mesh.GroupID
	for _, name := range names {
		if g, err := mesh.ParseKey(name); err == nil && g.Hex() == name {
			found = append(found, mesh.GroupID(g))
		}
	}
	return found, nil
}

// segmentNumbers lists the segments in dir, ascending.
func segmentNumbers(fsys FS, dir string) ([]uint64, error) {
	names, err := fsys.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	var numbers []uint64
	for _, name := range names {
		n, err := strconv.ParseUint(strings.TrimSuffix(name, segmentExt), 10, 32)
		if err == nil && n > 0 && segmentName(n) == name {
			numbers = append(numbers, n)
		}
	}
	slices.Sort(numbers)
	return numbers, nil
}

// readLog reads every segment of the log in dir.
func readLog(fsys FS, dir string, g mesh.GroupID) (*reading, error) {
	numbers, err := segmentNumbers(fsys, dir)
	if err != nil {
		return nil, err
	}
	r := &reading{group: g}
	for i, n := range numbers {
		b, size, err := fsys.ReadFile(filepath.Join(dir, segmentName(n)), SegmentLenMax)
		if err != nil {
			return nil, err
		}
		if err := r.read(segmentText{number: n, bytes: b, size: size, last: i == len(numbers)-1}); err != nil {
			return nil, err
		}
	}
	return r, nil
}

// recall marks the damage that lies in aside/ already as no news.
func (r *reading) recall(fsys FS, dir string) error {
	names, err := fsys.ReadDir(filepath.Join(dir, asideName))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	for i := range r.spots {
		_, known := slices.BinarySearch(names, r.spots[i].asideFile())
		r.spots[i].New = !known
	}
	return nil
}

// hasNews tells whether damage was found that was not known.
func (r *reading) hasNews() bool {
	return slices.ContainsFunc(r.spots, func(b badSpot) bool { return b.New })
}

// position is how far the log reaches.
func (r *reading) position() position {
	if len(r.batches) == 0 {
		return position{}
	}
	b := r.batches[len(r.batches)-1]
	return position{batch: b.number, segment: b.segment, offset: b.to}
}

// empty tells whether there is nothing, not even damage.
func (r *reading) empty() bool { return r.newest == 0 && len(r.spots) == 0 }

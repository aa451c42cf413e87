package requests

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"lintel/mesh"
)

// ErrList says that a starter list cannot be used; the text names the row.
var ErrList = errors.New("the list cannot be used")

// RoleColumns is the heading of the list of roles.
func RoleColumns() []string { return []string{"id", "name", "side", "abilities", "source"} }

// RoomColumns is the heading of the list of rooms.
func RoomColumns() []string { return []string{"id", "name", "zones", "milli_air_changes", "source"} }

// ListColumns is the heading of the lists that are data: brief, plans, times, phrases and so on.
func ListColumns() []string { return []string{"list", "id", "words", "place", "marks", "source"} }

// SettingColumns is the heading of the list of settings.
func SettingColumns() []string { return []string{"name", "value", "unit", "source"} }

// sideNamed and abilityNamed are read only.
var (
	sideNamed    = map[string]Side{"outside": Outside, "anteroom": Anteroom, "inside": Inside}
	abilityNamed = map[string]Abilities{
		"ask": CanAsk, "agree": CanAgree, "fetch": CanFetch, "observe": CanObserve,
		"scribe": CanScribe, "charge": CanCharge, "lead": CanLead,
	}
)

// ReadRoles reads an RFC 4180 table of roles. Abilities are words apart by spaces.
func ReadRoles(b []byte) (out []RoleLine, err error) {
	err = readRows(b, RoleColumns(), func(n int, cells []string) error {
		r := RoleLine{ID: mesh.ID(cells[0]), Name: mesh.Label(cells[1]), Place: uint32(n)}
		var known bool
		if r.Side, known = sideNamed[cells[2]]; !known {
			return fmt.Errorf("no side %q", cells[2])
		}
		for _, word := range strings.Fields(cells[3]) {
			can, known := abilityNamed[word]
			if !known {
				return fmt.Errorf("no ability %q", word)
			}
			r.Can |= can
		}
		out = append(out, r)
		return mesh.Check(&r)
	})
	return out, err
}

// ReadRooms reads an RFC 4180 table of rooms. Zones are "id:side", apart by
// spaces, from the outermost inwards.
func ReadRooms(b []byte) (out []RoomLine, err error) {
	err = readRows(b, RoomColumns(), func(_ int, cells []string) error {
		r := RoomLine{ID: mesh.ID(cells[0]), Name: mesh.Label(cells[1])}
		for _, word := range strings.Fields(cells[2]) {
			id, side, _ := strings.Cut(word, ":")
			s, known := sideNamed[side]
			if !known {
				return fmt.Errorf("no side %q", side)
			}
			r.Zones = append(r.Zones, Zone{ID: mesh.ID(id), Name: mesh.Label(id), Side: s})
		}
		n, err := strconv.ParseUint(cells[3], 10, 32)
		if err != nil {
			return fmt.Errorf("%q is no number of air changes", cells[3])
		}
		r.MilliAirChanges = uint32(n)
		out = append(out, r)
		return mesh.Check(&r)
	})
	return out, err
}

// ReadLists reads an RFC 4180 table of the lines of lists that are data.
func ReadLists(b []byte) (out []ListLine, err error) {
	err = readRows(b, ListColumns(), func(_ int, cells []string) error {
		line := ListLine{List: mesh.ID(cells[0]), ID: mesh.ID(cells[1]), Words: mesh.Text(cells[2]), Source: mesh.Label(cells[5])}
		if line.List == "" || line.ID == "" {
			return errors.New("no list or no id")
		}
		for i, to := range []*uint32{&line.Place, &line.Marks} {
			n, err := strconv.ParseUint(cells[3+i], 10, 32)
			if err != nil {
				return fmt.Errorf("%q is no whole number", cells[3+i])
			}
			*to = uint32(n)
		}
		if slices.ContainsFunc(out, func(o ListLine) bool { return o.List == line.List && o.ID == line.ID }) {
			return fmt.Errorf("line %s of %s a second time", line.ID, line.List)
		}
		out = append(out, line)
		return mesh.Check(&line)
	})
	return out, err
}

// ReadSettings reads an RFC 4180 table of settings. The unit is for people.
func ReadSettings(b []byte) (out []Setting, err error) {
	err = readRows(b, SettingColumns(), func(_ int, cells []string) error {
		s := Setting{Name: mesh.ID(cells[0]), Value: mesh.Text(cells[1])}
		if s.Name == "" {
			return errors.New("no name")
		}
		if slices.ContainsFunc(out, func(o Setting) bool { return o.Name == s.Name }) {
			return fmt.Errorf("setting %s a second time", s.Name)
		}
		out = append(out, s)
		return mesh.Check(&s)
	})
	return out, err
}

// readRows gives each row behind the heading to read, with its number from 1.
func readRows(b []byte, columns []string, read func(n int, cells []string) error) error {
	rows, err := csv.NewReader(bytes.NewReader(b)).ReadAll()
	if err != nil {
		return fmt.Errorf("%w: %v", ErrList, err)
	}
	if len(rows) == 0 || !slices.Equal(rows[0], columns) {
		return fmt.Errorf("%w: row 1 must be %s", ErrList, strings.Join(columns, ","))
	}
	for i, cells := range rows[1:] {
		if err := read(i+1, cells); err != nil {
			return fmt.Errorf("%w: row %d: %v", ErrList, i+2, err)
		}
	}
	return nil
}

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

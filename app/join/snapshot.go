package join

import (
	"slices"
	"strconv"
	"time"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// Snapshot is what the screen shows.
type Snapshot struct {
	Now     mesh.Wall
	Name    string // of this device; the caller's
	Address string // where it listens; the caller's
	Near    []Near // found on the network; the caller's
	Unit    string // empty: it belongs to none yet
	Devices []Device
	Held    bool
	Holds   requests.Holds
	Roles   []Role
	Rooms   []mesh.ID
}

// Near is a device that was found on the network and proved nothing.
type Near struct {
	Address string // host:port
	Way     string // how it was found, in words
}

// Role is a role of the unit's list.
type Role struct {
	ID   mesh.ID
	Name string
}

// Device is a member of the unit.
type Device struct {
	Name      string
	Self      bool
	Held      bool
	Holds     requests.Holds
	RoleName  string
	Health    mesh.Health
	Via       mesh.Transport
	RoundTrip time.Duration // 0: not measured
	OffsetMS  int64         // its clock minus ours
	WithinMS  int64         // ±; 0: not measured
	Battery   int           // per cent; BatteryUnknown: no figure
}

// BatteryUnknown says that there is no figure.
const BatteryUnknown = -1

// numberedRooms is how many doors a unit can choose from, by number, before it
// has named any.
const numberedRooms = 6

// rooms are those of the unit's list and those that a device is held for. A
// unit that has neither yet chooses among numbers, so that a device can be held
// for one door from the first minute.
func rooms(b *requests.Board) (out []mesh.ID) {
	for _, r := range b.Rooms() {
		out = append(out, r.ID)
	}
	for _, h := range b.Holders() {
		for _, id := range h.Rooms {
			if !slices.Contains(out, id) {
				out = append(out, id)
			}
		}
	}
	for n := 1; n <= numberedRooms && len(b.Rooms()) == 0; n++ {
		if id := mesh.ID(strconv.Itoa(n)); !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out
}

// Look copies what the station knows. It runs in the station's loop.
func Look(v station.View) Snapshot {
	s := Snapshot{Now: v.Now.Wall, Unit: string(v.Peer.Unit())}
	self := v.Peer.Self()
	h, held := v.Board.Holder(self)
	s.Held, s.Holds = held, h.Holds
	for _, r := range v.Board.Roles() {
		s.Roles = append(s.Roles, Role{ID: r.ID, Name: string(r.Name)})
	}
	s.Rooms = rooms(v.Board)
	links := map[mesh.Key]mesh.PeerState{}
	for _, p := range v.Peer.Peers() {
		links[p.Peer] = p
	}
	for _, d := range v.Peer.Devices() {
		if d.Status != mesh.Member {
			continue
		}
		p := links[d.Key]
		x := Device{
			Name: string(d.Name), Self: d.Key == self, Health: p.Health, Via: p.Via,
			RoundTrip: p.RoundTrip, OffsetMS: p.OffsetMS, WithinMS: p.WithinMS, Battery: BatteryUnknown,
		}
		holder, held := v.Board.Holder(d.Key)
		x.Held, x.Holds = held, holder.Holds
		if role, known := v.Board.Role(holder.Role); known {
			x.RoleName = string(role.Name)
		}
		if x.Name == "" {
			x.Name = d.Key.String()
		}
		s.Devices = append(s.Devices, x)
	}
	return s
}

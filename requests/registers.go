package requests

import (
	"maps"
	"slices"

	"lintel/mesh"
)

// Role is a role of the unit's list as it stands.
type Role struct {
	RoleLine
	TwoValues bool // people wrote it without knowing of each other; this is the one in use
}

// Room is a closed room as it stands.
type Room struct {
	RoomLine
	TwoValues bool
}

// Holding says who has a device now.
type Holding struct {
	Mark   // the Holds
	Device mesh.Key
	Holds
	Can  Abilities // of the role, as it stands
	Side Side      // of the role; 0: the role is unknown
}

// For tells whether the device is for this room: it names it, or none.
func (h Holds) For(room mesh.ID) bool {
	return len(h.Rooms) == 0 || slices.Contains(h.Rooms, room)
}

// standing returns the facts of one register that stand, the one in use first.
// Writes that were taken back count as never written.
func (b *Board) standing(facts []*fact) []*fact {
	writes := make([]mesh.Write, 0, len(facts))
	for _, n := range facts {
		if !b.undone(n) {
			writes = append(writes, mesh.Write{Ref: n.Ref, At: n.At, Replaces: replaces(n.body)})
		}
	}
	stand := mesh.Standing(writes)
	out := make([]*fact, len(stand))
	for i, w := range stand {
		out[i] = b.facts[w.Ref]
	}
	return out
}

func replaces(body any) []mesh.Ref {
	switch b := body.(type) {
	case *RoleLine:
		return b.Replaces
	case *RoomLine:
		return b.Replaces
	case *Setting:
		return b.Replaces
	case *ListLine:
		return b.Replaces
	case *Layout:
		return b.Replaces
	}
	return nil
}

// Role returns the role of that id; false if nobody ever named it. A role that
// is gone from the lists is still found: what was done in it stays readable.
func (b *Board) Role(id mesh.ID) (Role, bool) {
	if stand := b.standing(b.roles[id]); len(stand) > 0 {
		return Role{*stand[0].body.(*RoleLine), len(stand) > 1}, true
	}
	for _, line := range b.defaults.Roles {
		if line.ID == id {
			return Role{RoleLine: line}, true
		}
	}
	return Role{}, false
}

// Roles returns the list of roles, by place and then id, without those that are gone.
func (b *Board) Roles() []Role {
	ids := slices.Collect(maps.Keys(b.roles))
	for _, line := range b.defaults.Roles {
		ids = append(ids, line.ID)
	}
	slices.Sort(ids)
	var out []Role
	for _, id := range slices.Compact(ids) {
		if r, known := b.Role(id); known && !r.Gone {
			out = append(out, r)
		}
	}
	slices.SortStableFunc(out, func(x, y Role) int { return int(x.Place) - int(y.Place) })
	return out
}

// Room returns the room of that id; false if nobody ever named it.
func (b *Board) Room(id mesh.ID) (Room, bool) {
	if stand := b.standing(b.rooms[id]); len(stand) > 0 {
		return Room{*stand[0].body.(*RoomLine), len(stand) > 1}, true
	}
	for _, line := range b.defaults.Rooms {
		if line.ID == id {
			return Room{RoomLine: line}, true
		}
	}
	return Room{}, false
}

// RoomWrites are the standing writes of a room, the one in use first: what a
// new RoomLine replaces.
func (b *Board) RoomWrites(id mesh.ID) []mesh.Ref { return refsOf(b.standing(b.rooms[id])) }

// Rooms returns the rooms by id, without those that are gone.
func (b *Board) Rooms() []Room {
	ids := slices.Collect(maps.Keys(b.rooms))
	for _, line := range b.defaults.Rooms {
		ids = append(ids, line.ID)
	}
	slices.Sort(ids)
	var out []Room
	for _, id := range slices.Compact(ids) {
		if r, known := b.Room(id); known && !r.Gone {
			out = append(out, r)
		}
	}
	return out
}

// Holder says who has a device now: its latest Holds. False if it never said.
func (b *Board) Holder(device mesh.Key) (Holding, bool) {
	var last *fact
	for _, n := range b.holds[device] {
		if !b.undone(n) && (last == nil || compareFacts(n, last) > 0) {
			last = n
		}
	}
	if last == nil {
		return Holding{}, false
	}
	return b.holding(last), true
}

// Holders says who has which device now, by device.
func (b *Board) Holders() []Holding {
	var out []Holding
	for _, device := range slices.SortedFunc(maps.Keys(b.holds), mesh.Key.Compare) {
		if h, known := b.Holder(device); known {
			out = append(out, h)
		}
	}
	return out
}

// RunnersFor lists, by key, the devices that are held now in a role that can
// fetch, for this room.
func (b *Board) RunnersFor(room mesh.ID) []mesh.Key {
	var out []mesh.Key
	for _, h := range b.Holders() {
		if h.Can&CanFetch != 0 && h.For(room) {
			out = append(out, h.Device)
		}
	}
	return out
}

func (b *Board) holding(n *fact) Holding {
	h := Holding{Mark: b.mark(n), Device: n.Ref.Author(), Holds: *n.body.(*Holds)}
	if role, known := b.Role(h.Role); known {
		h.Can, h.Side = role.Can, role.Side
	}
	return h
}

// heldRoom tells whether the device that wrote n was then held for the room.
// Only the device's own entries decide that, and those have one order.
func (b *Board) heldRoom(n *fact, room mesh.ID) bool {
	var last *fact
	for _, h := range b.holds[n.Ref.Author()] {
		if !b.undone(h) && compareFacts(h, n) < 0 && (last == nil || compareFacts(h, last) > 0) {
			last = h
		}
	}
	return last != nil && last.body.(*Holds).For(room)
}

// can is what the role allows in which a mark was made; nothing if it is unknown.
func (b *Board) can(n *fact) Abilities {
	role, _ := b.Role(n.By.Role)
	return role.Can
}

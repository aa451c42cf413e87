package brief

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Lists of lines that the pages show, by their ids.
const (
	listKinds   mesh.ID = "what"
	listPlans   mesh.ID = "plan"
	listBrief   mesh.ID = "brief"
	listKit     mesh.ID = "kit" // ticks only: its lines are the unit's kits
	listInjects mesh.ID = "inject"
)

// settingCalls is the setting with the spoken numbers of who is called with a
// rescue set.
const settingCalls mesh.ID = "rescue-calls"

// rescuePrefix begins the ids of the brief lines that say where a set lies; the
// rest is the set's letter.
const rescuePrefix = "rescue-"

// markSingly is the mark of a brief line that nobody says together with others.
const markSingly = 1

// Snapshot is what the pages show, copied out of the station.
type Snapshot struct {
	Now       mesh.Wall
	By        mesh.By
	Held      bool // somebody said who has this device
	Can       requests.Abilities
	Side      requests.Side
	Own       []mesh.ID // rooms this device is for; none: every room
	InMemory  bool      // nothing new is saved on this device
	Roles     []Role
	Kinds     []Line
	Injects   []Line
	Rooms     []Room
	Tags      []mesh.Tag // that devices are held by
	Persons   []Line     // who can be called; Done: with a rescue set
	Cases     int        // that were ever opened: the next one's number is one more
	Settings  map[mesh.ID]string
	Differ    map[mesh.ID]bool // settings that people wrote without knowing of each other
	PPEPrompt time.Duration    // 0: the unit set none
	UndoFor   time.Duration
	Layout    Layout
}

// Role is a role of the unit's list.
type Role struct {
	ID   mesh.ID
	Name string
	Side requests.Side
	Can  requests.Abilities
}

// Line is a line of a list and, in a case, whether it was said or done.
type Line struct {
	ID     mesh.ID
	Words  string
	Singly bool
	Lies   string // of a rescue set: where
	Done   bool
	Tag    mesh.Tag // who said so
	Said   string   // what was said or chosen with it
	Since  mesh.Wall
	Least  bool // it may be longer
}

// Room is a door.
type Room struct {
	ID      mesh.ID
	Name    string
	Open    bool // a case goes on
	Case    Case
	Others  int // further cases that are open there
	Devices []Device
	Drill   Drill
}

// Case is a case of a room.
type Case struct {
	Ref     mesh.Ref
	What    string
	Label   string
	Hurry   bool
	Since   mesh.Wall
	Least   bool
	Lead    mesh.Tag
	Inside  int // people in the room by what was recorded
	People  []Person
	Plans   []Line
	Lines   []Line
	Kits    []Kit
	Skipped []Skipped
}

// Person is someone of a case, with the newest check of the equipment.
type Person struct {
	Tag     mesh.Tag
	Role    string
	RoleID  mesh.ID
	Needs   bool // goes beyond the door: is checked
	Checked bool
	Good    bool
	Self    bool // wearer and checker are the same
	Checker mesh.Tag
	Since   mesh.Wall
	Least   bool
}

// Kit is a tray, or what the room should hold.
type Kit struct {
	Line
	Lies  string
	Lines []KitLine // of a tray: what it holds when it is full
	Lacks []string  // what is missing by the record, in words
}

// KitLine is a line of a kit.
type KitLine struct {
	Line
	Count  int64
	Detail string
}

// Skipped is a line that was left out.
type Skipped struct {
	List mesh.ID
	Line Line
	Tag  mesh.Tag // who left it out; empty: nobody said it
	Made bool
}

// Device is one that is held inside a room, with its comms check.
type Device struct {
	Key       mesh.Key
	Name      string
	Tag       mesh.Tag
	Self      bool
	Health    mesh.Health
	RoundTrip time.Duration // 0: not measured
	OffsetMS  int64         // its clock minus ours
	WithinMS  int64         // ±; 0: not measured
	Asked     bool          // it sent a test request
	Test      Test
}

// Test is the newest test request of a device, and what is known of it since.
type Test struct {
	Ref      mesh.Ref
	Since    mesh.Wall
	Least    bool
	Battery  int // per cent; BatteryUnknown: no figure
	Charging bool
	Injected bool   // an exercise says how full it is
	DiskMB   uint64 // 0: no figure
	ScreenOn bool   // known to stay on; false: not known
	Door     mesh.ID
	DoorOK   bool
	Heard    bool // somebody outside answered
	Sound    bool // and heard it
	HeardBy  mesh.Tag
}

// BatteryUnknown says that there is no figure.
const BatteryUnknown = -1

// Drill is what goes on in a room as a drill.
type Drill struct {
	On    bool
	Ref   mesh.Ref
	Label string
	Given []Line // injects, in order
}

// Layout is the board's layout that stands.
type Layout struct {
	Stands bool // somebody accepted it
	Differ bool // so did somebody else with another one, without knowing
	Name   string
	Tag    mesh.Tag
	Tiles  []requests.Tile
	Names  map[mesh.Number]string // of every item, with its size or strength
}

// Look copies what the pages show. It runs in the station's loop.
func Look(v station.View) Snapshot {
	b := v.Board
	h, held := b.Holder(v.Peer.Self())
	s := Snapshot{
		Now: v.Now.Wall, By: mesh.By{Role: h.Role, Tag: h.Tag}, Held: held, Can: h.Can, Side: h.Side,
		Own: slices.Clone(h.Rooms), InMemory: v.Peer.InMemory(), Settings: map[mesh.ID]string{}, Differ: map[mesh.ID]bool{},
		PPEPrompt: b.Seconds("ppe-prompt"), UndoFor: b.Seconds("undo-for"),
	}
	for _, r := range b.Roles() {
		s.Roles = append(s.Roles, Role{ID: r.ID, Name: string(r.Name), Side: r.Side, Can: r.Can})
	}
	for _, o := range b.Holders() {
		if o.Tag != "" && !slices.Contains(s.Tags, o.Tag) {
			s.Tags = append(s.Tags, o.Tag)
		}
	}
	slices.Sort(s.Tags)
	s.Kinds, s.Injects = lines(v, listKinds), lines(v, listInjects)
	for _, x := range append(limits(), limit{name: settingCalls}) {
		value, _ := b.Setting(x.name)
		s.Settings[x.name], s.Differ[x.name] = string(value), len(b.SettingValues(x.name)) > 1
	}
	for _, id := range roomIDs(v) {
		s.Rooms = append(s.Rooms, lookRoom(v, s, id))
	}
	s.Layout = layout(v)
	s.Cases = len(b.Cases())
	calls := strings.Fields(s.Settings[settingCalls])
	for _, i := range v.Ledger.Items() {
		if id := fmt.Sprint(i.Number); i.Flags&kits.IsPerson != 0 && !i.Gone {
			s.Persons = append(s.Persons, Line{ID: mesh.ID(id), Words: named(i), Done: slices.Contains(calls, id)})
		}
	}
	return s
}

// roomIDs are the unit's rooms, and those that a device is held for, or that
// have a case.
func roomIDs(v station.View) (out []mesh.ID) {
	for _, r := range v.Board.Rooms() {
		out = append(out, r.ID)
	}
	for _, h := range v.Board.Holders() {
		out = append(out, h.Rooms...)
	}
	for _, c := range v.Board.Cases() {
		if !c.Over {
			out = append(out, c.Room)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// lines are those of a list, as the unit wrote them.
func lines(v station.View, list mesh.ID) (out []Line) {
	for _, l := range v.Board.List(list) {
		out = append(out, Line{ID: l.ID, Words: string(l.Words), Singly: list == listBrief && l.Marks&markSingly != 0})
	}
	return out
}

func layout(v station.View) (out Layout) {
	l, stands := v.Board.Layout()
	out = Layout{Stands: stands, Differ: l.TwoValues, Name: string(l.Name), Tag: l.Accepted, Tiles: l.Tiles, Names: map[mesh.Number]string{}}
	for _, i := range v.Ledger.Items() {
		out.Names[i.Number] = named(i)
	}
	return out
}

func (s Snapshot) room(id mesh.ID) (Room, bool) {
	i := slices.IndexFunc(s.Rooms, func(r Room) bool { return r.ID == id })
	if i < 0 {
		return Room{ID: id, Name: string(id)}, false
	}
	return s.Rooms[i], true
}

func (r Room) device(k mesh.Key) (Device, bool) {
	i := slices.IndexFunc(r.Devices, func(d Device) bool { return d.Key == k })
	if i < 0 {
		return Device{}, false
	}
	return r.Devices[i], true
}

func (s Snapshot) role(id mesh.ID) Role {
	for _, r := range s.Roles {
		if r.ID == id {
			return r
		}
	}
	return Role{ID: id, Name: string(id)}
}

// anyOpen tells whether a case goes on in any room.
func (s Snapshot) anyOpen() bool {
	return slices.ContainsFunc(s.Rooms, func(r Room) bool { return r.Open })
}

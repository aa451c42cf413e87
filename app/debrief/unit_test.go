package debrief

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/assets"
	"lintel/mesh"
	"lintel/requests"
)

// Devices of the test's unit: number 0 looks, at the desk.
const (
	desk         byte = 0
	insideDevice byte = 1
	phone        byte = 2
)

// firstAt is when the test's unit begins: 2027-01-15, 08:00 UTC.
const firstAt mesh.Wall = 1_800_000_000_000

// Things that are asked for.
const (
	tube     mesh.Number = 1032
	bougie   mesh.Number = 1108
	ketamine mesh.Number = 3046
	weaker   mesh.Number = 3038
)

// unit is one that tests write into without a device.
type unit struct {
	t testing.TB
	station.View
	n   uint16
	now time.Duration // since firstAt
}

func newUnit(t testing.TB) *unit {
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	rooms, err := requests.ReadRooms(assets.Rooms())
	require.NoError(t, err)
	u := &unit{t: t, View: station.Read(mesh.GroupID{}, nil, nil, starter).View}
	u.do(desk, station.Lines{Rooms: rooms})
	for device, h := range map[byte]requests.Holds{
		desk: {Role: "charge", Tag: "C1"}, insideDevice: {Role: "lead", Tag: "L1", Rooms: []mesh.ID{"A1"}},
		phone: {Role: "runner", Tag: "R1", Rooms: []mesh.ID{"A1"}},
	} {
		u.do(device, station.Hold{Holds: h})
	}
	return u
}

// by is who has a device.
func by(device byte) mesh.By {
	return map[byte]mesh.By{desk: {Role: "charge", Tag: "C1"}, insideDevice: {Role: "lead", Tag: "L1"}, phone: {Role: "runner", Tag: "R1"}}[device]
}

// at lets time go on, to so many minutes and seconds after firstAt.
func (u *unit) at(minute, second int) *unit {
	u.now = time.Duration(minute)*time.Minute + time.Duration(second)*time.Second
	u.Now.Wall = firstAt + mesh.Wall(u.now.Milliseconds())
	return u
}

// do records an act of a device.
func (u *unit) do(device byte, act station.Act) mesh.Ref {
	u.t.Helper()
	ref, err := u.try(device, act)
	require.NoError(u.t, err)
	return ref
}

func (u *unit) try(device byte, act station.Act) (mesh.Ref, error) {
	u.n++
	key, tap := mesh.Key{device}, mesh.Tap{byte(u.n >> 8), byte(u.n)}
	parts, err := station.Compose(u.View, key, tap, by(device), act)
	if err != nil {
		return mesh.Ref{}, err
	}
	u.add(key, tap, by(device), parts)
	return mesh.MakeRef(key, tap, 1), nil
}

func (u *unit) add(key mesh.Key, tap mesh.Tap, by mesh.By, parts []mesh.Part) {
	at := mesh.Order{Turn: mesh.Turn(u.n), Feed: mesh.MakeFeed(key, mesh.Incarnation{1}), Seq: mesh.Seq(u.n)}
	for i, p := range parts {
		f := mesh.Fact{Ref: mesh.MakeRef(key, tap, i), At: at, Wall: u.Now.Wall, By: by, Kind: p.Kind, Body: p.Body}
		u.Board.Add(f)
		u.Ledger.Add(f)
	}
}

// compared has the inside device's clock measured against another's.
func (u *unit) compared(device byte, within time.Duration) {
	u.n++
	part, err := mesh.MakePart(mesh.KindClock, &mesh.Clock{Peer: mesh.Key{device}, WithinMS: uint32(within.Milliseconds()), Cause: mesh.ClockFirst})
	require.NoError(u.t, err)
	u.add(mesh.Key{insideDevice}, mesh.Tap{byte(u.n >> 8), byte(u.n)}, mesh.By{}, []mesh.Part{part})
}

// open begins a case in A1.
func (u *unit) open(label mesh.Label) mesh.Ref {
	ref := u.do(insideDevice, station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation", Label: label}})
	u.do(insideDevice, station.TakeRole{Case: ref, Tag: "L1", Role: "lead"})
	u.do(phone, station.TakeRole{Case: ref, Tag: "R1", Role: "runner"})
	return ref
}

func (u *unit) ask(item mesh.Number, count requests.Count, soon requests.Urgency) mesh.Ref {
	return u.do(insideDevice, station.Ask{Room: "A1", Thing: requests.Thing{Item: item, Count: count}, Urgency: soon})
}

func (u *unit) readBack(r mesh.Ref, item mesh.Number, count requests.Count) {
	u.do(phone, station.ReadBack{Request: r, Thing: requests.Thing{Item: item, Count: count}, How: requests.Chosen})
}

// small is a case of six minutes with one request, from a minute on.
func (u *unit) small(label mesh.Label, minute, waits int) mesh.Ref {
	u.at(minute, 0)
	ref := u.open(label)
	r := u.at(minute+1, 0).ask(bougie, 1, requests.NextOpening)
	u.at(minute+1, waits).do(phone, station.Go{Request: r})
	u.readBack(r, bougie, 1)
	u.do(insideDevice, station.Agree{Request: r})
	u.at(minute+3, 0).do(phone, station.PutAtDoor{Request: r})
	u.at(minute+3, waits).do(insideDevice, station.TakeIn{Request: r})
	u.at(minute+6, 0).do(desk, station.ShutCase{Case: ref, Why: "it is over"})
	return ref
}

// exercise is a small case that is a drill.
func (u *unit) exercise(label mesh.Label, minute int) mesh.Ref {
	u.at(minute, 0)
	ref := u.open(label)
	drill := u.do(desk, station.StartDrill{Case: ref, Room: "A1", Label: "monthly"})
	u.at(minute+1, 0).do(desk, station.GiveInject{Drill: drill, What: "cut-link"})
	u.at(minute+2, 0).ask(bougie, 1, requests.RightNow)
	u.at(minute+5, 0).do(desk, station.ShutCase{Case: ref, Why: "it is over"})
	return ref
}

// course is a case of 34 minutes with something of everything, from a minute on.
func (u *unit) course(minute int) mesh.Ref {
	at := func(m, s int) { u.at(minute+m, s) }
	at(0, 0)
	u.compared(phone, 900*time.Millisecond)
	u.compared(desk, 400*time.Millisecond)
	ref := u.open("C 12")
	at(2, 0)
	u.do(phone, station.GoIn{Case: ref, Tag: "L1", Zone: "inside", Checker: "O1"})
	u.do(phone, station.GoIn{Case: ref, Tag: "D1", Zone: "inside", Checker: "O1"})
	u.do(phone, station.GoIn{Case: ref, Tag: "O1", Zone: "anteroom", Checker: "L1"})
	at(3, 0)
	u.note(ref, "pre-oxygenation")
	r := u.ask(bougie, 1, requests.NextOpening)
	at(3, 14)
	u.do(phone, station.Go{Request: r})
	at(5, 30)
	u.readBack(r, bougie, 1)
	u.do(insideDevice, station.Agree{Request: r})
	at(6, 0)
	u.do(phone, station.PutAtDoor{Request: r})
	at(6, 40)
	u.do(insideDevice, station.TakeIn{Request: r})
	at(8, 0)
	u.note(ref, "induction")
	u.note(ref, "relaxant")
	d := u.ask(ketamine, 2, requests.RightNow)
	at(8, 9)
	u.do(phone, station.Go{Request: d})
	at(9, 20)
	u.readBack(d, weaker, 2)
	at(9, 32)
	u.do(insideDevice, station.Refuse{Request: d, Why: "50 mg/mL"})
	at(10, 15)
	u.readBack(d, ketamine, 2)
	u.do(insideDevice, station.Agree{Request: d})
	u.do(phone, station.PutAtDoor{Request: d})
	at(10, 50)
	u.do(insideDevice, station.TakeIn{Request: d})
	u.later(ref, minute)
	at(34, 0)
	u.do(desk, station.ShutCase{Case: ref, Why: "it is over"})
	return ref
}

// later is the second half of course.
func (u *unit) later(ref mesh.Ref, minute int) {
	at := func(m, s int) { u.at(minute+m, s) }
	at(11, 20)
	u.note(ref, "attempt")
	at(12, 5)
	u.note(ref, "first-ventilation")
	u.note(ref, "co2-seen")
	u.do(phone, station.GoIn{Case: ref, Tag: "L2", Zone: "inside", Checker: "O1"})
	at(14, 0)
	u.ask(tube, 1, requests.BeforeWeLeave)
	w := u.ask(bougie, 2, requests.NextOpening)
	at(15, 10)
	u.do(insideDevice, station.Withdraw{Request: w, Why: "not needed"})
	at(18, 0)
	u.do(insideDevice, station.ReportBreach{Case: ref, Tag: "D1", What: "glove"})
	u.do(insideDevice, station.Say{Case: ref, Room: "A1", Phrase: "tube-in", Out: true})
	late := u.note(ref, "cuff-up")
	u.do(insideDevice, station.CorrectTime{Names: late, Happened: u.Now.Wall - 330_000, WithinMS: 30_000})
	at(29, 0)
	u.do(phone, station.ComeOut{Case: ref, Tag: "D1", Zone: "inside", Checker: "O1"})
	at(30, 30)
	u.do(phone, station.ComeOut{Case: ref, Tag: "L2", Zone: "inside", Checker: "O1"})
}

func (u *unit) note(ref mesh.Ref, what mesh.ID) mesh.Ref {
	return u.do(insideDevice, station.NoteTime{Case: ref, What: what})
}

// full is a unit with a drill, five small cases and course as the newest one.
func full(t *testing.T) (*unit, mesh.Ref) {
	u := newUnit(t)
	u.exercise("D 1", 1)
	for i := range 5 {
		ref := u.small(mesh.Label([]string{"C 7", "C 8", "C 9", "C 10", "C 11"}[i]), 10+10*i, 4+5*i)
		if i == 1 {
			u.do(desk, station.HoldDebrief{Case: ref, Held: true})
		}
	}
	ref := u.course(70)
	u.at(120, 0)
	return u, ref
}

// look is what the desk shows.
func (u *unit) look(of mesh.Ref) Snapshot {
	s := Look(u.View, of)
	s.InMemory = false // the test's peer has no disk at all
	return s
}

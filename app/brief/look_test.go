package brief

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/stage"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// lead is who leads inside in these tests.
var lead = mesh.By{Role: "lead", Tag: "L1"}

// Goal: a room list says of each room what goes on there, and several cases at
// once stay apart. Method: cases in two of three rooms, one with people inside.
func TestRoomsSayWhatGoesOn(t *testing.T) {
	u := newFolded(t)
	w := words.English()
	first := u.do(2, lead, station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation", Label: "17"}})
	second := u.do(2, lead, station.OpenCase{Case: requests.CaseOpen{Room: "A3", Hurry: true}})
	u.do(2, lead, station.TakeRole{Case: first, Tag: "L1", Role: "lead"})
	u.do(2, lead, station.GoIn{Case: first, Tag: "L1"})
	s := u.look()
	require.Len(t, s.Rooms, 3)
	face := roomFace(w, s, s.Rooms[0])
	require.Equal(t, "A1 · Intubation · 17", face.Word)
	require.Contains(t, face.Detail, "L1 leads · 1 inside · brief 0 of 25")
	require.Equal(t, "no case", roomFace(w, s, s.Rooms[1]).Detail)
	require.Equal(t, "A3 · case, its kind not said", roomFace(w, s, s.Rooms[2]).Word)
	require.Equal(t, second, s.Rooms[2].Case.Ref)
	require.Empty(t, s.Rooms[2].Case.People)
}

// Goal: two cases that are open for one room are both kept, and said. Method:
// open a second one anyway.
func TestTwoCasesOfARoomAreSaid(t *testing.T) {
	u := newFolded(t)
	u.do(2, lead, station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation"}})
	u.do(3, lead, station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation"}, Anyway: true})
	s := u.look()
	require.Equal(t, 1, s.Rooms[0].Others)
	require.Contains(t, casePage(words.English(), s, s.Rooms[0]).Tell.Sentence, "Another case")
}

// Goal: a kit says what it lacks by the record, and nothing where nothing is
// recorded; all lines found are the kit. Method: stock one line of the tray,
// then tick every line.
func TestKitsSayWhatIsMissing(t *testing.T) {
	u := newFolded(t)
	ref := u.do(2, lead, station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation"}})
	tray := u.look().Rooms[0].Case.Kits[0]
	require.Empty(t, tray.Lacks, "nobody recorded what lies there")
	b := u.Ledger.Bundles()[0]
	for _, x := range u.Ledger.Bundles() {
		if fmt.Sprint(x.Number) == string(tray.ID) {
			b = x
		}
	}
	moved := kits.Moved{From: kits.Place{Sort: kits.Supplier}, To: b.LiesAt, Lines: []kits.Line{{Item: b.Lines[0].Item, Quantity: kits.Quantity{N: b.Lines[0].Count, Measure: mesh.Each}}}}
	u.do(2, lead, station.Move{Movements: []kits.Moved{moved}})
	tray = u.look().Rooms[0].Case.Kits[0]
	require.Len(t, tray.Lacks, len(tray.Lines)-1)
	require.False(t, tray.Done)
	for _, l := range tray.Lines {
		u.do(2, lead, station.TickLine{Case: ref, List: listKit, Line: l.ID, Done: true})
	}
	require.True(t, u.look().Rooms[0].Case.Kits[0].Done)

	u.do(2, lead, station.Lines{Pars: []kits.ParLine{{Place: kits.Place{Sort: kits.InRoom, ID: "A1"}, Item: b.Lines[0].Item, Par: 2}}})
	kitsNow := u.look().Rooms[0].Case.Kits
	require.Equal(t, roomKitID, kitsNow[len(kitsNow)-1].ID)
	require.Len(t, kitsNow[len(kitsNow)-1].Lacks, 1)
}

// Goal: the clock of a check is shown, a prompt only where the unit set one.
// Method: a check an hour old, without and with a prompt.
func TestEquipmentHasAClockAndNoLimitOfItsOwn(t *testing.T) {
	w := words.English()
	s := Snapshot{Now: firstAt, Settings: map[mesh.ID]string{}}
	x := Person{Tag: "L1", Role: "Airway lead", Needs: true, Checked: true, Good: true, Checker: "O1", Since: firstAt - 3600_000}
	face := personFace(w, s, x)
	require.Equal(t, "1:00:00", face.State)
	require.Equal(t, look.TonePlain, face.Tone)
	s.PPEPrompt = 40 * time.Minute
	face = personFace(w, s, x)
	require.Equal(t, look.ToneNext, face.Tone)
	require.Contains(t, face.Detail, "longer than 40:00: look again")
	x.Good = false
	require.Contains(t, personFace(w, s, x).Detail, "not well on")
}

// Goal: a comms check is good only when all of it is, and what is not known is
// not trouble. Method: alter a good one, one thing at a time.
func TestCommsCheckSaysWhatIsWrong(t *testing.T) {
	w := words.English()
	s := Snapshot{Now: firstAt, Settings: map[mesh.ID]string{"battery-low": "20"}}
	good := Device{Name: "tablet", Health: mesh.Connected, Asked: true, Test: Test{
		Battery: BatteryUnknown, Door: "A1", DoorOK: true, Heard: true, Sound: true, HeardBy: "R1", Since: firstAt - 5000,
	}}
	said, well := verdict(w, s, good)
	require.True(t, well, said)
	require.Equal(t, "test heard by R1 · 0:05", said)
	for _, c := range []struct {
		alter func(*Device)
		said  string
	}{
		{func(d *Device) { d.Health = mesh.NotConnected }, "not connected"},
		{func(d *Device) { d.Health = mesh.Doubtful }, "link doubtful"},
		{func(d *Device) { d.Asked = false }, "no test sent yet"},
		{func(d *Device) { d.Test.Heard = false }, "test sent, nobody outside has answered"},
		{func(d *Device) { d.Test.Sound = false }, "test arrived, its sound was not heard"},
		{func(d *Device) { d.Test.DoorOK, d.Test.Door = false, "A2" }, "wrong room on the screen: the door says A2"},
		{func(d *Device) { d.Test.DoorOK, d.Test.Door = false, "" }, "number on the door not read"},
		{func(d *Device) { d.Test.Battery = 12 }, "battery 12 %"},
		{func(d *Device) { d.Test.DiskMB = 50 }, "50 MB free"},
		{func(d *Device) { d.OffsetMS, d.WithinMS = -9000, 20 }, "clock -9.00 s ± 0.02 s"},
	} {
		d := good
		c.alter(&d)
		said, well := verdict(w, s, d)
		require.False(t, well, c.said)
		require.Equal(t, c.said, said)
		require.Contains(t, commsLine(w, s, Room{Devices: []Device{good, d}}), c.said, "it stays visible over the brief")
	}
	charged := good
	charged.Test.Battery, charged.Test.Charging = 12, true
	_, well = verdict(w, s, charged)
	require.True(t, well)
	require.Contains(t, commsLine(w, s, Room{Devices: []Device{good}}), "no second device")
	require.Equal(t, "no device inside", commsLine(w, s, Room{}))
	for _, f := range findings(w, s, good) {
		require.NotEmpty(t, f.Word)
	}
}

// Goal: a battery that falls later shows outside. Method: a good test, then a
// condition of the device, then the inject of a drill and its end.
func TestALowBatteryInsideShowsOutside(t *testing.T) {
	u := newFolded(t)
	u.hold(2, "lead", "L1", "A1")
	u.do(2, lead, station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation"}})
	u.do(2, lead, station.TestComms{Room: "A1", Battery: 90, Door: "A1"})
	require.Equal(t, 90, u.look().Rooms[0].Devices[0].Test.Battery)
	u.do(2, lead, station.Condition{Battery: 9})
	require.Equal(t, 9, u.look().Rooms[0].Devices[0].Test.Battery)
	drill := u.do(2, lead, station.StartDrill{Room: "A1"})
	u.do(2, lead, station.GiveInject{Drill: drill, What: "battery"})
	s := u.look()
	require.Contains(t, trouble(words.English(), s, s.Rooms[0].Devices[0]), "drill: battery 5 %")
	u.do(2, lead, station.EndDrill{Drill: drill})
	require.Equal(t, 9, u.look().Rooms[0].Devices[0].Test.Battery)
}

// Goal: a layout is accepted by somebody, never during a case, and is then the
// one that stands. Method: nobody, a case, then neither.
func TestLayoutIsAcceptedByAPersonAndNeverDuringACase(t *testing.T) {
	s := newScene(t, look.Dark, "desk", false)
	s.screen.ask(stepLayout)
	require.Contains(t, s.Text(), "Say first who has this device")
	s.lead()
	ref := s.unit.do(2, lead, station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation"}})
	s.show()
	require.Contains(t, s.Text(), "Not while a case goes on")
	s.screen.pickButton(1)
	require.Empty(t, s.acts, "the button is off")
	s.unit.do(2, lead, station.ShutCase{Case: ref})
	s.show()
	s.find("accept it")
	require.Contains(t, s.Text(), "accepted by C1")
	require.NotContains(t, s.Text(), "accept it")
	stands, is := s.unit.Board.Layout()
	require.True(t, is)
	require.Equal(t, mesh.Tag("C1"), stands.Accepted)
}

// Goal: a drill is started by a lead, has its injects, is said on every page
// of its room, and ends with one tap. Method: tap it all; a runner cannot start one.
func TestDrillsAreALeads(t *testing.T) {
	s := newScene(t, look.Dark, "desk", false)
	s.team()
	s.screen.ask(stepDrill)
	require.Contains(t, s.Text(), "A lead starts drills")
	s.screen.pickRow(0)
	require.Empty(t, s.acts)
	s.lead()
	s.find("A2")
	s.find("Runner is called away")
	d, on := s.unit.Board.DrillIn("A2")
	require.True(t, on)
	require.Len(t, d.Injects, 1)
	s.screen.AskRooms()
	require.Contains(t, s.Text(), "Drill.")
	s.screen.AskCase("A2")
	require.Equal(t, look.ToneDrill, s.screen.page.Head.Tone)
	s.screen.ask(stepDrill)
	s.find("this is real")
	_, on = s.unit.Board.DrillIn("A2")
	require.False(t, on)
}

// Goal: limits are changed by less and more, yes and no by a tap, and stay within
// their bounds. Method: tap; then step far beyond both ends of every limit.
func TestLimitsAreSetByTaps(t *testing.T) {
	s := newScene(t, look.Dark, "desk", false)
	s.lead()
	s.screen.ask(stepSettings)
	s.find("Nobody is going")
	s.tap("+")
	s.tap("set it to 35 s")
	require.Equal(t, 35*time.Second, s.unit.Board.Seconds("call-again"))
	s.find("Soft tick")
	value, _ := s.unit.Board.Setting("soft-tick")
	require.Equal(t, mesh.Text("yes"), value)
	s.screen.ask(stepCalls)
	s.screen.pickRow(0)
	s.show()
	s.screen.pickRow(2)
	s.show()
	s.screen.pickRow(0)
	value, _ = s.unit.Board.Setting(settingCalls)
	require.Equal(t, string(s.screen.snap.Persons[2].ID), string(value))
	for _, l := range limits() {
		_, known := s.unit.Board.Setting(l.name)
		require.True(t, known, l.name)
		require.True(t, s.screen.opt.Words.Has(words.ID("brief.setting."+l.name)), l.name)
		at := int64(0)
		for range 1000 {
			at = l.stepBy(at, 1)
		}
		require.Equal(t, l.most, at, l.name)
		for range 1000 {
			at = l.stepBy(at, -1)
		}
		require.Zero(t, at, l.name)
	}
}

// Goal: a page of a case that somebody shut gives way to the rooms; one that was
// begun here and is not seen yet does not, and what is tapped then is for it.
// Method: begin, tap before the snapshot comes, shut elsewhere.
func TestPagesFollowTheirCase(t *testing.T) {
	s := newScene(t, look.Dark, "desk", false)
	before := s.unit.look()
	s.screen.AskCase("A1")
	s.screen.pick(pick{what: picksKind, id: "intubation"})
	s.screen.Set(before)
	require.Equal(t, stepRoles, s.screen.hand.step)
	s.screen.pick(pick{what: picksRole, id: "lead", tag: "L1"})
	c, _ := s.unit.Board.CaseIn("A1")
	require.Equal(t, c.Ref, s.acts[1].(station.TakeRole).Case)
	s.show()
	require.Equal(t, stepRoles, s.screen.hand.step)
	s.unit.do(3, lead, station.ShutCase{Case: c.Ref})
	s.show()
	require.Equal(t, stepRooms, s.screen.hand.step)
}

// Goal: a case is shut, or goes on elsewhere, from its own page. Method: tap a
// room, type a place, shut it.
func TestACaseEndsOrGoesOnElsewhere(t *testing.T) {
	s := newScene(t, look.Dark, "desk", false)
	s.begun()
	s.screen.ask(stepEnd)
	s.find("A2")
	c, _ := s.unit.Board.CaseIn("A1")
	require.Equal(t, mesh.Label("A2"), c.MovedTo)
	s.screen.ask(stepEnd)
	s.find("to that place")
	require.Equal(t, stepEnd, s.screen.hand.step, "nothing was typed")
	s.screen.parts.entry.SetText("  operating theatre 3 ")
	s.find("to that place")
	c, _ = s.unit.Board.CaseIn("A1")
	require.Equal(t, mesh.Label("operating theatre 3"), c.MovedTo)
	s.screen.ask(stepEnd)
	s.find("it is over")
	_, open := s.unit.Board.CaseIn("A1")
	require.False(t, open)
	require.Equal(t, stepRooms, s.screen.hand.step)
}

// Goal: a hurry leads to the board whatever becomes of it. Method: another
// device began the case already; then a disk that fails.
func TestAHurryAlwaysLeadsToTheBoard(t *testing.T) {
	s := newScene(t, look.Dark, "phone", false)
	s.unit.do(2, lead, station.OpenCase{Case: requests.CaseOpen{Room: "A1"}})
	s.screen.pick(pick{what: picksHurry, room: "A1"})
	require.Empty(t, s.screen.hand.fault[0])
	s.err = stage.ErrTest
	s.screen.pick(pick{what: picksHurry, room: "A2"})
	require.NotEmpty(t, s.screen.hand.fault[0])
	require.Equal(t, []mesh.ID{"A1", "A2"}, s.boards)
}

// Goal: buttons are as wide as their words need on two rows. Method: a table.
func TestWordsAreBrokenAtSpaces(t *testing.T) {
	for _, c := range []struct {
		text    string
		letters int
		rows    int
	}{{"back", 7, 1}, {"who checks", 7, 2}, {"all four said", 11, 2}, {"not well on", 7, 2}, {"a b c d e f", 3, 3}, {"", 7, 1}} {
		require.Equal(t, c.rows, wraps(c.text, c.letters), c.text)
	}
	require.Greater(t, wraps("equipment", 7), shortRows)
}

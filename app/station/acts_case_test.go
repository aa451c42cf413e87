package station

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// opened is a unit with two rooms and a case in A1, on a device that is for A1.
func opened(t *testing.T) (*door, mesh.Ref) {
	d := &door{t: t, v: empty(t)}
	zones := []requests.Zone{
		{ID: "corridor", Name: "corridor", Side: requests.Outside},
		{ID: "anteroom", Name: "anteroom", Side: requests.Anteroom},
		{ID: "inside", Name: "inside", Side: requests.Inside},
	}
	d.do(Lines{Rooms: []requests.RoomLine{{ID: "A1", Name: "A1", Zones: zones}, {ID: "A2", Name: "A2", Zones: zones}}})
	d.do(Hold{Holds: requests.Holds{Role: "lead", Tag: "L1", Rooms: []mesh.ID{"A1"}}})
	return d, d.do(OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation"}})
}

// refused composes an act that must not be recorded.
func (d *door) refused(act Act) error {
	d.t.Helper()
	_, err := Compose(d.v, mesh.Key{1}, mesh.Tap{99}, mesh.By{}, act)
	require.Error(d.t, err, "%T", act)
	return err
}

func (d *door) one(ref mesh.Ref) requests.Case {
	d.t.Helper()
	c, known := d.v.Board.Case(ref)
	require.True(d.t, known)
	return c
}

// TestEveryActOfACaseFindsTheOpenCase records each act without naming the case:
// all stand in the case of the device's room, with what the act leaves out
// filled in.
func TestEveryActOfACaseFindsTheOpenCase(t *testing.T) {
	d, of := opened(t)
	for _, act := range []Act{
		TakeRole{Tag: "L1", Role: "lead"},
		TickLine{List: "brief", Line: "plan-said", Done: true},
		CheckPPE{Wearer: "L1", Checker: "O1", Good: true},
		Skip{List: "plan", Lines: []mesh.ID{"d"}},
		TestComms{Battery: -1, ScreenOn: true, Door: "A1"},
		Say{Phrase: "tube-in", Out: true},
		GoIn{Tag: "L1", Checker: "O1"},
		ReportBreach{Tag: "L1", What: "glove"},
		DoffStep{Tag: "L1", Step: "hands-1", Checker: "O1", Good: true},
		ComeOut{Tag: "L1"},
		NoteTime{What: "cuff-up"},
		TieChart{Monitor: 1_700_000_000_000},
		HoldDebrief{Held: true},
		AnswerLine{Line: "well", Words: "all"},
		StartDrill{Label: "monthly"},
		GiveInject{What: "battery"},
		EndDrill{},
		MoveCase{To: "CT"},
		ShutCase{Why: "done"},
	} {
		d.do(act)
	}
	c := d.one(of)
	require.Equal(t, mesh.Tag("L1"), c.Roles[0].Tag)
	require.True(t, c.Ticks[0].Done)
	require.False(t, c.PPE[0].Self)
	require.Equal(t, mesh.ID("d"), c.Skipped[0].Line)
	require.Equal(t, mesh.ID("A1"), c.Tests[0].Room)
	require.True(t, c.Tests[0].DoorOK)
	require.Equal(t, mesh.ID("A1"), c.Said[0].Room)
	require.Len(t, c.Breaches, 1)
	require.Len(t, c.Doffing, 1)
	require.Len(t, c.Crossings, 2)
	require.Equal(t, mesh.ID("inside"), c.Crossings[0].Zone, "the innermost zone, where none was named")
	require.Equal(t, mesh.ID("inside"), c.Crossings[1].Zone, "out of where the person was")
	require.Len(t, c.Moments, 1)
	require.EqualValues(t, TieWithinMS, c.Charts[0].WithinMS)
	require.True(t, c.Debriefs[0].Held)
	require.Len(t, c.Answers, 1)
	require.Len(t, c.Drills, 1)
	require.Len(t, c.Drills[0].Injects, 1)
	require.Len(t, c.Drills[0].Real, 1)
	require.Equal(t, mesh.Label("CT"), c.MovedTo)
	require.True(t, c.Over)
	require.Empty(t, d.v.Board.Astray())
}

// TestThisIsRealEndsEveryExerciseOfTheRoom begins an exercise before a case and
// two in it, and one elsewhere: one tap ends all that go on in the room, and the
// case is none any more.
func TestThisIsRealEndsEveryExerciseOfTheRoom(t *testing.T) {
	d, first := opened(t)
	d.do(ShutCase{Case: first, Why: "done"})
	d.do(StartDrill{Label: "before"})
	of := d.do(OpenCase{Case: requests.CaseOpen{Room: "A1"}})
	d.do(StartDrill{Label: "monthly"})
	d.do(StartDrill{Label: "again"})
	elsewhere := d.do(StartDrill{Room: "A2"})
	require.True(t, d.v.Training()(of))
	d.do(EndDrill{})
	_, on := d.v.Board.DrillIn("A1")
	require.False(t, on)
	require.False(t, d.v.Training()(of))
	still, on := d.v.Board.DrillIn("A2")
	require.True(t, on)
	require.Equal(t, elsewhere, still.Ref)
}

// TestRequestsBelongToTheOpenCase asks and passes in: both stand in the case.
func TestRequestsBelongToTheOpenCase(t *testing.T) {
	d, of := opened(t)
	asked := d.do(Ask{Room: "A1", Thing: requests.Thing{Item: bougie, Count: 1}, Urgency: requests.RightNow})
	passed := d.do(PassIn{Room: "A1", Thing: requests.Thing{Item: bougie, Count: 1}})
	elsewhere := d.do(Ask{Room: "A2", Thing: requests.Thing{Item: bougie, Count: 1}, Urgency: requests.RightNow})
	require.Equal(t, []mesh.Ref{asked, passed}, d.one(of).Requests)
	require.True(t, d.request(elsewhere).Case.IsZero())
}

// TestWhatHappenedBeginsACaseWhereNoneIsOpen notes a time in a room without a
// case: a case begins with it. A while after a case was shut what happens still
// belongs to it; long after, a new one begins.
func TestWhatHappenedBeginsACaseWhereNoneIsOpen(t *testing.T) {
	d := &door{t: t, v: empty(t)}
	d.do(Hold{Holds: requests.Holds{Role: "lead", Rooms: []mesh.ID{"A1"}}})
	d.do(NoteTime{What: "induction"})
	all := d.v.Board.Cases()
	require.Len(t, all, 1)
	require.Len(t, all[0].Moments, 1)
	d.do(ShutCase{})
	require.ErrorIs(t, d.refused(ShutCase{}), ErrNoCase)
	d.do(ComeOut{Tag: "L1"})
	require.Len(t, d.v.Board.Cases(), 1)
	require.Len(t, d.one(all[0].Ref).Crossings, 1)

	d.v.Now.Wall = mesh.Wall(lateMax.Milliseconds()) + 1
	d.do(NoteTime{What: "induction"})
	require.Len(t, d.v.Board.Cases(), 2)
	require.Len(t, d.one(all[0].Ref).Moments, 1)
}

// TestItMustBeClearWhichCaseIsMeant opens two cases on a device that is for
// every room, and none on another.
func TestItMustBeClearWhichCaseIsMeant(t *testing.T) {
	d, _ := opened(t)
	require.ErrorIs(t, d.refused(OpenCase{Case: requests.CaseOpen{Room: "A1"}}), ErrCaseThere)
	require.ErrorIs(t, d.refused(OpenCase{}), ErrNoRoom)
	other := d.do(OpenCase{Case: requests.CaseOpen{Room: "A2"}})
	d.do(Hold{Holds: requests.Holds{Role: "charge"}})
	require.ErrorIs(t, d.refused(NoteTime{What: "induction"}), ErrManyCases)
	d.do(NoteTime{Case: other, What: "induction"})
	require.Len(t, d.one(other).Moments, 1)
	d.do(OpenCase{Case: requests.CaseOpen{Room: "A1"}, Anyway: true})
	require.Len(t, d.v.Board.TwoCases("A1"), 2)

	none := &door{t: t, v: empty(t)}
	require.ErrorIs(t, none.refused(ShutCase{}), ErrNoCase)
	require.ErrorIs(t, none.refused(NoteTime{What: "induction"}), ErrNoCase)
	require.ErrorIs(t, none.refused(ShutCase{Case: other}), ErrNoCase)
}

// TestSlipsOfTheFingerAreNotRecorded gives each act what nobody can mean.
func TestSlipsOfTheFingerAreNotRecorded(t *testing.T) {
	d, _ := opened(t)
	for _, c := range []struct {
		act  Act
		want error
	}{
		{OpenCase{Case: requests.CaseOpen{Room: "A2", What: "nonsense"}}, ErrNoLine},
		{TakeRole{Role: "lead"}, ErrNoTag},
		{TakeRole{Tag: "L1", Role: "doctor"}, ErrNoRole},
		{TickLine{List: "brief", Line: "nonsense", Done: true}, ErrNoLine},
		{CheckPPE{Checker: "O1"}, ErrNoTag},
		{Skip{List: "brief", Lines: []mesh.ID{"nonsense"}}, ErrNoLine},
		{HearTest{Test: mesh.MakeRef(mesh.Key{9}, mesh.Tap{9}, 1)}, ErrNoFact},
		{Say{Phrase: "bed-ready", Out: true}, ErrNoLine}, // it is said inwards
		{Hear{Said: mesh.MakeRef(mesh.Key{9}, mesh.Tap{9}, 1)}, ErrNoFact},
		{GoIn{}, ErrNoTag},
		{GoIn{Tag: "L1", Zone: "roof"}, ErrNoZone},
		{ComeOut{}, ErrNoTag},
		{ReportBreach{Tag: "L1", What: "nonsense"}, ErrNoLine},
		{DoffStep{Tag: "L1", Step: "nonsense"}, ErrNoLine},
		{NoteTime{What: ""}, ErrNoLine},
		{CorrectTime{Names: mesh.MakeRef(mesh.Key{9}, mesh.Tap{9}, 1), Happened: 5}, ErrNoFact},
		{TieChart{}, ErrWhen},
		{HoldDebrief{}, ErrNoReason},
		{AnswerLine{Line: "nonsense"}, ErrNoLine},
		{GiveInject{What: "battery"}, ErrNoDrill},
		{EndDrill{}, ErrNoDrill},
		{MoveCase{}, ErrNothing},
		{Remind{}, ErrNoRequest},
		{WriteLine{}, ErrNothing},
		{WriteSetting{Name: "nonsense"}, ErrSetting},
		{WriteSetting{Name: "call-again", Value: "x"}, ErrSettingValue},
		{WriteSetting{Name: "call-again", Value: "-5"}, ErrSettingValue},
		{WriteSetting{Name: "call-again", Value: "99999999999"}, ErrSettingValue},
		{Undo{Mark: mesh.MakeRef(mesh.Key{9}, mesh.Tap{9}, 1)}, ErrNoFact},
	} {
		require.ErrorIs(t, d.refused(c.act), c.want, "%T %+v", c.act, c.act)
	}
}

// TestAnUndoneFactOfACaseIsGone undoes one fact of each sort.
func TestAnUndoneFactOfACaseIsGone(t *testing.T) {
	d, of := opened(t)
	for _, act := range []Act{
		TakeRole{Tag: "L1", Role: "lead"}, TickLine{List: "brief", Line: "plan-said", Done: true}, CheckPPE{Wearer: "L1", Checker: "O1", Good: true},
		GoIn{Tag: "L1"}, ReportBreach{Tag: "L1", What: "glove"}, NoteTime{What: "cuff-up"}, Say{Phrase: "wait"}, HoldDebrief{Held: true},
	} {
		ref := d.do(act)
		require.NotEqual(t, requests.Case{}, d.one(of))
		d.do(Undo{Mark: ref, Why: "slip"})
	}
	c := d.one(of)
	require.Empty(t, c.Roles)
	require.Empty(t, c.Ticks)
	require.Empty(t, c.PPE)
	require.Empty(t, c.Crossings)
	require.Empty(t, c.Breaches)
	require.Empty(t, c.Moments)
	require.Empty(t, c.Said)
	require.Empty(t, c.Debriefs)
	d.do(Undo{Mark: of})
	require.Empty(t, d.v.Board.Cases())
}

// TestHeardTestsAndPhrasesAreAnswered hears a test, a phrase and a breach, also
// a phrase that was said where no case was open.
func TestHeardTestsAndPhrasesAreAnswered(t *testing.T) {
	d, of := opened(t)
	test := d.do(TestComms{Battery: 40, ScreenOn: true, Door: "A2"})
	d.do(HearTest{Test: test, Sound: true, RoundTripMS: 7})
	said := d.do(Say{Phrase: "coming-out", Out: true})
	d.do(Hear{Said: said})
	harm := d.do(ReportBreach{Tag: "L1", What: "faint"})
	d.do(Hear{Said: harm})
	c := d.one(of)
	require.Len(t, c.Tests[0].Heard, 1)
	require.EqualValues(t, 7, c.Tests[0].Heard[0].RoundTripMS)
	require.False(t, c.Tests[0].DoorOK)
	require.Len(t, c.Said[0].Heard, 1)
	require.Len(t, c.Breaches[0].Heard, 1)

	d = &door{t: t, v: empty(t)}
	d.do(Hear{Said: d.do(Say{Room: "A1", Phrase: "wait", Out: true})})
}

// TestTimesCountAttemptsAndTakeMarksFromTheList notes two attempts and a time
// that the list marks as an aerosol event, and corrects one.
func TestTimesCountAttemptsAndTakeMarksFromTheList(t *testing.T) {
	d, of := opened(t)
	first := d.do(NoteTime{What: "attempt"})
	d.do(NoteTime{What: "attempt"})
	d.do(NoteTime{What: "attempt", Attempt: 7})
	d.do(NoteTime{What: "attempt"})
	var numbers []uint32
	for _, x := range d.one(of).Moments {
		numbers = append(numbers, x.Attempt)
		require.True(t, x.Aerosol)
	}
	require.Equal(t, []uint32{1, 2, 7, 8}, numbers)
	d.do(CorrectTime{Names: first, Happened: 90_000, WithinMS: 5_000})
	require.ErrorIs(t, d.refused(CorrectTime{Names: first}), ErrWhen)
	for _, x := range d.one(of).Moments {
		if x.Ref == first {
			require.EqualValues(t, 90_000, x.Happened)
			require.True(t, x.Late)
		}
	}
}

// TestSkipWithoutLinesLeavesOutWhatIsOpen ticks one line of the plan and leaves
// out the rest; with everything ticked there is nothing to leave out.
func TestSkipWithoutLinesLeavesOutWhatIsOpen(t *testing.T) {
	d, of := opened(t)
	d.do(TickLine{List: "plan", Line: "a", Done: true})
	d.do(Skip{List: "plan"})
	require.Len(t, d.one(of).Skipped, 3)
	for _, l := range d.v.Board.NotDone(d.one(of), "plan") {
		d.do(TickLine{List: "plan", Line: l.ID, Done: true})
	}
	require.ErrorIs(t, d.refused(Skip{List: "plan"}), ErrNothing)
	for _, x := range d.one(of).Skipped {
		require.True(t, x.Made)
	}
}

// TestALayoutIsAcceptedByANamedPersonAndNeverDuringACase accepts one, tries to
// during a case, without a name, with a place twice, with an unknown item.
func TestALayoutIsAcceptedByANamedPersonAndNeverDuringACase(t *testing.T) {
	d, of := opened(t)
	l := requests.Layout{Name: "winter", Accepted: "C1", Tiles: []requests.Tile{{Place: 1, Item: bougie}}}
	require.ErrorIs(t, d.refused(AcceptLayout{l}), ErrDuring)
	d.do(ShutCase{Case: of})
	d.do(AcceptLayout{l})
	l.Name = "spring"
	d.do(AcceptLayout{l})
	stands, known := d.v.Board.Layout()
	require.True(t, known)
	require.Equal(t, mesh.Label("spring"), stands.Name)
	require.False(t, stands.TwoValues)
	for _, c := range []struct {
		layout requests.Layout
		want   error
	}{
		{requests.Layout{Name: "x", Tiles: l.Tiles}, ErrNoTag},
		{requests.Layout{Name: "x", Accepted: "C1"}, ErrNothing},
		{requests.Layout{Name: "x", Accepted: "C1", Tiles: append(l.Tiles, l.Tiles...)}, ErrTile},
		{requests.Layout{Name: "x", Accepted: "C1", Tiles: []requests.Tile{{Place: 1, Item: 999_999}}}, ErrNoItem},
	} {
		require.ErrorIs(t, d.refused(AcceptLayout{c.layout}), c.want)
	}
}

// TestListsAndSettingsAreWrittenInPlaceOfWhatStands changes both twice.
func TestListsAndSettingsAreWrittenInPlaceOfWhatStands(t *testing.T) {
	d, _ := opened(t)
	for _, words := range []mesh.Text{"One", "Two"} {
		d.do(WriteLine{requests.ListLine{List: "brief", ID: "ours", Words: words, Place: 99}})
		d.do(WriteSetting{Name: "call-again", Value: "45"})
	}
	line, known := d.v.Board.ListLine("brief", "ours")
	require.True(t, known)
	require.Equal(t, mesh.Text("Two"), line.Words)
	require.False(t, line.TwoValues)
	require.EqualValues(t, 45, d.v.Board.Number("call-again"))
	require.Len(t, d.v.Board.SettingValues("call-again"), 1)
	d.do(WriteLine{requests.ListLine{List: "brief", ID: "ours", Gone: true}})
	require.ErrorIs(t, d.refused(TickLine{List: "brief", Line: "ours"}), ErrNoLine)
}

// TestAnotherDoorIsNamedBeforeItIsRecorded reads another door than the
// request's: the error says both; recorded all the same, it is flagged.
func TestAnotherDoorIsNamedBeforeItIsRecorded(t *testing.T) {
	d, ref := asked(t)
	d.readBack(ref)
	err := d.refused(PutAtDoor{Request: ref, Door: "A2"})
	require.ErrorIs(t, err, ErrWrongDoor)
	var wrong *WrongDoorError
	require.ErrorAs(t, err, &wrong)
	require.Equal(t, WrongDoorError{Read: "A2", For: "A1"}, *wrong)
	d.do(PutAtDoor{Request: ref, Door: "A2", Anyway: true})
	require.True(t, d.request(ref).Flags.Has(requests.FlagWrongDoor))
}

// TestWithdrawnAtTheDoorGoesBackToStock withdraws what lies at the door, and
// what is only in hand: once it is taken back nothing is missing anywhere.
func TestWithdrawnAtTheDoorGoesBackToStock(t *testing.T) {
	d, ref := asked(t)
	d.readBack(ref)
	d.do(Withdraw{Request: ref})
	require.Zero(t, d.at(kits.Door, "A1"), "what is in hand was not moved yet")
	require.ErrorIs(t, d.refused(TakeBack{Request: ref}), ErrNotAtDoor)

	d, ref = asked(t)
	d.readBack(ref)
	before := d.v.Ledger.Balances()
	d.do(PutAtDoor{Request: ref})
	d.do(Withdraw{Request: ref})
	require.EqualValues(t, 2, d.at(kits.Door, "A1"))
	d.do(TakeBack{Request: ref})
	require.Equal(t, before, d.v.Ledger.Balances())
	require.Empty(t, d.found())
}

// TestARescueSetCallsWhomTheUnitChose asks for a set with two persons chosen,
// one of whom the catalogue lacks: the set and one person are asked for.
func TestARescueSetCallsWhomTheUnitChose(t *testing.T) {
	d, of := opened(t)
	var rescue mesh.Number
	for _, b := range d.v.Ledger.Bundles() {
		if b.Rescue != "" {
			rescue = b.Number
		}
	}
	require.NotZero(t, rescue)
	set := requests.Thing{Item: rescue, Count: 1}
	d.do(Ask{Room: "A1", Thing: set, Urgency: requests.RightNow})
	require.Len(t, d.one(of).Requests, 1, "nobody was chosen")
	d.do(WriteSetting{Name: "rescue-calls", Value: mesh.Text(strings.Join([]string{"6002", "999999", "x"}, " "))})
	ref := d.do(Ask{Room: "A1", Thing: set, Urgency: requests.RightNow})
	all := d.one(of).Requests
	require.Len(t, all, 3)
	require.Equal(t, rescue, d.request(ref).Thing.Item)
	require.EqualValues(t, 6002, d.request(all[2]).Thing.Item)
	require.Equal(t, rescue, d.request(all[2]).Bundle)
}

package inside

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// inCase is a view with a case in A1, a lead inside on device zero and a runner
// outside on device one.
func inCase(t *testing.T) (f *folded, lead, runner mesh.By) {
	f = newFolded(t)
	lead, runner = mesh.By{Role: "lead", Tag: "L1"}, mesh.By{Role: "runner", Tag: "R1"}
	f.do(0, lead, station.Hold{Holds: requests.Holds{Role: "lead", Tag: "L1", Rooms: []mesh.ID{"A1"}}})
	f.do(1, runner, station.Hold{Holds: requests.Holds{Role: "runner", Tag: "R1"}})
	f.do(0, lead, station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation"}})
	return f, lead, runner
}

// Goal: phrases of both directions and breaches are shown newest first, each
// with who heard it, and only of this room. Method: say, hear, report.
func TestLookCopiesWhatWasSaid(t *testing.T) {
	f, lead, runner := inCase(t)
	shut := f.do(0, lead, station.Say{Room: "A1", Phrase: "door-shut", Out: true})
	f.do(1, runner, station.Hear{Said: shut})
	f.do(1, runner, station.Say{Room: "A1", Phrase: "bed-ready"})
	f.do(0, lead, station.ReportBreach{Tag: "D1", What: "glove"})

	s := Look(f.View)
	require.Len(t, s.Said, 3)
	glove, bed, door := s.Said[0], s.Said[1], s.Said[2]
	require.Equal(t, "Glove torn", glove.Words)
	require.True(t, glove.Breach && glove.Own && glove.Out)
	require.Equal(t, "D1", glove.By)
	require.Equal(t, "Bed ready", bed.Words)
	require.Equal(t, "R1", bed.By)
	require.False(t, bed.Out || bed.Own)
	require.Equal(t, []string{"R1"}, door.Heard)
	require.NotEmpty(t, s.Phrases)
	require.Len(t, s.Breaches, 7)
	require.Equal(t, []mesh.Tag{"L1"}, s.Tags, "nobody said who is inside: whoever has the device")
}

// Goal: who is inside, the front page of times with what was noted last, an
// exercise, the battery and what is only here are copied. Method: record each.
func TestLookCopiesTheCase(t *testing.T) {
	f, lead, _ := inCase(t)
	f.do(0, lead, station.GoIn{Tag: "D1", Checker: "O1"})
	f.do(0, lead, station.NoteTime{What: "pre-oxygenation"})
	noted := mesh.Wall(f.n) * 1000
	f.do(0, lead, station.StartDrill{Label: "arrest"})
	f.do(0, lead, station.Condition{Battery: 12})
	f.do(0, lead, station.WriteSetting{Name: "rescue-calls", Value: "6015 6028"})
	s := Look(f.View)
	require.Equal(t, []mesh.Tag{"D1", "L1"}, s.Tags)
	require.Len(t, s.Times, 12, "the front page")
	require.Equal(t, Time{Line: Line{"pre-oxygenation", "Pre-oxygenation"}, Clock: true, Last: noted}, s.Times[0])
	require.Zero(t, s.Times[1].Last)
	require.Equal(t, "arrest", s.Drill.Label)
	require.Equal(t, 12, s.Battery)
	require.True(t, s.lowBattery())
	require.False(t, s.Leaving)
	require.Equal(t, []mesh.Number{6015, 6028}, s.Callees)
	require.Equal(t, Limits{Undo: 5 * time.Second, More: 5 * time.Second, Wipe: time.Minute, MarkOne: 3 * time.Minute, MarkTwo: 5 * time.Minute, Battery: 20}, s.Limits)
	f.do(0, lead, station.EndDrill{})
	f.do(0, lead, station.ComeOut{Tag: "D1"})
	s = Look(f.View)
	require.Zero(t, s.Drill)
	require.True(t, s.Leaving)
}

// Goal: what is on no runner's device for longer than the unit allows is not
// reached; who goes for it longer than usual is late; what lies at the door is
// counted. Method: let the view's clock go on.
func TestLookSaysWhatIsLate(t *testing.T) {
	f, lead, runner := inCase(t)
	asked := f.do(0, lead, station.Ask{Room: "A1", Thing: requests.Thing{Item: 1108, Count: 2}, Urgency: requests.RightNow})
	at := mesh.Wall(f.n) * 1000
	look := func(after time.Duration) Request {
		f.View.Now.Wall = at + mesh.Wall(after.Milliseconds())
		all := Look(f.View).Requests
		require.Len(t, all, 1)
		return all[0]
	}
	require.False(t, look(1900*time.Millisecond).Unreached)
	require.True(t, look(2*time.Second).Unreached)
	f.do(1, runner, station.Go{Request: asked})
	at = mesh.Wall(f.n) * 1000
	require.False(t, look(30*time.Second).Late)
	require.False(t, look(30*time.Second).Unreached, "a person answered")
	late := look(61 * time.Second)
	require.True(t, late.Late)
	require.Equal(t, time.Minute, late.Usual)
	require.Equal(t, 61*time.Second, late.Took)
	f.do(1, runner, station.ReadBack{Request: asked, Thing: requests.Thing{Item: 1108, Count: 2}, How: requests.Chosen})
	f.do(1, runner, station.PutAtDoor{Request: asked})
	there := look(90 * time.Second)
	require.False(t, there.Late)
	require.Equal(t, requests.Count(2), there.AtDoor)
}

// Goal: this room is told when another door wants its only runner now. Method:
// two rooms ask now, with one runner for both.
func TestLookSaysWhenAnotherDoorWantsTheRunner(t *testing.T) {
	f, lead, runner := inCase(t)
	want := func(device byte, room mesh.ID) mesh.Ref {
		return f.do(device, lead, station.Ask{Room: room, Thing: requests.Thing{Item: 1108, Count: 1}, Urgency: requests.RightNow})
	}
	f.do(1, runner, station.Go{Request: want(0, "A1")})
	require.Empty(t, Look(f.View).Elsewhere)
	f.do(2, lead, station.Hold{Holds: requests.Holds{Role: "lead", Tag: "L2", Rooms: []mesh.ID{"A2"}}})
	f.do(1, runner, station.Go{Request: want(2, "A2")})
	require.Equal(t, []mesh.ID{"A2"}, Look(f.View).Elsewhere)
}

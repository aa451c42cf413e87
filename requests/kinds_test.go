package requests

import (
	"bufio"
	"encoding/hex"
	"flag"
	"fmt"
	"maps"
	"os"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

var update = flag.Bool("update", false, "write testdata/kinds.txt anew; only for kinds that are new")

const kindsFile = "testdata/kinds.txt"

// examples has one filled body of every kind of this package.
func examples() map[mesh.Kind]any {
	ref := mesh.MakeRef(mesh.Key{1}, mesh.Tap{2}, 3)
	out := marksExamples(ref)
	maps.Copy(out, laterExamples(ref))
	return out
}

func marksExamples(ref mesh.Ref) map[mesh.Kind]any {
	thing := Thing{Item: 117, Strength: "7.5", Count: 2, Measure: mesh.Each}
	return map[mesh.Kind]any{
		KindRoleLine: &RoleLine{Replaces: []mesh.Ref{ref}, ID: "runner", Name: "runner", Side: Outside, Can: CanFetch, Place: 4},
		KindRoomLine: &RoomLine{Replaces: []mesh.Ref{}, ID: "A1", Name: "Anvil 1",
			Zones: []Zone{{ID: "in", Name: "inside", Side: Inside}}, MilliAirChanges: 12_000, Gone: true},
		KindSetting:      &Setting{Replaces: []mesh.Ref{ref}, Name: "tone", Value: "soft"},
		KindHolds:        &Holds{Role: "lead", Tag: "L1", Rooms: []mesh.ID{"A1", "A2"}, Zone: "in"},
		KindAsked:        &Asked{ref, "A1", thing, RightNow, Out, AskedByVoice, 999_999, "L2"},
		KindChanged:      &Changed{ref, thing, NextOpening},
		KindAcknowledged: &Acknowledged{ref},
		KindCouldNot:     &CouldNot{ref, "none left"},
		KindPassedOn:     &PassedOn{ref, "R2", mesh.Key{4}},
		KindOffered:      &Offered{ref, []Thing{thing, thing, thing}},
		KindInHand:       &InHand{ref, thing, Scanned, "LOT 7"},
		KindAgreed:       &Agreed{ref, 3},
		KindRefused:      &Refused{ref, 1, "too long"},
		KindAtDoor:       &AtDoor{ref, "A1"},
		KindTakenIn:      &TakenIn{ref, 300},
		KindTakenBack:    &TakenBack{ref, "seal broken"},
		KindWithdrawn:    &Withdrawn{ref, "found one"},
		KindUndone:       &Undone{ref, "slip"},
		KindJoined:       &Joined{ref, ref.Sibling(1)},
		KindJoinedCode:   &JoinedCode{ref, "A1", "04218"},
		KindReminded:     &Reminded{ref, 2},
	}
}

func laterExamples(ref mesh.Ref) map[mesh.Kind]any {
	return map[mesh.Kind]any{
		KindLayout: &Layout{[]mesh.Ref{ref}, "board of May", []Tile{{1, 117}}, "L1"},
		KindListLine: &ListLine{Replaces: []mesh.Ref{ref}, List: "doffing", ID: "gloves", Words: "Gloves off.", Place: 3,
			Marks: 1, Source: "local policy"},
		KindCaseOpen:    &CaseOpen{"A1", "intubation", "case 12", ref, true},
		KindCaseShut:    &CaseShut{ref, "left"},
		KindCaseMoved:   &CaseMoved{ref, "theatre"},
		KindRoleTaken:   &RoleTaken{ref, "L1", "lead"},
		KindLineDone:    &LineDone{ref, "brief", "plan-a", true, "said"},
		KindPPECheck:    &PPECheck{ref, "L1", "B1", true, true, "visor"},
		KindSkipped:     &Skipped{ref, "brief", []mesh.ID{"plan-a", "plan-b"}},
		KindTestAsked:   &TestAsked{ref, "A1", -1, true, 4096, true, "A1"},
		KindTestHeard:   &TestHeard{ref, true, 28},
		KindCondition:   &Condition{-1, true, 300},
		KindSaid:        &Said{ref, "A1", "wait", true},
		KindSaidHeard:   &SaidHeard{ref},
		KindEntered:     &Entered{ref, "L1", "in", "B1"},
		KindLeft:        &Left{ref, "L1", "in", "B1"},
		KindBreach:      &Breach{ref, "L1", "glove", "left hand"},
		KindDoffStep:    &DoffStep{ref, "L1", "gloves", "B1", true},
		KindDoor:        &Door{"A1", true},
		KindTime:        &Time{ref, "tube", 2, true, "second blade"},
		KindChartClock:  &ChartClock{ref, 1_700_000_040_000, 30_000},
		KindLateTime:    &LateTime{ref, 1_700_000_000_000, 60_000},
		KindDebrief:     &Debrief{ref, true, "at once"},
		KindDebriefLine: &DebriefLine{ref, "went-well", "the loop"},
		KindDrill:       &Drill{ref, "A1", "drill 3"},
		KindInject:      &Inject{ref, "desaturation", "SpO2 falls"},
		KindThisIsReal:  &ThisIsReal{ref},
	}
}

// TestEveryKindRoundTripsAndHasItsRange encodes one filled body of every kind
// and reads it back.
func TestEveryKindRoundTripsAndHasItsRange(t *testing.T) {
	all := examples()
	require.Len(t, all, len(Kinds()))
	for kind, fresh := range Kinds() {
		require.EqualValues(t, 0x01, kind>>8)
		require.Equal(t, reflect.TypeOf(fresh()), reflect.TypeOf(all[kind]), "kind %#04x", uint16(kind))
		part, err := mesh.MakePart(kind, all[kind])
		require.NoError(t, err)
		got := fresh()
		require.NoError(t, mesh.Decode(part.Body, got))
		require.Equal(t, all[kind], got)
	}
}

// TestStoredKindsReadForEver decodes the bytes that the file keeps, one kind to
// a line, and compares them with the examples: a stored body never changes its
// meaning.
func TestStoredKindsReadForEver(t *testing.T) {
	if *update {
		writeKinds(t)
	}
	file, err := os.Open(kindsFile)
	require.NoError(t, err)
	defer file.Close()
	read := 0
	for lines := bufio.NewScanner(file); lines.Scan(); read++ {
		fields := strings.Fields(lines.Text())
		require.Len(t, fields, 3)
		number, err := strconv.ParseUint(fields[0], 0, 16)
		require.NoError(t, err)
		kind := mesh.Kind(number)
		bytes, err := hex.DecodeString(fields[2])
		require.NoError(t, err)
		fresh, known := Kinds()[kind]
		require.True(t, known, "kind %s was given away", fields[0])
		body := fresh()
		require.NoError(t, mesh.Decode(bytes, body), fields[1])
		require.Equal(t, examples()[kind], body)
		require.Equal(t, fields[1], reflect.TypeOf(body).Elem().Name())
	}
	require.Equal(t, len(Kinds()), read)
}

func writeKinds(t *testing.T) {
	var out strings.Builder
	all := examples()
	for _, kind := range slices.Sorted(maps.Keys(all)) {
		bytes, err := mesh.Encode(all[kind])
		require.NoError(t, err)
		fmt.Fprintf(&out, "%#04x %s %x\n", uint16(kind), reflect.TypeOf(all[kind]).Elem().Name(), bytes)
	}
	require.NoError(t, os.WriteFile(kindsFile, []byte(out.String()), 0o644))
}

// TestBodiesOutOfRangeAreRefused tries to encode one value out of range after another.
func TestBodiesOutOfRangeAreRefused(t *testing.T) {
	for name, body := range map[string]any{
		"no item":           &InHand{Thing: Thing{Count: 1, Measure: mesh.Each}, How: Chosen},
		"no measure":        &InHand{Thing: Thing{Item: 1, Count: 1}, How: Chosen},
		"a count of 0":      &InHand{Thing: Thing{Item: 1, Measure: mesh.Each}, How: Chosen},
		"no way of reading": &InHand{Thing: tube()},
		"no urgency":        &Changed{Thing: tube()},
		"no alternative":    &Offered{},
		"four alternatives": &Offered{Things: []Thing{tube(), tube(), tube(), tube()}},
		"alternative 4":     &Agreed{Which: 4},
		"refusing 4":        &Refused{Which: 4},
		"taking in -1":      &TakenIn{Count: -1},
		"no side":           &RoleLine{},
		"unknown ability":   &RoleLine{Side: Inside, Can: abilitiesAll + 1},
		"battery 101":       &Condition{Battery: 101},
		"battery -2":        &Condition{Battery: -2},
		"direction 2":       &Asked{Thing: tube(), Urgency: RightNow, Direction: Out + 1},
		"origin 4":          &Asked{Thing: tube(), Urgency: RightNow, Origin: FromPaperCard + 1},
	} {
		_, err := mesh.Encode(body)
		require.ErrorIs(t, err, mesh.ErrRange, name)
	}
}

package runner

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Goal: each state is said as what it is, with the act that comes next. Method:
// a table of every shown state and every level of the loop.
func TestEntriesSayTheirStateAndWhatComesNext(t *testing.T) {
	w := words.English()
	all := func(r *Request, acts ...requests.Act) { r.Acts = acts }
	for _, c := range []struct {
		name        string
		alter       func(*Request)
		state, note string
		primary     string
		tone        look.Tone
	}{
		{"now", func(r *Request) { r.Shown = requests.ShownAsked; all(r, requests.ActAcknowledge) }, "now", "now 0:42", "I am going", look.ToneNow},
		{"next", func(r *Request) { r.Shown, r.Urgency = requests.ShownAsked, requests.NextOpening }, "next opening", "next 0:42", "open", look.ToneNext},
		{"before", func(r *Request) { r.Shown, r.Urgency = requests.ShownAsked, requests.BeforeWeLeave }, "before we leave", "leaving", "open", look.ToneBefore},
		{"set", func(r *Request) { r.Shown, r.Rescue = requests.ShownAsked, true }, "now", "now 0:42", "open", look.ToneRescue},
		{"offered", func(r *Request) { r.Shown, r.Asked = requests.ShownAsked, true }, "offered", "offered", "open", look.ToneNow},
		{"mine", func(r *Request) {
			r.Shown, r.Mine, r.Going = requests.ShownAcknowledged, true, []string{"R1"}
			all(r, requests.ActAcknowledge, requests.ActReadBack)
		}, "R1 is going", "going 0:42", "read back", look.ToneNow},
		{"another's", func(r *Request) {
			r.Shown, r.Going = requests.ShownAcknowledged, []string{"R2", "R3"}
			all(r, requests.ActAcknowledge, requests.ActReadBack)
		}, "both: R2, R3", "both went", "I am going", look.ToneNow},
		{"no tag", func(r *Request) { r.Shown, r.Going = requests.ShownAcknowledged, []string{""} }, "acknowledged", "going 0:42", "open", look.ToneNow},
		{"differs", func(r *Request) {
			r.Shown, r.Loop = requests.ShownInHand, requests.LoopReadBack
			all(r, requests.ActPutAtDoor)
		}, "differs", "differs", "at the door", look.ToneNow},
		{"matches", func(r *Request) { r.Shown, r.Loop = requests.ShownInHand, requests.LoopMatches }, "matches", "matches", "open", look.ToneNow},
		{"closed", func(r *Request) { r.Shown, r.Loop = requests.ShownInHand, requests.LoopClosed }, "closed loop", "closed", "open", look.ToneNow},
		{"door", func(r *Request) { r.Shown = requests.ShownAtDoor; all(r, requests.ActTakeBack, requests.ActTakeInSeen) }, "at the door", "at door", "taken in, seen", look.ToneNow},
		{"could not", func(r *Request) { r.Shown = requests.ShownCouldNot }, "could not", "could not", "open", look.ToneNow},
		{"take back", func(r *Request) { r.Shown = requests.ShownTakeBack; all(r, requests.ActTakeBack) }, "withdrawn", "take back", "taken back", look.ToneFault},
		{"put back", func(r *Request) { r.Shown, r.Back = requests.ShownWithdrawn, true }, "withdrawn", "put back", "is put back", look.ToneFault},
	} {
		r := Request{Room: "A1", Urgency: requests.RightNow, Thing: Thing{Thing: requests.Thing{Count: 2}, Name: "Bougie"}}
		c.alter(&r)
		e := entry(w, Snapshot{Now: 42_000}, r)
		require.Equal(t, c.state, e.Card.State, c.name)
		require.Equal(t, c.note, e.Tile.Note, c.name)
		require.Equal(t, c.primary, e.Primary.Word, c.name)
		require.Equal(t, c.tone, e.Card.Tone, c.name)
		require.Empty(t, e.Card.Door, "it stands over all of a door's")
		require.Equal(t, "2 ×", e.Card.Count)
	}
	drilled := Request{Thing: Thing{Name: "Bougie"}, Kept: "store", Inject: "not in stock"}
	require.Equal(t, "drill: not in stock", entry(w, Snapshot{}, drilled).Card.Place)
}

// Goal: a mistyped number is met with the one digit, or the swap, that makes an
// item of it. Method: slips of a number, and one that is far from all.
func TestMistypedNumbersNameTheDigit(t *testing.T) {
	w, s := words.English(), calm(t)
	for digits, want := range map[string]string{
		"": "Type the number.", "11": "More digits are needed.", "1108": "Bougie 15\u00a0Fr", "3108": "1108 Bougie? Digit 1 differs.",
		"1180": "1108 Bougie? Digits 3, 4 swapped.", "9999": "No item has this number. Erase and read it again.",
	} {
		said, found := numberSaid(w, s.Items, digits)
		require.Equal(t, want, said, digits)
		require.Equal(t, digits == "1108", found == mesh.Number(1108), digits)
	}
}

// Goal: what stands over every page is said by its gravity: a failed disk, an
// exercise, a silence. Method: a table.
func TestTheLineNamesTheGravestFirst(t *testing.T) {
	room := []Room{{ID: "A1"}}
	drill := []Room{{ID: "A1", Drill: "drill 3"}, {ID: "A2"}}
	for _, c := range []struct {
		s        Snapshot
		h        stays
		sentence string
		tone     look.Tone
	}{
		{Snapshot{}, stays{}, "No doors yet.", look.TonePlain},
		{Snapshot{Rooms: room}, stays{}, "", look.TonePlain},
		{Snapshot{Rooms: room}, stays{silent: 105_000}, "silent 1:45", look.ToneNext},
		{Snapshot{Rooms: drill}, stays{silent: 105_000}, "drill A1 · silent 1:45", look.ToneDrill},
		{Snapshot{Rooms: drill, InMemory: true}, stays{}, "Not saved here. · drill A1", look.ToneFault},
	} {
		face := lineOf(words.English(), c.s, hand{stays: c.h})
		require.Equal(t, c.sentence, face.Sentence)
		require.Equal(t, c.tone, face.Tone)
	}
}

// Goal: a door's head says link, runner and what the next opening serves, with
// trouble first, as far as there is room. Method: a table of doors.
func TestHeadsSayWhatADoorHas(t *testing.T) {
	r1 := func(doing requests.Doing, at mesh.ID, next bool) []Runner {
		return []Runner{{Tag: "R1", Doing: doing, At: at, Next: next}}
	}
	for _, c := range []struct {
		r    Room
		want []string
	}{
		{Room{}, []string{"no link", "no runner"}},
		{Room{InReach: true, Runners: r1(requests.Here, "", false), Bag: make([]mesh.Ref, 4)}, []string{"R1 here", "opening serves 4"}},
		{Room{InReach: true, Runners: r1(requests.AtADoor, "A3", true)}, []string{"R1 at A3, next here"}},
		{Room{InReach: true, Runners: r1(requests.AtADoor, "A3", false)}, []string{"R1 at A3"}},
		{Room{InReach: true, Runners: r1(requests.AtADoor, "A1", false)}, []string{"R1 at this door"}},
		{Room{InReach: true, Runners: r1(requests.Fetching, "A2", false)}, []string{"R1 for A2"}},
		{Room{InReach: true, Runners: r1(requests.Fetching, "A2", true)}, []string{"R1 for A2, next here"}},
		{Room{InReach: true, Runners: r1(requests.Fetching, "A1", false)}, []string{"R1 fetching"}},
		{Room{InReach: true, Low: []Low{{Tag: "L1", Battery: 12}, {Name: "spare", Battery: 5, Charging: true}}},
			[]string{"no runner", "L1 at 12 %", "spare at 5 %, charging"}},
		{Room{InReach: true, Runners: r1(requests.Here, "", false), Failed: []Failed{{Tag: "L1", Sound: true, Door: true}, {Lock: true}}},
			[]string{"L1 not heard", "L1 wrong room", "a device screen locks", "R1 here"}},
		{Room{InReach: true, Runners: r1(requests.Here, "", false), Said: Said{Phrase: "Wait"}}, []string{"Wait: not heard yet", "R1 here"}},
		{Room{InReach: true, Runners: r1(requests.Here, "", false), Said: Said{Phrase: "Wait", Heard: []mesh.Tag{"L1"}}}, []string{"R1 here", "Wait: heard by L1"}},
	} {
		c.r.ID = "A1"
		d := doorRow(words.English(), Snapshot{}, c.r)
		require.Equal(t, c.want, d.Words)
		require.Equal(t, c.want[0], d.about(200, 1).Sentence[:len(c.want[0])])
	}
}

// Goal: requests stand under their door, the first of each in full, and none is
// lost between pages. Method: many requests at three doors, columns of several
// heights; every request and every head is there, in its column.
func TestColumnsHoldEveryRequestUnderItsDoor(t *testing.T) {
	var r Rows
	for d := range 3 {
		r.Doors = append(r.Doors, DoorRow{})
		for range d * 4 {
			r.Entries = append(r.Entries, Entry{Door: d})
		}
	}
	for _, high := range []float32{60, 75, 100, 125, 160, 400} {
		var got []int
		heads := map[int]bool{}
		for _, column := range columnsOf(r, high) {
			require.Negative(t, column[0].entry, "a column begins with a head")
			door := -1
			for _, p := range column {
				require.LessOrEqual(t, p.y+p.high, high+0.01)
				if p.entry < 0 {
					door, heads[p.door] = p.door, true
					continue
				}
				require.Equal(t, door, r.Entries[p.entry].Door)
				got = append(got, p.entry)
			}
		}
		require.Len(t, heads, 3)
		for i := range r.Entries {
			require.Equal(t, i, got[i])
		}
		require.Len(t, got, len(r.Entries))
	}
}

// Goal: what takes longer than usual says so, and two who went are both named.
// Method: both, on card, tile and page.
func TestLateAndBothAreSaid(t *testing.T) {
	w := words.English()
	r := Request{Shown: requests.ShownAcknowledged, Going: []string{"R1"}, Late: true, Usual: 100 * time.Second, Urgency: requests.RightNow}
	e := entry(w, Snapshot{Now: 130_000}, r)
	require.Equal(t, "usually 1:40", e.Card.State)
	require.Equal(t, "2:10", e.Card.Age)
	require.Equal(t, "going 2:10", e.Tile.Note)
	r.Late, r.Going = false, []string{"R1", "R2"}
	e = entry(w, Snapshot{Now: 130_000}, r)
	require.Equal(t, "both: R1, R2", e.Card.State)
	require.Equal(t, "both went", e.Tile.Note)
}

// Goal: a call that nobody answers is said with how far it went, and what comes
// out in words of that direction. Method: the levels; a request outwards.
func TestLevelsAndDirectionsAreSaid(t *testing.T) {
	w := words.English()
	r := Request{Shown: requests.ShownAsked, Urgency: requests.RightNow}
	for level, want := range map[uint8]string{requests.LevelFirst: "now", requests.LevelAgain: "now, again", requests.LevelEverybody: "now, to all"} {
		r.Level = level
		require.Equal(t, want, entry(w, Snapshot{}, r).Card.State)
	}
	out := Request{Shown: requests.ShownAtDoor, Out: true, Acts: []requests.Act{requests.ActTakeIn}}
	e := entry(w, Snapshot{}, out)
	require.Equal(t, "at the door: fetch it", e.Card.State)
	require.Equal(t, "taken out", e.Primary.Word)
	require.Equal(t, "comes out", e.Card.Detail)
}

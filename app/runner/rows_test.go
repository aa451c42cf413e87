package runner

import (
	"testing"

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
		{"now", func(r *Request) { r.Shown = requests.ShownAsked; all(r, requests.ActAcknowledge) }, "now", "now", "I am going", look.ToneNow},
		{"next", func(r *Request) { r.Shown, r.Urgency = requests.ShownAsked, requests.NextOpening }, "next opening", "next", "open", look.ToneNext},
		{"before", func(r *Request) { r.Shown, r.Urgency = requests.ShownAsked, requests.BeforeWeLeave }, "before we leave", "leaving", "open", look.ToneBefore},
		{"set", func(r *Request) { r.Shown, r.Rescue = requests.ShownAsked, true }, "now", "now", "open", look.ToneRescue},
		{"offered", func(r *Request) { r.Shown, r.Asked = requests.ShownAsked, true }, "offered", "offered", "open", look.ToneNow},
		{"mine", func(r *Request) {
			r.Shown, r.Mine, r.Going = requests.ShownAcknowledged, true, []string{"R1"}
			all(r, requests.ActAcknowledge, requests.ActReadBack)
		}, "R1 is going", "going", "read back", look.ToneNow},
		{"another's", func(r *Request) {
			r.Shown, r.Going = requests.ShownAcknowledged, []string{"R2", "R3"}
			all(r, requests.ActAcknowledge, requests.ActReadBack)
		}, "R2, R3 going", "going", "I am going", look.ToneNow},
		{"no tag", func(r *Request) { r.Shown, r.Going = requests.ShownAcknowledged, []string{""} }, "acknowledged", "going", "open", look.ToneNow},
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
		require.Equal(t, "A1", e.Card.Door)
		require.Equal(t, "2 ×", e.Card.Count)
	}
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

// Goal: the row over the list says which doors are in reach and what is open
// elsewhere. Method: a table.
func TestLinkNamesTheDoors(t *testing.T) {
	for _, c := range []struct {
		s              Snapshot
		sentence, hint string
		tone           look.Tone
	}{
		{Snapshot{InMemory: true}, "Not saved here.", "", look.ToneFault},
		{Snapshot{Elsewhere: 1}, "No doors yet.", "1 elsewhere", look.TonePlain},
		{Snapshot{Rooms: []Room{{ID: "A1"}}}, "A1 not in reach", "", look.ToneFault},
		{Snapshot{Rooms: []Room{{ID: "A1", InReach: true}, {ID: "A2"}}}, "no link A2", "", look.ToneNext},
		{Snapshot{Rooms: []Room{{ID: "A1", InReach: true}}, Elsewhere: 3}, "link A1", "3 elsewhere", look.TonePlain},
	} {
		face := link(words.English(), c.s)
		require.Equal(t, c.sentence, face.Sentence)
		require.Equal(t, c.hint, face.Hint)
		require.Equal(t, c.tone, face.Tone)
	}
}

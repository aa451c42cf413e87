package inside

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Goal: each state is said as what it is, and a request on its way never as
// further than there is evidence for. Method: a table of every shown state,
// every level of the loop and every reach.
func TestStatesAreSaidHonestly(t *testing.T) {
	base := Request{Urgency: requests.NextOpening, Own: true}
	cases := []struct {
		name  string
		alter func(*Request)
		state string
		short string
		icon  look.Icon
		strip look.Tone
	}{
		{"memory only", func(r *Request) { r.Shown = requests.ShownAsked }, "not saved here · 0 copies", "not saved", look.IconNotSaved, look.ToneFault},
		{"memory, one copy", func(r *Request) { r.Shown, r.Reach.Copies = requests.ShownAsked, 1 }, "not saved here · 1 copy", "not saved", look.IconNotSaved, look.ToneFault},
		{"memory, on the runner's device", func(r *Request) {
			r.Shown, r.Reach = requests.ShownAsked, words.Reach{Copies: 1, OnRunner: true}
		}, "not saved here · 1 copy", "not saved", look.IconNotSaved, look.ToneFault},
		{"saved", func(r *Request) { r.Shown, r.Reach.Saved = requests.ShownAsked, true }, "saved here", "saved here", look.IconSaved, look.ToneNext},
		{"copies", func(r *Request) { r.Shown, r.Reach = requests.ShownAsked, words.Reach{Saved: true, Copies: 2} }, "2 copies", "2 copies", look.IconCopies, look.ToneNext},
		{"nobody's device", func(r *Request) {
			r.Shown, r.Reach, r.Unreached = requests.ShownAsked, words.Reach{Saved: true, Copies: 1}, true
		}, "not reached: use voice", "use voice", look.IconLinkLost, look.ToneNext},
		{"nobody's device, not saved", func(r *Request) { r.Shown, r.Unreached = requests.ShownAsked, true }, "not saved here · 0 copies", "not saved", look.IconNotSaved, look.ToneFault},
		{"runner", func(r *Request) {
			r.Shown, r.Reach = requests.ShownAsked, words.Reach{Saved: true, Copies: 2, OnRunner: true}
		}, "on the runner's device", "runner's device", look.IconCopies, look.ToneNext},
		{"another's", func(r *Request) { r.Shown, r.Own = requests.ShownAsked, false }, "asked", "asked", look.IconNone, look.ToneNext},
		{"offered", func(r *Request) { r.Shown, r.Offer = requests.ShownAsked, make([]Thing, 1) }, "another is offered", "other offered", look.IconHand, look.ToneNext},
		{"going", func(r *Request) { r.Shown, r.Going = requests.ShownAcknowledged, []string{"R1"} }, "R1 is going", "R1 is going", look.IconRunner, look.ToneNext},
		{"two going", func(r *Request) { r.Shown, r.Going = requests.ShownAcknowledged, []string{"R1", "R2"} }, "R1, R2 are going", "R1, R2 are going", look.IconRunner, look.ToneNext},
		{"no tag", func(r *Request) { r.Shown, r.Going = requests.ShownAcknowledged, []string{""} }, "somebody without a tag is going", "somebody without a tag is going", look.IconRunner, look.ToneNext},
		{"differs", func(r *Request) { r.Shown, r.Loop = requests.ShownInHand, requests.LoopReadBack }, "read back, does not match", "differs", look.IconHand, look.ToneNext},
		{"matches", func(r *Request) { r.Shown, r.Loop = requests.ShownInHand, requests.LoopMatches }, "read back, matches", "matches", look.IconHand, look.ToneNext},
		{"closed", func(r *Request) { r.Shown, r.Loop = requests.ShownInHand, requests.LoopClosed }, "closed loop", "closed loop", look.IconLoop, look.ToneNext},
		{"agreed unlike", func(r *Request) { r.Shown, r.Loop, r.Unlike = requests.ShownInHand, requests.LoopClosed, true }, "agreed, differs from what was asked", "agreed, differs", look.IconHand, look.ToneNext},
		{"door", func(r *Request) { r.Shown = requests.ShownAtDoor }, "at the door", "at the door", look.IconDoor, look.ToneNext},
		{"in", func(r *Request) { r.Shown = requests.ShownTakenIn }, "taken in", "taken in", look.IconDoor, look.ToneNext},
		{"could not", func(r *Request) { r.Shown = requests.ShownCouldNot }, "could not be brought", "could not", look.IconUrgent, look.ToneNext},
		{"out, ready", func(r *Request) { r.Shown, r.Out = requests.ShownInHand, true }, "in hand", "in hand", look.IconHand, look.ToneNext},
		{"out", func(r *Request) { r.Shown, r.Out = requests.ShownTakenIn, true }, "taken out", "taken out", look.IconDoor, look.ToneNext},
		{"back", func(r *Request) { r.Shown = requests.ShownTakeBack }, "withdrawn, lies at the door", "withdrawn", look.IconWithdraw, look.ToneNext},
	}
	w := words.English()
	for _, c := range cases {
		r := base
		c.alter(&r)
		said, icon, tone := state(w, r)
		require.Equal(t, c.state, said, c.name)
		require.Equal(t, c.short, shortState(w, r), c.name)
		require.Equal(t, c.icon, icon, c.name)
		require.Equal(t, c.strip, tone, c.name)
	}
}

// Goal: who waits for somebody inside comes first, then what changed last.
// Method: four requests in a mixed order.
func TestStripShowsFirstWhatWaitsForSomebodyInside(t *testing.T) {
	s := calm(t)
	s.Requests = []Request{
		open(s, 4, 1108, 1, requests.ShownAsked), open(s, 1, 1029, 1, requests.ShownAcknowledged),
		open(s, 2, 1055, 1, requests.ShownAtDoor, requests.ActTakeIn), open(s, 3, 3046, 1, requests.ShownInHand, requests.ActAgree),
	}
	var items []mesh.Number
	for _, r := range s.ordered() {
		items = append(items, r.Thing.Item)
	}
	require.Equal(t, []mesh.Number{3046, 1055, 1029, 1108}, items)
	require.Equal(t, ref(3), s.next(ref(4)), "after the last comes the first")
	require.Equal(t, ref(3), s.next(ref(77)), "a request that is over leads to the first")
	require.True(t, Snapshot{}.next(ref(1)).IsZero())
}

// Goal: the link is said in words, only a device that answers is in reach, and
// where a runner is stands there as that runner's marks say. Method: a table.
func TestLinkIsSaidInWords(t *testing.T) {
	up := func(tag mesh.Tag, d requests.Doing, room mesh.ID, next bool) Runner {
		return Runner{Tag: tag, Health: mesh.Connected, Doing: d, Room: room, Next: next}
	}
	for _, c := range []struct {
		runners     []Runner
		long, short string
		tone        look.Tone
	}{
		{nil, "No runner in reach.", "no runner", look.ToneFault},
		{[]Runner{{Tag: "R1", Health: mesh.NotConnected}}, "No runner in reach.", "no runner", look.ToneFault},
		{[]Runner{{Tag: "R1", Health: mesh.Doubtful}}, "R1: link doubtful", "R1?", look.ToneNext},
		{[]Runner{{Tag: "R1", Health: mesh.Doubtful}, {Health: mesh.Connected}}, "runner in reach", "runner", look.TonePlain},
		{[]Runner{up("R1", requests.Here, "", false), up("R2", requests.Fetching, "A1", false)}, "R1 here; R2 fetching for you", "R1, R2", look.TonePlain},
		{[]Runner{up("R1", requests.AtADoor, "A3", true)}, "R1 at A3, you are next", "R1", look.TonePlain},
		{[]Runner{up("R1", requests.AtADoor, "A1", false)}, "R1 here", "R1", look.TonePlain},
		{[]Runner{up("R1", requests.Fetching, "A2", false)}, "R1 fetching for A2", "R1", look.TonePlain},
	} {
		long, short := link(words.English(), Snapshot{Room: "A1", Runners: c.runners})
		require.Equal(t, c.long, long.Sentence)
		require.Equal(t, c.short, short.Sentence)
		require.Equal(t, c.tone, long.Tone)
	}
}

// Goal: a number typed is said to be an item, unfinished, or none. Method: type
// each sort; a number that fits is the only one that can be asked for.
func TestTypedNumbersAreExplained(t *testing.T) {
	w, s := words.English(), calm(t)
	for digits, c := range map[string]struct {
		tell string
		item mesh.Number
	}{
		"": {"Type the number.", 0}, "11": {"More digits are needed.", 0},
		"1108": {"Bougie 15\u00a0Fr", 1108}, "1109": {"No item has this number. Erase and read it again.", 0},
	} {
		var l List
		l.typed(w, s, digits)
		require.Equal(t, c.tell, l.Tell.Sentence, digits)
		require.Equal(t, c.item, l.Found, digits)
		require.Equal(t, c.item == 0, l.Keys.DoneOff, digits)
	}
}

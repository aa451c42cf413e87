package words

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
	"lintel/requests"
)

// TestEverythingAboutARequestHasASentence goes through every value that people
// may see, and past the last one.
func TestEverythingAboutARequestHasASentence(t *testing.T) {
	w := English()
	for s := requests.ShownAsked; s <= requests.ShownTakeBack; s++ {
		require.True(t, w.Has("shown."+ShownID(s)), "shown %d", s)
	}
	for l := requests.LoopOpen; l <= requests.LoopClosed; l++ {
		require.True(t, w.Has("loop."+LoopID(l)), "loop %d", l)
	}
	for u := requests.BeforeWeLeave; u <= requests.RightNow; u++ {
		require.True(t, w.Has("urgency."+UrgencyID(u)), "urgency %d", u)
	}
	for o := requests.Tapped; o <= requests.FromPaperCard; o++ {
		require.True(t, w.Has("origin."+OriginID(o)), "origin %d", o)
	}
	for h := requests.Chosen; h <= requests.Spoken; h++ {
		require.True(t, w.Has("how."+HowID(h)), "how %d", h)
	}
	for way := mesh.WaySelf; way <= mesh.WayPaper; way++ {
		require.True(t, w.Has("way."+WayID(way)), "way %d", way)
	}
	acts := map[ID]bool{}
	for a := requests.ActChange; a <= requests.ActJoin; a++ {
		require.True(t, w.Has("act."+ActID(a)), "act %d", a)
		acts[ActID(a)] = true
	}
	require.Len(t, acts, int(requests.ActJoin), "two acts share a sentence")
	require.False(t, w.Has("act."+ActID(requests.ActJoin+1)))
	flags := (^requests.Flags(0)).Each()
	require.NotEmpty(t, flags)
	for _, f := range flags {
		require.True(t, w.Has("flag."+FlagID(f)), "flag %b", f)
		require.True(t, w.Has("hint.flag."+FlagID(f)), "flag %b", f)
	}
}

func going(tag mesh.Tag, still bool) requests.Going {
	return requests.Going{Mark: requests.Mark{By: mesh.By{Tag: tag}}, Still: still}
}

// TestReachIsNeverInferred gives every combination of what a device may know,
// and expects each statement exactly when its own evidence is there.
func TestReachIsNeverInferred(t *testing.T) {
	for n := range 1 << 4 {
		saved, copied, onRunner, acknowledged := n&1 != 0, n&2 != 0, n&4 != 0, n&8 != 0
		for loop := requests.LoopOpen; loop <= requests.LoopClosed; loop++ {
			reach := Reach{Saved: saved, OnRunner: onRunner}
			if copied {
				reach.Copies = 2
			}
			r := requests.Request{Loop: loop, Acknowledged: []requests.Going{going("R1", acknowledged)}}
			want := map[ID]bool{
				"saved": saved, "not-saved": !saved, "copies": copied, "runner": onRunner, "acknowledged": acknowledged,
				"matches": loop == requests.LoopMatches, "closed": loop == requests.LoopClosed,
			}
			got := map[ID]bool{}
			for _, id := range ReachIDs(r, reach) {
				got[id] = true
			}
			for id, holds := range want {
				require.Equal(t, holds, got[id], "%s of %+v, loop %d", id, reach, loop)
			}
		}
	}
}

// TestRequestsAreSaidInTheTradesWords words a request at several steps.
func TestRequestsAreSaidInTheTradesWords(t *testing.T) {
	w := English()
	r := requests.Request{Shown: requests.ShownAsked}
	require.Equal(t, "asked", w.Request(r))
	r.Shown = requests.ShownAcknowledged
	require.Equal(t, "acknowledged", w.Request(r), "nobody says to be still going")
	r.Acknowledged = []requests.Going{going("R1", true), going("R3", false), going("R1", true)}
	require.Equal(t, "R1 is going", w.Request(r))
	r.Acknowledged = append(r.Acknowledged, going("", true))
	require.Equal(t, "R1, somebody without a tag are going", w.Request(r))
	r.Shown, r.Loop = requests.ShownAtDoor, requests.LoopClosed
	require.Equal(t, "at the door · closed loop", w.Request(r))
	require.Equal(t, "not saved here · 1 copy · acknowledged · closed loop", w.Reached(r, Reach{Copies: 1}))
	require.Equal(t, "saved here · 3 copies · on the runner's device", w.Reached(requests.Request{}, Reach{Saved: true, Copies: 3, OnRunner: true}))
	sentence, hint := w.Flag(requests.FlagTakeBack)
	require.NotEmpty(t, sentence)
	require.Equal(t, "Take it back from the door.", hint)
}

// TestAFailedDiskIsSaidWhateverOthersHave words every combination of what is
// known, and expects this device's disk and the runner's device each by its own
// evidence.
func TestAFailedDiskIsSaidWhateverOthersHave(t *testing.T) {
	w := English()
	for _, c := range []struct {
		reach Reach
		id    Delivery
		said  string
	}{
		{Reach{}, NotSaved, "not saved here · 0 copies elsewhere"},
		{Reach{Copies: 2, OnRunner: true}, NotSaved, "not saved here · 2 copies elsewhere · on the runner's device"},
		{Reach{Saved: true}, Saved, "saved here only"},
		{Reach{Saved: true, Copies: 1}, Copies, "saved here · 1 copy elsewhere"},
		{Reach{Saved: true, Copies: 3, OnRunner: true}, OnRunner, "saved here · 3 copies elsewhere · on the runner's device"},
	} {
		require.Equal(t, c.id, c.reach.Delivery(), "%+v", c.reach)
		require.Equal(t, c.said, w.Delivered(c.reach))
	}
}

// TestWhatWasAgreedAndDiffersIsNotSaidToBeClosed words a loop closed over what
// was asked, and over something else.
func TestWhatWasAgreedAndDiffersIsNotSaidToBeClosed(t *testing.T) {
	w := English()
	held := requests.ReadBack{Live: true, Closed: true, Matches: true}
	r := requests.Request{Shown: requests.ShownInHand, Loop: requests.LoopClosed, InHand: []requests.ReadBack{held}}
	require.Equal(t, "in hand · closed loop", w.Request(r))
	r.InHand[0].Matches = false
	require.Equal(t, "in hand · agreed, differs from what was asked", w.Request(r))
	require.Equal(t, "not saved here · agreed, differs from what was asked", w.Reached(r, Reach{}))
	r.InHand[0].Live = false
	require.Equal(t, "in hand · closed loop", w.Request(r), "what is not in play any more says nothing")
}

package main

import (
	"errors"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// outside is the sight of a runner.
func outside() sight {
	return sight{Unit: true, Side: requests.Outside, Can: requests.CanFetch, Sounds: true, SoundKnown: true}
}

// TestTheBarSaysWhatMattersMost gives it several things at once: what hinders
// comes before who calls, and that before what to try; inside it may be empty.
func TestTheBarSaysWhatMattersMost(t *testing.T) {
	w := words.English()
	s := outside()
	said := func() string { return barRows(w, s, pageRequests, look.Dark).Say.Sentence }
	require.Empty(t, said())
	s.Hint = "try.wait"
	require.Equal(t, w.Say("try.wait"), said())
	s.Calls = make([]caller, 2)
	require.Equal(t, w.Say("try.wait"), said(), "between two flashes the demonstration says what to try")
	s.Flash = true
	require.Equal(t, "2 requests call", said())
	require.Equal(t, look.ToneNow, barRows(w, s, pageRequests, look.Dark).Say.Tone)
	s.Hint, s.Flash = "", false
	require.Equal(t, "2 requests call", said())
	s.Memory = true
	require.Equal(t, w.Say("window.memory"), said())
	s.Fault = errors.New("anything")
	require.Contains(t, said(), "Something failed")
	require.Empty(t, barRows(w, sight{Unit: true, Side: requests.Outside, Can: requests.CanCharge}, pageBrief, look.Dark).Say.Sentence)
}

// TestWhatCallsIsSaidOnEveryPage words each sort of call, on each page: with
// the door, and what it is. The list of requests says it itself, and a device
// inside is called by nobody.
func TestWhatCallsIsSaidOnEveryPage(t *testing.T) {
	w := words.English()
	s := outside()
	for want, c := range map[string]caller{
		"A1: 1 × Bougie":              {Room: "A1", Why: requests.CallNew, Item: "Bougie", Count: 1},
		"A1: still on it? 2 × Bougie": {Room: "A1", Why: requests.CallStill, Item: "Bougie", Count: 2},
		"A1: withdrawn: 1 × Bougie":   {Room: "A1", Why: requests.CallTakeBack, Item: "Bougie", Count: 1},
		"A1: Tube in":                 {Room: "A1", Why: requests.CallSaid, Said: "Tube in"},
		"A1: L1, Glove torn":          {Room: "A1", Why: requests.CallBreach, Said: "Glove torn", Tag: "L1"},
		"A1: comms test":              {Room: "A1", Why: requests.CallTest},
	} {
		s.Calls = []caller{c}
		for _, p := range outsideWays() {
			said := barRows(w, s, p, look.Dark).Called.Word
			if p == pageRequests {
				require.Empty(t, said)
				continue
			}
			require.Equal(t, want, said)
		}
		s.Calls = []caller{c, c, c}
		require.Contains(t, barRows(w, s, pageDoor, look.Dark).Called.Word, "2 more")
	}
	s.Side = requests.Inside
	require.Empty(t, barRows(w, s, pageBrief, look.Dark).Called.Word)
}

// TestTheBadgeTellsWhetherACallIsHeard gives every state of the sound.
func TestTheBadgeTellsWhetherACallIsHeard(t *testing.T) {
	w := words.English()
	require.Empty(t, sounding(w, sight{}).Word, "before it was tried nothing is said")
	require.Equal(t, look.ToneFault, sounding(w, sight{SoundKnown: true}).Tone)
	require.Equal(t, w.Say("window.sound-on"), sounding(w, sight{SoundKnown: true, SoundWorks: true}).Word)
}

// framed is a frame around empty pages, which notes what is opened.
type framed struct {
	*frame
	look   *look.Look
	window fyne.Size
	opened []page
}

// stand makes one.
func stand(t *testing.T, shade look.Shade, g glass) *framed {
	o := look.Defaults()
	o.Shade, o.Density, o.Reads = shade, g.density, look.RunnerLine
	l, err := look.New(o)
	require.NoError(t, err)
	f := &framed{look: l, window: fyne.NewSize(l.MM(g.width), l.MM(g.height))}
	f.frame = newFrame(l, words.English(), frameActs{
		leaf: func(page) *leaf {
			return &leaf{object: canvas.NewRectangle(nil), paint: func() {}, set: func(sight) bool { return true }}
		},
		opened: func(p page) { f.opened = append(f.opened, p) },
		shade:  func() {}, scale: func(look.Scale) {}, noise: func() {},
	})
	return f
}

// tap taps what begins with a name.
func (f *framed) tap(t *testing.T, name string) {
	t.Helper()
	require.True(t, proof.Tap(f.look, f.root, f.window, name), "nothing to tap says %q:\n%s", name, proof.Text(f.look, f.root, f.window))
}

// sightsOf are what a frame may have to say, by name.
func sightsOf() map[string]sight {
	charge := sight{Unit: true, Side: requests.Outside, Can: requests.CanCharge, Sounds: true, SoundKnown: true}
	called := charge
	called.Calls = []caller{{Room: "A1", Why: requests.CallNew, Item: "Tracheal tube", Count: 2, Urgency: requests.RightNow}, {}}
	gloved := sight{Unit: true, Side: requests.Inside, Can: requests.CanAgree, Rooms: []mesh.ID{"A1"}}
	all := map[string]sight{"calm": outside(), "charge": charge, "called": called, "new": {}, "inside": gloved}
	for _, id := range words.English().IDs() {
		if len(id) > 4 && id[:4] == "try." {
			s, in := outside(), gloved
			s.Hint, in.Hint = id, id
			all[string(id)], all["inside "+string(id)] = s, in
		}
	}
	return all
}

// TestTheFrameKeepsTheDesign audits the bar on every glass of the gallery, with
// everything it may say, on every page.
func TestTheFrameKeepsTheDesign(t *testing.T) {
	for _, g := range glasses() {
		for _, shade := range []look.Shade{look.Dark, look.Light} {
			f := stand(t, shade, g)
			for name, s := range sightsOf() {
				f.set(s)
				for _, p := range []page{pageFirst, pageBrief, pageDevice, pageChoice, pageMeasure} {
					if p == pageMeasure && g.width < measureWide || s.Hint != "" && p != pageFirst {
						continue
					}
					f.open(p)
					assert.Empty(t, proof.Audit(f.look, f.root, f.window), "%s, %s, page %d", g.name, name, p)
				}
			}
		}
	}
}

// TestEveryPageIsTwoTapsAway taps from every page to every other one, on each
// glass: by the ways in the bar where it is wide, else by way of all of them.
func TestEveryPageIsTwoTapsAway(t *testing.T) {
	w := words.English()
	for _, g := range glasses() {
		f := stand(t, look.Dark, g)
		f.set(outside())
		for _, from := range outsideWays() {
			for _, to := range outsideWays() {
				if from == to {
					continue
				}
				f.open(from)
				taps := 1
				if !proof.Tap(f.look, f.root, f.window, w.Say(to.word())) {
					f.tap(t, w.Say("window.pages"))
					f.tap(t, w.Say(to.word()))
					taps = 2
				}
				require.Equal(t, to, f.now())
				require.Equal(t, to, f.opened[len(f.opened)-1])
				if g.width >= allFrom {
					require.Equal(t, 1, taps, "%s: %d to %d", g.name, from, to)
				}
			}
		}
		t.Logf("%s: any page from any other in at most %d taps", g.name, map[bool]int{true: 1, false: 2}[g.width >= allFrom])
	}
}

// TestACallIsOneTapFromTheRequests taps it on each page.
func TestACallIsOneTapFromTheRequests(t *testing.T) {
	f := stand(t, look.Dark, glasses()[0])
	f.set(sightsOf()["called"])
	for _, p := range outsideWays()[1:] {
		f.open(p)
		f.tap(t, "A1: 2")
		require.Equal(t, pageRequests, f.now())
	}
}

// TestTheFirstPageFollowsFromTheRole goes through the roles that the program
// ships with; whoever takes the device over begins with theirs.
func TestTheFirstPageFollowsFromTheRole(t *testing.T) {
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	want := map[mesh.ID]page{
		"lead": pageBoard, "assistant": pageBoard, "scribe": pageTimes, "runner": pageRequests, "observer": pageDoor, "charge": pageStock,
	}
	f := stand(t, look.Dark, glasses()[0])
	for _, r := range starter.Roles.Roles {
		f.set(sight{Unit: true, Side: r.Side, Can: r.Can})
		require.Equal(t, want[r.ID], f.now(), r.ID)
		f.open(pageDebrief)
	}
	require.Equal(t, pageBrief, firstPage(requests.Outside, requests.CanLead))
	require.Equal(t, pageRequests, firstPage(requests.Outside, 0))
}

// TestADeviceThatNobodyHasShowsItsOwnPage walks from no unit to a role, and
// through the pages of the frame.
func TestADeviceThatNobodyHasShowsItsOwnPage(t *testing.T) {
	f := stand(t, look.Dark, glasses()[1])
	require.Equal(t, pageDevice, f.now())
	f.set(sight{Unit: true})
	require.Equal(t, pageDevice, f.now())
	f.set(outside())
	require.Equal(t, pageRequests, f.now())
	f.set(sight{Unit: true, Side: requests.Inside})
	require.Equal(t, pageBoard, f.now())
	f.turn()
	require.Equal(t, pageChoice, f.now())
	f.fail("a", "b")
	f.turn()
	require.Equal(t, pageBoard, f.now())
	require.Empty(t, f.failed[0], "the next page takes the failure away")
}

// TestTheBriefLeadsToTheBoardOfItsRoomOnly asks for the page on devices of
// several rooms and sides.
func TestTheBriefLeadsToTheBoardOfItsRoomOnly(t *testing.T) {
	require.Equal(t, pageBoard, sight{Side: requests.Inside, Rooms: []mesh.ID{"A1"}}.boardOf("A1"))
	require.Equal(t, pageRequests, sight{Side: requests.Inside, Rooms: []mesh.ID{"A1"}}.boardOf("A2"))
	require.Equal(t, pageRequests, sight{Side: requests.Inside}.boardOf("A1"), "such a board could ask for nothing")
	require.Equal(t, pageRequests, sight{Side: requests.Outside, Rooms: []mesh.ID{"A1"}}.boardOf("A1"))
}

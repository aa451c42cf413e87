package main

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/station"
	"lintel/app/words"
)

// task is something that people do, with the picture that it begins on.
type task struct {
	what    string
	picture string
	taps    []string // names, by what they begin with
	most    int      // taps
	acts    int      // that come of it; 0: it only leads somewhere
}

// tasks are what takes few taps by the design.
func tasks() []task {
	brief := []string{
		"A1", "Intubation", "Airway lead", "Airway assistant", "Runner", "PPE observer", "next", "all four said", "all said", "all pointed at",
		"Plans A to D said", "Voice link", "Paper card", "Kit checked", "Drugs drawn", "Doffing area", "First tray", "O1",
		"L1 Airway lead", "D1 Airway assistant", "who checks", "L1", "O1 PPE observer", "to the board",
	}
	return []task{
		{"inside: ask for a place of the front page", "inside-calm", []string{"2 Tube 7.5"}, 1, 1},
		{"inside: ask for a controlled drug of the front page, and how many", "inside-calm", []string{"10", "2"}, 2, 1},
		{"inside: ask for a line beyond the front page", "inside-calm", []string{"airway S–V", "Tube clamp"}, 2, 1},
		{"inside: call for a rescue set", "inside-calm", []string{"C"}, 1, 1},
		{"inside: close a loop", "inside-matches", []string{"answer", "agree"}, 2, 1},
		{"inside: say a phrase, which begins a case where none is open", "inside-calm", []string{"R1", "Tube in"}, 2, 2},
		{"inside: report a breach, from the board", "inside-calm", []string{"R1", "breach", "L1", "Glove torn"}, 4, 1},
		{"outside: go", "runner-asked", []string{"I am going"}, 1, 1},
		{"outside: read back what is in the hand (item and count are stated, never filled in)", "runner-read-back", []string{"read back", "7.5 # 1"}, 2, 1},
		{"outside: put it at the door, its number read there", "runner-wrong-door", []string{"at the door", "A1"}, 2, 1},
		{"outside: hear what was said inside", "runner-call-said", []string{"heard"}, 1, 1},
		{"outside: the whole brief of a case, for four people", "brief-rooms", brief, 25, 32},
		{"outside: a patient who cannot wait, from the rooms to the board", "brief-rooms", []string{"patient cannot wait"}, 1, 1},
		{"at the door: somebody goes in, checked by whom", "door-people", []string{"goes in", "R2", "inside PPE: O1"}, 3, 1},
		{"at the door: somebody comes out", "door-people", []string{"inside L1", "comes out"}, 2, 1},
		{"times: note one", "times-calm", []string{"– Cuff up"}, 1, 1},
		{"times: note one of two minutes ago", "times-calm", []string{"−2", "– Cuff up"}, 2, 1},
		{"afterwards: say that a debrief was held", "debrief-case", []string{"debrief", "yes"}, 2, 1},
	}
}

// Goal: what people do most takes the few taps of the design. Method: tap it on
// the screens themselves, over an invented case, as on a tablet; turning a page
// counts. The counts are printed as a table.
func TestTapsOfEverythingThatIsDoneOften(t *testing.T) {
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	var acts []station.Act
	g := gallery{words: words.English(), starter: starter, noted: func(a station.Act) { acts = append(acts, a) }}
	all := map[string]picture{}
	for _, p := range pictures(g.words) {
		all[p.name] = p
	}
	var table strings.Builder
	for _, x := range tasks() {
		l, o, window, err := g.make(all[x.picture], glasses()[1], look.Dark)
		require.NoError(t, err, x.what)
		acts = nil
		taps := 0
		for _, name := range x.taps {
			turned, there := g.tap(l, o, window, name)
			require.True(t, there, "%s: nothing says %q:\n%s", x.what, name, proof.Text(l, o, window))
			taps += 1 + turned
		}
		require.LessOrEqual(t, taps, x.most, x.what)
		require.Len(t, acts, x.acts, "%s: %v", x.what, acts)
		fmt.Fprintf(&table, "\n%3d  %s", taps, x.what)
	}
	t.Log("taps" + table.String())
}

package requests

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// stepMarks gives, for every step, its column in the tables and a body that
// names ref.
func stepMarks(names mesh.Ref) []struct {
	name string
	step Step
	kind mesh.Kind
	body any
} {
	return []struct {
		name string
		step Step
		kind mesh.Kind
		body any
	}{
		{"acknowledged", StepAcknowledged, KindAcknowledged, &Acknowledged{names}},
		{"in-hand", StepInHand, KindInHand, &InHand{Names: names, Thing: tube(), How: Chosen}},
		{"at-door", StepAtDoor, KindAtDoor, &AtDoor{Names: names}},
		{"taken-in", StepTakenIn, KindTakenIn, &TakenIn{Names: names, Count: 1}},
		{"taken-back", StepTakenBack, KindTakenBack, &TakenBack{Names: names}},
		{"could-not", StepCouldNot, KindCouldNot, &CouldNot{Names: names}},
		{"withdrawn", StepWithdrawn, KindWithdrawn, &Withdrawn{Names: names}},
	}
}

// expectedPairs says what a request shows after it was asked and the step of
// the row and then that of the column were recorded, each naming the mark that
// it should if that is there, and else the Asked; "!" says that the second is out
// of turn: it skips a step or names another sort of mark than expected.
const expectedPairs = `
             acknowledged   in-hand      at-door       taken-in      taken-back     could-not     withdrawn
acknowledged acknowledged   in-hand      at-door!      taken-in!     acknowledged!  could-not     withdrawn
in-hand      in-hand        in-hand      at-door       taken-in!     in-hand!       could-not     withdrawn
at-door      at-door        at-door!     at-door!      taken-in      acknowledged   at-door       take-back
taken-in     taken-in       taken-in!    taken-in!     taken-in!     taken-in!      taken-in      taken-in
taken-back   acknowledged   in-hand      at-door!      taken-in!     acknowledged!  could-not     withdrawn
could-not    acknowledged   in-hand!     at-door!      taken-in!     could-not!     could-not     withdrawn
withdrawn    withdrawn      withdrawn!   take-back!    taken-in!     withdrawn!     withdrawn     withdrawn
`

func shownName(s Shown) string {
	return [...]string{"", "asked", "acknowledged", "in-hand", "at-door", "taken-in", "could-not", "withdrawn", "undone", "take-back"}[s]
}

// TestEveryPairOfStepsCountsAndIsFlaggedAsExpected records every pair of steps
// by one runner and compares what is shown, and whether the second step is out
// of turn, with a table written by hand. Nothing is ever dropped.
func TestEveryPairOfStepsCountsAndIsFlaggedAsExpected(t *testing.T) {
	lines := strings.Split(strings.TrimSpace(expectedPairs), "\n")
	columns := strings.Fields(lines[0])
	pairs := 0
	for _, line := range lines[1:] {
		fields := strings.Fields(line)
		for i, want := range fields[1:] {
			t.Run(fields[0]+"/"+columns[i], func(t *testing.T) {
				r := recordPair(t, fields[0], columns[i])
				require.Len(t, r.Marks, 3)
				require.Equal(t, strings.TrimSuffix(want, "!"), shownName(r.Shown))
				require.Equal(t, strings.HasSuffix(want, "!"), r.Marks[2].OutOfTurn)
			})
			pairs++
		}
	}
	require.Equal(t, 49, pairs)
}

func recordPair(t *testing.T, first, then string) Request {
	s := newScene(t)
	asked := s.ask()
	marks := map[string]mesh.Ref{}
	for _, name := range []string{first, then} {
		names := asked
		switch {
		case name == "at-door" && marks["in-hand"] != mesh.Ref{}:
			names = marks["in-hand"]
		case strings.HasPrefix(name, "taken") && marks["at-door"] != mesh.Ref{}:
			names = marks["at-door"]
		}
		for _, m := range stepMarks(names) {
			if m.name == name {
				marks[name] = s.put(runner1, m.kind, m.body)
			}
		}
	}
	return s.request(asked)
}

// TestTableNamesEveryStep keeps the table of steps whole: every step has a row,
// and every step but the first is expected somewhere.
func TestTableNamesEveryStep(t *testing.T) {
	expected := map[Step]bool{}
	for s := StepNone; s <= StepWithdrawn; s++ {
		require.NotEmpty(t, follows[s], "step %d", s)
		for _, next := range follows[s] {
			expected[next] = true
		}
	}
	require.Len(t, expected, int(StepWithdrawn))
}

// TestButtonsFollowTheTable lists, for what is shown, what the runner, the lead
// inside and a scribe may do, and that the runner's and the lead's steps are
// those that the table of steps expects.
func TestButtonsFollowTheTable(t *testing.T) {
	runner := Standpoint{Can: CanFetch, Side: Outside, Here: true}
	inside := Standpoint{Can: CanAsk | CanAgree, Side: Inside, Here: true}
	tests := map[Shown]struct{ runner, inside []Act }{
		ShownAsked:        {[]Act{ActAcknowledge, ActCouldNot, ActOffer, ActJoin}, []Act{ActChange, ActWithdraw}},
		ShownAcknowledged: {[]Act{ActAcknowledge, ActCouldNot, ActPassOn, ActOffer, ActReadBack, ActJoin}, []Act{ActChange, ActWithdraw}},
		ShownInHand:       {[]Act{ActCouldNot, ActPassOn, ActOffer, ActReadBack, ActPutAtDoor}, []Act{ActChange, ActAgree, ActRefuse, ActWithdraw}},
		ShownAtDoor:       {[]Act{ActTakeInSeen, ActTakeBack}, []Act{ActAgree, ActRefuse, ActTakeIn, ActWithdraw}},
		ShownTakeBack:     {[]Act{ActTakeInSeen, ActTakeBack}, []Act{ActTakeIn}},
		ShownCouldNot:     {[]Act{ActAcknowledge, ActOffer}, nil},
		ShownTakenIn:      {nil, nil},
		ShownWithdrawn:    {nil, nil},
		ShownUndone:       {nil, nil},
	}
	for shown, want := range tests {
		r := Request{Room: "A1", Shown: shown}
		if shown >= ShownInHand && shown < ShownTakenIn {
			r.InHand = []ReadBack{{Live: true}}
		}
		if shown == ShownAtDoor || shown == ShownTakeBack {
			r.Deliveries = []Delivery{{Open: true}}
		}
		require.Equal(t, want.runner, Buttons(r, runner), "runner, %s", shownName(shown))
		require.Equal(t, want.inside, Buttons(r, inside), "inside, %s", shownName(shown))
		require.Empty(t, Buttons(r, Standpoint{Can: CanFetch, Side: Outside}), "of another room")
		require.Empty(t, Buttons(r, Standpoint{Can: CanScribe, Side: Outside, Here: true}))
		require.Subset(t, []Act{ActChange}, Buttons(r, Standpoint{Can: CanAsk, Side: Inside, Here: true}))
	}
}

// TestButtonsWriteOnlyStepsInTurn presses every button of a step on a real
// board, as far as it writes a step, and expects nothing out of turn.
func TestButtonsWriteOnlyStepsInTurn(t *testing.T) {
	step := map[Act]Step{
		ActAcknowledge: StepAcknowledged, ActCouldNot: StepCouldNot, ActReadBack: StepInHand, ActPutAtDoor: StepAtDoor,
		ActTakeIn: StepTakenIn, ActTakeInSeen: StepTakenIn, ActTakeBack: StepTakenBack, ActWithdraw: StepWithdrawn,
	}
	way := []Step{StepAsked, StepAcknowledged, StepInHand, StepAtDoor}
	for i, s := range way {
		r := Request{Shown: Shown(s), Deliveries: []Delivery{{Open: s == StepAtDoor}}}
		acts := append(Buttons(r, Standpoint{Can: CanFetch, Side: Outside, Here: true}),
			Buttons(r, Standpoint{Can: CanAsk | CanAgree, Side: Inside, Here: true})...)
		for _, act := range acts {
			if next, writes := step[act]; writes {
				require.True(t, inTurn(next, way[:i+1]), "step %d, act %d", s, act)
			}
		}
	}
}

// TestButtonsTurnRoundForWhatComesOut asks for a specimen to come out: inside
// gives, the runner gets.
func TestButtonsTurnRoundForWhatComesOut(t *testing.T) {
	runner := Standpoint{Can: CanFetch, Side: Outside, Here: true}
	inside := Standpoint{Can: CanAsk | CanAgree, Side: Inside, Here: true}
	r := Request{Direction: Out, Shown: ShownAtDoor, Deliveries: []Delivery{{Open: true}}}
	require.Equal(t, []Act{ActTakeIn}, Buttons(r, runner))
	require.Equal(t, []Act{ActTakeBack, ActWithdraw}, Buttons(r, inside))
	r = Request{Direction: Out, Shown: ShownAcknowledged}
	require.True(t, slices.Contains(Buttons(r, inside), ActReadBack))
	require.False(t, slices.Contains(Buttons(r, runner), ActReadBack))
}

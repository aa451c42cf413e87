package requests

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

func ringing(b *Board) (out []mesh.Ref) {
	for _, r := range b.Requests() {
		if b.Ringing(r) {
			out = append(out, r.Ref)
		}
	}
	return out
}

// TestServedByVoiceNeverRingsAgain cuts the room off: two of four requests are
// asked again by voice, served and joined, in either direction. Four deliveries
// count, and those served never ring nor stay open.
func TestServedByVoiceNeverRingsAgain(t *testing.T) {
	for _, voiceFirst := range []bool{true, false} {
		s := newScene(t)
		var tapped [4]mesh.Ref
		for i := range tapped {
			tapped[i] = s.ask()
		}
		require.Len(t, ringing(s.board()), 4)
		for _, late := range tapped[:2] {
			voice := s.askFor(runner1, tube(), AskedByVoice)
			s.served(runner1, voice)
			if voiceFirst {
				s.joined(voice, late)
			} else {
				s.joined(late, voice)
			}
		}
		b := s.board()
		require.Equal(t, tapped[2:], ringing(b))
		require.Len(t, b.Open(), 2, "what was served is not open any more")
		require.Len(t, b.Needs(), 4)
		require.Equal(t, 2, b.Delivered())

		for _, asked := range tapped[2:] {
			s.served(runner1, asked)
		}
		b = s.board()
		require.Empty(t, ringing(b))
		require.Equal(t, 4, b.Delivered())
	}
}

// TestJoiningHoldsThroughOthers joins a chain of requests, of which one is
// acknowledged, and then takes back the link in the middle.
func TestJoiningHoldsThroughOthers(t *testing.T) {
	s := newScene(t)
	a, b, c, d := s.ask(), s.ask(), s.ask(), s.ask()
	s.joined(a, b)
	middle := s.joined(c, b)
	s.joined(d, c)
	require.Equal(t, []mesh.Ref{a}, ringing(s.board()), "one of several joined requests rings")
	r, _ := s.board().Request(c)
	require.Equal(t, []mesh.Ref{a, b, d}, r.JoinedWith)

	s.going(runner1, d)
	require.Empty(t, ringing(s.board()))

	s.undo(runner1, middle)
	require.Equal(t, []mesh.Ref{a}, ringing(s.board()))
	require.Len(t, s.board().Needs(), 2)
}

// TestMostUrgentOfJoinedRings joins a calm request to an urgent one.
func TestMostUrgentOfJoinedRings(t *testing.T) {
	s := newScene(t)
	calm := s.ask()
	urgent := s.put(second, KindAsked, &Asked{Room: "A1", Thing: tube(), Urgency: RightNow})
	s.joined(calm, urgent)
	require.Equal(t, []mesh.Ref{urgent}, ringing(s.board()))
	s.put(lead, KindWithdrawn, &Withdrawn{Names: urgent})
	require.Equal(t, []mesh.Ref{calm}, ringing(s.board()))
	require.Equal(t, []mesh.Ref{calm, urgent}, s.board().Needs()[0].Requests)
}

// TestBothOfJoinedDeliveredIsOneDeliveryAndFlagged takes both in.
func TestBothOfJoinedDeliveredIsOneDeliveryAndFlagged(t *testing.T) {
	s := newScene(t)
	a, b := s.ask(), s.ask()
	s.served(runner1, a)
	s.served(runner2, b)
	s.joined(a, b)
	needs := s.board().Needs()
	require.Len(t, needs, 1)
	require.True(t, needs[0].Delivered && needs[0].Twice)
	require.Equal(t, 1, s.board().Delivered())
}

// TestJoinMayComeFirst joins what is not here yet, itself, and what never comes.
func TestJoinMayComeFirst(t *testing.T) {
	s := newScene(t)
	a, b := s.ask(), s.ask()
	s.joined(a, a)
	s.joined(a, mesh.MakeRef(lead.key, mesh.Tap{99}, 0))
	s.joined(b, a)
	board := s.board()
	require.Len(t, board.Needs(), 1)
	require.Len(t, board.UnmetJoins(), 1)

	early := NewBoard(starter())
	joins := s.facts[len(s.facts)-3:]
	for _, f := range joins {
		early.Add(f)
	}
	require.Len(t, early.UnmetJoins(), 3)
	require.Empty(t, early.Needs())
	for _, f := range s.facts {
		early.Add(f)
		early.Needs() // what was derived too early must not stay
	}
	require.Equal(t, board.State(), early.State())
}

// TestRingingStopsWithAnyAnswer lets a runner answer in each possible way.
func TestRingingStopsWithAnyAnswer(t *testing.T) {
	answers := map[string]func(*scene, mesh.Ref){
		"going":     func(s *scene, r mesh.Ref) { s.going(runner1, r) },
		"could not": func(s *scene, r mesh.Ref) { s.put(runner1, KindCouldNot, &CouldNot{Names: r}) },
		"in hand":   func(s *scene, r mesh.Ref) { s.inHand(runner1, r, tube()) },
		"withdrawn": func(s *scene, r mesh.Ref) { s.put(lead, KindWithdrawn, &Withdrawn{Names: r}) },
		"undone":    func(s *scene, r mesh.Ref) { s.undo(lead, r) },
		"offered": func(s *scene, r mesh.Ref) {
			s.put(runner1, KindOffered, &Offered{Names: r, Things: []Thing{things(2)}})
		},
	}
	for name, answer := range answers {
		s := newScene(t)
		asked := s.ask()
		require.Equal(t, []mesh.Ref{asked}, ringing(s.board()))
		answer(s, asked)
		require.Empty(t, ringing(s.board()), name)
	}
}

// TestTimesAreThoseOfTheNeed measures a tapped request whose voice request was
// served, with times entered later.
func TestTimesAreThoseOfTheNeed(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	voice := s.askFor(runner1, tube(), AskedByVoice)
	s.served(runner1, voice)
	s.joined(asked, voice)
	start := s.board().facts[asked].Wall
	times := s.board().Times(s.board().Needs()[0])
	require.Equal(t, start, times.Asked)
	acknowledge, ok := times.ToAcknowledge()
	require.True(t, ok)
	require.Equal(t, 2*time.Second, acknowledge)
	deliver, ok := times.ToDeliver()
	require.True(t, ok)
	require.Equal(t, 5*time.Second, deliver)

	s.going(runner2, asked)
	s.facts[len(s.facts)-1].By.Happened = start + 500
	times = s.board().Times(s.board().Needs()[0])
	acknowledge, _ = times.ToAcknowledge()
	require.Equal(t, 500*time.Millisecond, acknowledge, "as it happened, not as it was recorded")

	_, ok = Times{Asked: 1}.ToDeliver()
	require.False(t, ok)
	far, _ := Times{Asked: 1, Delivered: mesh.WallMax}.ToDeliver()
	require.Positive(t, far)
}

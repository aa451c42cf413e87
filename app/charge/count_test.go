package charge

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// tapsMost is how many taps a starter case of forty lines may take.
const tapsMost = 12

// first taps the first answer of the question that is asked.
func (s *scene) first() {
	s.t.Helper()
	require.NotNil(s.t, s.screen.view.Sheet)
	require.NotEmpty(s.t, s.screen.view.Sheet.Choices)
	s.find(s.screen.view.Sheet.Choices[0].Face.Word)
}

// Goal: a starter case of about forty lines closes in at most twelve taps from
// the first page, by two people; afterwards nothing is inside, and the
// controlled drug adds up. Method: count as it is proposed, on a desk and on a
// phone, counting every tap.
func TestAStarterCaseIsCountedInTwelveTaps(t *testing.T) {
	for _, glass := range []string{"desk", "phone"} {
		u := busy(t)
		s := newScene(t, glass, look.Dark, u)
		require.GreaterOrEqual(t, len(u.Ledger.Proposal("A1")), 40)
		s.page(Wanted{Page: PageReady, Room: "A1"}).taps = 0
		s.find("43 lines", "accept 33 lines")
		for s.screen.hand.step == stepEnds {
			s.first()
		}
		s.find("A1")
		t.Logf("%s: %d taps", glass, s.taps)
		require.LessOrEqual(t, s.taps, tapsMost, glass)
		require.Empty(t, u.Ledger.Proposal("A1"))
		require.Empty(t, u.Ledger.BalancesAt(inside))
		i, known := u.Ledger.Issue(u.issue)
		require.True(t, known)
		require.Zero(t, i.Residual)
		require.Equal(t, kits.IssueBalanced, i.State, "the second person saw it")
		for _, b := range u.Ledger.Balances() {
			require.False(t, b.Cell.Place.Sort == kits.Difference, "the count found what it said: %v", b)
		}
	}
}

// Goal: nobody is named as second person who was not tapped, and whoever has the
// device is not offered as one. Method: look at the question, and count without
// anybody: the controlled drug is then unwitnessed.
func TestNobodyIsNamedWhoWasNotTapped(t *testing.T) {
	u := busy(t)
	s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PageCount, Room: "A1"})
	s.find("accept")
	for s.screen.hand.step == stepEnds {
		s.first()
	}
	for _, c := range s.screen.view.Sheet.Choices {
		require.NotEqual(t, "C1", c.Face.Word)
	}
	s.find("nobody yet")
	for _, a := range s.acts {
		_, witness := a.(station.Witness)
		require.False(t, witness)
	}
	i, _ := u.Ledger.Issue(u.issue)
	require.Equal(t, kits.IssueUnwitnessed, i.State)

	s.page(Wanted{Page: PageIssue, Ref: u.issue}).find("countersign", "L1")
	i, _ = u.Ledger.Issue(u.issue)
	require.Equal(t, kits.IssueBalanced, i.State)
}

// Goal: an answer in parts gives every part its end and loses nothing; what was
// not found stays inside and on the list. Method: of one ampoule and half a
// millilitre, 0.3 mL are given, the rest is wasted, and the ampoule broke; a
// stylet is not found.
func TestPartsOfAnAnswerAddUp(t *testing.T) {
	u := busy(t)
	s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PageCount, Room: "A1"})
	before, _ := u.Ledger.Issue(u.issue)
	s.find("accept")
	for s.screen.hand.step == stepEnds {
		singly, _ := s.screen.snap.Count.questions()
		q := singly[s.screen.hand.count.at]
		switch {
		case q.item == fentanyl:
			s.find("in parts", "broken")
			s.keys("1")
			s.find("given")
			s.keys("3")
			s.find("wasted")
			s.keys("9")
		case q.item == 1093:
			s.find("not found")
		default:
			s.first()
		}
	}
	s.find("L1")
	i, _ := u.Ledger.Issue(u.issue)
	require.Zero(t, i.Residual)
	require.EqualValues(t, 100, i.Broken, "microgram of the ampoule")
	require.EqualValues(t, before.Given+15, i.Given)
	require.EqualValues(t, 10, i.Wasted)
	left := u.Ledger.BalancesAt(inside)
	require.Len(t, left, 1)
	require.Equal(t, mesh.Number(1093), left[0].Cell.Item)
	require.Len(t, u.Ledger.Proposal("A1"), 1)
}

// Goal: when nothing can be recorded, the answers stay and it is said. Method: a
// disk that is full at the last tap.
func TestAnswersStayWhenACountCannotBeRecorded(t *testing.T) {
	u := busy(t)
	s := newScene(t, "phone", look.Dark, u).page(Wanted{Page: PageCount, Room: "A1"})
	s.find("accept")
	for s.screen.hand.step == stepEnds {
		s.first()
	}
	s.err = errFull
	s.find("L1")
	require.Contains(t, s.Text(), "The disk is full.")
	require.True(t, s.screen.hand.count.complete(s.screen.snap.Count))
	s.err = nil
	s.find("L1")
	require.Empty(t, u.Ledger.BalancesAt(inside))
}

// Goal: what came out more often than it went in is put right by the count that
// follows, and a hand-over that was ended differently is settled by whoever
// counts, with no proposal. Method: one of each in an otherwise empty room.
func TestACountMendsWhatIsBelowZeroAndSettlesADispute(t *testing.T) {
	u := newUnit(t)
	of := u.do(station.OpenCase{Case: requests.CaseOpen{Room: "A1"}})
	door := kits.PutAtDoor(mainStore, "A1", []kits.Line{kits.Containers(bougie, 2)}, of, mesh.Ref{})
	lies := u.do(station.Move{Movements: []kits.Moved{door}})
	for _, n := range []int64{2, 1} {
		body := kits.TakenIn(lies, []int64{n})
		u.do(station.AcceptCount{Entry: kits.EndEntry{Ended: []kits.Ended{body}}})
	}
	u.do(station.EndItem{Case: of, Room: "A1", Thing: requests.Thing{Item: 1093, Count: 1}, End: kits.Used})
	s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PageCount, Room: "A1"})
	singly, rest := s.screen.snap.Count.questions()
	require.Len(t, singly, 2)
	require.Empty(t, rest)
	s.find("go on", "taken in", "noted", "other tag", "Airway lead", "L2")
	h, _ := u.Ledger.HandOver(lies)
	require.Equal(t, kits.HandOverEnded, h.State)
	require.Equal(t, []int64{2}, h.Taken)
	require.Zero(t, u.Ledger.Held(inside, 1093), "it was not there")
	require.EqualValues(t, 2, u.Ledger.Held(inside, bougie), "taken in, and counted next")
}

// Goal: what was recorded of a count is never recorded twice, and what somebody
// else records meanwhile is asked for again, the rest of the answers stay.
// Method: a bougie that comes in while the last question stands on the screen,
// then a disk that is full after the first act.
func TestNothingOfACountIsRecordedTwice(t *testing.T) {
	u := busy(t)
	s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PageCount, Room: "A1"})
	s.find("accept")
	for s.screen.hand.step == stepEnds {
		s.first()
	}
	one := []kits.Line{kits.Containers(bougie, 1)}
	u.do(station.Move{Movements: []kits.Moved{{From: mainStore, To: inside, Lines: one, Case: u.of}}})
	s.look()
	require.Contains(t, s.Text(), "recorded meanwhile")
	singly, _ := s.screen.snap.Count.questions()
	require.Len(t, s.screen.hand.count.answers, len(singly)-1, "only the bougie is asked again")
	s.find("go on")
	for s.screen.hand.step == stepEnds {
		s.first()
	}
	s.err, s.after = errFull, 1
	s.find("L1")
	require.Contains(t, s.Text(), "The disk is full.")
	s.err = nil
	for range 3 {
		if s.look(); len(u.Ledger.Proposal("A1")) == 0 {
			break
		}
		if s.screen.hand.step == stepNone && !s.Try("accept") {
			s.find("go on")
		}
		for s.screen.hand.step == stepEnds {
			s.first()
		}
		s.find("L1")
	}
	require.Empty(t, u.Ledger.BalancesAt(inside), "neither left nor below zero")
}

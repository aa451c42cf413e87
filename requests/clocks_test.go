package requests

import (
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

var (
	scribe1 = actor{mesh.Key{5}, "scribe", "S1"}
	scribe2 = actor{mesh.Key{6}, "scribe", "S2"}
)

// said writes something small, and returns its name.
func (s *timed) said(a actor) mesh.Ref {
	return s.put(a, KindSaid, &Said{Room: "A1", Phrase: "wait"})
}

// placed is where the common clock has what a fact says.
func placed(t testing.TB, b *Board, ref mesh.Ref) Placed {
	t.Helper()
	n := b.facts[ref]
	require.NotNil(t, n)
	return b.Clocks().Place(b.mark(n))
}

// Goal: offsets and their ± combine along the way to the common clock. Method:
// three devices, 90 s ahead, 30 s behind and right; the middle one was compared
// with both others, so it is the common one; the ± of a way is twice what each
// comparison was exact to, plus what may have drifted unsaid.
func TestClocksCombineAlongTheWay(t *testing.T) {
	s := newTimed(t)
	s.ahead[lead.key], s.ahead[runner1.key] = 90*time.Second, -30*time.Second
	s.at(5)
	s.compare(runner1, lead, 10*time.Millisecond, mesh.ClockFirst)
	s.compare(runner1, scribe1, 20*time.Millisecond, mesh.ClockFirst)
	ours, far, own := s.said(lead), s.said(scribe1), s.said(runner1)
	b := s.board()

	require.Equal(t, Placed{Wall: sceneStart - 25_000, Within: 270 * time.Millisecond, Known: true}, placed(t, b, ours))
	require.Equal(t, Placed{Wall: sceneStart - 25_000, Within: 290 * time.Millisecond, Known: true}, placed(t, b, far))
	require.Equal(t, Placed{Wall: sceneStart - 25_000, Known: true}, placed(t, b, own), "the common clock itself")
	took, within, known := b.Clocks().Between(b.mark(b.facts[ours]), b.mark(b.facts[far]))
	require.True(t, known)
	require.Zero(t, took)
	require.Equal(t, 560*time.Millisecond, within)
}

// Goal: of two ways the one with the least ± in sum is taken. Method: a direct
// comparison exact to 2 s, and a way round over two comparisons exact to 10 ms.
func TestClocksTakeTheLeastUncertainWay(t *testing.T) {
	s := newTimed(t)
	s.ahead[scribe1.key] = 7 * time.Second
	s.compare(lead, scribe1, 2*time.Second, mesh.ClockFirst)
	s.compare(lead, runner1, 10*time.Millisecond, mesh.ClockFirst)
	s.compare(scribe1, runner1, 10*time.Millisecond, mesh.ClockFirst)
	said := s.said(scribe1)
	p := placed(t, s.board(), said)
	require.Equal(t, 540*time.Millisecond, p.Within)
	require.Zero(t, s.truly(p, lead), "of three with two neighbours each, the smallest key is the common clock")
}

// Goal: a drifting clock is placed by the newest comparison before the mark, and
// before there was any by the first. Method: three comparisons of a clock that
// drifts half a second between them.
func TestClocksUseTheNewestComparisonBefore(t *testing.T) {
	s := newTimed(t)
	var said []mesh.Ref
	said = append(said, s.at(1).said(runner1))
	for i := range 3 {
		s.at(float64(10 * (i + 1)))
		s.ahead[runner1.key] = time.Duration(i) * 500 * time.Millisecond
		s.compare(lead, runner1, 10*time.Millisecond, mesh.ClockChanged)
		said = append(said, s.said(runner1))
	}
	b := s.board()
	for i, want := range []float64{1, 10, 20, 30} {
		require.Equal(t, seconds(want), s.truly(placed(t, b, said[i]), lead), "mark %d", i)
	}
}

// Goal: a clock that was set is another clock from then on, whoever noticed.
// Method: a runner's clock is set 90 s back in the middle; it says so itself, or
// only the two devices say so that compare with it; in both cases what it wrote
// before and after is where it truly was, also against a third device whose
// comparison with it is older.
func TestClocksRespectThatAClockWasSet(t *testing.T) {
	for name, write := range map[string]func(s *timed){
		"it says so": func(s *timed) {
			s.compare(runner1, lead, 10*time.Millisecond, mesh.ClockStepped)
			s.compare(runner1, scribe1, 10*time.Millisecond, mesh.ClockStepped)
		},
		"others say so": func(s *timed) {
			s.compare(lead, runner1, 10*time.Millisecond, mesh.ClockChanged)
			s.compare(scribe1, runner1, 10*time.Millisecond, mesh.ClockChanged)
		},
		"one of two says so": func(s *timed) {
			s.compare(lead, runner1, 10*time.Millisecond, mesh.ClockChanged)
		},
	} {
		s := newTimed(t)
		s.compare(lead, runner1, 10*time.Millisecond, mesh.ClockFirst)
		s.compare(scribe1, runner1, 10*time.Millisecond, mesh.ClockFirst)
		s.compare(lead, scribe1, 10*time.Millisecond, mesh.ClockFirst)
		before := s.at(100).said(runner1)
		s.at(200)
		s.ahead[runner1.key] = -90 * time.Second
		write(s)
		after := s.at(300).said(runner1)
		b := s.board()
		require.Equal(t, seconds(100), s.truly(placed(t, b, before), lead), name)
		require.Equal(t, seconds(300), s.truly(placed(t, b, after), lead), name)
		took, within, known := b.Clocks().Between(b.mark(b.facts[before]), b.mark(b.facts[after]))
		require.True(t, known, name)
		require.Equal(t, seconds(200), took, name)
		require.Positive(t, within, "%s: they are two clocks", name)
	}
}

// Goal: a device that says that its own clock was set is believed. Method: two
// devices; the other one's marks before and after are by one clock, exact.
func TestClocksBelieveWhoSaysThatItWasSet(t *testing.T) {
	s := newTimed(t)
	s.compare(runner1, lead, 10*time.Millisecond, mesh.ClockFirst)
	before := s.at(100).said(lead)
	s.ahead[runner1.key] = -90 * time.Second
	s.at(200).compare(runner1, lead, 10*time.Millisecond, mesh.ClockStepped)
	after := s.at(300).said(lead)
	b := s.board()
	took, within, known := b.Clocks().Between(b.mark(b.facts[before]), b.mark(b.facts[after]))
	require.True(t, known)
	require.Equal(t, seconds(200), took)
	require.Zero(t, within)
}

// Goal: the device that was set while nobody was in reach is the one that others
// find changed, though it says nothing of itself. Method: one device dials two
// others after its clock lost 90 s, and notes that both seem changed.
func TestClocksFindWhoWasSetByWhatOthersNotice(t *testing.T) {
	s := newTimed(t)
	for _, a := range []actor{lead, scribe1} {
		s.compare(runner1, a, 10*time.Millisecond, mesh.ClockFirst)
	}
	s.compare(lead, scribe1, 10*time.Millisecond, mesh.ClockFirst)
	before, beforeLead := s.at(100).said(runner1), s.said(lead)
	s.at(200)
	s.ahead[runner1.key] = -90 * time.Second
	for _, a := range []actor{lead, scribe1} {
		s.compare(runner1, a, 10*time.Millisecond, mesh.ClockChanged)
	}
	after, afterLead := s.at(300).said(runner1), s.said(lead)
	b := s.board()
	for ref, want := range map[mesh.Ref]float64{before: 100, beforeLead: 100, after: 300, afterLead: 300} {
		require.Equal(t, seconds(want), s.truly(placed(t, b, ref), lead))
	}
	_, within, _ := b.Clocks().Between(b.mark(b.facts[beforeLead]), b.mark(b.facts[afterLead]))
	require.Zero(t, within, "the lead's clock was never set")
}

// Goal: what is not known is said. Method: a device that was compared with no
// other, a board without any comparison, and two marks of one device.
func TestClocksSayWhatWasNeverCompared(t *testing.T) {
	s := newTimed(t)
	s.ahead[scribe1.key] = time.Hour
	one, two := s.at(5).said(scribe1), s.at(8).said(scribe1)
	b := s.board()
	require.Equal(t, Placed{Wall: sceneStart + 3_605_000, Within: WithinUnknown}, placed(t, b, one))
	s.compare(lead, runner1, 10*time.Millisecond, mesh.ClockFirst)
	alone := s.said(lead)
	b = s.board()
	wall, within := b.Clocks().Corrected(b.mark(b.facts[one]))
	require.Equal(t, sceneStart+3_605_000, wall)
	require.Equal(t, WithinUnknown, within)
	took, within, known := b.Clocks().Between(b.mark(b.facts[one]), b.mark(b.facts[two]))
	require.True(t, known, "one clock needs no other")
	require.Equal(t, seconds(3), took)
	require.Zero(t, within)
	_, _, known = b.Clocks().Between(b.mark(b.facts[one]), b.mark(b.facts[alone]))
	require.False(t, known)
}

// Goal: a correction is read off the clock of whoever corrected. Method: a scribe
// whose clock is 90 s ahead notes a time; another, whose clock is right, says
// that it happened a minute earlier, give or take 5 s.
func TestClocksPlaceACorrectionByWhoCorrected(t *testing.T) {
	s := newTimed(t)
	s.ahead[scribe1.key] = 90 * time.Second
	s.compare(scribe1, scribe2, 10*time.Millisecond, mesh.ClockFirst)
	of := s.open("A1")
	noted := s.at(100).put(scribe1, KindTime, &Time{Case: of, What: "induction"})
	s.put(scribe2, KindLateTime, &LateTime{Names: noted, Happened: sceneStart + 40_000, WithinMS: 5_000})
	p := placed(t, s.board(), noted)
	require.Equal(t, seconds(40), s.truly(p, scribe1), "the smallest of two keys is the common clock")
	require.Equal(t, 5*time.Second+270*time.Millisecond, p.Within)
	require.True(t, p.Late)
}

// Goal: papers can carry the patient monitor's time. Method: the monitor is 7
// minutes behind; one device ties it at a full minute ± 1 s; what the same
// device notes later is exact to the tie, what another notes to the clocks too. After that somebody
// sets the monitor, and it is tied again: that tie holds from then on.
func TestMonitorTimeIsThatOfTheTie(t *testing.T) {
	s := newTimed(t)
	s.ahead[scribe1.key] = 90 * time.Second
	s.compare(lead, scribe1, 10*time.Millisecond, mesh.ClockFirst)
	of := s.open("A1")
	s.at(60).put(scribe1, KindChartClock, &ChartClock{Case: of, Monitor: sceneStart + 60_000 - 420_000, WithinMS: 1000})
	same := s.at(90).put(scribe1, KindTime, &Time{Case: of, What: "induction"})
	other := s.at(95).put(lead, KindTime, &Time{Case: of, What: "cuff-up"})
	s.at(100).put(lead, KindTime, &Time{Case: of, What: "first-ventilation"})
	s.at(120).put(scribe1, KindChartClock, &ChartClock{Case: of, Monitor: sceneStart + 120_000 - 60_000, WithinMS: 1000})
	b := s.board()
	charts := s.ofCase(of).Charts
	p, known := b.Clocks().Monitor(charts, b.mark(b.facts[same]))
	require.True(t, known)
	require.Equal(t, Placed{Wall: sceneStart + 90_000 - 420_000, Within: time.Second, Known: true}, p)
	p, known = b.Clocks().Monitor(charts, b.mark(b.facts[other]))
	require.True(t, known)
	require.Equal(t, sceneStart+95_000-420_000, p.Wall)
	require.Equal(t, time.Second+270*time.Millisecond, p.Within)
	s.at(130).put(scribe1, KindTime, &Time{Case: of, What: "extubated"})
	b = s.board()
	p, known = b.Clocks().Monitor(charts, b.mark(b.facts[s.facts[len(s.facts)-1].Ref]))
	require.True(t, known)
	require.Equal(t, sceneStart+130_000-60_000, p.Wall)
	_, known = b.Clocks().Monitor(nil, b.mark(b.facts[same]))
	require.False(t, known)
}

// Goal: no comparison brings a board down, and none that says nothing counts.
// Method: unreadable bodies, a device compared with itself, offsets and ± beyond
// any clock.
func TestClocksIgnoreWhatNoClockCanShow(t *testing.T) {
	s := newTimed(t)
	s.putRaw(s.turn+1, lead, mesh.KindClock, []byte{0x93, 0x01})
	for _, c := range []mesh.Clock{
		{Peer: lead.key, OffsetMS: 5, Cause: mesh.ClockFirst},
		{Peer: runner1.key, OffsetMS: -1 << 63, Cause: mesh.ClockFirst},
		{Peer: runner1.key, OffsetMS: 1<<63 - 1, Cause: mesh.ClockStepped},
	} {
		s.put(lead, mesh.KindClock, &c)
	}
	said := s.said(runner1)
	b := s.board()
	require.False(t, placed(t, b, said).Known)
	s.put(lead, mesh.KindClock, &mesh.Clock{Peer: runner1.key, OffsetMS: int64(mesh.WallMax), WithinMS: 1<<32 - 1, Cause: mesh.ClockFirst})
	b = s.board()
	require.True(t, placed(t, b, said).Known)
	require.Positive(t, placed(t, b, said).Wall)
}

// Goal: the common clock follows from the set of comparisons, not from how they
// arrived. Method: random comparisons of six devices, steps among them, folded
// in order, shuffled with repeats, and asked in between; every mark is placed
// alike.
func TestClocksIgnoreOrderAndRepeats(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 3))
	actors := []actor{lead, second, runner1, runner2, scribe1, scribe2}
	for range 30 {
		s := newTimed(t)
		var marks []mesh.Ref
		for range 40 {
			a, z := actors[random.IntN(len(actors))], actors[random.IntN(len(actors))]
			switch random.IntN(6) {
			case 0:
				s.ahead[a.key] = time.Duration(random.Int64N(200)-100) * time.Second
			case 1, 2:
				marks = append(marks, s.at(s.now.Seconds()+5).said(a))
			default:
				s.compare(a, z, time.Duration(random.IntN(50))*time.Millisecond, mesh.ClockCause(1+random.IntN(3)))
			}
		}
		s.stamp()
		want := placedAll(t, fold(s.facts), marks)
		mixed := slices.Concat(s.facts, s.facts[len(s.facts)/2:])
		random.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
		b := NewBoard(starter())
		for _, f := range mixed {
			b.Add(f)
			if random.IntN(10) == 0 {
				b.Clocks()
			}
		}
		require.Equal(t, want, placedAll(t, b, marks), "seed %d", seed)
	}
}

func placedAll(t testing.TB, b *Board, marks []mesh.Ref) (out []Placed) {
	for _, ref := range marks {
		out = append(out, placed(t, b, ref))
	}
	return out
}

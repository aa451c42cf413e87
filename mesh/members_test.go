package mesh

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// written is one membership part as it stands in the log.
type written struct {
	by   Key
	seq  Seq
	turn Turn
	hash Hash
	n    int // the part's number in its entry
	part Part
}

func keyOf(n byte) (k Key) { k[0] = n; return k }

func part(t *testing.T, k Kind, body any) Part {
	t.Helper()
	p, err := MakePart(k, body)
	require.NoError(t, err)
	return p
}

// foundedAs is the hash of the entry that founds the group of these tests.
var foundedAs = Hash{0xf0}

// membersOf folds parts in the given order.
func membersOf(t *testing.T, all []written) *Members {
	t.Helper()
	m := &Members{group: GroupID(foundedAs), later: func(a, b Order) bool { return a.Feed == b.Feed && a.Seq < b.Seq }}
	for _, w := range all {
		feed := MakeFeed(w.by, Incarnation{1})
		at := Order{Turn: w.turn, Feed: feed, Seq: w.seq, Hash: w.hash}
		_, err := m.add(feed, at, MakeRef(w.by, Tap{byte(w.seq)}, w.n), w.part)
		require.NoError(t, err)
		m.compute(func(Key) bool { return false })
	}
	return m
}

// standings is who is what, for comparing.
func standings(m *Members) map[byte]Status {
	out := map[byte]Status{}
	for _, d := range m.Devices() {
		out[d.Key[0]] = d.Status
	}
	return out
}

// unit is a group of keys 1 … n, each let in by the one before.
func unit(t *testing.T, n byte) []written {
	all := []written{{by: keyOf(1), seq: 1, turn: 1, hash: foundedAs, part: part(t, KindFounded, &Founded{Founder: keyOf(1)})}}
	for i := byte(2); i <= n; i++ {
		all = append(all, written{by: keyOf(i - 1), seq: 2, turn: Turn(i), part: part(t, KindAdmitted, &Admitted{Key: keyOf(i)})})
	}
	return all
}

func removed(t *testing.T, by, whom byte, seq Seq, cut Seq) written {
	return written{by: keyOf(by), seq: seq, turn: 100, part: part(t, KindRemoved, &Removed{
		Key: keyOf(whom), Cuts: []Cut{{Incarnation: Incarnation{1}, Seq: cut}},
	})}
}

// Goal: who belongs to the group depends on what was written, not on when it
// came. Method: random admissions and removals in random orders; seeds printed.
func TestMembershipIgnoresOrder(t *testing.T) {
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 1))
		all := unit(t, 6)
		for range 2 + r.IntN(8) {
			a, b := byte(1+r.IntN(6)), byte(1+r.IntN(6))
			if r.IntN(3) == 0 {
				all = append(all, written{by: keyOf(a), seq: Seq(3 + r.IntN(5)), turn: Turn(50 + r.IntN(50)), part: part(t, KindAdmitted, &Admitted{Key: keyOf(byte(7 + r.IntN(3)))})})
			} else {
				all = append(all, removed(t, a, b, Seq(3+r.IntN(5)), Seq(r.IntN(6))))
			}
		}
		want := membersOf(t, all).Devices()
		for range 10 {
			r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
			require.Equal(t, want, membersOf(t, all).Devices(), "seed %d", seed)
		}
	}
}

// Goal: one voice removes nobody, two do, and in a group that never had more
// than two one is enough. Method: each case.
func TestTwoVoicesRemove(t *testing.T) {
	one := membersOf(t, append(unit(t, 3), removed(t, 1, 3, 3, 1)))
	require.Equal(t, Member, one.Status(keyOf(3)))
	twice := membersOf(t, append(unit(t, 3), removed(t, 1, 3, 3, 1), removed(t, 1, 3, 4, 1)))
	require.Equal(t, Member, twice.Status(keyOf(3)), "the same voice twice is one voice")
	two := membersOf(t, append(unit(t, 3), removed(t, 1, 3, 3, 1), removed(t, 2, 3, 3, 1)))
	require.Equal(t, RemovedOut, two.Status(keyOf(3)))
	pair := membersOf(t, append(unit(t, 2), removed(t, 1, 2, 3, 1)))
	require.Equal(t, RemovedOut, pair.Status(keyOf(2)))
	require.Equal(t, Stranger, pair.Status(keyOf(9)))
}

// Goal: removals that remove each other both take effect. Method: 1 and 2
// remove 3, 3 and 4 remove 1, without knowing of each other.
func TestRemovalsThatRemoveEachOtherBothHold(t *testing.T) {
	m := membersOf(t, append(unit(t, 5),
		removed(t, 1, 3, 9, 5), removed(t, 2, 3, 9, 5), removed(t, 3, 1, 9, 5), removed(t, 4, 1, 9, 5)))
	require.Equal(t, map[byte]Status{1: RemovedOut, 2: Member, 3: RemovedOut, 4: Member, 5: Member}, standings(m))
}

// Goal: the higher cut wins and what it does not name is cut at 0. Method: two
// removals with different cuts; look at sequences around them.
func TestTheHigherCutWins(t *testing.T) {
	m := membersOf(t, append(unit(t, 3), removed(t, 1, 3, 3, 4), removed(t, 2, 3, 3, 7)))
	feed := MakeFeed(keyOf(3), Incarnation{1})
	require.True(t, m.counts(feed, 7))
	require.False(t, m.counts(feed, 8))
	require.False(t, m.counts(MakeFeed(keyOf(3), Incarnation{2}), 1))
}

// Goal: whoever was let in above a cut does not count. Method: 2 is cut at 1,
// and let 3 in with its sequence 2.
func TestAnAdmissionAboveTheCutDoesNotReach(t *testing.T) {
	all := append(unit(t, 3),
		written{by: keyOf(1), seq: 4, turn: 90, part: part(t, KindAdmitted, &Admitted{Key: keyOf(4)})},
		removed(t, 1, 2, 5, 1), removed(t, 4, 2, 5, 1))
	m := membersOf(t, all)
	require.Equal(t, map[byte]Status{1: Member, 2: RemovedOut, 3: Unreached, 4: Member}, standings(m))
	require.False(t, m.counts(MakeFeed(keyOf(3), Incarnation{1}), 1))
}

// Goal: a removed key never returns. Method: admit it again after its removal.
func TestARemovedKeyNeverReturns(t *testing.T) {
	m := membersOf(t, append(unit(t, 3), removed(t, 1, 3, 3, 1), removed(t, 2, 3, 3, 1),
		written{by: keyOf(1), seq: 6, turn: 200, part: part(t, KindAdmitted, &Admitted{Key: keyOf(3)})}))
	require.Equal(t, RemovedOut, m.Status(keyOf(3)))
}

// Goal: nobody becomes the founder afterwards. Method: 2 writes, first in a
// feed of its own, that it founded the group; in both orders of arrival.
func TestOnlyTheFoundingEntryFounds(t *testing.T) {
	claim := written{by: keyOf(2), seq: 1, turn: 1, hash: Hash{1}, part: part(t, KindFounded, &Founded{Founder: keyOf(2), Unit: "mine"})}
	for _, all := range [][]written{append(unit(t, 3), claim), append([]written{claim}, unit(t, 3)...)} {
		m := membersOf(t, all)
		require.Equal(t, keyOf(1), m.founder)
		require.Equal(t, map[byte]Status{1: Member, 2: Member, 3: Member}, standings(m))
	}
}

// Goal: names, too, ignore order, also where a broken device writes one name
// for several things. Method: one entry that admits a device several times,
// and one tap written twice with two names, in random orders; seeds printed.
func TestNamesIgnoreOrder(t *testing.T) {
	for seed := range uint64(100) {
		r := rand.New(rand.NewPCG(seed, 2))
		all := unit(t, 3)
		for n := range PartsMax {
			for _, whom := range []byte{7, 8, 9} {
				all = append(all, written{by: keyOf(2), seq: 5, turn: 60, n: n, part: part(t, KindAdmitted, &Admitted{Key: keyOf(whom), Name: Label(rune('a' + n))})})
			}
		}
		for n := range byte(3) {
			all = append(all, written{by: keyOf(2), seq: Seq(6 + n), turn: Turn(70 + n), hash: Hash{n}, part: part(t, KindDeviceLine, &DeviceLine{Key: keyOf(3), Name: Label(rune('a' + n))})})
		}
		for i := range all[len(all)-3:] {
			all[len(all)-3+i].seq = 6 // one tap on three branches of a fork
		}
		want := membersOf(t, all).Devices()
		for range 10 {
			r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
			require.Equal(t, want, membersOf(t, all).Devices(), "seed %d", seed)
		}
	}
}

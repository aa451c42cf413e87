package integration

import (
	"fmt"
	"io"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// joinLateMax is how late a device is killed that joins.
const joinLateMax = 40 * time.Millisecond

// joinersMax is how many devices try it.
const joinersMax = 8

// Goal: kill -9 of either side at any moment of joining leaves nothing halfway:
// both start again, the newcomer is in the unit or can be invited again, and what
// it recorded alone before is in the unit in the end. Method: newcomers ask
// something alone and join; at a moment drawn from a seed they or the inviter
// are killed.
func TestAKilledJoiningIsFinishedOrTriedAgain(t *testing.T) {
	t.Parallel()
	seed := fromEnv(t, "LINTEL_KILL_SEED", uint64(time.Now().UnixNano()))
	t.Logf("LINTEL_KILL_SEED=%d", seed)
	random := rand.New(rand.NewPCG(seed, 2))
	u := newUnit(t, "lead")
	again := 0
	for n := range joinersMax {
		name := fmt.Sprintf("runner%d", n)
		p := u.start(name)
		asked := p.do(fmt.Sprintf("ask 1032 x%d now", n+1))
		require.True(t, asked.Saved)
		code := u.at["lead"].do("invite").Code
		victim := []string{name, name, "lead"}[random.IntN(3)]
		moment := time.Duration(random.Int64N(int64(joinLateMax)))
		_, err := io.WriteString(p.stdin, "join "+code+" "+u.at["lead"].address+"\n")
		require.NoError(t, err)
		<-time.After(moment)
		u.at[victim].kill()
		if victim == "lead" {
			u.again("lead")
			p.kill() // it would wait for its answer
		}
		p = u.again(name)
		answer, _, ok := p.try("join " + u.at["lead"].do("invite").Code + " " + u.at["lead"].address)
		require.True(t, ok)
		if answer.Event == "done" {
			again++
		} else {
			require.Contains(t, answer.Error, "belongs to a unit already")
		}
		u.shownAs("lead", asked.Ref, "asked")
	}
	u.settled(u.names...)
	t.Logf("%d of %d had to be invited again", again, joinersMax)
	u.leave()
	u.clean(u.names...)
}

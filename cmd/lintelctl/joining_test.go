package main

import (
	"context"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh/lan"
)

// Goal: join said right after the start succeeds once somebody is there, and
// fails at once where nobody can come. Method: addresses that turn up and
// answer after a while, in simulated time; result, elapsed time and tries.
func TestJoinWaitsForWhoeverMayStillAnswer(t *testing.T) {
	for name, c := range map[string]struct {
		typed   []string
		looks   bool
		appears time.Duration // something nearby
		answers time.Duration // it, or the typed address
		err     error         // that it gives from then on
		within  time.Duration
		id      string // empty: joined
	}{
		"nobody can come":                     {id: "no-peer", appears: time.Hour},
		"nobody comes":                        {looks: true, appears: time.Hour, within: joinWithin, id: "no-peer"},
		"one turns up":                        {looks: true, appears: 2 * time.Second, answers: 2 * time.Second, within: 2 * time.Second},
		"the typed one comes up":              {typed: []string{"a"}, appears: time.Hour, answers: time.Second, within: time.Second},
		"the typed one never answers":         {typed: []string{"a"}, appears: time.Hour, answers: time.Hour, within: joinWithin, id: lan.ErrNoAnswer.Error()},
		"the typed one shows no code":         {typed: []string{"a"}, appears: time.Hour, err: lan.ErrNoInvitation, id: lan.ErrNoInvitation.Error()},
		"a wrong code is not tried elsewhere": {typed: []string{"a"}, looks: true, err: lan.ErrCodeWrong, id: lan.ErrCodeWrong.Error()},
	} {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				begun := time.Now()
				err := joining{
					typed: c.typed, looks: c.looks,
					nearby: func() []string {
						if time.Since(begun) >= c.appears {
							return []string{"b"}
						}
						return nil
					},
					join: func(_ context.Context, addr string) error {
						if time.Since(begun) < c.answers {
							return about(lan.ErrNoAnswer, addr)
						}
						return c.err
					},
				}.run(t.Context())
				if c.id == "" {
					require.NoError(t, err)
				} else {
					require.EqualError(t, err, c.id)
				}
				require.InDelta(t, c.within, time.Since(begun), float64(joinAgain))
			})
		})
	}
}

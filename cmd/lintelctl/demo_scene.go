package main

import (
	"context"
	"math/rand/v2"
	"time"
)

// The four of the demonstration, by what the folder is called.
const (
	playLead      = "lead"
	playAssistant = "assistant"
	playRunner    = "runner"
	playCharge    = "charge"
)

// Pauses between two acts, so that times differ: at least pauseMin, and up to
// pauseSpread more.
const (
	pauseMin    = 40 * time.Millisecond
	pauseSpread = 320 * time.Millisecond
)

// scene plays the invented case. The first failure ends it; later acts do nothing.
type scene struct {
	ctx     context.Context
	players map[string]*player
	random  *rand.Rand
	marks   map[string]int // per request, as far as the last act got
	err     error
}

// pause waits a little, as people do.
func (s *scene) pause() {
	select {
	case <-time.After(pauseMin + time.Duration(s.random.Int64N(int64(pauseSpread)))):
	case <-s.ctx.Done():
	}
}

// ask begins a request and returns its ref.
func (s *scene) ask(who, line string) string {
	if s.err != nil {
		return ""
	}
	s.pause()
	a, err := s.players[who].do(s.ctx, line)
	if s.err = err; err != nil {
		return ""
	}
	h, err := s.players[who].until(s.ctx, a.Ref, 1)
	s.err, s.marks[a.Ref] = err, h.Marks
	return a.Ref
}

// act answers a request, once the device that answers has seen all that was
// recorded for it before.
func (s *scene) act(who, verb, ref, rest string) {
	if s.err != nil {
		return
	}
	s.pause()
	p := s.players[who]
	if _, s.err = p.until(s.ctx, ref, s.marks[ref]); s.err != nil {
		return
	}
	if _, s.err = p.do(s.ctx, verb+" "+ref+" "+rest); s.err != nil {
		return
	}
	h, err := p.until(s.ctx, ref, s.marks[ref]+1)
	s.err, s.marks[ref] = err, h.Marks
}

// bring is the runner's part of a closed loop, and whoever takes it in.
func (s *scene) bring(ref, inHand, agrees, takes string) {
	s.act(playRunner, "going", ref, "")
	s.act(playRunner, "readback", ref, inHand)
	s.act(agrees, "agree", ref, "")
	s.act(playRunner, "door", ref, "")
	s.act(takes, "take", ref, "")
}

// play is the invented case: thirteen requests for twelve needs, in room A1.
func (s *scene) play() {
	tube := s.ask(playLead, "ask 1032 x1 now")
	s.bring(tube, "1032 x1", playLead, playAssistant)

	relaxant := s.ask(playAssistant, "ask 3014 x2 next")
	s.act(playRunner, "offer", relaxant, "3009 x4 / 3023 x2")
	s.act(playAssistant, "agree", relaxant, "1")
	s.bring(relaxant, "3009 x4", playAssistant, playLead)

	ketamine := s.ask(playLead, "ask 3046 x1 now")
	s.act(playRunner, "going", ketamine, "")
	s.act(playRunner, "readback", ketamine, "3038 x1")
	s.act(playAssistant, "refuse", ketamine, "50 mg/mL was asked")
	s.act(playRunner, "readback", ketamine, "3046 x1 scanned lot INVENTED-1")
	s.act(playAssistant, "agree", ketamine, "")
	s.act(playRunner, "door", ketamine, "")
	s.act(playAssistant, "take", ketamine, "")

	rescue := s.ask(playLead, "ask 229 now")
	hands := s.ask(playLead, "ask 6002 now")
	s.act(playRunner, "going", rescue, "")
	s.act(playLead, "withdraw", rescue, "taken from the trolley in the room")
	s.bring(hands, "6002 x1", playLead, playLead)

	s.cutOff()
	s.changedMinds()
}

// cutOff is what was asked by voice and passed in unasked, and joined later.
func (s *scene) cutOff() {
	voiced := s.ask(playRunner, "voice 2019 x1 now tag D1")
	s.act(playRunner, "going", voiced, "")
	s.act(playRunner, "readback", voiced, "2019 x1")
	s.act(playRunner, "door", voiced, "")
	s.act(playRunner, "take", voiced, "glass")
	late := s.ask(playAssistant, "ask 2019 x1 now at -1s")
	if s.err == nil {
		if _, s.err = s.players[playRunner].until(s.ctx, late, 1); s.err == nil {
			_, s.err = s.players[playRunner].do(s.ctx, "join-requests "+voiced+" "+late)
		}
	}
	wipes := s.ask(playRunner, "passed 5501 x1")
	s.act(playLead, "take", wipes, "")
}

// changedMinds is what was withdrawn, taken in in part, or could not be brought.
func (s *scene) changedMinds() {
	fluid := s.ask(playAssistant, "ask 4030 x1 next")
	s.act(playRunner, "going", fluid, "")
	s.act(playRunner, "readback", fluid, "4030 x1")
	s.act(playRunner, "door", fluid, "")
	s.act(playLead, "withdraw", fluid, "not needed any more")
	s.act(playRunner, "back", fluid, "")

	bougie := s.ask(playAssistant, "ask 1108 x1 before")
	s.act(playAssistant, "withdraw", bougie, "one lies here")

	syringes := s.ask(playAssistant, "ask 4243 x5 next")
	s.act(playRunner, "going", syringes, "")
	s.act(playRunner, "readback", syringes, "4243 x5")
	s.act(playAssistant, "agree", syringes, "")
	s.act(playRunner, "door", syringes, "")
	s.act(playAssistant, "take", syringes, "x3")

	scope := s.ask(playLead, "ask 1250 x1 before")
	s.act(playRunner, "cannot", scope, "in use in A3")

	suction := s.ask(playLead, "ask 2043 x1 next")
	s.act(playRunner, "going", suction, "")
	s.act(playRunner, "readback", suction, "2043 x1")
	s.act(playLead, "agree", suction, "")
}

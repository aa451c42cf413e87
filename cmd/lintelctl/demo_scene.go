package main

import (
	"context"
	"math/rand/v2"
	"time"
)

// The players of the demonstration, by what their folders are called.
const (
	playLead      = "lead"      // a tablet inside
	playAssistant = "assistant" // another one, which dies
	playSpare     = "spare"     // admitted, at the door, until the other one dies
	playRunner    = "runner"
	playSecond    = "second" // the runner who takes over
	playObserver  = "observer"
	playCharge    = "charge"
)

// Pauses between two acts, so that times differ: at least pauseMin, and up to
// pauseSpread more.
const (
	pauseMin    = 10 * time.Millisecond
	pauseSpread = 80 * time.Millisecond
	tryGap      = 50 * time.Millisecond // between two looks at what somebody waits for
)

// scene plays the invented case. The first failure ends it; later acts do nothing.
type scene struct {
	ctx     context.Context
	players map[string]*player
	random  *rand.Rand
	marks   map[string]int // per request, as far as the last act got
	fetches string         // who is the runner now
	err     error

	counted  []heard // what the count proposed
	short    []heard // the controlled drug while a device was cut off
	balanced []heard // and once its record had come
	restock  []heard // what was to be fetched after the count
	ordered  int     // items that had to be ordered
	soon     []heard // whether the room could take a patient in readyIn
	now      []heard // what the room lacks before the air is clear

	repeated string   // the request whose call was repeated
	air      airEvent // when the room was left
	wasCut   bool
}

// pause waits a little, as people do.
func (s *scene) pause() { s.wait(pauseMin + time.Duration(s.random.Int64N(int64(pauseSpread)))) }

func (s *scene) wait(d time.Duration) {
	select {
	case <-time.After(d):
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

// tell records what belongs to no request, and returns the code of it.
func (s *scene) tell(who, line string) string {
	if s.err != nil {
		return ""
	}
	s.pause()
	a, err := s.players[who].do(s.ctx, line)
	s.err = err
	return a.Code
}

// tellAll records several lines on one device.
func (s *scene) tellAll(who string, lines ...string) {
	for _, l := range lines {
		s.tell(who, l)
	}
}

// until asks a device the same again until the answer is right.
func (s *scene) until(who, line string, right func(reply) bool) reply {
	for s.err == nil {
		a, err := s.players[who].do(s.ctx, line)
		if err == nil && right(a) {
			return a
		}
		if err != nil && a.Event != "error" {
			s.err = err
		}
		if s.ctx.Err() != nil {
			s.err = late(s.ctx, who+": "+line)
		}
		s.wait(tryGap)
	}
	return reply{}
}

// said is right for any answer but an error: what the line names has arrived.
func said(reply) bool { return true }

// hears answers what another device recorded, as soon as it has arrived.
func (s *scene) hears(who, line string) { s.until(who, line, said) }

// bring is the runner's part of a closed loop, and whoever takes it in.
func (s *scene) bring(ref, inHand, agrees, takes string) {
	s.act(s.fetches, "going", ref, "")
	s.act(s.fetches, "readback", ref, inHand)
	s.act(agrees, "agree", ref, "")
	s.act(s.fetches, "door", ref, "")
	s.act(takes, "take", ref, "")
}

package requests

import (
	"testing"
	"time"

	"lintel/mesh"
)

// sceneStart is when a timed scene begins, by a clock that is right.
const sceneStart mesh.Wall = 1_700_000_000_000

// timed is a scene whose devices have wall clocks of their own. What is written
// after at is stamped with that moment, as the writing device's clock shows it.
type timed struct {
	*scene
	now     time.Duration              // since the scene began, truly
	ahead   map[mesh.Key]time.Duration // how far each device's clock is ahead of the truth
	stamped int
}

// newTimed begins a scene with the settings that calls and figures go by.
func newTimed(t testing.TB) *timed {
	s := &timed{scene: newScene(t), ahead: map[mesh.Key]time.Duration{}}
	for name, value := range map[mesh.ID]mesh.Text{
		settingCall: "30", settingCallNow: "10", settingHold: "1", settingStill: "180", settingStillNow: "60",
		settingUsualFrom: "10", settingWindow: "20", settingWaitNext: "600", settingWaitBefore: "3600",
	} {
		s.put(lead, KindSetting, &Setting{Name: name, Value: value})
	}
	return s
}

// at lets the scene go on at so many seconds.
func (s *timed) at(sec float64) *timed {
	s.stamp()
	s.now = seconds(sec)
	return s
}

func (s *timed) stamp() {
	for i := s.stamped; i < len(s.facts); i++ {
		f := &s.facts[i]
		f.Wall = sceneStart + mesh.Wall((s.now + s.ahead[f.Ref.Author()]).Milliseconds())
	}
	s.stamped = len(s.facts)
}

// board folds what was written so far; every order of arrival is tried.
func (s *timed) board() *Board {
	s.stamp()
	return s.scene.board()
}

// quick folds what was written so far in one order.
func (s *timed) quick() *Board {
	s.stamp()
	return fold(s.facts)
}

// elapsed is how long ago a mark was made, truly.
func (s *timed) elapsed(m Mark) time.Duration {
	made := time.Duration(m.When()-sceneStart)*time.Millisecond - s.ahead[m.Device()]
	return s.now - made
}

// compare writes what a measures of other's clock, exactly, ± within.
func (s *timed) compare(a, other actor, within time.Duration, cause mesh.ClockCause) mesh.Ref {
	return s.put(a, mesh.KindClock, &mesh.Clock{
		Peer: other.key, OffsetMS: (s.ahead[other.key] - s.ahead[a.key]).Milliseconds(),
		WithinMS: uint32(within.Milliseconds()), Cause: cause,
	})
}

// askNow writes an Asked of the lead that is wanted now.
func (s *timed) askNow(room mesh.ID) mesh.Ref {
	return s.put(lead, KindAsked, &Asked{Room: room, Thing: tube(), Urgency: RightNow})
}

// truly is when a placed moment was, since the scene began, if the clock of
// this device is the common one.
func (s *timed) truly(p Placed, common actor) time.Duration {
	return time.Duration(p.Wall-sceneStart)*time.Millisecond - s.ahead[common.key]
}

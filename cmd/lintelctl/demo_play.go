package main

import (
	"fmt"
	"slices"
	"time"
)

// cutFor is how long the devices inside are cut off: five minutes, played in seconds.
const cutFor = 5 * time.Second

// play is the invented case, a difficult airway in room A1.
func (s *scene) play() {
	s.fetches = playRunner
	s.brief()
	s.planA()
	s.rescues()
	s.nobodyComes()
	s.cutOff()
	s.changedMinds()
	s.runnersSwap()
	s.deviceDies()
	s.leaving()
	s.accounts()
	s.afterwards()
	s.fills()
}

// brief is what is agreed and checked before the door closes, and the test with
// the door shut.
func (s *scene) brief() {
	s.tellAll(playCharge, "setting call-again-now 1", "setting opening-window 1") // minutes are played in seconds
	s.tell(playLead, "case open A1 intubation label 7-A1")
	for _, who := range []string{playAssistant, playRunner, playObserver, playCharge, playSecond, playSpare} {
		s.until(who, "cases", func(a reply) bool { return len(a.listed) == 1 })
	}
	s.tellAll(playCharge, "prepare tray-1 first-tray by C1 checked-by R2", "seal tray-1 4711")
	s.until(playLead, "kits", func(a reply) bool { return len(a.listed) == 1 && a.listed[0].Ready })
	s.tell(playLead, "open-kit tray-1 inside")
	s.tellAll(playLead, "role L1 lead", "role D1 assistant", "role R1 runner", "role O1 observer", "tick plan a", "tick plan b", "tick plan c", "tick plan d")
	for _, line := range []string{
		"roles-said", "plan-said", "speaker", "voice-link", "hand-signs", "paper-card", "kit-checked", "drugs-drawn", "rescue-b", "rescue-c", "rescue-d", "spare-device",
	} {
		s.tell(playLead, "tick brief "+line)
	}
	s.tell(playLead, "skip brief")
	s.tellAll(playObserver, "ppe L1 O1", "ppe D1 O1", "enter L1 checked-by O1", "enter D1 checked-by O1")
	for who, battery := range map[string]int{playLead: 83, playAssistant: 64} {
		test := s.tell(who, fmt.Sprintf("test door A1 battery %d", battery))
		s.hears(playRunner, "hear-test "+test+" sound")
	}
}

// planA is the plan that fails: two attempts, and what was asked meanwhile.
func (s *scene) planA() {
	s.tellAll(playObserver, "time pre-oxygenation", "time induction", "time relaxant", "time attempt")
	tube := s.ask(playLead, "ask 1032 x1 now")
	s.bring(tube, "1032 x1", playLead, playAssistant)

	relaxant := s.ask(playAssistant, "ask 3014 x2 next")
	s.act(playRunner, "offer", relaxant, "3009 x4 / 3023 x2")
	s.act(playAssistant, "agree", relaxant, "1")
	s.bring(relaxant, "3009 x4", playAssistant, playLead)
	s.tell(playAssistant, "ended broken 3009 x1")

	ketamine := s.ask(playLead, "ask 3046 x1 now")
	s.act(playRunner, "going", ketamine, "")
	s.act(playRunner, "readback", ketamine, "3038 x1")
	s.act(playAssistant, "refuse", ketamine, "50 mg/mL was asked")
	s.act(playRunner, "readback", ketamine, "3046 x1 scanned lot INVENTED-1")
	s.act(playAssistant, "agree", ketamine, "")
	s.tell(playRunner, "issue for "+ketamine+" by R1 checked-by C1 role lead page 12")
	s.act(playRunner, "door", ketamine, "")
	s.act(playAssistant, "take", ketamine, "")
	s.until(playAssistant, "controlled", func(a reply) bool { return state(a) == "open" })
	s.tell(playAssistant, "give 3046 5 mL")
	s.tellAll(playObserver, "time attempt", "time co2-none")
}

// rescues are plan B and then C, help from outside, and a torn glove.
func (s *scene) rescues() {
	s.tell(playObserver, "time plan-b")
	second := s.ask(playLead, "ask 229 now")
	s.act(playRunner, "going", second, "")
	s.act(playLead, "withdraw", second, "taken from the trolley in the room")
	s.tellAll(playObserver, "time supraglottic", "time help-called", "time plan-c")
	third := s.ask(playLead, "ask 335 now")
	s.act(playLead, "withdraw", third, "taken from the trolley in the room")
	s.tell(playObserver, "time mask-ventilation")

	hands := s.ask(playLead, "ask 6002 now")
	s.act(playRunner, "going", hands, "")
	s.act(playRunner, "readback", hands, "6002 x1")
	s.act(playLead, "agree", hands, "")
	s.tellAll(playObserver, "ppe L2 O1", "role L2 lead")
	s.act(playRunner, "door", hands, "")
	s.tell(playObserver, "enter L2 checked-by O1")
	s.act(playLead, "take", hands, "")
	torn := s.tell(playLead, "breach L2 glove outer, right hand")
	s.hears(playObserver, "heard "+torn)
	wait := s.tell(playLead, "say door-shut")
	s.hears(playRunner, "heard "+wait)
}

// nobodyComes is a request that nobody acknowledges: its call repeats.
func (s *scene) nobodyComes() {
	bags := s.ask(playLead, "ask 5517 x2 now")
	s.until(playRunner, "calls", func(a reply) bool {
		return slices.ContainsFunc(a.listed, func(c heard) bool { return c.Ref == bags && c.Level > 1 })
	})
	s.repeated = bags
}

// cutOff is what was asked by voice and passed in unasked while the devices
// inside were cut off, and entered there late and joined afterwards.
func (s *scene) cutOff() {
	begun := time.Now()
	cut := s.cut(playLead, playAssistant)
	voiced := s.ask(playRunner, "voice 2019 x1 now tag D1")
	s.act(playRunner, "going", voiced, "")
	s.act(playRunner, "readback", voiced, "2019 x1")
	s.act(playRunner, "door", voiced, "")
	s.act(playRunner, "take", voiced, "glass")
	wipes := s.ask(playRunner, "passed 5501 x1")
	if cut {
		s.wait(cutFor - time.Since(begun))
	}
	s.heal(playLead, playAssistant)
	asked := s.ask(playAssistant, "ask 2019 x1 now at -4s")
	if s.err == nil {
		if _, s.err = s.players[playRunner].until(s.ctx, asked, 1); s.err == nil {
			_, s.err = s.players[playRunner].do(s.ctx, "join-requests "+voiced+" "+asked)
		}
	}
	s.tellAll(playLead, "time first-ventilation at -2s", "time cuff-up at -3s", "time co2-seen at -1s")
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
}

package main

import "encoding/json"

// runnersSwap gives what the first runner goes for to the second.
func (s *scene) runnersSwap() {
	suction := s.ask(playLead, "ask 2043 x1 next")
	s.act(playRunner, "going", suction, "")
	s.act(playRunner, "readback", suction, "2043 x1")
	s.act(playLead, "agree", suction, "")
	if s.err == nil {
		_, s.err = s.players[playRunner].do(s.ctx, "pass-all R2")
		s.marks[suction]++
	}
	s.fetches = playSecond
	s.act(playSecond, "going", suction, "")
	s.act(playSecond, "readback", suction, "2043 x1")
	s.act(playLead, "agree", suction, "")
	s.act(playSecond, "door", suction, "")
	s.act(playLead, "take", suction, "")
}

// deviceDies kills a device inside; what it recorded is on the others, and the
// spare from the door goes on in its place.
func (s *scene) deviceDies() {
	if s.err != nil {
		return
	}
	s.players[playAssistant].kill()
	s.tell(playSpare, "hold role assistant tag D1 room A1")
	pressor := s.ask(playSpare, "ask 3190 x1 now")
	s.bring(pressor, "3190 x1", playSpare, playSpare)
	pump := s.ask(playSpare, "ask 4262 x1 next")
	s.bring(pump, "4262 x1", playSpare, playLead)
}

// leaving is the transfer with a running syringe, and the way out.
func (s *scene) leaving() {
	syringe := s.tell(playSpare, "draw-up 3190 x1 into 50 mL by D1 checked-by L1 Noradrenaline 4 mg in 50 mL")
	for _, line := range []string{"destination", "oxygen", "filters", "goes-along", "standby", "clamped", "connected"} {
		s.tell(playLead, "tick transfer "+line)
	}
	coming := s.tell(playLead, "say coming-out")
	s.hears(playSecond, "heard "+coming)
	s.tell(playSpare, "left-with ICU-2 syringe "+syringe+" received-by N7")
	s.until(playSpare, "left-with ICU-2 4262 x1 received-by N7", said)
	s.tellAll(playLead, "case move ICU-2", "time left-room")
	for _, tag := range []string{"D1", "L2", "L1"} {
		s.tellAll(playObserver, "doff "+tag+" look O1", "doff "+tag+" outer-gloves O1", "doff "+tag+" gown O1", "doff "+tag+" respirator O1", "leave "+tag+" checked-by O1")
	}
	s.until(playLead, "stay", func(a reply) bool { return a.May })
}

// afterwards is the end of the case, the air, and the debrief.
func (s *scene) afterwards() {
	s.tell(playObserver, "case shut")
	a := s.until(playCharge, "air A1", func(a reply) bool { return len(a.listed) == 1 })
	for _, l := range a.listed {
		var e airEvent
		if json.Unmarshal(l.line, &e) == nil {
			s.air = e
		}
	}
	s.tellAll(playCharge, "debrief held", "debrief-line fetched the relaxant in the asked size, and a filter",
		"debrief-line not-heard bags were asked and nobody went", "debrief-line next put two filters into the kit")
}

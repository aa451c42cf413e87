package debrief

import (
	"lintel/app/look"
	"lintel/app/words"
	"lintel/requests"
)

func (p painter) people() look.ChartLane {
	lane := p.lane("people")
	for _, s := range p.c.People {
		word := string(s.Tag)
		if s.Zone != "" {
			word = p.w.Say("debrief.in-zone", s.Tag, s.Zone)
		}
		p.bar(&lane, s.From, s.To, look.ChartBar{Word: word, Open: s.Open})
	}
	return lane
}

func (p painter) times() look.ChartLane {
	lane := p.lane("times")
	for _, m := range p.c.Moments {
		word, tone := m.Words, look.TonePlain
		if m.Attempt > 0 {
			word = p.w.Say("fact.attempt", word, m.Attempt)
		}
		if m.Against {
			word, tone = p.w.Say("debrief.but", word, p.w.Say("fact.flag.out-of-order")), look.ToneFault
		}
		p.point(&lane, m.At, word, tone)
	}
	return lane
}

func (p painter) requests() look.ChartLane {
	lane := p.lane("requests")
	for _, a := range p.c.Asked {
		b := look.ChartBar{Word: p.request(a), Tone: tone(a.Urgency), Open: a.Open}
		for _, step := range []requests.Placed{a.Acknowledged, a.AtDoor} {
			if step.Wall != 0 && p.shows(step.Wall, step.Wall) {
				b.Steps = append(b.Steps, p.at(step.Wall))
			}
		}
		p.bar(&lane, a.From, a.To, b)
	}
	return lane
}

// request is what stands beside a bar: the thing, and what the bar does not say
// by its length.
func (p painter) request(a Asked) string {
	a.Name = words.ShortName(a.Name, a.Drug)
	switch end := outcome(a); {
	case end == "":
		return thing(p.w, a)
	case p.room.short:
		return p.w.Say("debrief.outcome-of", p.w.Say("debrief."+end), a.Name)
	default:
		return p.w.Say("debrief.but", thing(p.w, a), p.w.Say("debrief."+end))
	}
}

// outcome is what became of a request, where that is out of the ordinary.
func outcome(a Asked) words.ID {
	switch {
	case a.Withdrawn:
		return "withdrawn"
	case a.CouldNot:
		return "could-not"
	case a.Unanswered:
		return "unanswered"
	case a.Wrong:
		return "wrong"
	case a.Undelivered:
		return "undelivered"
	}
	return ""
}

func (p painter) openings() look.ChartLane {
	id := words.ID("openings")
	if len(p.c.Openings) > 0 && p.c.Openings[0].Measured {
		id = "openings-measured"
	}
	lane := p.lane(id)
	for _, o := range p.c.Openings {
		p.bar(&lane, o.From, o.To, look.ChartBar{Word: crossed(p.w, o)})
	}
	return lane
}

func (p painter) harms() look.ChartLane {
	lane := p.lane("breaches")
	for _, h := range p.c.Harms {
		p.point(&lane, h.At, p.w.Say("debrief.in-zone", h.Tag, h.Words), look.ToneFault)
	}
	return lane
}

func (p painter) said(id words.ID, all []Phrase) look.ChartLane {
	lane := p.lane(id)
	for _, x := range all {
		p.point(&lane, x.At, x.Words, look.TonePlain)
	}
	return lane
}

// thing is what was asked for, in one line.
func thing(w words.Words, a Asked) string {
	return w.Thing(a.Count, a.Name, strength(a))
}

func strength(a Asked) string { return words.Measured(words.FirstPart(a.Detail)) }

// crossed is what went through the door at an opening.
func crossed(w words.Words, o requests.OpeningAt) string {
	things, persons := "", ""
	if o.HandOvers > 0 {
		things = w.Count("debrief.things", o.HandOvers)
	}
	if o.Crossings > 0 {
		persons = w.Count("brief.people", o.Crossings)
	}
	return joined(things, persons)
}

func tone(u requests.Urgency) look.Tone {
	switch u {
	case requests.RightNow:
		return look.ToneNow
	case requests.NextOpening:
		return look.ToneNext
	case requests.BeforeWeLeave:
		return look.ToneBefore
	}
	return look.TonePlain
}

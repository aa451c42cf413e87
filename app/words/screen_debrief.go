package words

import "maps"

// englishDebrief has the words of the page that a team looks at afterwards.
func englishDebrief() map[ID]string {
	out := map[ID]string{
		"debrief.no-case":    "No case yet.",
		"debrief.no-picture": "Nothing was recorded in this time.",
		"debrief.goes-on":    "{1}, goes on",
		"debrief.from-to":    "{1} to {2}, {3}",
		"debrief.clocks":     "clocks ±\u00a0{1}",

		"debrief.clocks-apart.one":  "1 device was never compared: its times are by its own clock",
		"debrief.clocks-apart.many": "{1} devices were never compared: their times are by their own clocks",

		"debrief.to.time":      "in time",
		"debrief.to.figures":   "figures",
		"debrief.to.beside":    "beside others",
		"debrief.to.questions": "questions",
		"debrief.to.held":      "debrief",
		"debrief.to.cases":     "cases",
		"debrief.to.paper":     "the record",
		"debrief.to.roles":     "roles",
		"debrief.zoom.earlier": "earlier",
		"debrief.zoom.later":   "later",
		"debrief.zoom.nearer":  "nearer",
		"debrief.zoom.whole":   "whole",
		"debrief.legend-short": "Bar: asked to taken in. Outline: never ended, or entered later.",
		"debrief.legend":       "A bar runs from asked to taken in; lines across it: acknowledged, at the door. An outline: it never ended, or was entered later. A line beside a point: how far clocks may be off.",

		"debrief.lane.people":            "people",
		"debrief.lane.times":             "times",
		"debrief.lane.requests":          "requests",
		"debrief.lane.openings":          "door, derived",
		"debrief.lane.openings-measured": "door, measured",
		"debrief.lane.breaches":          "breaches",
		"debrief.lane.said":              "phrases",
		"debrief.lane.given":             "drill",
		"debrief.in-zone":                "{1}, {2}",
		"debrief.but":                    "{1}, {2}",
		"debrief.outcome-of":             "{1}: {2}",
		"debrief.withdrawn":              "withdrawn",
		"debrief.could-not":              "could not",
		"debrief.unanswered":             "unanswered",
		"debrief.undelivered":            "never taken in",
		"debrief.wrong":                  "other item caught",
		"debrief.things.one":             "1 thing",
		"debrief.things.many":            "{1} things",

		"debrief.which":          "Which case?",
		"debrief.no-debrief":     "no debrief",
		"debrief.questions":      "Questions",
		"debrief.unanswered-yet": "no answer yet",
		"debrief.answered-by":    "answered by {1}, tap to read",
		"debrief.asked-at":       "{1}, {2}",
		"debrief.choose":         "Tap what it was, one or several.",
		"debrief.typed":          "words, no names",
		"debrief.record":         "record",
		"debrief.recorded":       "Recorded",
		"debrief.recorded-as":    "Recorded: {1}",
		"debrief.paper-at":       "The paper is {1}",
	}
	maps.Copy(out, englishDebriefAnswers())
	maps.Copy(out, englishDebriefFigures())
	return out
}

// englishDebriefAnswers are answers by one tap.
func englishDebriefAnswers() map[ID]string {
	return map[ID]string{
		"debrief.answer.nothing":   "nothing",
		"debrief.answer.talked":    "talked about",
		"debrief.answer.yes":       "yes",
		"debrief.answer.in-part":   "in part",
		"debrief.answer.no":        "no",
		"debrief.ask-held":         "Was a debrief held?",
		"debrief.nobody-said":      "Nobody has said yet.",
		"debrief.ask-why":          "Why was no debrief held?",
		"debrief.why.no-time":      "no time",
		"debrief.why.next-patient": "the next patient came",
		"debrief.why.apart":        "the team was apart already",
		"debrief.why.later":        "it will be held later",
		"debrief.why.not-wanted":   "nobody wanted one",
	}
}

// englishDebriefFigures are the figures with their methods.
func englishDebriefFigures() map[ID]string {
	return map[ID]string{
		"debrief.figures":            "Figures of the case",
		"debrief.figure.requests":    "Requests",
		"debrief.figure.ack":         "Asked to acknowledged, median",
		"debrief.figure.ack-90":      "Asked to acknowledged, 90th percentile",
		"debrief.figure.deliver":     "Asked to taken in, median",
		"debrief.figure.deliver-90":  "Asked to taken in, 90th percentile",
		"debrief.figure.unanswered":  "Answered by nobody",
		"debrief.figure.undelivered": "Never taken in",
		"debrief.figure.wrong":       "Read back as something else, and caught",
		"debrief.figure.closed":      "Closed loops, of what was brought",
		"debrief.figure.openings":    "Door openings",
		"debrief.figure.inside":      "Person-minutes inside",
		"debrief.figure.breaches":    "Breaches",
		"debrief.figure.debrief":     "Debrief",
		"debrief.figure.debriefs":    "Debrief",
		"debrief.figure.within":      "Every time, at most",

		"debrief.needs":    "for {1}: joined requests are one need",
		"debrief.need.one": "1 need", "debrief.need.many": "{1} needs",
		"debrief.entry.one": "1 entry", "debrief.entry.many": "{1} entries",
		"debrief.median":   "of {1}",
		"debrief.p90":      "by nearest rank; {1} between neighbours",
		"debrief.unwanted": "{1} of them not wanted any more",
		"debrief.interval": "{1}\u00a0%, 95\u00a0% interval {2} to {3}\u00a0% (Wilson)",
		"debrief.derived":  "derived: hand-overs and persons within {1} are one",
		"debrief.measured": "measured, open for {1} in sum",
		"debrief.both":     "{1} {2}; {3} {4}",
		"debrief.entries":  "of {1}, {2} without a coming out",
		"debrief.seconds":  "{1}\u00a0s",
		"debrief.within":   "±\u00a0{1}",
		"debrief.apart":    "{1} left out: two clocks were never compared",
		"debrief.held":     "held",
		"debrief.not-held": "not held",
		"debrief.not-said": "not said",

		"debrief.beside":     "The case beside others",
		"debrief.this":       "this case",
		"debrief.all":        "All",
		"debrief.beside-of":  "{1}: {2}",
		"debrief.no-roles":   "Drills left out of all: {1}. A role has figures from its fifth case on, a person never.",
		"debrief.no-persons": "Drills left out of all: {1}. Roles have figures over all cases, persons never.",
		"debrief.roles":      "Roles, over all cases that were no drill",
		"debrief.role":       "{1} asked, {2} acknowledged",
		"debrief.of-role":    "{1}. {2}",
	}
}

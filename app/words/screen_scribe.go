package words

// englishScribe has the words of the screen of whoever notes times.
func englishScribe() map[ID]string {
	return map[ID]string{
		"scribe.no-room":      "No doors yet.",
		"scribe.no-case":      "no case is open",
		"scribe.memory":       "Not saved here.",
		"scribe.turn":         "more {1}/{2}",
		"scribe.undo":         "undo",
		"scribe.attempt":      "{1} {2}",
		"scribe.aerosol":      "aerosol",
		"scribe.minus":        "−{1}\u00a0min",
		"scribe.typed":        "a time",
		"scribe.noted":        "noted",
		"scribe.else":         "other",
		"scribe.next-earlier": "The next tap counts {1} min earlier.",
		"scribe.next-at":      "The next tap counts as {1}.",
		"scribe.before":       "{1}: {2}",
		"scribe.at-least":     "at least",
		"scribe.passed":       "{1} passed",
		"scribe.within":       "{1} ± {2}\u00a0s",
		"scribe.late":         "late: {1}",
		"scribe.monitor":      "monitor {1}",
		"scribe.against":      "should come before: {1}",
		"scribe.noted-before": "before: {1}",
		"scribe.corrected":    "{1}, first noted {2}",
		"scribe.earlier":      "{1}\u00a0min earlier",
		"scribe.later":        "{1}\u00a0min later",
		"scribe.take-back":    "undo it",

		"scribe.noted-times.one":  "1 time noted",
		"scribe.noted-times.many": "{1} times noted",
		"scribe.monitor-clock":    "monitor clock",
		"scribe.tied":             "monitor tied",
		"scribe.other-door":       "other door",
		"scribe.which":            "Which door?",

		"scribe.type.late":    "When was it?",
		"scribe.type.correct": "When was it really?",
		"scribe.type.monitor": "Patient monitor's clock",
		"scribe.tell.late":    "Four digits, then tap what happened.",
		"scribe.tell.correct": "Four digits. What was noted first stays beside it.",
		"scribe.tell.monitor": "Four digits: hours and minutes that the monitor shows now.",
		"scribe.no-time":      "No clock shows this.",
		"scribe.tell-turn":    "Tap at the moment when the monitor turns to {1}.",
		"scribe.turned":       "now",
	}
}

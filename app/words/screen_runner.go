package words

import "maps"

// englishRunner has the words of the list outside the door, its questions apart.
func englishRunner() map[ID]string {
	all := map[ID]string{
		"runner.voice":           "by voice",
		"runner.passed":          "passed in",
		"runner.nothing":         "Nothing is open here.",
		"runner.elsewhere.one":   "1 elsewhere",
		"runner.elsewhere.many":  "{1} elsewhere",
		"runner.memory":          "Not saved here.",
		"runner.no-room":         "No doors yet.",
		"runner.drill":           "drill {1}",
		"runner.silent":          "silent {1}",
		"runner.silence":         "silence",
		"runner.sound-on":        "sound on",
		"runner.count":           "{1} ×",
		"runner.out":             "comes out",
		"runner.set.inside":      "lies {1}",
		"runner.set.bring":       "bring from: {1}",
		"runner.take-back":       "Withdrawn: take it back from the door.",
		"runner.put-back":        "Withdrawn: put it back.",
		"runner.out-at-door":     "at the door: fetch it",
		"runner.out-taken":       "taken out",
		"runner.offered":         "offered",
		"runner.was-put-back":    "put back",
		"runner.seen":            "is put back",
		"runner.open":            "open",
		"runner.turn":            "more {1}/{2}",
		"runner.turn-short":      "{1}/{2}",
		"runner.usually":         "usually {1}",
		"runner.going-many":      "{1} going",
		"runner.both-went":       "both: {1}, {2}",
		"runner.level.again":     "{1}, again",
		"runner.level.everybody": "{1}, to all",
		"runner.note.take-back":  "take back",
		"runner.note.put-back":   "put back",
		"runner.note.at-door":    "at door",
		"runner.note.closed":     "closed",
		"runner.note.now":        "now",
		"runner.note.next":       "next",
		"runner.note.before":     "leaving",
		"runner.note.both":       "both went",

		"runner.drug.controlled": "controlled",
		"runner.drug.look-alike": "looks like another",
		"runner.drug.high-alert": "high alert",
	}
	maps.Copy(all, englishRunnerHeads())
	maps.Copy(all, englishRunnerPages())
	maps.Copy(all, englishRunnerNotices())
	return all
}

// englishRunnerHeads has what is said about a door: {1} is who, or a phrase.
func englishRunnerHeads() map[ID]string {
	return map[ID]string{
		"runner.say":    "say",
		"runner.say-to": "say to {1}",

		"runner.head.no-link":       "no link",
		"runner.head.nobody":        "no runner",
		"runner.head.here":          "{1} here",
		"runner.head.at-this":       "{1} at this door",
		"runner.head.at":            "{1} at {2}",
		"runner.head.at-next":       "{1} at {2}, next here",
		"runner.head.fetches-here":  "{1} fetching",
		"runner.head.fetches":       "{1} for {2}",
		"runner.head.fetches-next":  "{1} for {2}, next here",
		"runner.inject":             "drill: {1}",
		"runner.head.away":          "{1} away (drill)",
		"runner.head.serves":        "opening serves {1}",
		"runner.head.untagged":      "a runner",
		"runner.head.device":        "a device",
		"runner.head.battery":       "{1} at {2} %",
		"runner.head.battery-drill": "{1} at {2} % (drill)",
		"runner.head.charging":      "{1} at {2} %, charging",
		"runner.head.no-sound":      "{1} not heard",
		"runner.head.other-door":    "{1} wrong room",
		"runner.head.lock":          "{1} screen locks",
		"runner.said.unheard":       "{1}: not heard yet",
		"runner.said.heard":         "{1}: heard by {2}",
		"runner.said.heard-by-one":  "{1}: heard",
	}
}

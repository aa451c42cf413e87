package words

// englishInsidePages has the words of the pages behind the board inside, and of
// what stands on the board for seconds only.
func englishInsidePages() map[ID]string {
	return map[ID]string{
		"inside.say": "say · more",

		"inside.at.here":          "{1} here",
		"inside.at.door":          "{1} at {2}",
		"inside.at.fetching":      "{1} fetching for {2}",
		"inside.at.fetching-here": "{1} fetching for you",
		"inside.at.next":          "{1}, you are next",

		"inside.more-of":         "makes {1}",
		"inside.same":            "same as",
		"inside.same-question":   "same?",
		"inside.same.tapped":     "tapped here",
		"inside.same.voice":      "by voice",
		"inside.fewer":           "fewer",
		"inside.count.more":      "more",
		"inside.count.ask":       "How many?",
		"inside.count.take":      "How many were taken in?",
		"inside.put-out":         "at the door",
		"inside.head.out":        "To come out, {1}:",
		"inside.battery":         "battery {1} %",
		"inside.only-here.1":     "1 entry only here",
		"inside.only-here.n":     "{1} entries only here",
		"inside.only-here-short": "{1} only here",
		"inside.stay":            "This device may stay behind.",
		"inside.drill":           "{1} · drill",
		"inside.drill-say":       "drill: {1}",
		"inside.real":            "this is real",
		"inside.lock":            "wipe",
		"inside.locked":          "Wipe now: touches do nothing",
		"inside.lock-short":      "Wipe now",
		"inside.high-alert":      "high alert",
		"inside.look-alike":      "looks like another",

		"inside.people":   "call a person",
		"inside.breach":   "breach",
		"inside.times":    "times",
		"inside.out":      "coming out",
		"inside.no-tag":   "no tag",
		"inside.who":      "Who?",
		"inside.what-of":  "{1}: what happened?",
		"inside.noted":    "{1} ago",
		"inside.clock-at": "{1} passed",
		"inside.no-clock": "No clock runs.",

		"said.heard":     "heard by {1}",
		"said.somebody":  "somebody",
		"said.from":      "from {1}",
		"said.tap-heard": "tap: heard",
		"said.of":        "{1} more",
		"said.none":      "Nothing was said yet.",

		"strip.unreached": "not reached: use voice",
		"strip.late":      "{1}: {2}, usually {3}",
		"age.usual":       "{1}, usually {2}",
		"short.unreached": "use voice",
		"short.late":      "late",
		"tile.unreached":  "use voice",
		"tile.late":       "late",
		"tile.taken-out":  "taken out",
		"shown.taken-out": "taken out",
	}
}

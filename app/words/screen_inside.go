package words

// englishThings says things and times on every screen.
func englishThings() map[ID]string {
	return map[ID]string{
		"thing.counted": "{1} × {2}",
		"age.least":     "at least {1}",

		"fault.busy": "The disk is slow: this tap was not taken.",
		"hint.busy":  "Tap again, and ask by voice as well.",

		"keys.erase":       "erase",
		"keys.erase-short": "←",
		"keys.done-short":  "OK",
		"list.before":      "before",
		"list.after":       "more",

		"number.type": "Type the number.",
		"number.more": "More digits are needed.",
		"number.none": "No item has this number. Erase and read it again.",
		"number.near": "{1} {2}? {3}.",

		"number.slip.digit": "Digit {1} differs",
		"number.slip.swap":  "Digits {1}, {2} swapped",

		"group.board":       "the board's second page",
		"group.drug":        "drugs",
		"group.airway":      "airway",
		"group.breathing":   "breathing",
		"group.fluid":       "fluids",
		"group.line":        "lines",
		"group.monitoring":  "monitor",
		"group.ppe":         "PPE",
		"group.cleaning":    "cleaning",
		"group.people":      "people",
		"group.out":         "coming out",
		"shelf.drug":        "drugs",
		"shelf.airway":      "airway",
		"shelf.breathing":   "breath",
		"shelf.fluid":       "fluids",
		"shelf.line":        "lines",
		"shelf.monitoring":  "leads",
		"shelf.ppe":         "PPE",
		"shelf.cleaning":    "clean",
		"shelf.people":      "people",
		"shelf.out":         "out",
		"shelf.board":       "board",
		"inside.shelf.part": "{1}–{2}",
	}
}

// englishInside has the words of the board inside the room.
func englishInside() map[ID]string {
	return map[ID]string{
		"inside.no-room":    "?",
		"inside.say-room":   "Say first for which room this device is.",
		"inside.other":      "other item",
		"inside.groups":     "groups",
		"inside.undo":       "undo",
		"inside.open":       "open",
		"inside.open-of":    "{1} of {2}",
		"inside.answer":     "answer",
		"inside.sign":       "sign",
		"inside.back":       "back",
		"inside.next":       "next",
		"inside.more":       "items",
		"inside.ask":        "ask",
		"inside.one-more":   "one more",
		"inside.runner":     "runner",
		"inside.set.detail": "rescue",
		"inside.set.b":      "B",
		"inside.set.c":      "C",
		"inside.set.d":      "D",
		"inside.set.arrest": "Arrest",

		"inside.nothing-open":        "Nothing is open.",
		"inside.link.up":             "{1} in reach",
		"inside.link.doubtful":       "{1}: link doubtful",
		"inside.link.doubtful-short": "{1}?",
		"inside.link.none":           "No runner in reach.",
		"inside.link.none-short":     "no runner",

		"inside.head.asked":  "Asked, {1}:",
		"inside.head.holds":  "{1} holds:",
		"inside.head.offers": "Instead there is:",
		"inside.head.lies":   "{1} lies",
		"inside.lies-asked":  "Asked outside for help: {1}",
		"inside.differs":     "Not what was asked: {1}.",

		"strip.offer":          "another is offered",
		"strip.take-back":      "withdrawn, lies at the door",
		"strip.not-saved.one":  "not saved here · 1 copy",
		"strip.not-saved.many": "not saved here · {1} copies",

		"short.nothing-open":  "nothing open",
		"short.not-saved":     "not saved",
		"short.runner":        "runner's device",
		"short.offer":         "other offered",
		"short.open":          "in hand",
		"short.read-back":     "differs",
		"short.matches":       "matches",
		"short.closed":        "closed loop",
		"short.agreed-unlike": "agreed, differs",

		"tile.asked":        "asked",
		"tile.acknowledged": "going",
		"tile.in-hand":      "in hand",
		"tile.at-door":      "at the door",
		"tile.taken-in":     "taken in",
		"tile.could-not":    "could not",
		"tile.withdrawn":    "withdrawn",
		"tile.undone":       "undone",
		"tile.take-back":    "withdrawn",
	}
}

package words

// englishCaseFaults says what went wrong with what people record of a case.
// englishCaseHints has, for the same ids, what to do about it.
func englishCaseFaults() map[ID]string {
	return map[ID]string{
		"fault.no-case":       "No case is open here.",
		"fault.case-many":     "Several cases are open: it is not clear which one is meant.",
		"fault.case-there":    "A case is open in {1} already.",
		"fault.during-case":   "The board does not change while a case is open.",
		"fault.no-tag":        "Nobody was named.",
		"fault.no-zone":       "The room has no such zone.",
		"fault.no-line":       "The list {1} has no line {2}.",
		"fault.no-fact":       "Nothing that was recorded has this name.",
		"fault.no-drill":      "No drill goes on here.",
		"fault.no-time":       "The time is missing.",
		"fault.no-reason":     "The reason is missing.",
		"fault.tile":          "Two tiles have the same place.",
		"fault.no-setting":    "There is no setting {1}.",
		"fault.setting-value": "The setting {1} takes a whole number.",
		"fault.fact-none":     "Nothing that was recorded for a case is called {1}.",
		"fault.fact-many":     "{1} names several records.",
		"fault.case-none":     "There is no case {1}.",
		"fault.case-empty":    "The data folder {1} holds no case.",
		"fault.list-none":     "There is no list {1}.",
		"fault.no-end":        "That is no end of a thing.",
		"fault.no-drug":       "Nothing is drawn up of that.",
		"fault.no-syringe":    "There is no syringe {1}.",
		"fault.room-none":     "Nobody has named a room {1}.",
		"fault.urgency-two":   "{1} and {2} cannot both be meant.",
		"fault.percent":       "{1} is no battery level.",
		"fault.tile-beyond":   "The board has no place {1}: it has {2}.",
		"fault.option-text":   "The option {1} cannot be {2}.",
		"fault.wrong-door":    "This is for door {1}, not for {2}.",
	}
}

func englishCaseHints() map[ID]string {
	return map[ID]string{
		"hint.no-case":       "Open a case for the room first.",
		"hint.case-many":     "Name the room.",
		"hint.case-there":    "Go on with it, or end it before the next one begins.",
		"hint.during-case":   "End the open cases first.",
		"hint.no-tag":        "Give the tag that is written on the gown.",
		"hint.no-zone":       "Give a zone of this room.",
		"hint.no-line":       "Give one of its lines; list {1} shows them.",
		"hint.no-fact":       "Check the name; nothing was recorded.",
		"hint.no-drill":      "A drill is begun first.",
		"hint.no-time":       "Say when it happened.",
		"hint.no-reason":     "Say in a few words why not.",
		"hint.tile":          "Give every place once, from 1.",
		"hint.setting-value": "Write it in digits, from 0 on, without a unit; nothing was changed.",
		"hint.no-setting":    "Give the name of a setting.",
		"hint.fact-none":     "facts lists what was recorded, with codes.",
		"hint.fact-many":     "Name one by its ref: ",
		"hint.case-none":     "cases lists them with their codes.",
		"hint.case-empty":    "A device opens one with: case open A1.",
		"hint.list-none":     "The lists are: {2}.",
		"hint.no-end":        "The ends are: used, given, wasted, destroyed, broken, quarantine, reprocessing, returned.",
		"hint.no-drug":       "Name the containers of a drug, and how much the syringe holds.",
		"hint.no-syringe":    "Name it as draw-up answered it.",
		"hint.room-none":     "Nothing was recorded. A case is opened in a new room with: case open {1}. The rooms are: ",
		"hint.urgency-two":   "Give one; nothing was recorded.",
		"hint.percent":       "Write it as 0 to 100, or leave it out where nobody knows.",
		"hint.tile-beyond":   "Exchange what lies at one of its places, from 1; nothing was changed.",
		"hint.option-text":   "Rooms and roles are letters, digits, '-', '.' and '_'; a tag has at most 16 letters; none has control characters.",
		"hint.wrong-door":    "Take it to door {1}, or record that it lies at {2} all the same.",
	}
}

package words

// englishPapers is what stands on papers.
func englishPapers() map[ID]string {
	return map[ID]string{
		"card.title":    "Card of the board: {1}",
		"card.how":      "Point at a place, then at how many and how soon. The runner points at the same place, holds the thing up, and waits for yes.",
		"card.starter":  "starter layout, accepted by nobody yet",
		"card.accepted": "accepted by {1} on {2}",
		"card.lies":     "lies: {1}",
		"card.yes":      "yes",
		"card.no":       "no",
		"card.again":    "say again",
		"card.code":     "A request on the tablet has a joining code of five digits: show it too, and the runner keys it in, so that it is not fetched twice.",
		"card.caution":  "Same places as on the tablet. It supports voice, hand signs and local policy, and replaces none of them.",

		"exposure.title":     "Exposure sheet of {1}",
		"exposure.head":      "{1} · room {2} · case {3} · {4}. Times are on the common clock of the devices.",
		"exposure.drill":     "This was a drill.",
		"exposure.stays":     "Where, from, until",
		"exposure.minutes":   "{1} min",
		"exposure.sum":       "in sum",
		"exposure.no-exit":   "{1}, no coming out recorded",
		"exposure.own-clock": "by that device's own clock",
		"exposure.within":    "± {1} s",
		"exposure.checks":    "Protective equipment as checked",
		"exposure.on":        "put on",
		"exposure.off":       "taken off",
		"exposure.good":      "good",
		"exposure.bad":       "not good",
		"exposure.by":        "checked by {1}",
		"exposure.nobody":    "checked by nobody",
		"exposure.breaches":  "Breaches",
		"exposure.no-breach": "none recorded",
		"exposure.sign":      "Name from the unit's list, signature",
		"exposure.caution":   "A tag is no name: the unit's own paper list says who wore it. What was not recorded is not here. Follow-up is for occupational health, by local policy.",

		"record.caution": "From the devices' own records; nothing was edited. It is no part of a patient's notes and names nobody.",
		"record.title":   "Record of case {1}, room {2}",

		"help.card":       "the numbered card of the board inside as PDF, for the pouch in the room; of the unit in DIR, else of the starter layout",
		"help.paper":      "one person's exposure sheet, the record of a case, or the labels of syringes to stick on, as PDF; the newest case where none is named; never writes into DIR",
		"paper.written":   "written: {1}",
		"fault.paper-tag": "Nothing was recorded of {1} in this case.",
		"hint.paper-tag":  "Tags that were recorded: {2}.",

		"fault.paper": "The paper could not be made.",
		"hint.paper":  "Give -out a file in a folder that can be written: {1}.",
	}
}

package words

// englishRecord is what the record of a case says: its headings, its timeline
// and its figures, each with its method.
func englishRecord() map[ID]string {
	return map[ID]string{
		"help.case-record": "the record of the cases in a data folder, with figures; never writes",

		"record.brief":    "Before the door closed",
		"record.people":   "People",
		"record.time":     "In time, on the common clock of the devices",
		"record.requests": "Requests",
		"record.figures":  "Figures",
		"record.debrief":  "Debrief",
		"record.all":      "All cases",

		"at.line":             "{1} {2} {3} {4}",
		"at.within":           "± {1}",
		"at.unknown":          "by that device's own clock",
		"at.monitor":          " (monitor {1})",
		"at.opening":          "the door opened, as derived: {1} hand-overs, {2} persons",
		"at.opening-measured": "the door opened, as measured: {1} hand-overs, {2} persons",

		"stock.end":     "{2}: {1}",
		"stock.drawn":   "drew up {1} as syringe {3}",
		"stock.left":    "left with the patient: {1}",
		"stock.syringe": "syringe {1}, {2}",

		"figures.all":               "{1} cases, {2} drills left out",
		"figures.requests":          "{1} requests for {2} needs (joined requests are one need)",
		"figures.ack":               "asked to acknowledged: {1}",
		"figures.deliver":           "asked to taken in: {1}",
		"figures.spread":            "median {1} s, 90th percentile {2} s by nearest rank, {3} s between neighbours, of {4}",
		"figures.no-times":          "no times",
		"figures.unanswered":        "answered by nobody: {1}{2}",
		"figures.undelivered":       "never taken in: {1}{3}, of which not wanted any more: {2}",
		"figures.wrong":             "read back as something else, and caught: {1}{2}",
		"figures.closed":            "closed loops, of what was asked and brought: {1}",
		"figures.none":              "none",
		"figures.share":             "{1} of {2}, {3} %",
		"figures.share-interval":    "{1} of {2}, {3} %, 95 % interval {4} to {5} % (Wilson)",
		"figures.openings-measured": "door openings, measured: {1}, open for {2} s in sum",
		"figures.openings-derived":  "door openings, derived: {1} (hand-overs and persons within {2} s are one)",
		"figures.openings-both":     "door openings: {1}, of which measured {2}, open for {3} s in sum, and derived {4} (hand-overs and persons within {5} s are one)",
		"figures.inside":            "person-minutes inside: {1}, of {2} entries, {3} without a coming out",
		"figures.breaches":          "breaches: {1}",
		"figures.debrief":           "debriefs held, of cases that are over: {1}",
		"figures.no-debrief":        "no debrief: {1}",
		"figures.within":            "all times ± {1} s at most; left out because two clocks were never compared: {2}",
		"figures.role":              "{1}: {2} cases, asked {3}, acknowledged {4}; {5}; closed loops {6}",
	}
}

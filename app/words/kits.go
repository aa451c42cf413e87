package words

// englishKits says what kits and stock are, and what is listed of them.
func englishKits() map[ID]string {
	return map[ID]string{
		"measure.each":               "{1} ×",
		"measure.microgram":          "{1} µg",
		"measure.microlitre":         "{1} µL",
		"measure.unit":               "{1} units",
		"measure.micromole":          "{1} µmol",
		"measure.milligram":          "{1} mg",
		"measure.greater.microgram":  "{1} mg",
		"measure.greater.microlitre": "{1} mL",
		"measure.greater.micromole":  "{1} mmol",
		"measure.greater.milligram":  "{1} g",
		"amount.containers":          "{1} ×",
		"amount.ml":                  "{1} mL",
		"amount.plus":                " and ",
		"amount.both":                "{1} ({2})",
		"amount.sum":                 "{1} ({2} in all)",

		"lot-how.scanned":       "scanned",
		"lot-how.assumed":       "assumed",
		"lot-how.unknown":       "lot not known",
		"refused.expired":       "expired: not to be taken",
		"refused.quarantine":    "held back: not to be taken",
		"refused.not-accounted": "makes up for another lot",
		"kit.none":              "not prepared",
		"kit.prepared":          "prepared, not sealed",
		"kit.sealed":            "sealed",
		"kit.opened":            "opened",
		"kit.broken-down":       "taken apart",
		"kit.expired":           "expired",
		"grade.own":             "on their own device",
		"grade.same":            "on the same device",
		"grade.glass":           "through the glass",
		"grade.later":           "countersigned later",

		"ask-singly.controlled":  "asked singly: controlled drug",
		"ask-singly.reprocessed": "asked singly: is it there, and whole?",
		"ask-singly.seen":        "asked singly: must be seen",
		"ask-singly.below-zero":  "more came out than went in",
		"ask-singly.dispute":     "ended differently at the door",
	}
}

// englishKitLists words the lines that lists of kits and stock have.
func englishKitLists() map[ID]string {
	return map[ID]string{
		"list.held":            "{1}: {2} {3}",
		"list.held-lot":        "lot {1} ({2})",
		"list.held-syringe":    "syringe {1}",
		"list.held-expiry":     "use by {1}",
		"list.kit":             "{1}: {2}: {3}, lines: {4}",
		"list.kit-seal":        "seal {1}",
		"list.kit-undated":     "without a known day: {1}",
		"list.kit-one":         "not checked by a second person",
		"list.kit-case":        "opened for case {1}",
		"list.kit-missing":     "missing: {1}",
		"list.lot":             "{1}, lot {2}",
		"list.lot-at":          "{1}: {2}, {3}",
		"list.lot-kit":         "kit {1}: {2}, {3}",
		"list.lot-case":        "case {1}, {3}",
		"list.restock-lot":     "{1} of lot {2} {3}",
		"list.order":           "to order: {2} × {1} (needed {3}, ordered already {4}) for {5}",
		"list.end":             "{1}: {2} {3} → {4}",
		"list.end-none":        "no end can be proposed",
		"list.end-lot":         "lot {1}",
		"list.end-issue":       "issue {1}",
		"list.end-door":        "lies at the door",
		"list.empty":           "Nothing to list.",
		"list.waste":           "{1}, class {2}: {3}",
		"list.waste-part":      "part of a container",
		"list.waste-cost":      "{1} {2}",
		"list.waste-unpriced":  "without a price: {1}",
		"list.waste-unweighed": "without a mass: {1}",
		"list.box":             "{1}: container {2}, seal {3}, {4} L, filled up to {5} L at most",

		"reason.used":                  "used",
		"reason.opened-unused":         "opened, not used",
		"reason.unopened-contaminated": "not opened, contaminated",
		"reason.expired":               "expired",
		"reason.broken":                "broken",
		"reason.training":              "training",

		"label.in":      "{1} in {2}",
		"label.per":     "{1}/mL",
		"label.about":   "about {1}/mL",
		"label.people":  "drawn up by {1}, checked by {2}",
		"label.made":    "made {1}",
		"label.discard": "discard after {1}",
		"label.title":   "Syringe label",
		"label.code":    "syringe {1}",
	}
}

// englishReady says what a room lacks before another patient.
func englishReady() map[ID]string {
	return map[ID]string{
		"list.room-ready":     "{1}: could take a patient",
		"list.room-gaps":      "{1}: cannot take a patient, gaps: {2}",
		"list.ready":          "Another patient could come.",
		"list.not-ready":      "Another patient could not come.",
		"list.gap":            "{1}: {2}",
		"gap.case-open":       "a case goes on there",
		"gap.uncounted":       "lines inside without an end: {1}",
		"gap.air-unknown":     "nobody noted the air changes: ask",
		"gap.air":             "air: {1} minutes more, by the estimate",
		"gap.kits":            "kits that serve: {1} too few",
		"gap.kit-unsealed":    "kit {2} is not sealed",
		"gap.kit-expired":     "kit {2} has expired",
		"gap.kit-missing":     "kit {2} is not full",
		"gap.kit-held-back":   "kit {2} holds a lot that is held back",
		"gap.rescue":          "rescue set {2} lacks {1} at {3}",
		"gap.runner":          "no runner",
		"gap.devices-inside":  "devices for inside: {1} too few",
		"gap.devices-outside": "devices outside: {1} too few",
	}
}

// englishDrugRecord says what the controlled-drug record of a case says.
func englishDrugRecord() map[ID]string {
	return map[ID]string{
		"issue.open":        "open",
		"issue.balanced":    "adds up",
		"issue.short":       "short",
		"issue.over":        "over",
		"issue.unwitnessed": "adds up, a second person is missing",
		"issue.conflict":    "records contradict each other",

		"slot.given":     "given {1}",
		"slot.wasted":    "wasted {1}",
		"slot.broken":    "broken {1}",
		"slot.returned":  "returned {1}",
		"slot.destroyed": "destroyed unopened {1}",
		"slot.left":      "left with the patient {1}",
		"slot.residual":  "not accounted for {1}",
		"slot.nothing":   "nothing yet",
		"slot.plus":      " + ",

		"list.issue":           "{1} {2}: {3}: issued {4} = {5}",
		"list.issue-people":    "taken by {1}, checked by {2}, authorised by {3}, register page {4}",
		"list.issue-entry":     "{1} {2}: {3} from {4} to {5}, by {6}",
		"list.issue-closed":    "was closed by {1}; reason given: {2}",
		"list.witness":         "seen by {1} {2}",
		"list.unwitnessed":     "seen by nobody else",
		"list.nobody-said":     "not said",
		"list.register":        "{1}: {2}, from {3} to {4}: {5}; in {6}, out {7}, balance {8}",
		"list.register-page":   "page {1}",
		"list.register-people": "taken by {1}, checked by {2}",
		"list.register-why":    "{1}",
		"list.listed":          "{1} {2}: {3}, {4}",
		"list.no-register":     "This is the case's own record. It does not replace the statutory register.",

		"listed.short":             "short",
		"listed.over":              "over",
		"listed.unwitnessed":       "a second person is missing",
		"listed.conflict":          "records contradict each other",
		"listed.open":              "open",
		"listed.shut-unsaid":       "closed while short, and nobody said why",
		"listed.broken":            "broken",
		"listed.left-with-patient": "left with the patient",
		"listed.without-issue":     "belongs to no issue",

		"recon.line":     "{1}: {2}: issued {3}, given {4}, wasted {5}, broken {6}, returned {7}, destroyed unopened {8}, left with the patient {9}",
		"recon.residual": "not accounted for {1}",
		"recon.listed":   "listed: {1}",
	}
}

package words

import "maps"

// englishCharge has the words of the pages of whoever answers for kits and stock.
func englishCharge() map[ID]string {
	out := map[ID]string{
		"charge.looking":       "Looking …",
		"charge.acts":          "what can be done",
		"charge.search":        "words or a number",
		"charge.lines.one":     "1 line",
		"charge.lines.many":    "{1} lines",
		"charge.containers":    "{1} ×",
		"charge.ampoules.one":  "1\u00a0ampoule",
		"charge.ampoules.many": "{1}\u00a0ampoules",
		"charge.in-base":       "{1} ({2})",
		"charge.no-day":        "no day known",
		"charge.no-lot":        "lot not known",
		"charge.inferred":      "(day not on the label)",
		"charge.lot":           "lot {1}",
		"charge.how.scanned":   "scanned",
		"charge.how.assumed":   "assumed",
		"charge.how.unknown":   "nobody noted how it is known",
		"charge.way":           "{1} to {2}",
		"charge.and-more":      "and {1} more",
		"charge.held":          "held back",
		"charge.expired":       "expired",
		"charge.expired-on":    "expired {1}",
		"charge.soon":          "expires soon",
		"charge.litres":        "{1}\u00a0L",
		"charge.to.kits":       "kits",
		"charge.to.count":      "count a room",
		"charge.to.controlled": "controlled drugs",
		"charge.to.restock":    "restock",
		"charge.to.waste":      "waste",
		"charge.to.catalogue":  "catalogue, recall",
		"charge.said.opened":   "{1} is opened.",
		"charge.said.apart":    "{1} is taken apart.",
		"charge.said.prepared": "{1} is prepared.",
		"charge.said.checked":  "Checked by {1}.",
		"charge.said.sealed":   "Sealed with {1}.",
		"charge.said.fetched":  "Brought: {1}.",
		"charge.said.undone":   "Taken back.",
		"charge.said.ordered":  "{1} were ordered.",
		"charge.said.par":      "The par is changed.",
		"charge.said.item":     "The catalogue is changed.",
		"charge.said.box":      "Container {1} is closed.",
		"charge.said.held":     "Lot {1} is held back.",
		"charge.said.let-go":   "Lot {1} may be used again.",
		"charge.said.counted":  "{1} is counted.",
		"charge.said.signed":   "Countersigned by {1}.",
	}
	for _, more := range []map[ID]string{englishChargeReady(), englishChargeKits(), englishChargeAsked(), englishChargeItems(), englishChargeCount(), englishChargeControlled(), englishChargeStock(), englishChargeForms(), englishChargeLists(), englishChargeFields()} {
		maps.Copy(out, more)
	}
	return out
}

// englishChargeReady has the words of what rooms lack.
func englishChargeReady() map[ID]string {
	return map[ID]string{
		"charge.ready.ask":       "Could we take another patient now?",
		"charge.ready.of":        "{1} could take a patient when:",
		"charge.ready.no-room":   "No room is known yet.",
		"charge.ready.yes":       "yes",
		"charge.ready.nothing":   "nothing is missing",
		"charge.ready.gaps.one":  "1 gap",
		"charge.ready.gaps.many": "{1} gaps",

		"charge.gap.tap":                   "tap to mend it",
		"charge.gap.case-open":             "a case is open",
		"charge.gap.uncounted.one":         "1 line not counted",
		"charge.gap.uncounted.many":        "{1} lines not counted",
		"charge.gap.air-unknown":           "nobody knows how long the air takes",
		"charge.gap.air.one":               "air clear in about 1 min",
		"charge.gap.air.many":              "air clear in about {1}\u00a0min",
		"charge.gap.kits.one":              "1 kit too few is ready",
		"charge.gap.kits.many":             "{1} kits too few are ready",
		"charge.gap.kit-unsealed":          "{1} has no whole seal",
		"charge.gap.kit-expired":           "{1} expired",
		"charge.gap.kit-missing":           "{1} is not full",
		"charge.gap.kit-held-back":         "{1} holds a lot that is held back",
		"charge.gap.rescue":                "set {1} lacks {2}",
		"charge.gap.runner":                "no runner",
		"charge.gap.devices-inside.one":    "no device inside",
		"charge.gap.devices-inside.many":   "{1} devices too few inside",
		"charge.gap.devices-outside.one":   "no device outside",
		"charge.gap.devices-outside.many":  "{1} devices too few outside",
		"charge.gap.elsewhere.case-open":   "shut it before the door closes again",
		"charge.gap.elsewhere.air-unknown": "set the room's air changes an hour; until then follow local policy",
		"charge.gap.elsewhere.air":         "an estimate; local policy decides who enters",

		"charge.gap.elsewhere.runner":          "somebody takes a device as runner for it",
		"charge.gap.elsewhere.devices-inside":  "somebody takes a charged device for it inside",
		"charge.gap.elsewhere.devices-outside": "somebody takes a device for it outside",
	}
}

// englishChargeKits has the words of kits.
func englishChargeKits() map[ID]string {
	return map[ID]string{
		"charge.kits.head":          "Kits",
		"charge.kits.none":          "No kit was prepared yet.",
		"charge.kits.no-template":   "The unit has no template to prepare kits from: import its lists.",
		"charge.kits.prepare":       "prepare a kit",
		"charge.kits.expiry":        "what expires",
		"charge.kit.sealed-as":      "{1}, {2}",
		"charge.kit.one-person":     "one person only",
		"charge.kit.found-broken":   "its seal was found open",
		"charge.kit.missing":        "lacks {1}",
		"charge.kit.held":           "lot {1} is held back",
		"charge.kit.expires":        "expires {1}",
		"charge.kit.no-day":         "no last day is known",
		"charge.kit.want":           "{1} of {2} are in it",
		"charge.kit.lacks":          "missing",
		"charge.kit.by":             "filled by {1}",
		"charge.kit.checked":        "checked by {1}",
		"charge.kit.check":          "somebody checked it",
		"charge.kit.seal":           "seal it",
		"charge.kit.open":           "open it",
		"charge.kit.again":          "fill it again",
		"charge.kit.apart":          "take it apart",
		"charge.apart.ask":          "Take {1} apart?",
		"charge.apart.tell":         "What is in it goes back to where it is kept, what expired is destroyed.",
		"charge.template.ask":       "Which kit?",
		"charge.open.ask":           "How was the seal of {1}?",
		"charge.open.tell":          "It was not sealed.",
		"charge.open.seal":          "Seal {1} was put on it.",
		"charge.open.whole":         "whole, opened now",
		"charge.open.broken":        "open already",
		"charge.expiry.head":        "Expires within {1} months, the first first",
		"charge.expiry.none":        "Nothing with a known day expires soon.",
		"charge.prepare.head":       "Fill {1}: proposed, first expired first",
		"charge.prepare.none":       "Nothing is missing in it, and nothing lies anywhere for it.",
		"charge.prepare.stays.one":  "1 line lies in it already and stays.",
		"charge.prepare.stays.many": "{1} lines lie in it already and stay.",
		"charge.prepare.leave":      "Take out: {1} × of lot {2}",
		"charge.prepare.nowhere":    "nowhere in stock",
		"charge.prepare.accept":     "filled like this",
	}
}

// englishChargeAsked has the questions of several pages.
func englishChargeAsked() map[ID]string {
	return map[ID]string{
		"charge.second.kit":    "Who checked it too?",
		"charge.second.check":  "Who checked it?",
		"charge.second.count":  "Who counted too?",
		"charge.second.saw":    "Who saw it?",
		"charge.second.first":  "The first person is {1}, who has this device.",
		"charge.second.nobody": "nobody yet",
		"charge.second.later":  "can be signed later",
		"charge.seal.ask":      "Which number is on the seal?",
		"charge.seal.type":     "letters and digits",
		"charge.seal.tell":     "As it is printed on the seal.",
		"charge.par.ask":       "How many should be there?",
		"charge.buy.ask":       "How many were ordered?",
		"charge.buy.tell":      "Containers; what comes takes them off again.",
		"charge.find":          "find a number",
		"charge.find.ask":      "Which number?",
		"charge.find.tell":     "As on the card and the shelf.",
		"charge.other.wrong":   "That is no alternative.",
		"charge.other.hint":    "Type the spoken number of another line of the catalogue.",
	}
}

// englishChargeItems has the words of the catalogue and of recalls.
func englishChargeItems() map[ID]string {
	return map[ID]string{
		"charge.catalogue.head":  "Catalogue",
		"charge.catalogue.none":  "Nothing in the catalogue fits.",
		"charge.catalogue.found": "Catalogue: {1}",
		"charge.catalogue.all":   "all lines",
		"charge.catalogue.gone":  "out of use: {1}",
		"charge.item.change":     "change this line",
		"charge.item.two":        "Two people wrote it differently: change it to what is right.",
		"charge.item.gone":       "Out of use: it is in no list, its stock and its record stay.",
		"charge.item.tell":       "Tap a par or an alternative to change it, a lot for a recall.",
		"charge.item.par":        "Par: {1}",
		"charge.item.have":       "{1} there",
		"charge.item.other":      "Alternative: {1}",
		"charge.item.take-away":  "tap to take it off the list",
		"charge.item.recall":     "tap for a recall",
		"charge.item.par-here":   "set a par: {1}",
		"charge.item.add-other":  "add an alternative",
		"charge.recall.tell":     "Stock of a lot that nobody noted may be of this one, and is listed too.",
		"charge.recall.held":     "Held back: not to be taken for any kit or request.",
		"charge.recall.none":     "Nothing of this lot was recorded.",
		"charge.recall.kit":      "Kit {1}",
		"charge.recall.case":     "Case {1}",
		"charge.recall.syringe":  "in a syringe",
		"charge.recall.hold":     "hold the lot back",
		"charge.recall.let-go":   "let the lot go",
		"charge.certain.scanned": "certain: scanned",
		"charge.certain.assumed": "assumed when it was written",
		"charge.certain.unknown": "not certain: lot not noted",
	}
}

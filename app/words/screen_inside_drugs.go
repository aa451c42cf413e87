package words

// englishInsideDrugs has the words for what became of a drug in the room.
func englishInsideDrugs() map[ID]string {
	return map[ID]string{
		"inside.drugs":           "drugs",
		"inside.drug.which":      "Which drug?",
		"inside.drug.none":       "No drug is known to be inside.",
		"inside.drug.gone":       "Nothing is left of it.",
		"inside.drug.caution":    "Local practice decides.",
		"inside.drug.whole.1":    "1 ×",
		"inside.drug.whole.many": "{1} ×",
		"inside.drug.syringe":    "{1} mL",
		"inside.drug.all":        "all left",
		"inside.drug.times":      "{1} ×",
		"inside.drug.given":      "given",
		"inside.drug.wasted":     "wasted",
		"inside.drug.broken":     "broken",
		"inside.drug.seen":       "who saw",
		"inside.drug.later":      "later",
		"inside.drug.who-saw":    "Who saw it?",
		"inside.drug.by-ml":      "in mL",
		"inside.drug.by-whole":   "whole",
		"inside.drug.undone":     "undone",
	}
}

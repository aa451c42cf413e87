package words

// DrugClassID is the id of the word that stands beside the colour of a class
// of drugs; a class that a unit made itself is said as the unit wrote it.
func DrugClassID(class string) ID { return ID("drug-class." + class) }

// DrugClass is the word beside the colour.
func (w Words) DrugClass(class string) string {
	if id := DrugClassID(class); w.Has(id) {
		return w.Say(id)
	}
	return class
}

// DrugClassShort is the word in the few letters that a tile has for it.
func (w Words) DrugClassShort(class string) string {
	if id := ID("drug-class-short." + class); w.Has(id) {
		return w.Say(id)
	}
	return w.DrugClass(class)
}

// englishDrugs are the classes of drugs on labels, in the trade's words.
func englishDrugs() map[ID]string {
	return map[ID]string{
		"drug-class.induction":                 "induction",
		"drug-class.benzodiazepine":            "benzodiazepine",
		"drug-class.benzodiazepine-antagonist": "benzodiazepine antagonist",
		"drug-class.relaxant":                  "relaxant",
		"drug-class.relaxant-antagonist":       "relaxant antagonist",
		"drug-class.opioid":                    "opioid",
		"drug-class.opioid-antagonist":         "opioid antagonist",
		"drug-class.vasopressor":               "vasopressor",
		"drug-class.hypotensive":               "lowers pressure",
		"drug-class.local-anaesthetic":         "local anaesthetic",
		"drug-class.anticholinergic":           "anticholinergic",
		"drug-class.antiemetic":                "antiemetic",
		"drug-class.other":                     "other drug",

		"drug-class-short.benzodiazepine":            "benzo",
		"drug-class-short.benzodiazepine-antagonist": "benzo reversal",
		"drug-class-short.relaxant-antagonist":       "reversal",
		"drug-class-short.opioid-antagonist":         "opioid reversal",
		"drug-class-short.vasopressor":               "pressor",
		"drug-class-short.local-anaesthetic":         "local",
		"drug-class-short.anticholinergic":           "antichol.",
		"drug-class-short.other":                     "other",
	}
}

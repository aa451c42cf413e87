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
	}
}

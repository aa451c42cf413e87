package words

// englishKitFaults says what went wrong with kits and stock. englishKitHints
// has, for the same ids, what to do about it.
func englishKitFaults() map[ID]string {
	return map[ID]string{
		"fault.no-kit":       "No kit {1} was prepared.",
		"fault.no-template":  "There is no template {1} of a kit.",
		"fault.no-place":     "The place is missing.",
		"fault.no-issue":     "There is no such issue of a controlled drug.",
		"fault.no-movement":  "There is no such movement.",
		"fault.no-hand-over": "There is no such hand-over.",
		"fault.no-seal":      "The number of the seal is missing.",
		"fault.no-lot":       "The lot is missing.",
		"fault.no-waste":     "There is no class of waste {1}.",
		"fault.same-tag":     "The second person is the one who prepared it.",
	}
}

func englishKitHints() map[ID]string {
	return map[ID]string{
		"hint.no-kit":       "Prepare it first, or name another kit.",
		"hint.no-template":  "Name one of the unit's templates.",
		"hint.no-place":     "Name a place, such as store/main.",
		"hint.no-issue":     "Name one of the case's controlled-drug record.",
		"hint.no-movement":  "Name one by its code or its whole ref.",
		"hint.no-hand-over": "Name what was put at the door.",
		"hint.no-seal":      "Read the number on the seal.",
		"hint.no-lot":       "Read the lot on the label.",
		"hint.no-waste":     "Name a class of the unit's list of waste.",
		"hint.same-tag":     "Somebody else checks the kit.",
	}
}

package words

// englishCallFaults says what was wrong with how the program was called, or
// what a command found. englishCallHints has what to do about it.
func englishCallFaults() map[ID]string {
	return map[ID]string{
		"fault.command":          "There is no command {1}.",
		"fault.command-device":   "{1} is said to a device, and not to a folder.",
		"fault.command-missing":  "No command was given.",
		"fault.usage":            "The command {1} was not understood.",
		"fault.flag":             "The options were not understood: {1}.",
		"fault.flag-missing":     "The option {1} is missing.",
		"fault.time":             "{1} is not a time.",
		"fault.time-to-come":     "{1} is still to come by this device's clock.",
		"fault.line-long":        "The line is too long.",
		"fault.quote":            "A quotation mark is not closed.",
		"fault.place":            "There is no place {1}.",
		"fault.demo-child":       "The device {1} of the demonstration did not do what it was asked: {2}.",
		"fault.demo-late":        "The demonstration took too long: {1}.",
		"fault.demo-differs":     "The devices do not hold the same state.",
		"fault.bench":            "The measurement failed: {1}.",
		"fault.audit-findings":   "The audit has findings.",
		"fault.interrupted":      "It was interrupted.",
		"fault.stock-there":      "This unit has stock already: the invented stock is only for a new unit.",
		"fault.nothing-recorded": "There is nothing to record.",
	}
}

func englishCallHints() map[ID]string {
	return map[ID]string{
		"hint.command":          "help lists the commands.",
		"hint.command-device":   "Write it as: {2}, to lintelctl device.",
		"hint.command-missing":  "help lists the commands.",
		"hint.usage":            "Write it as: {2}",
		"hint.flag":             "Write it as: {2}",
		"hint.flag-missing":     "Write it as: {2}",
		"hint.time":             "Write at -2m for two minutes ago, or at 14:05:30.",
		"hint.time-to-come":     "Leave it out for now, write at -2m for two minutes ago, or at -23h30m for yesterday.",
		"hint.line-long":        "A line has at most {1} bytes.",
		"hint.quote":            "Close it, or leave both out.",
		"hint.place":            "Write it as ledger without a place lists it, store/main or inside/A1 for instance.",
		"hint.demo-child":       "Run it again; with -out DIR the folders stay for lintelctl audit.",
		"hint.demo-late":        "Run it again on a quieter machine.",
		"hint.demo-differs":     "Run it with -out DIR and compare the folders with lintelctl replay.",
		"hint.bench":            "Run it again with another empty folder; what the devices wrote stays in this one.",
		"hint.audit-findings":   "They are listed above.",
		"hint.interrupted":      "Start it again; what was saved is there.",
		"hint.stock-there":      "Start with another -data folder for a demonstration.",
		"hint.nothing-recorded": "Name what is to be recorded.",
	}
}

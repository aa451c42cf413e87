package words

// englishFaults says what went wrong with what people record, one sentence each.
// englishHints has, for the same ids, what to do about it.
func englishFaults() map[ID]string {
	return map[ID]string{
		"fault.other":           "Something failed that has no words of its own: {1}.",
		"fault.no-request":      "There is no request {1}.",
		"fault.request-typo":    "{1} is no joining code: its last digit does not fit.",
		"fault.request-many":    "{1} names several requests.",
		"fault.no-item":         "The catalogue has no item {1}.",
		"fault.item-many":       "{1} names several items.",
		"fault.item-missing":    "The item is missing.",
		"fault.count":           "The quantity {1} is out of range.",
		"fault.count-missing":   "The quantity is missing.",
		"fault.no-room":         "No room was named.",
		"fault.not-at-door":     "Nothing of this request lies at the door.",
		"fault.no-answer-due":   "There is nothing to answer.",
		"fault.answer-many":     "Several answers are waited for on {1}: say which one is meant.",
		"fault.joining-code":    "The joining code is mistyped: its last digit does not fit.",
		"fault.same-request":    "A request cannot be joined with itself.",
		"fault.no-role":         "There is no role {1}.",
		"fault.alternative":     "There is no such alternative.",
		"fault.no-device":       "There is no device {1} in this unit.",
		"fault.device-many":     "{1} names several devices.",
		"fault.nothing-to-undo": "This device recorded nothing for {1} that still stands.",
		"fault.text":            "A text cannot be stored as it is.",
		"fault.too-long":        "That is too long to record.",
		"fault.range":           "A number is out of range.",
	}
}

func englishHints() map[ID]string {
	return map[ID]string{
		"hint.other":           "Nothing that was shown as saved is lost. Try again; lintelctl audit looks at the log.",
		"hint.no-request":      "board lists the requests with their codes.",
		"hint.request-typo":    "Read the five digits again; board lists them.",
		"hint.request-many":    "Name one by its ref: ",
		"hint.no-item":         "Give a spoken number, or words of its name. Near: ",
		"hint.item-many":       "Give the number: ",
		"hint.item-missing":    "Name it by its spoken number or by words of its name.",
		"hint.count":           "Write it as x1 to x999.",
		"hint.count-missing":   "Write it as x1: nothing is filled in from the request.",
		"hint.no-room":         "Write room A1, or start the device with -room.",
		"hint.not-at-door":     "It has to be put at the door first; board shows where it is. What is in hand and not wanted any more: cannot, with the words put back.",
		"hint.no-answer-due":   "It waits for a read-back or an offer; board shows them.",
		"hint.answer-many":     "Name one by its mark, at the end of each: ",
		"hint.joining-code":    "Read it again; nothing was recorded.",
		"hint.same-request":    "Name two requests.",
		"hint.no-role":         "The roles are: {2}.",
		"hint.alternative":     "Alternatives are counted from 1; board lists them.",
		"hint.no-device":       "peers lists the devices.",
		"hint.device-many":     "Give more digits of its id; peers lists them.",
		"hint.nothing-to-undo": "Name the request, or the mark as it was answered.",
		"hint.text":            "Rooms, roles and places are letters, digits, '-', '.' and '_'; tags have at most 16 letters; texts have no control characters.",
		"hint.too-long":        "Say it shorter.",
		"hint.range":           "Check the figures.",
	}
}

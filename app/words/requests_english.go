package words

// englishRequests has the sentences about requests that go beyond their states:
// who is going, how somebody knew, what stands on a button, and what to do about
// a flag. {1} is who, or how many.
func englishRequests() map[ID]string {
	return map[ID]string{
		"going.one":  "{1} is going",
		"going.many": "{1} are going",
		"going.tag":  "somebody without a tag",

		"step.saved":        "saved here",
		"step.not-saved":    "not saved here",
		"step.copies.one":   "1 copy",
		"step.copies.many":  "{1} copies",
		"step.runner":       "on the runner's device",
		"step.acknowledged": "acknowledged",
		"step.matches":      "read back, matches",
		"step.closed":       "closed loop",

		"step.agreed-unlike": "agreed, differs from what was asked",

		"how.chosen":  "chosen",
		"how.scanned": "scanned",
		"how.spoken":  "by voice",

		"way.self":  "did it",
		"way.glass": "seen through the glass",
		"way.voice": "told by voice or hand sign",
		"way.paper": "read from paper",

		"act.change":        "change",
		"act.acknowledge":   "I am going",
		"act.could-not":     "could not",
		"act.pass-on":       "pass on",
		"act.offer":         "offer an alternative",
		"act.read-back":     "read back what is in the hand",
		"act.agree":         "agree",
		"act.refuse":        "refuse",
		"act.put-at-door":   "at the door",
		"act.take-in":       "taken in",
		"act.take-in-glass": "taken in, seen through the glass",
		"act.take-back":     "taken back",
		"act.withdraw":      "withdraw",
		"act.join":          "same as another",

		"hint.flag.out-of-turn":   "It counts. Look whether a step was forgotten.",
		"hint.flag.two-values":    "Say which one is meant, and change it to that.",
		"hint.flag.agreed-unlike": "Check item, strength and quantity before it is used.",
		"hint.flag.agreed-old":    "Read back again what is wanted now.",
		"hint.flag.agreed-away":   "Let somebody inside this room agree.",
		"hint.flag.split-answer":  "Ask inside, and read back again.",
		"hint.flag.taken-twice":   "Count it, and undo the record that is wrong.",
		"hint.flag.door-other":    "Read back what lies at the door before it is taken in.",
		"hint.flag.wrong-door":    "Bring it to the right door.",
		"hint.flag.fewer":         "Ask inside whether the rest is still wanted.",
		"hint.flag.take-back":     "Take it back from the door.",
		"hint.flag.more":          "Count it, and undo the record that is wrong.",

		"note.unreadable.one":  "1 record of a request cannot be read; it is kept",
		"note.unreadable.many": "{1} records of requests cannot be read; they are kept",
		"note.loose.one":       "1 mark answers something that is not here yet; it is kept",
		"note.loose.many":      "{1} marks answer something that is not here yet; they are kept",
	}
}

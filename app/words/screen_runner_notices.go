package words

// englishRunnerNotices has the words of what stands above everything outside
// the door until it is answered. Those under "runner.alert" are for little room.
func englishRunnerNotices() map[ID]string {
	return map[ID]string{
		"runner.notice.short":           "{1} calls",
		"runner.notice.one":             "Answer",
		"runner.notice.of":              "Answer {1} of {2}",
		"runner.notice.seen":            "seen",
		"runner.notice.heard":           "heard",
		"runner.notice.yes":             "yes, still",
		"runner.notice.take":            "take",
		"runner.notice.no":              "no",
		"runner.notice.no-sound":        "no sound",
		"runner.notice.joined":          "the same",
		"runner.notice.another":         "another",
		"runner.notice.breach":          "{1}, {3}: {2}",
		"runner.notice.said":            "{1} says: {2}",
		"runner.notice.test":            "{1} tests: did it sound?",
		"runner.notice.battery":         "{1}, battery {2} %",
		"runner.notice.battery-unknown": "{1}, battery not known",
		"runner.notice.still":           "{1}: still on it? {2}",
		"runner.notice.late":            "{2}: {1} takes long. {3}",
		"runner.notice.usually":         "{1}, usually {2}",
		"runner.notice.passed":          "{2}: {1} passes to you: {3}",
		"runner.notice.given-back":      "{2}: {1} gives it back: {3}",
		"runner.notice.contended":       "{1}: both now. The others are called.",
		"runner.notice.help":            "{2} need {1} now. Help at one.",
		"runner.notice.same":            "{1}: {2}. Same as {3} noted?",
		"runner.notice.nobody":          "{1}: nobody answered. {2}",
		"runner.alert.still":            "{1}: still on it?",
		"runner.alert.late":             "{1}: {2} takes long",
		"runner.alert.passed":           "{2} passes to you",
		"runner.alert.back":             "{2} gives it back",
		"runner.alert.contended":        "{1}: both now",
		"runner.alert.help":             "Help {2}: {1}",
		"runner.alert.same":             "{1}: the same?",
		"runner.alert.nobody":           "{1}: nobody goes",
		"runner.alert.withdrawn":        "{1}: withdrawn",
		"runner.notice.withdrawn":       "{1}: withdrawn. {2}",
	}
}

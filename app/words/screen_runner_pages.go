package words

// englishRunnerPages has the words of what the list outside the door asks.
func englishRunnerPages() map[ID]string {
	return map[ID]string{
		"runner.act.acknowledge":   "I am going",
		"runner.act.read-back":     "read back",
		"runner.act.put-at-door":   "at the door",
		"runner.act.take-in-glass": "taken in, seen",
		"runner.act.take-in":       "taken in",
		"runner.act.take-out":      "taken out",
		"runner.act.take-back":     "taken back",
		"runner.act.offer":         "offer other",
		"runner.act.could-not":     "cannot",
		"runner.act.pass-on":       "pass on",
		"runner.act.join":          "same as noted",

		"runner.what-held":     "In hand?",
		"runner.what-offered":  "Instead?",
		"runner.how-many":      "How many?",
		"runner.ten-or-more":   ">9",
		"runner.more-than":     ">{1}",
		"runner.send.one":      "offer this one",
		"runner.send.many":     "offer these {1}",
		"runner.why":           "Why not?",
		"runner.why.none-left": "none left",
		"runner.why.not-found": "not found",
		"runner.why.locked":    "locked away",
		"runner.why.broken":    "broken",
		"runner.why.too-long":  "takes too long",
		"runner.to-whom":       "To whom?",
		"runner.which-door":    "Which door?",
		"runner.how-soon":      "How soon?",
		"runner.code":          "Joining code",
		"runner.code-tell":     "Joining code? OK if none.",
		"runner.code-wrong":    "The last digit does not fit.",

		"runner.where":      "At which door?",
		"runner.wrong-door": "Another door",
		"runner.wrong-tell": "This is for {1}.",
		"runner.anyway":     "leave at {1} all the same",

		"runner.bag.one":   "bag: 1 thing",
		"runner.bag.many":  "bag: {1} things",
		"runner.bag-head":  "{1} serves {2}",
		"runner.bag-whole": "{1}: the next opening serves {2}",

		"runner.pass-all":        "pass all on",
		"runner.pass-these.one":  "pass this one",
		"runner.pass-these.many": "pass these {1}",
		"runner.pass-tell":       "It counts only when that runner takes it. Until then it stays yours.",
		"runner.pass-short":      "Counts when taken.",
		"runner.mine.hand":       "in hand, {1}",
		"runner.mine.promised":   "promised {1}",
		"runner.mine.door":       "at door {1}",
	}
}

package words

// englishFrame has the words of the ways between pages, and of what calls on
// pages that do not say it themselves.
func englishFrame() map[ID]string {
	return map[ID]string{
		"window.pages":              "Pages",
		"window.page.board":         "Board",
		"window.page.requests":      "List",
		"window.page.brief":         "Brief",
		"window.page.door":          "Door",
		"window.page.times":         "Times",
		"window.page.debrief":       "Debrief",
		"window.page.debrief-short": "After",
		"window.page.device":        "Device",
		"window.page.board-has":     "ask, answer, take in",
		"window.page.requests-has":  "what is asked for at which door",
		"window.page.brief-has":     "before the door closes",
		"window.page.door-has":      "who is inside, air",
		"window.page.times-has":     "note what happens, also late",
		"window.page.stock":         "Stock",
		"window.page.stock-has":     "kits, counts, drugs, restock",
		"window.page.debrief-has":   "the case in time, figures, questions",
		"window.page.device-has":    "who has it, links, joining",
		"inside.ways":               "other pages",

		"window.called":        "{1}: {2}",
		"window.called-more":   "{1}: {2} · {3} more",
		"window.called-still":  "still on it? {1}",
		"window.called-back":   "withdrawn: {1}",
		"window.called-breach": "{1}, {2}",
		"window.called-test":   "comms test",

		"fault.no-paper":     "Nothing was recorded that this paper could say.",
		"hint.no-paper":      "Note who goes in and comes out first.",
		"fault.window-paper": "The paper could not be written to {1}.",
		"hint.window-paper":  "See to the disk, then ask for it again. Nothing of the record is lost.",
	}
}

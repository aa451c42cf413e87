package words

// englishHelp explains the commands, outside and on a device's standard input.
func englishHelp() map[ID]string {
	return map[ID]string{
		"help.program": "lintelctl: a device of an isolation room's team, without a window.\n\nCommands:",
		"help.device":  "one device: commands on standard input, changes on standard output",
		"help.demo":    "seven devices play an invented case, from the brief to the debrief, and are audited",
		"help.audit":   "check one device's data folder; never writes",
		"help.replay":  "list its entries in turn, then state and hash; never writes",
		"help.bench":   "figures that can be set beside other programs",

		"help.bench-all":  "describe: one JSON line, what is measured and what is less than the whole product; run: one repetition between real processes over loopback, the last line is JSON; idle: devices with nothing to do",
		"help.bench-run":  "one repetition between real processes over loopback; the last line is JSON",
		"help.bench-idle": "devices with nothing to do; prints READY and the process ids as JSON, and lives until standard input closes",

		"help.more": "This tool is a support for voice, hand signs and local protocol, and replaces none of them.",

		"help.intro": "One line, one command; each line gets exactly one answer: done or error. Lines that are empty or begin with # get none.\n" +
			"REQ is a joining code, the beginning (6 digits or more) of a ref, or a whole ref. ITEM is a spoken number or words of the name.\n" +
			"xN is a quantity. Words with spaces may stand in \"quotation marks\". Any line may end with: at -2m, or at 14:05:30 (when it happened).",
		"help.ask":           "ask for something",
		"help.change":        "something else, another quantity or urgency is wanted",
		"help.going":         "acknowledge: I am going",
		"help.readback":      "state what is in the hand; nothing is filled in",
		"help.door":          "it lies at the door now",
		"help.take":          "taken in: all, or so many; glass: seen through the glass",
		"help.back":          "taken back from the door",
		"help.withdraw":      "not wanted any more",
		"help.offer":         "propose one to three alternatives",
		"help.agree":         "confirm the read-back, or take alternative N; several: name its mark",
		"help.refuse":        "turn down the read-back, or alternative N",
		"help.cannot":        "it cannot be brought",
		"help.pass-on":       "give the request to another runner",
		"help.voice":         "asked by voice, entered by whoever heard it; code: the joining code shown on the glass",
		"help.passed":        "passed in unasked",
		"help.join-requests": "two requests are the same need",
		"help.undo":          "undo this device's last mark on a request, or one mark",
		"help.hold":          "who has this device; without words: who has which",
		"help.found":         "found a unit",
		"help.invite":        "show a code that lets one device in",
		"help.join":          "join a unit by the code that one of its devices shows",
		"help.dial":          "keep a connection to an address",
		"help.remove":        "take a device out of the unit",
		"help.peers":         "the devices of the unit",
		"help.board":         "the requests: open ones, or all",
		"help.ledger":        "what is where",
		"help.restock":       "what is missing where",
		"help.hash":          "the hash of this device's state",
		"help.stock-demo":    "fill the invented Anvil unit with invented rooms and stock",
		"help.help":          "this list",
		"help.quit":          "end the device",
		"help.ledger-audit":  "what does not add up",
	}
}

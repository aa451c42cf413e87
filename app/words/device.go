package words

// englishDevice is what a device without a window tells.
func englishDevice() map[ID]string {
	return map[ID]string{
		"device.ready":      "ready {1} {2}",
		"device.request":    "{1} {2}: {3}, {4}: {5}{6}",
		"device.by":         ", by {1}",
		"device.rings":      ", calls outside",
		"device.in-hand":    "{1} in hand",
		"device.offer":      "offered: {1}",
		"device.taken":      "{1} of {2} taken in",
		"device.thing":      "{1} × {2}",
		"device.joined-to":  "joined with {1}",
		"device.and":        ", ",
		"device.nobody":     "somebody",
		"device.copied":     "{1} has stored this device's entries up to {2}",
		"device.copied-far": "{1} has stored this device's entries up to {2}, as others tell",
		"device.joined":     "{1} belongs to the unit now",
		"device.left":       "{1} was removed from the unit",
		"device.error":      "{1} {2}",

		"link.connected":     "connected with {1}",
		"link.doubtful":      "{1} answers slowly",
		"link.not-connected": "not connected with {1}",

		"note.forked":          "one device's entries have two branches; both are kept and flagged",
		"note.store-failed":    "the disk failed: not saved here from now on, entries go to the other devices",
		"note.new-incarnation": "this device begins a new row of entries",
		"note.removed":         "{1} wrote that a device is to be removed",
		"note.refused-frame":   "{1} sent something that cannot be read",
		"note.bad-signature":   "{1} sent an entry that its author did not sign",
		"note.noisy":           "{1} writes very much and is served last",
		"note.clock-off":       "the clock of {1} is far off",
		"note.alone":           "this device belonged to no unit: it records on its own until it joins one",
		"note.torn":            "an unfinished write at the end of the log was cut off: {1}",
		"note.damage":          "a damaged place of the log was set aside: {1}",
		"note.not-writable":    "the log cannot be written: not saved here, entries go to the other devices",
		"note.unreachable":     "{1} cannot be reached: {2}",
		"note.pairing-closed":  "pairing is closed until {1} after too many wrong codes",
		"note.code-over":       "the code was not used: {1}",
		"note.unnoticed":       "{1} notices were left out because too many came at once",
		"note.settings":        "device.json could not be written: {1}",
	}
}

// englishAnswers is what a device answers to a line, and the lines of its lists.
func englishAnswers() map[ID]string {
	return map[ID]string{
		"done":              "done: {1}",
		"done.request":      "{1} recorded for {2}: {3}",
		"done.recorded":     "{1} recorded: {2}",
		"done.saved":        "saved",
		"done.found":        "unit {1} founded",
		"done.invite":       "code {1}, valid until {2}, at {3}",
		"done.join":         "joined unit {1}",
		"done.dial":         "dialling {1}",
		"done.lies":         ", it lies {1}",
		"done.peers.one":    "1 device",
		"done.peers.many":   "{1} devices",
		"done.board.one":    "1 request",
		"done.board.many":   "{1} requests",
		"done.ledger.one":   "1 line",
		"done.ledger.many":  "{1} lines",
		"done.restock.one":  "1 line to restock",
		"done.restock.many": "{1} lines to restock",
		"done.audit.one":    "1 finding",
		"done.audit.many":   "{1} findings",
		"done.hold.one":     "1 device is held",
		"done.hold.many":    "{1} devices are held",
		"done.hash":         "state {1}, fold {2}, {3} entries",
		"done.stock":        "invented stock and rooms of the invented Anvil unit recorded, {1} lines",
		"done.remove":       "removal of {1} recorded; it counts when two devices wrote it, or one in a unit of two",

		"list.peer":    "{1}, {2}, {3}, {4}",
		"list.self":    "this device",
		"list.holder":  "{1}: {2} {3}, {4}",
		"list.rooms":   "rooms {1}",
		"list.every":   "every room",
		"list.balance": "{1}: {2} × {3}",
		"list.restock": "{1}: {2} × {3}, from {4} (holds {5} of {6})",
		"list.finding": "{1}",

		"status.stranger":  "unknown",
		"status.member":    "member",
		"status.removed":   "removed",
		"status.unreached": "admitted by nobody who counts",
	}
}

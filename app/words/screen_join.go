package words

// englishJoin has the words of joining and of who has this device.
func englishJoin() map[ID]string {
	return map[ID]string{
		"join.device":          "This device: {1}",
		"join.unit":            "{1} · this device: {2}",
		"join.none":            "This device belongs to no unit yet.",
		"join.found-unit":      "found a unit",
		"join.join-unit":       "join a unit",
		"join.found":           "found it",
		"join.name":            "What is the unit called?",
		"join.name-hint":       "Name of the unit",
		"join.where":           "Which one shows the code? None is proved yet.",
		"join.port":            "{1} {2}",
		"join.type":            "type an address",
		"join.address":         "Address of the device that shows the code",
		"join.address-hint":    "192.168.1.20:29460",
		"join.on":              "on",
		"join.code":            "Code shown by {1}",
		"join.code-tell":       "Type the seven digits.",
		"join.code-ok":         "Press OK to join.",
		"join.asking":          "Asking …",
		"join.show":            "{1} left. Type this code on the other device.",
		"join.show-wait":       "Type the code on the other device.",
		"join.at":              "It lets one device in. Address here: {1}",
		"join.code-over":       "The code is no longer valid.",
		"join.who":             "who has it?",
		"join.invite":          "invite",
		"join.role":            "Who has this device?",
		"join.tag":             "Which tag is on the gown?",
		"join.rooms":           "For which rooms?",
		"join.every-room":      "every room",
		"join.take":            "that is right",
		"join.this":            "this device",
		"join.not-connected":   "not connected",
		"join.doubtful":        "link doubtful",
		"join.via.quic":        "connected, QUIC",
		"join.via.tcp":         "connected, TCP",
		"join.round-trip":      "{1} ms",
		"join.clock":           "clock {1} s ± {2} s",
		"join.clock-unknown":   "clock not measured",
		"join.battery":         "battery {1} %",
		"join.battery-unknown": "battery not known",
	}
}

// ScreenHint is what to do about a fault for whoever has a window before them;
// the hints under "hint." are written for a command line. Empty: the sentence
// has to do.
func (w Words) ScreenHint(id ID, blanks ...any) string {
	if w.Has("screen.hint." + id) {
		return w.Say("screen.hint."+id, blanks...)
	}
	return ""
}

// englishScreenHints has them.
func englishScreenHints() map[ID]string {
	return map[ID]string{
		"screen.hint.other":          "Try again.",
		"screen.hint.no-request":     "Look at the list again.",
		"screen.hint.no-item":        "Choose another one.",
		"screen.hint.count":          "Type 1 to 999.",
		"screen.hint.no-room":        "Say who has this device, and for which room.",
		"screen.hint.nothing-held":   "Read back first what is in the hand.",
		"screen.hint.not-at-door":    "It has to be put at the door first.",
		"screen.hint.no-answer-due":  "Look at the request again.",
		"screen.hint.joining-code":   "Read it again; nothing was recorded.",
		"screen.hint.no-role":        "Choose another role.",
		"screen.hint.busy":           "Tap again, and ask by voice as well.",
		"screen.hint.stopped":        "Start it again; what was saved is there.",
		"screen.hint.no-unit":        "Found a unit, or join one.",
		"screen.hint.has-unit":       "A device belongs to one unit.",
		"screen.hint.not-written":    "Invite from another device, and see to this one's disk.",
		"screen.hint.poisoned":       "Go on: entries go to the other devices.",
		"screen.hint.disk-full":      "Free some space.",
		"screen.hint.text":           "Use letters and digits.",
		"screen.hint.too-long":       "Use fewer letters.",
		"screen.hint.address":        "Write it as 192.168.1.20:29460.",
		"screen.hint.no-answer":      "Is it on, and on this network?",
		"screen.hint.own-address":    "Give the other device's address.",
		"screen.hint.other-version":  "Use the same version on both.",
		"screen.hint.code-typed":     "Read it again; no try was lost.",
		"screen.hint.code-wrong":     "Read it again. Tries left: {1}.",
		"screen.hint.pairing-closed": "Wait until {1}.",
		"screen.hint.no-invitation":  "Invite on the other device first.",
		"screen.hint.code-over":      "Invite again.",
		"screen.hint.declined":       "Invite from another device.",
		"screen.hint.welcome":        "Do not trust that device.",
		"screen.hint.unconfirmed":    "Look whether it is on the list; if not, invite again.",
	}
}

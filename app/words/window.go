package words

// englishWindow is what the window says around its screens, and what the
// program says before there is one.
func englishWindow() map[ID]string {
	return map[ID]string{
		"window.title":       "Lintel – {1}",
		"window.back":        "Back",
		"window.dark":        "Dark",
		"window.light":       "Light",
		"window.size":        "Size",
		"window.card":        "Hold a bank card against the glass. Make the frame as wide as the card.",
		"window.card-done":   "As wide",
		"window.sound-on":    "Sound",
		"window.sound-off":   "No sound",
		"window.keys":        "Keys",
		"window.keys-say":    "Tap a place, then press the switch or key once. Tap twice to free it.",
		"window.keys-press":  "Press the key for {1} now.",
		"window.sound-try":   "Sound",
		"window.calls.one":   "1 request calls",
		"window.calls.many":  "{1} requests call",
		"window.memory":      "Not saved on this device: its disk failed. Entries go to the others.",
		"window.no-display":  "There is no display, so no window can be opened.",
		"window.no-opengl":   "No window can be opened: this display has no OpenGL that works.",
		"window.no-driver":   "This program was built without windows.",
		"window.demo-plain":  "The demonstration runs without windows:",
		"window.demo":        "Demonstration: the invented Anvil unit, room A1. Three windows: inside, runner, charge. Nothing in it is real.",
		"window.demo-paired": "The three devices belong to one unit now. Close a window to end its device, all of them to end the demonstration.",
		"window.demo-over":   "The demonstration has ended.",
		"window.pictures":    "{1} pictures are in {2}.",

		"try.tap":      "Try: tap a tile, Tube 7.5 for instance. Then look at the runner's window.",
		"try.going":    "Try: in the runner's window, say that you are going.",
		"try.read":     "Try: in the runner's window, read back what you hold.",
		"try.answer":   "Try: open the request here, compare item, strength and count, and agree.",
		"try.door":     "Try: in the runner's window, put it at the door.",
		"try.take":     "Try: open the request here and take it in.",
		"try.wait":     "Try: tap a tile in the inside window. It calls here.",
		"try.go":       "Try: tap the request here, and say that you are going.",
		"try.readback": "Try: say here what you hold: item, then count. Nothing is filled in.",
		"try.agree":    "Try: in the inside window, open the request and agree.",
		"try.put":      "Try: put it at the door here.",
		"try.inside":   "Try: in the inside window, take it in.",
		"try.watch":    "See the other pages. Close another window: those left go on.",
	}
}

// englishWindowFaults says what can go wrong with the program that has a
// window; englishWindowHints has what to do about it.
func englishWindowFaults() map[ID]string {
	return map[ID]string{
		"fault.window-flag":    "The options cannot be understood: {1}.",
		"fault.network-busy":   "Too much waits for the network.",
		"fault.no-window":      "{1}",
		"fault.no-plain":       "The program lintelctl is not beside this one.",
		"fault.picture-unused": "That cannot be the item's picture.",
		"fault.label-unused":   "Nothing on this page takes a label.",
		"fault.file-unused":    "That holds nothing that this page takes.",
		"fault.key-bound":      "This key presses {1} already.",
		"fault.key-types":      "This key types or turns pages, so it cannot press a place.",
		"fault.window-setting": "What this window remembers could not be written.",
		"fault.gallery":        "The pictures could not be written to {1}.",
		"fault.demo-window":    "The device {1} of the demonstration ended: {2}",
	}
}

func englishWindowHints() map[ID]string {
	return map[ID]string{
		"hint.window-flag":    "{2}",
		"hint.network-busy":   "Wait a moment, and try again.",
		"hint.no-window":      "Use lintelctl device, or start it where there is a display.",
		"hint.no-plain":       "Build both with make run, or start lintelctl demo by itself.",
		"hint.picture-unused": "JPEG, PNG and GIF are taken, and our own outlines. Is there room on the disk?",
		"hint.label-unused":   "Open what it is for first: a read-back, a kit, stock, a recall.",
		"hint.file-unused":    "A picture needs a barcode, sharp and whole; a list goes to the stock page.",
		"hint.key-bound":      "Tap that place twice to free the key.",
		"hint.key-types":      "Use another key or button.",
		"hint.window-setting": "It lasts until this window is closed. See to the disk.",
		"hint.gallery":        "Give a folder that this user can write.",
		"hint.demo-window":    "Start it again; nothing of a demonstration is kept.",
	}
}

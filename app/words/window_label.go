package words

// englishLabel is what a window says about labels that were scanned into it.
func englishLabel() map[ID]string {
	return map[ID]string{
		"window.label-item":   "item {1}",
		"window.label-lot":    "lot {1}",
		"window.label-expiry": "last day {1}",

		"fault.label-idle":   "Nothing on this page takes a label. It says: {1}.",
		"fault.label-caps":   "Capitals and small letters are swapped: caps lock is on, here or in the scanner.",
		"fault.label-layout": "The scanner types for another keyboard layout than this device has.",

		"hint.label-idle":   "Open what it is for first: a read-back, a kit, stock, a recall.",
		"hint.label-caps":   "Switch caps lock off, and scan again.",
		"hint.label-layout": "Set the scanner or the device to the same layout, and scan again.",
	}
}

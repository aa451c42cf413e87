package words

import "strings"

// ScanFaultID is the id of the sentence for what is wrong with a scan, by its code.
func ScanFaultID(code string) ID { return ID("scan-" + code) }

// ScanDoubtID is the id of the sentence for what is doubtful about a scan.
func ScanDoubtID(doubt string) ID { return ID("scan-doubt." + doubt) }

// ScanMeaning says what an element of a label is, by its identifier, in the
// trade's plain words; empty where the label's own title says it as well.
func (w Words) ScanMeaning(id string) string {
	if exact := ID("scan-id." + id); w.Has(exact) {
		return w.Say(exact)
	}
	if id == "" {
		return ""
	}
	if group := ID("scan-id." + id[:len(id)-1] + "n"); w.Has(group) {
		return w.Say(group)
	}
	return ""
}

// ScanNeeds words what an element needs beside it: alternatives are parted by
// commas, and what is needed together by a plus.
func (w Words) ScanNeeds(pattern string) string {
	return strings.NewReplacer(",", w.Say("scan.or"), "+", w.Say("scan.with"), "&", w.Say("scan.and")).Replace(pattern)
}

// englishScan says what stands on a label.
func englishScan() map[ID]string {
	return map[ID]string{
		"help.scan": "reads one barcode scan per line from standard input (the separator is byte 1D, or GS in braces), and prints one JSON object per line",
		"scan.or":   " or ", "scan.with": " with ", "scan.and": " and ",

		"scan-id.00": "number of the package", "scan-id.01": "number of the item", "scan-id.02": "number of the items inside",
		"scan-id.03": "number of an item made to order", "scan-id.10": "lot", "scan-id.11": "made on", "scan-id.12": "payment due on",
		"scan-id.13": "packed on", "scan-id.15": "best before", "scan-id.16": "sell by", "scan-id.17": "expires on",
		"scan-id.20": "variant", "scan-id.21": "serial number", "scan-id.22": "variant for the consumer",
		"scan-id.235": "serial extension by a third party", "scan-id.240": "further number from the maker", "scan-id.241": "customer's part number",
		"scan-id.250": "second serial number", "scan-id.251": "what it came from", "scan-id.254": "place within a location",
		"scan-id.30": "quantity", "scan-id.37": "quantity inside", "scan-id.310n": "net weight in kg", "scan-id.315n": "net volume in L",
		"scan-id.400": "order number", "scan-id.41n": "number of a location", "scan-id.410": "deliver to", "scan-id.414": "number of a location",
		"scan-id.7003": "expires at", "scan-id.7004": "active potency", "scan-id.71n": "national number of a medicine",
		"scan-id.7023": "number of an assembly", "scan-id.8003": "number of a reusable item", "scan-id.8004": "number of a single asset",
		"scan-id.8006": "number of one piece of an item", "scan-id.8008": "made at", "scan-id.8012": "software version",
		"scan-id.8013": "number of the model", "scan-id.8017": "number of a person who gives care", "scan-id.8018": "number of a person who is cared for",
		"scan-id.8019": "which of this person's encounters", "scan-id.90": "agreed between partners", "scan-id.9n": "the company's own",

		"scan-id.LIC": "labeler", "scan-id.PCN": "product or catalogue number", "scan-id.UM": "level of packaging, 0 a single one",
		"scan-id.QTY": "quantity", "scan-id.EXP": "expires on", "scan-id.MFD": "made on", "scan-id.LOT": "lot", "scan-id.SERIAL": "serial number",

		"scan-doubt.lost-separator":     "Within {1} begins what looks like {2}: the separator may have been lost, and what is read here may be two things.",
		"scan-doubt.needless-separator": "A separator stands where none is needed.",
		"scan-doubt.repeated":           "{1} stands there twice.",
		"scan-doubt.two-expiries":       "The label has two dates of expiry; the earlier one is taken.",
		"scan-doubt.about-person":       "This says who somebody is: keep it out of every record.",
	}
}

// englishScanFaults says what is wrong with a scan. {1} is the identifier that
// it is about, {2} another one.
func englishScanFaults() map[ID]string {
	return map[ID]string{
		"fault.scan-empty":          "Nothing was scanned.",
		"fault.scan-too-long":       "This is longer than any label.",
		"fault.scan-too-many":       "There are too many elements on one label.",
		"fault.scan-year":           "The year is out of range.",
		"fault.scan-file":           "The file {1} cannot be read.",
		"fault.scan-large":          "The picture {1} is too large.",
		"fault.scan-no-picture":     "{1} holds no picture that can be read.",
		"fault.scan-no-code":        "No barcode can be read in {1}.",
		"fault.scan-no-program":     "No program that reads the clipboard is installed.",
		"fault.scan-clipboard":      "The clipboard holds no picture.",
		"fault.scan-prefix":         "The scan begins with ], and no kind of symbol follows it.",
		"fault.scan-not-known":      "This is no label that is read here.",
		"fault.scan-mixed":          "These scans do not belong to one label.",
		"fault.scan-link-differs":   "The second barcode belongs to another item.",
		"fault.scan-unknown-id":     "No identifier {1} is known.",
		"fault.scan-value-short":    "Too little follows identifier {1}.",
		"fault.scan-value-long":     "Too much follows identifier {1}.",
		"fault.scan-character":      "A character may not stand in {1}.",
		"fault.scan-check-digit":    "The check digit of {1} does not fit.",
		"fault.scan-month":          "The date in {1} has no such month.",
		"fault.scan-day":            "The date in {1} has no such day.",
		"fault.scan-hour":           "The time in {1} has no such hour.",
		"fault.scan-minute":         "The time in {1} has no such minute.",
		"fault.scan-value":          "{1} does not take this value.",
		"fault.scan-bracket":        "A bracket behind identifier {1} is missing.",
		"fault.scan-escape":         "Behind a percent sign in {1} two digits are missing.",
		"fault.scan-no-key":         "The address names no item.",
		"fault.scan-path":           "In the address {1} does not belong where it stands behind {2}.",
		"fault.scan-not-in-query":   "In the address {1} may not stand behind the question mark.",
		"fault.scan-repeat-differs": "{1} stands there twice with different values.",
		"fault.scan-excluded":       "{1} and {2} cannot be true of one label.",
		"fault.scan-incomplete":     "{1} says nothing without {2} beside it.",
	}
}

// englishScanHints says what to do about it, for the same ids.
func englishScanHints() map[ID]string {
	const again, other = "Scan it again, or type the number that is printed below it.", "Compare it with what is printed, and enter that."
	return map[ID]string{
		"hint.scan-empty":          "Scan again.",
		"hint.scan-too-long":       "One scan stands on one line.",
		"hint.scan-too-many":       "Scan one label at a time.",
		"hint.scan-year":           "Give the present year in four digits.",
		"hint.scan-file":           "Check the path and its permissions.",
		"hint.scan-large":          "Give one of at most 20 MB and 40 million points, or cut out the label.",
		"hint.scan-no-picture":     "PNG, JPEG and GIF are read.",
		"hint.scan-no-code":        "Take it nearer, sharp and with its white edge, or type what it says.",
		"hint.scan-no-program":     "Install wl-paste or xclip, or save the picture and give -image FILE.",
		"hint.scan-clipboard":      "Copy the picture of a label first.",
		"hint.scan-prefix":         again,
		"hint.scan-not-known":      "GS1, HIBC, EAN and UPC are read; other barcodes on a box are for somebody else. Capitals and small letters differ.",
		"hint.scan-mixed":          "Scan the barcodes of one box.",
		"hint.scan-link-differs":   "Scan both barcodes of the same box.",
		"hint.scan-unknown-id":     "A separator may have been lost: " + other,
		"hint.scan-value-short":    again,
		"hint.scan-value-long":     "A separator may have been lost: the scanner has to send it as byte 1D.",
		"hint.scan-character":      "The scanner may be set to another keyboard. " + other,
		"hint.scan-check-digit":    again,
		"hint.scan-month":          other,
		"hint.scan-day":            other,
		"hint.scan-hour":           other,
		"hint.scan-minute":         other,
		"hint.scan-value":          other,
		"hint.scan-bracket":        "Write it as (17)261231.",
		"hint.scan-escape":         again,
		"hint.scan-no-key":         "It is an ordinary address; look for another barcode on the box.",
		"hint.scan-path":           other,
		"hint.scan-not-in-query":   other,
		"hint.scan-repeat-differs": other,
		"hint.scan-excluded":       other,
		"hint.scan-incomplete":     "Scan the other barcode of the same label as well.",
	}
}

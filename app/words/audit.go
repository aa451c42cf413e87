package words

import "lintel/kits"

// FindingID is the id of a finding of the ledger.
func FindingID(f kits.FindingID) ID { return "finding." + ID(f) }

// englishAudit is what audit and replay say. {1} is where or what, {2} and {3}
// are numbers where a finding has them.
func englishAudit() map[ID]string {
	return map[ID]string{
		"audit.head":          "unit {1}, group {2}: {3} entries of {4} devices",
		"audit.earlier":       "an earlier unit of this device, left since",
		"audit.clean":         "chain, signatures and quantities: nothing to report",
		"audit.drill":         "exercise: {1}",
		"audit.drills":        "of exercises alone: {1}",
		"audit.findings.one":  "1 finding",
		"audit.findings.many": "{1} findings",
		"audit.state":         "state {1}, fold {2}",
		"audit.newer":         "{1} parts are from a newer version; they are kept and not read",
		"replay.entry":        "{1}  turn {2}  {3}/{4}  {5}  {6}: {7}",
		"replay.program":      "device",

		"finding.torn":             "an unfinished write at the end of the log: {1}",
		"finding.damage":           "a damaged place in the log: {1}",
		"finding.unreadable-entry": "a stored entry cannot be read",
		"finding.unsigned":         "an entry that no signature vouches for: {1}",
		"finding.bad-signature":    "a stored signature does not fit its entry: {1}",
		"finding.gap":              "an entry whose earlier ones are missing here: {1}",
		"finding.forked":           "one device's entries have two branches: {1}",
		"finding.conflict":         "one name stands for two different records: {1}",
		"finding.above-cut":        "entries of a removed device above its cut, kept and not counted: {1}",
		"finding.unread-part":      "a part that cannot be read: {1}",
		"finding.loose":            "a mark that names no request here: {1}",
		"finding.loose-join":       "a joining that names something that is no request here: {1}",
		"finding.orphan":           "{1} was recorded for a case that was taken back",
	}
}

func englishFindings() map[ID]string {
	return map[ID]string{
		"finding.below-zero":        "{1} holds less than nothing: {3}",
		"finding.ended-differently": "a hand-over was ended differently by two: {1}",
		"finding.end-misfits":       "an end of a hand-over has {3} numbers for {2} lines and does not count: {1}",
		"finding.ended-reversed":    "a hand-over was ended although it was reversed: {1}",
		"finding.taken-more":        "{3} were taken in of {2} that were passed: {1}",
		"finding.reversal-differs":  "a reversal does not repeat what it names and does not count: {1}",
		"finding.names-unknown":     "a record names something that is not here: {1}",
		"finding.names-wrong":       "a record names something of another sort: {1}",
		"finding.unwitnessed":       "a second person is missing: {1}",
		"finding.witness-differs":   "a witness states other quantities: {1}",
		"finding.count-beside":      "a count stands beside another one: {1}",
		"finding.seal-twice":        "a seal was opened more than once: {1}",
		"finding.seal-differs":      "another seal was read than was put on: {1}",
		"finding.kit-unchecked":     "a kit was checked by nobody else than who prepared it: {1}",
		"finding.kit-unsealed":      "a kit was opened that nobody had sealed: {1}",
		"finding.kit-expired":       "a kit was prepared on {3} with a lot that could be used until {2}: {1}",
		"finding.kit-held-back":     "a kit has {3} lines of lots that are held back: {1}",
		"finding.kit-incomplete":    "a kit was sealed with {3} of {2} pieces: {1}",
		"finding.seal-late":         "a seal says {3}, and the first line can be used until {2}: {1}",
		"finding.box-unsealed":      "a waste container without the number of a seal: {1}",
		"finding.box-twice":         "one seal is on more than one waste container: {1}",
		"finding.issue-shut-unsaid": "{3} of {2} issued were accounted for when it was closed, and nobody said why: {1}",
		"finding.unknown-item":      "{3} of something that is in no catalogue line: {1}",
		"finding.syringe-mismatch":  "a syringe holds {3} of containers with {2}: {1}",
		"finding.syringe-unchecked": "what a syringe's containers hold is not known: {1}",
		"finding.issue-short":       "{3} of {2} issued are accounted for: {1}",
		"finding.issue-over":        "{3} are accounted for of {2} issued: {1}",
		"finding.issue-conflict":    "an issue is disputed: {1}",
		"finding.issue-unmeasured":  "an amount cannot be compared with what was issued: {1}",
		"finding.malformed":         "a part that cannot be read: {1}",
		"finding.not-conserved":     "the sum over all places is {3} and not 0: {1}",
	}
}

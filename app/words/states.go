package words

import "lintel/requests"

// ShownID is the id of what people see of a request.
func ShownID(s requests.Shown) ID {
	switch s {
	case requests.ShownAsked:
		return "asked"
	case requests.ShownAcknowledged:
		return "acknowledged"
	case requests.ShownInHand:
		return "in-hand"
	case requests.ShownAtDoor:
		return "at-door"
	case requests.ShownTakenIn:
		return "taken-in"
	case requests.ShownCouldNot:
		return "could-not"
	case requests.ShownWithdrawn:
		return "withdrawn"
	case requests.ShownUndone:
		return "undone"
	case requests.ShownTakeBack:
		return "take-back"
	}
	return "asked"
}

// UrgencyID is the id of how soon something is needed.
func UrgencyID(u requests.Urgency) ID {
	switch u {
	case requests.RightNow:
		return "now"
	case requests.NextOpening:
		return "next"
	}
	return "before"
}

// LoopID is the id of how far saying and repeating got.
func LoopID(l requests.Loop) ID {
	switch l {
	case requests.LoopReadBack:
		return "read-back"
	case requests.LoopMatches:
		return "matches"
	case requests.LoopClosed:
		return "closed"
	}
	return "open"
}

// OriginID is the id of how a request came to be recorded.
func OriginID(o requests.Origin) ID {
	switch o {
	case requests.AskedByVoice:
		return "voice"
	case requests.PassedIn:
		return "passed"
	case requests.FromPaperCard:
		return "card"
	}
	return "tapped"
}

// FlagID is the id of one flag of a request.
func FlagID(f requests.Flags) ID {
	switch f {
	case requests.FlagOutOfTurn:
		return "out-of-turn"
	case requests.FlagTwoValues:
		return "two-values"
	case requests.FlagAgreedUnlike:
		return "agreed-unlike"
	case requests.FlagAgreedOld:
		return "agreed-old"
	case requests.FlagAgreedAway:
		return "agreed-away"
	case requests.FlagSplitAnswer:
		return "split-answer"
	case requests.FlagTakenTwice:
		return "taken-twice"
	case requests.FlagDoorOther:
		return "door-other"
	case requests.FlagWrongDoor:
		return "wrong-door"
	case requests.FlagFewer:
		return "fewer"
	case requests.FlagTakeBack:
		return "take-back"
	case requests.FlagMore:
		return "more"
	}
	return "flag"
}

// Delivery is one word for how far an own entry is known to have got, for those
// who read one; a Reach says everything. None is ever inferred from another.
type Delivery string

// Deliveries, from the weakest.
const (
	NotSaved Delivery = "not-saved" // not on this device's disk, whatever others have
	Saved    Delivery = "saved"     // on this device's disk
	Copies   Delivery = "copies"    // on other devices' disks too
	OnRunner Delivery = "runner"    // on one that a runner for the room holds now, too
)

func englishStates() map[ID]string {
	return map[ID]string{
		"shown.asked":        "asked",
		"shown.acknowledged": "{1} is going",
		"shown.in-hand":      "in hand",
		"shown.at-door":      "at the door",
		"shown.taken-in":     "taken in",
		"shown.could-not":    "could not be brought",
		"shown.withdrawn":    "withdrawn",
		"shown.undone":       "undone by whoever asked",
		"shown.take-back":    "withdrawn: take it back from the door",

		"urgency.now":    "now",
		"urgency.next":   "next opening",
		"urgency.before": "before we leave",

		"loop.open":      "not read back",
		"loop.read-back": "read back, does not match",
		"loop.matches":   "read back, matches",
		"loop.closed":    "closed loop",

		"loop.agreed-unlike": "agreed, differs from what was asked",

		"origin.tapped": "tapped",
		"origin.voice":  "asked by voice",
		"origin.passed": "passed in unasked",
		"origin.card":   "shown on paper",

		"flag.out-of-turn":   "recorded out of turn",
		"flag.two-values":    "two values: people wrote without knowing of each other",
		"flag.agreed-unlike": "agreed, but what is in hand is not what was asked",
		"flag.agreed-old":    "agreed, but something else is wanted now",
		"flag.agreed-away":   "agreed, but not from the asking room",
		"flag.split-answer":  "agreed and refused as well: both stand",
		"flag.taken-twice":   "taken in differently by two",
		"flag.door-other":    "what came is not what was agreed",
		"flag.wrong-door":    "put at another room's door",
		"flag.fewer":         "fewer than asked were taken in",
		"flag.take-back":     "not wanted any more, and it lies at the door",
		"flag.more":          "more was taken in than was put at the door, or than is wanted",
		"flag.flag":          "to be looked at",

		"delivery.saved":          "saved here only",
		"delivery.not-saved.one":  "not saved here · 1 copy elsewhere",
		"delivery.not-saved.many": "not saved here · {1} copies elsewhere",
		"delivery.copies.one":     "saved here · 1 copy elsewhere",
		"delivery.copies.many":    "saved here · {1} copies elsewhere",
	}
}

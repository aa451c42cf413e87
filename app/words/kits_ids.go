package words

import (
	"fmt"
	"strings"

	"lintel/kits"
	"lintel/mesh"
)

// MeasureID is the id of a measure; its sentence stands under "measure.".
func MeasureID(m mesh.Measure) ID {
	switch m {
	case mesh.Microgram:
		return "microgram"
	case mesh.Microlitre:
		return "microlitre"
	case mesh.Unit:
		return "unit"
	case mesh.Micromole:
		return "micromole"
	}
	return "each"
}

// basePerMilli is how many of a base measure make the next greater one.
const basePerMilli = 1000

// Amount says an amount in a base measure in the greatest measure that needs
// at most three decimals: 150 mg, 2.5 mg, 40 mL.
func (w Words) Amount(n int64, measure ID) string {
	greater := "measure.greater." + measure
	if !w.Has(greater) || n > -basePerMilli && n < basePerMilli {
		return w.Say("measure."+measure, n)
	}
	sign, m := "", n
	if m < 0 {
		sign, m = "-", -m
	}
	text := strings.TrimRight(fmt.Sprintf("%d.%03d", m/basePerMilli, m%basePerMilli), "0")
	return w.Say(greater, sign+strings.TrimSuffix(text, "."))
}

// LotHowID is the id of how a lot is known; its sentence stands under "lot-how.".
func LotHowID(h kits.HowKnown) ID {
	switch h {
	case kits.Assumed:
		return "assumed"
	case kits.ByScanner:
		return "scanned"
	}
	return "unknown"
}

// RefusalID is the id of why a lot is not to be taken; its sentence stands
// under "refused.". It is empty for one that may be.
func RefusalID(r kits.Refusal) ID {
	switch r {
	case kits.PastItsDay:
		return "expired"
	case kits.InQuarantine:
		return "quarantine"
	case kits.NotAccounted:
		return "not-accounted"
	}
	return ""
}

// KitStateID is the id of what a kit is; its sentence stands under "kit.".
func KitStateID(s kits.KitState) ID {
	switch s {
	case kits.KitPrepared:
		return "prepared"
	case kits.KitSealed:
		return "sealed"
	case kits.KitOpened:
		return "opened"
	case kits.KitBrokenDown:
		return "broken-down"
	case kits.KitExpired:
		return "expired"
	}
	return "none"
}

// GradeID is the id of a grade of witness; its sentence stands under "grade.".
func GradeID(g kits.Grade) ID {
	switch g {
	case kits.OwnDevice:
		return "own"
	case kits.SameDevice:
		return "same"
	case kits.ThroughGlass:
		return "glass"
	}
	return "later"
}

// AskID is the id of why a line of the count is asked singly; its sentence
// stands under "ask-singly.". It is empty for one that is not.
func AskID(a kits.Ask) ID {
	switch a {
	case kits.AskControlled:
		return "controlled"
	case kits.AskReprocessed:
		return "reprocessed"
	case kits.AskSeen:
		return "seen"
	case kits.AskBelowZero:
		return "below-zero"
	case kits.AskDispute:
		return "dispute"
	}
	return ""
}

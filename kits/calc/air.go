package calc

import (
	"errors"
	"fmt"
	"math"
	"time"
)

// Errors of AirClearance.
var (
	ErrAirChanges = errors.New("the air changes are not known") // none, or below zero
	ErrShare      = errors.New("no such share can be cleared")  // none, all, or beyond
)

// Removed is the share of particles that is gone, in ten-thousandths.
type Removed uint32

// Shares of the published table.
const (
	Removed99  Removed = 9_900 // 99 %
	Removed999 Removed = 9_990 // 99.9 %

	removedAll Removed = 10_000
)

// AirChangesMilliMax bounds air changes, in thousandths per hour: a thousand an
// hour is beyond any room.
const AirChangesMilliMax = 1_000_000

// Clearance is how long a room's air takes to clear, if the air mixes perfectly.
type Clearance struct {
	Exact   time.Duration // by the formula
	Minutes int           // rounded to the nearest whole minute, as the published table is
}

// AirClearance is the time until that share of the particles is gone, at so many
// thousandths of an air change per hour. Air changes of none or below zero are
// refused with ErrAirChanges, also those beyond AirChangesMilliMax; a share of
// none or of all with ErrShare.
func AirClearance(milliAirChanges int64, share Removed) (Clearance, error) {
	if milliAirChanges <= 0 || milliAirChanges > AirChangesMilliMax {
		return Clearance{}, fmt.Errorf("%w: %d thousandths per hour", ErrAirChanges, milliAirChanges)
	}
	if share == 0 || share >= removedAll {
		return Clearance{}, fmt.Errorf("%w: %d of %d", ErrShare, share, removedAll)
	}
	left := float64(removedAll-share) / float64(removedAll)
	hours := -math.Log(left) * 1000 / float64(milliAirChanges)
	return Clearance{
		Exact:   time.Duration(math.Round(hours * float64(time.Hour))),
		Minutes: int(math.Floor(hours*60 + 0.5)),
	}, nil
}

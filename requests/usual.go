package requests

import (
	"time"

	"lintel/mesh"
)

// Usual is how long it usually takes from "going" until an item is at the door:
// the 90th percentile (NearestRank) of the unit's own deliveries of that item,
// and of how many. Until there are as many as the setting usual-from says, it
// is the setting for that urgency. Exercises do not count.
func (b *Board) Usual(item mesh.Number, u Urgency) (time.Duration, int) { return 0, 0 }

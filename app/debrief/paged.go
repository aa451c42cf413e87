package debrief

import (
	"slices"
	"sort"

	"lintel/app/look"
)

// paged divides a picture into pages that fit, from its lanes downwards. A lane
// goes to the next page rather than over two; one that is too high for a page of
// its own is continued on the next. A mark that fits nowhere stands alone.
func paged(f look.ChartFace, fits func(look.ChartFace) bool) (pages []look.ChartFace) {
	page := f
	page.Lanes = nil
	with := func(l look.ChartLane) look.ChartFace {
		out := page
		out.Lanes = append(slices.Clone(page.Lanes), l)
		return out
	}
	turn := func() {
		if len(page.Lanes) > 0 {
			pages = append(pages, page)
			page.Lanes = nil
		}
	}
	for _, lane := range f.Lanes {
		if !fits(with(lane)) {
			turn()
		}
		for n := size(lane); n > 0; n = size(lane) {
			take := n
			if !fits(with(lane)) {
				take = max(1, sort.Search(n, func(k int) bool { return !fits(with(first(lane, k+1))) }))
			}
			page = with(first(lane, take))
			if lane = rest(lane, take); take < n {
				turn()
			}
		}
	}
	turn()
	if len(pages) == 0 {
		return []look.ChartFace{page} // it says that there is nothing
	}
	return pages
}

// size is how many marks a lane has.
func size(l look.ChartLane) int { return len(l.Bars) + len(l.Points) }

// first is a lane with its first marks only, bars before points.
func first(l look.ChartLane, n int) look.ChartLane {
	bars := min(n, len(l.Bars))
	l.Bars, l.Points = l.Bars[:bars], l.Points[:n-bars]
	return l
}

// rest is a lane without its first marks.
func rest(l look.ChartLane, n int) look.ChartLane {
	bars := min(n, len(l.Bars))
	l.Bars, l.Points = l.Bars[bars:], l.Points[n-bars:]
	return l
}

package requests

import (
	"math"
	"slices"
	"time"
)

// Method names how a percentile is read off a sorted list. The two give
// different numbers for short lists, so every figure names its own.
type Method uint8

// Methods.
const (
	NearestRank Method = 1 // the smallest value that at least that share is not above
	Linear      Method = 2 // between two neighbours at (n − 1) × p, as spreadsheets do (type 7)
)

// Spread is how long something took, over the times that are known. What never
// happened has no time: it is counted elsewhere, beside it, and never dropped.
type Spread struct {
	N         int // how many times it is made of; 0: the rest says nothing
	Mean      time.Duration
	Median    time.Duration // Linear: of an even number, the mean of the middle two
	P90       time.Duration // NearestRank
	P90Linear time.Duration // Linear
	Least     time.Duration
	Most      time.Duration
}

// SpreadOf sums up times in any order.
func SpreadOf(times []time.Duration) Spread {
	if len(times) == 0 {
		return Spread{}
	}
	sorted := slices.Sorted(slices.Values(times))
	return Spread{
		N: len(sorted), Mean: mean(sorted), Median: Percentile(sorted, 50, Linear),
		P90: Percentile(sorted, 90, NearestRank), P90Linear: Percentile(sorted, 90, Linear),
		Least: sorted[0], Most: sorted[len(sorted)-1],
	}
}

func mean(times []time.Duration) time.Duration {
	var sum float64
	for _, t := range times {
		sum += float64(t)
	}
	return time.Duration(math.Round(sum / float64(len(times))))
}

// Percentile reads a percentile, 1 … 100, off a list that is sorted upwards;
// 0 of an empty one.
func Percentile(sorted []time.Duration, percent int, by Method) time.Duration {
	n := len(sorted)
	if n == 0 {
		return 0
	}
	percent = min(max(percent, 1), 100)
	if by == NearestRank {
		return sorted[(n*percent+99)/100-1]
	}
	hundredths := (n - 1) * percent
	low, rest := hundredths/100, hundredths%100
	if rest == 0 {
		return sorted[low]
	}
	step := float64(sorted[low+1]) - float64(sorted[low])
	return sorted[low] + time.Duration(math.Round(step*float64(rest)/100))
}

// Share is so many of all.
type Share struct{ Of, All int }

// IntervalBelow is the number of cases under which a share is shown with its interval.
const IntervalBelow = 100

// wilsonZ is the 97.5th percentile of the standard normal distribution.
const wilsonZ = 1.959963984540054

// NeedsInterval tells whether the share is of so few that it is shown with its interval.
func (s Share) NeedsInterval() bool { return s.All < IntervalBelow }

// Part is the share as a part of 1; 0 of none.
func (s Share) Part() float64 {
	if s.All == 0 {
		return 0
	}
	return float64(s.Of) / float64(s.All)
}

// Wilson95 is the 95 % interval of the share by Wilson's score method, as parts
// of 1. Of none it is everything: 0 to 1.
func (s Share) Wilson95() (low, high float64) {
	if s.All == 0 {
		return 0, 1
	}
	n, p := float64(s.All), s.Part()
	z2 := wilsonZ * wilsonZ
	middle := (p + z2/(2*n)) / (1 + z2/n)
	half := wilsonZ / (1 + z2/n) * math.Sqrt(p*(1-p)/n+z2/(4*n*n))
	return max(middle-half, 0), min(middle+half, 1)
}

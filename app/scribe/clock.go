package scribe

import (
	"fmt"
	"strconv"
	"time"

	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// timeDigits is how many digits a time of day has.
const timeDigits = 4

// clockAt writes a time of day to the second.
func clockAt(at mesh.Wall, zone *time.Location) string {
	return time.UnixMilli(int64(at)).In(zone).Format("15:04:05")
}

// shortAt writes a time of day to the minute.
func shortAt(at mesh.Wall, zone *time.Location) string {
	return time.UnixMilli(int64(at)).In(zone).Format("15:04")
}

// placed is a time on the common clock, ± what is known.
func placed(w words.Words, p requests.Placed, zone *time.Location) string {
	at := clockAt(p.Wall, zone)
	switch {
	case !p.Known && p.Within == requests.WithinUnknown:
		return at
	case p.Within <= 0:
		return at
	}
	return w.Say("scribe.within", at, int((p.Within+time.Second-1)/time.Second))
}

// typedTime shows four digits as a time of day, with dashes for those missing.
func typedTime(digits string) string {
	all := []rune(digits)
	for len(all) < timeDigits {
		all = append(all, '–')
	}
	return string(all[:2]) + ":" + string(all[2:])
}

// clockOf reads four digits as hours and minutes.
func clockOf(digits string) (hours, minutes int, ok bool) {
	n, err := strconv.Atoi(digits)
	hours, minutes = n/100, n%100
	return hours, minutes, err == nil && len(digits) == timeDigits && hours < 24 && minutes < 60
}

// aheadMax is how far a typed time of day may lie ahead and still be of today: the
// clock on the wall and the device's differ.
const aheadMax = time.Hour

// lastAt is the last moment at which a clock on the wall showed hours and
// minutes, up to aheadMax from now: never silently a day ago.
func lastAt(now mesh.Wall, zone *time.Location, hours, minutes int) mesh.Wall {
	t := time.UnixMilli(int64(now)).In(zone)
	at := time.Date(t.Year(), t.Month(), t.Day(), hours, minutes, 0, 0, zone)
	if at.Sub(t) > aheadMax {
		at = time.Date(t.Year(), t.Month(), t.Day()-1, hours, minutes, 0, 0, zone)
	}
	return mesh.Wall(at.UnixMilli())
}

// monitorAt is a time of day on the patient monitor as if UTC, on the day that
// brings it nearest to the clock on the wall.
func monitorAt(now mesh.Wall, zone *time.Location, hours, minutes int) mesh.Wall {
	t := time.UnixMilli(int64(now)).In(zone)
	here := time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), 0, time.UTC)
	at := time.Date(t.Year(), t.Month(), t.Day(), hours, minutes, 0, 0, time.UTC)
	switch half := 12 * time.Hour; {
	case at.Sub(here) > half:
		at = at.AddDate(0, 0, -1)
	case here.Sub(at) > half:
		at = at.AddDate(0, 0, 1)
	}
	return mesh.Wall(at.UnixMilli())
}

// minuteAfter is the next full minute as a monitor shows it.
func minuteAfter(hours, minutes int) (int, int) {
	n := (hours*60 + minutes + 1) % (24 * 60)
	return n / 60, n % 60
}

// hhmm writes hours and minutes.
func hhmm(hours, minutes int) string { return fmt.Sprintf("%02d:%02d", hours, minutes) }

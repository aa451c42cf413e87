package kits

import "lintel/mesh"

// Milliseconds and days of a civil calendar.
const (
	msPerDay      = 24 * 60 * 60 * 1000
	daysPerEra    = 146097 // 400 years
	daysToEra     = 719468 // from 0000-03-01 to 1970-01-01
	dayOfUnspoken = 0      // a label may give month and year alone
)

// DayOf is the day of a wall clock in UTC, as 20271231; 0 for no time.
func DayOf(w mesh.Wall) uint32 {
	if w <= 0 {
		return 0
	}
	z := int64(w)/msPerDay + daysToEra
	era, doe := z/daysPerEra, z%daysPerEra
	yoe := (doe - doe/1460 + doe/36524 - doe/146096) / 365
	doy := doe - (365*yoe + yoe/4 - yoe/100)
	mp := (5*doy + 2) / 153 // months since March
	day, month := doy-(153*mp+2)/5+1, mp+3
	year := yoe + era*400
	if month > 12 {
		month, year = month-12, year+1
	}
	return uint32(year*10000 + month*100 + day)
}

// LastDay is the day to whose end something is usable, as 20271231: the expiry
// as written, or the last day of its month where only the month was written
// (day 00). 0 stays 0: not known.
func LastDay(expiry uint32) uint32 {
	if expiry == 0 || expiry%100 != dayOfUnspoken {
		return expiry
	}
	year, month := expiry/10000, expiry/100%100
	return expiry + daysIn(year, month)
}

func daysIn(year, month uint32) uint32 {
	switch month {
	case 4, 6, 9, 11:
		return 30
	case 2:
		if year%4 == 0 && year%100 != 0 || year%400 == 0 {
			return 29
		}
		return 28
	}
	return 31
}

// expiredOn tells whether something with that last day is not usable on a day.
// Nothing is said of what has no known day, or on no day.
func expiredOn(last, on uint32) bool { return last != 0 && on != 0 && last < on }

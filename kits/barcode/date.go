package barcode

import "fmt"

// Bounds of the reference year: with them every year has four digits.
const (
	YearMin = 1900
	YearMax = 9899
)

// A year of two digits lies in the hundred years around the reference year
// (GS1 General Specifications 7.12).
const (
	yearsAhead  = 50
	yearsBehind = 49
)

// Date is a day on a label, with the time of day where the label has one.
type Date struct {
	Year, Month, Day int
	Hour, Minute     int  // only where Timed
	Timed            bool // the label has hours
	Inferred         bool // the label has no day: the month's last one
}

// Known tells whether there is a date.
func (d Date) Known() bool { return d.Month > 0 }

// String is the date as ISO 8601 writes it, empty where there is none.
func (d Date) String() string {
	switch {
	case !d.Known():
		return ""
	case d.Timed:
		return fmt.Sprintf("%04d-%02d-%02dT%02d:%02d", d.Year, d.Month, d.Day, d.Hour, d.Minute)
	}
	return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day)
}

// Before tells whether d comes first. A day without hours is over at its end.
func (d Date) Before(other Date) bool { return d.minute() < other.minute() }

// sameDay tells whether two dates can mean the same day.
func (d Date) sameDay(other Date) bool {
	return d.Year == other.Year && d.Month == other.Month && (d.Day == other.Day || d.Inferred || other.Inferred)
}

// minute numbers the last minute of a date; months count as 31 days.
func (d Date) minute() int {
	if !d.Timed {
		d.Hour, d.Minute = 23, 59
	}
	return (((d.Year*12+d.Month)*31+d.Day)*24+d.Hour)*60 + d.Minute
}

// century gives a year of two digits its century.
func century(twoDigits, year int) int {
	full := year - year%100 + twoDigits
	switch ahead := twoDigits - year%100; {
	case ahead > yearsAhead:
		return full - 100
	case ahead < -yearsBehind:
		return full + 100
	}
	return full
}

func leap(year int) bool { return year%4 == 0 && (year%100 != 0 || year%400 == 0) }

// daysIn is how many days a month has.
func daysIn(year, month int) int {
	switch month {
	case 2:
		if leap(year) {
			return 29
		}
		return 28
	case 4, 6, 9, 11:
		return 30
	}
	return 31
}

// slip is where within a value something is wrong; no slip has no code.
type slip struct {
	code Code
	at   int
}

// dayForm says where year, month and day stand in a value; -1: there is none.
type dayForm struct{ year, yearLen, month, day int }

// readDay reads year, month and day. Without a day, or with day 00 where
// lastDay is set, the month's last one is meant.
func readDay(value string, f dayForm, year int, lastDay bool) (d Date, s slip) {
	d.Year, d.Month = number(value[f.year:f.year+f.yearLen]), number(value[f.month:f.month+2])
	if f.yearLen == 2 {
		d.Year = century(d.Year, year)
	}
	if d.Month < 1 || d.Month > 12 {
		return Date{}, slip{BadMonth, f.month}
	}
	last := daysIn(d.Year, d.Month)
	if f.day >= 0 {
		d.Day = number(value[f.day : f.day+2])
	}
	if d.Day == 0 && (lastDay || f.day < 0) {
		d.Day, d.Inferred = last, true
	}
	if d.Day < 1 || d.Day > last {
		return Date{}, slip{BadDay, f.day}
	}
	return d, slip{}
}

// readDayOfYear reads YYJJJ: the year and the number of the day in it.
func readDayOfYear(value string, year int) (d Date, s slip) {
	d.Year = century(number(value[:2]), year)
	n := number(value[2:5])
	if n < 1 {
		return Date{}, slip{BadDay, 2}
	}
	for d.Month = 1; d.Month <= 12; d.Month++ {
		if days := daysIn(d.Year, d.Month); n > days {
			n -= days
			continue
		}
		d.Day = n
		return d, slip{}
	}
	return Date{}, slip{BadDay, 2}
}

// readHour reads HH at a place of a value into a date.
func readHour(value string, at int, d *Date) slip {
	d.Hour = number(value[at : at+2])
	if d.Hour > 23 {
		return slip{BadHour, at}
	}
	d.Timed = true
	return slip{}
}

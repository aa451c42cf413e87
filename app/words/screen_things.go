package words

import "strings"

// noBreak keeps a number and its measure on one row.
const noBreak = "\u00a0"

// Measured puts no-break spaces between numbers and what follows them in the
// same part of a size or strength: "50 mg/mL, 10 mL" may break only at its comma.
func Measured(detail string) string {
	var out strings.Builder
	for i, r := range detail {
		if r == ' ' && i > 0 && detail[i-1] >= '0' && detail[i-1] <= '9' {
			out.WriteString(noBreak)
			continue
		}
		out.WriteRune(r)
	}
	return out.String()
}

// Counted is so many of something, as it is read: "2 × Ketamine".
func (w Words) Counted(n int64, name string) string {
	return w.Say("thing.counted", n, name)
}

// Thing is so many of an item with its size or strength, in one line.
func (w Words) Thing(n int64, name, detail string) string {
	return strings.TrimSpace(w.Counted(n, name) + " " + detail)
}

// ShortName is a name up to its first comma, where there is little room: what
// stands behind it is not what tells things apart ("Tracheal tube, cuffed"),
// except with drugs, whose names are never shortened.
func ShortName(name string, drug bool) string {
	if short, _, cut := strings.Cut(name, ","); cut && !drug {
		return short
	}
	return name
}

// FirstPart is a size or strength up to its comma: "50 mg/mL" of "50 mg/mL, 10 mL".
func FirstPart(detail string) string {
	first, _, _ := strings.Cut(detail, ",")
	return first
}

// Ago is a time on a screen; least: it may be longer.
func (w Words) Ago(clock string, least bool) string {
	if least {
		return w.Say("age.least", clock)
	}
	return clock
}

package report

import (
	"time"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Exposure is what one person's sheet says of one case. Times are on the common
// clock of the devices, in the zone of whoever reads the paper.
type Exposure struct {
	Unit     string
	Room     mesh.ID
	Code     string // of the case
	Drill    bool
	Tag      mesh.Tag
	Zone     *time.Location
	Dated    time.Time // when the case was opened
	Stays    []ExposureStay
	Breaches []ExposureBreach
	Checks   []ExposureCheck
}

// ExposureStay is one stay in one zone.
type ExposureStay struct {
	Where    string
	From, To time.Time
	Within   time.Duration // ± of both
	Known    bool          // false: that device's clock was compared with no other
	Open     bool          // no coming out was recorded: To is the end of the case
}

// ExposureBreach is a breach, or a wish to get out.
type ExposureBreach struct {
	At   time.Time
	What string
}

// ExposureCheck is a check of protective equipment.
type ExposureCheck struct {
	At      time.Time
	Off     bool
	Good    bool
	Checker mesh.Tag // empty: nobody
}

// ExposureOf reads what was recorded of a tag in a case. False: nothing was.
func ExposureOf(w words.Words, v station.View, c requests.Case, tag mesh.Tag, zone *time.Location) (Exposure, bool) {
	clocks := v.Board.ClocksOf(c.Ref)
	at := func(m requests.Mark) time.Time { return wall(clocks.Place(m).Wall, zone) }
	e := Exposure{
		Unit: string(v.Peer.Unit()), Room: c.Room, Code: requests.Code(c.Ref), Drill: v.Board.IsDrill(c.Ref), Tag: tag, Zone: zone, Dated: at(c.Opened),
	}
	for _, s := range v.Board.Timeline(c.Ref).People {
		if s.Tag == tag {
			e.Stays = append(e.Stays, ExposureStay{
				Where: zoneName(v, c.Room, s.Zone), From: wall(s.From.Wall, zone), To: wall(s.To.Wall, zone),
				Within: max(s.From.Within, s.To.Within), Known: s.From.Known && s.To.Known, Open: s.Open,
			})
		}
	}
	for _, b := range c.Breaches {
		if b.Tag == tag {
			said := string(b.What)
			if line, known := v.Board.ListLine("breach", b.What); known {
				said = string(line.Words)
			}
			if b.Words != "" {
				said += ": " + string(b.Words)
			}
			e.Breaches = append(e.Breaches, ExposureBreach{At: at(b.Mark), What: said})
		}
	}
	for _, p := range c.PPE {
		if p.Wearer == tag {
			e.Checks = append(e.Checks, ExposureCheck{At: at(p.Mark), Off: p.Off, Good: p.Good, Checker: p.Checker})
		}
	}
	return e, len(e.Stays)+len(e.Breaches)+len(e.Checks) > 0
}

func wall(at mesh.Wall, zone *time.Location) time.Time { return time.UnixMilli(int64(at)).In(zone) }

// zoneName is a zone of a room in words.
func zoneName(v station.View, room, zone mesh.ID) string {
	r, _ := v.Board.Room(room)
	for _, z := range r.Zones {
		if z.ID == zone {
			return string(z.Name)
		}
	}
	return string(zone)
}

// Sizes of running text, in mm.
const (
	headSize = 6.0
	bodySize = 3.8
	column   = 38.0
)

// ExposureSheet draws the sheet: A4, standing, apart from every other paper,
// because it follows a person and not a case.
func ExposureSheet(w words.Words, e Exposure) ([]byte, error) {
	s := newSheet(w.Say("exposure.title", e.Tag), false, e.Dated)
	inner, y := s.wide-2*margin, margin
	s.line(margin, y, inner, headSize, strong, w.Say("exposure.title", e.Tag))
	y += headSize * lineStep
	y = s.block(margin, y, inner, bodySize, plain, w.Say("exposure.head", e.Unit, e.Room, e.Code, e.Dated.Format(time.DateOnly)))
	if e.Drill {
		y = s.block(margin, y, inner, bodySize, strong, w.Say("exposure.drill"))
	}
	y = s.section(y, w.Say("exposure.stays"))
	var inside time.Duration
	for _, x := range e.Stays {
		took := x.To.Sub(x.From)
		inside += took
		y = s.cells(y, x.Where, x.From.Format(time.TimeOnly), x.until(w), w.Say("exposure.minutes", minutes(took)), x.within(w))
	}
	y = s.cells(y, w.Say("exposure.sum"), "", "", w.Say("exposure.minutes", minutes(inside)), "")
	y = s.section(y, w.Say("exposure.checks"))
	for _, x := range e.Checks {
		y = s.cells(y, x.At.Format(time.TimeOnly), w.Say(x.id()), w.Say(x.goodID()), x.checker(w))
	}
	y = s.section(y, w.Say("exposure.breaches"))
	if len(e.Breaches) == 0 {
		y = s.cells(y, w.Say("exposure.no-breach"))
	}
	for _, x := range e.Breaches {
		y = s.cells(y, x.At.Format(time.TimeOnly), x.What)
	}
	y = s.section(y, w.Say("exposure.sign"))
	s.rule(margin, y+12, inner*0.45, frameLine)
	s.rule(margin+inner*0.55, y+12, inner*0.45, frameLine)
	s.block(margin, y+16, inner, bodySize, plain, w.Say("exposure.caution"))
	return s.bytes()
}

func (x ExposureStay) until(w words.Words) string {
	if x.Open {
		return w.Say("exposure.no-exit", x.To.Format(time.TimeOnly))
	}
	return x.To.Format(time.TimeOnly)
}

func (x ExposureStay) within(w words.Words) string {
	if !x.Known {
		return w.Say("exposure.own-clock")
	}
	return w.Say("exposure.within", max(1, int(x.Within.Round(time.Second).Seconds())))
}

func (x ExposureCheck) id() words.ID {
	if x.Off {
		return "exposure.off"
	}
	return "exposure.on"
}

func (x ExposureCheck) goodID() words.ID {
	if x.Good {
		return "exposure.good"
	}
	return "exposure.bad"
}

func (x ExposureCheck) checker(w words.Words) string {
	if x.Checker == "" {
		return w.Say("exposure.nobody")
	}
	return w.Say("exposure.by", x.Checker)
}

// minutes rounds up: an exposure is not made shorter on paper.
func minutes(d time.Duration) int { return int((d + time.Minute - 1) / time.Minute) }

// section begins a part of a standing paper.
func (s *sheet) section(y float64, head string) float64 {
	y = s.room(y+3, 20)
	s.rule(margin, y, s.wide-2*margin, frameLine)
	s.line(margin, y+1.5, s.wide-2*margin, bodySize*1.15, strong, head)
	return y + 1.5 + bodySize*lineStep*1.3
}

// cells writes a row of columns; the last one takes what is left.
func (s *sheet) cells(y float64, texts ...string) float64 {
	y = s.room(y, bodySize*lineStep)
	x := margin
	for i, text := range texts {
		wide := column
		if i == len(texts)-1 {
			wide = s.wide - margin - x
		}
		if text != "" {
			s.line(x, y, wide-2, bodySize, plain, text)
		}
		x += wide
		if s.wide-margin-x < column/2 {
			break
		}
	}
	return y + bodySize*lineStep
}

package brief

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// commsPage lists the devices inside, each with what its check found.
func commsPage(w words.Words, s Snapshot, r Room) Page {
	p := Page{Head: look.BannerFace{Icon: look.IconLinkUp, Sentence: joined(r.Name, w.Say("brief.part.comms")), Hint: w.Say("brief.tell.comms")}}
	for _, d := range r.Devices {
		said, good := verdict(w, s, d)
		face := look.BannerFace{Icon: look.IconUrgent, Sentence: deviceName(w, d), Hint: said}
		if good {
			face.Icon = look.IconLoop
		}
		p.Rows = append(p.Rows, Row{Face: face, Pick: pick{what: picksDevice, key: d.Key}})
	}
	p.Rows = append(p.Rows, Row{Face: spareFace(w, r)})
	if self := slices.ContainsFunc(r.Devices, func(d Device) bool { return d.Self }); self {
		p.button(w.Say("brief.send-test"), pick{what: picksGo, to: stepDoor})
	}
	return p
}

func deviceName(w words.Words, d Device) string {
	name := joined(d.Name, string(d.Tag))
	if d.Self {
		return joined(name, w.Say("join.this"))
	}
	return name
}

// spareFace says whether a second device is admitted and held for inside.
func spareFace(w words.Words, r Room) look.BannerFace {
	switch len(r.Devices) {
	case 0:
		return look.BannerFace{Icon: look.IconUrgent, Sentence: w.Say("brief.no-device"), Hint: w.Say("brief.no-device-tell")}
	case 1:
		return look.BannerFace{Icon: look.IconUrgent, Sentence: w.Say("brief.no-spare")}
	}
	return look.BannerFace{Icon: look.IconLoop, Sentence: w.Say("brief.spare")}
}

// Bounds of a good check.
const (
	batteryLow  = 20              // per cent, where the unit set no other
	clockOffMax = 5 * time.Second // beyond it a clock is worth a word
	diskLowMB   = 200
	quietSpan   = 10 * time.Minute // after that a check is old: the door may have been opened
)

// trouble lists, in words, what is wrong with a device's check; what is only
// not known is not trouble.
func trouble(w words.Words, s Snapshot, d Device) (out []string) {
	t := d.Test
	if !d.Self && d.Health != mesh.Connected {
		out = append(out, w.Say("brief.link."+healthID(d.Health)))
	}
	if !d.Asked {
		return append(out, w.Say("brief.test.none"))
	}
	switch {
	case !t.Heard:
		out = append(out, w.Say("brief.test.unheard"))
	case !t.Sound:
		out = append(out, w.Say("brief.test.silent"))
	}
	if !t.DoorOK {
		out = append(out, doorSaid(w, t))
	}
	if t.Battery != BatteryUnknown && t.Battery <= batteryLimit(s) && !t.Charging {
		out = append(out, w.Say("join.battery", t.Battery))
	}
	if t.DiskMB > 0 && t.DiskMB < diskLowMB {
		out = append(out, w.Say("brief.disk", t.DiskMB))
	}
	if off := time.Duration(d.OffsetMS) * time.Millisecond; d.WithinMS > 0 && off.Abs() > clockOffMax {
		out = append(out, clockSaid(w, d))
	}
	return out
}

func batteryLimit(s Snapshot) int {
	if n := number(s.Settings["battery-low"]); n > 0 {
		return int(n)
	}
	return batteryLow
}

func healthID(h mesh.Health) words.ID {
	switch h {
	case mesh.Connected:
		return "up"
	case mesh.Doubtful:
		return "doubtful"
	}
	return "down"
}

func doorSaid(w words.Words, t Test) string {
	switch {
	case t.Door == "":
		return w.Say("brief.door-unread")
	case t.DoorOK:
		return w.Say("brief.door-right", string(t.Door))
	}
	return w.Say("brief.door-wrong", string(t.Door))
}

// clockSaid says how far a clock is off, with what is not known about it.
func clockSaid(w words.Words, d Device) string {
	if d.WithinMS == 0 {
		return w.Say("join.clock-unknown")
	}
	return w.Say("join.clock", fmt.Sprintf("%+.2f", float64(d.OffsetMS)/1000), fmt.Sprintf("%.2f", float64(d.WithinMS)/1000))
}

// verdict is a device's check in one line, and whether it was good.
func verdict(w words.Words, s Snapshot, d Device) (said string, good bool) {
	if wrong := trouble(w, s, d); len(wrong) > 0 {
		return strings.Join(wrong, " · "), false
	}
	since := age(w, s, d.Test.Since, d.Test.Least)
	said = w.Say("brief.test.heard", string(d.Test.HeardBy), since)
	if ago(s, d.Test.Since) > quietSpan {
		said = joined(said, w.Say("brief.test.old"))
	}
	return said, true
}

// commsLine is the outcome of all checks of a room, over its brief.
func commsLine(w words.Words, s Snapshot, r Room) string {
	if len(r.Devices) == 0 {
		return w.Say("brief.no-device")
	}
	good := 0
	var wrong []string
	for _, d := range r.Devices {
		said, well := verdict(w, s, d)
		if well {
			good++
		} else {
			wrong = append(wrong, d.Name+": "+said)
		}
	}
	if len(wrong) > 0 {
		return w.Say("brief.comms.wrong", wrong[0])
	}
	spare := ""
	if len(r.Devices) == 1 {
		spare = w.Say("brief.no-spare")
	}
	return joined(w.Say("brief.comms.good", good), spare)
}

// devicePage has every finding of one device's check.
func devicePage(w words.Words, s Snapshot, h hand, r Room) Page {
	d, _ := r.device(h.device)
	p := Page{Head: look.BannerFace{Icon: look.IconLinkUp, Sentence: deviceName(w, d), Hint: w.Say("brief.tell.comms")}}
	for _, f := range findings(w, s, d) {
		p.Rows = append(p.Rows, Row{Face: f})
	}
	if d.Asked && !d.Self && s.Side != requests.Inside {
		p.button(w.Say("brief.heard"), pick{what: picksHeard, key: d.Key})
		p.button(w.Say("brief.unheard"), pick{what: picksNoSound, key: d.Key})
	}
	if d.Self {
		p.button(w.Say("brief.send-test"), pick{what: picksGo, to: stepDoor})
	}
	return p
}

// findings are the rows of one device: test, link, door, battery, sound,
// screen, disk, clock.
func findings(w words.Words, s Snapshot, d Device) (out []look.BannerFace) {
	t := d.Test
	add := func(good bool, sentence, hint string) {
		f := look.BannerFace{Sentence: sentence, Hint: hint, Icon: look.IconLoop}
		if !good {
			f.Icon = look.IconUrgent
		}
		out = append(out, f)
	}
	unknown := func(sentence string) { out = append(out, look.BannerFace{Icon: look.IconMore, Sentence: sentence}) }
	if d.Self {
		add(true, w.Say("join.this"), "")
	} else {
		trip := ""
		if d.RoundTrip > 0 {
			trip = w.Say("join.round-trip", max(1, d.RoundTrip.Round(time.Millisecond).Milliseconds()))
		}
		add(d.Health == mesh.Connected, w.Say("brief.link."+healthID(d.Health)), trip)
	}
	if !d.Asked {
		add(false, w.Say("brief.test.none"), "")
		return out
	}
	since := age(w, s, t.Since, t.Least)
	switch {
	case !t.Heard:
		add(false, w.Say("brief.test.unheard"), since)
	case !t.Sound:
		add(false, w.Say("brief.test.silent"), since)
	default:
		add(true, w.Say("brief.test.heard", string(t.HeardBy), since), "")
	}
	add(t.DoorOK, doorSaid(w, t), "")
	if t.Battery == BatteryUnknown {
		unknown(w.Say("join.battery-unknown"))
	} else {
		charger := w.Say("brief.no-charger")
		if t.Charging {
			charger = w.Say("brief.charger")
		}
		add(t.Charging || t.Battery > batteryLimit(s), w.Say("join.battery", t.Battery), charger)
	}
	if t.ScreenOn {
		add(true, w.Say("brief.screen-on"), "")
	} else {
		unknown(w.Say("brief.screen-unknown"))
	}
	if t.DiskMB > 0 {
		add(t.DiskMB >= diskLowMB, w.Say("brief.disk", t.DiskMB), "")
	} else {
		unknown(w.Say("brief.disk-unknown"))
	}
	if d.Self {
		return out
	}
	if d.WithinMS == 0 {
		unknown(w.Say("join.clock-unknown"))
	} else {
		add((time.Duration(d.OffsetMS)*time.Millisecond).Abs() <= clockOffMax, clockSaid(w, d), "")
	}
	return out
}

// doorPage asks which number stands on the door, before a test is sent. None is
// marked: it is read on the door.
func doorPage(w words.Words, s Snapshot) Page {
	p := Page{Head: look.BannerFace{Icon: look.IconDoor, Sentence: w.Say("brief.which-door")}}
	for _, r := range s.Rooms {
		p.tile(string(r.ID), pick{what: picksTest, room: r.ID})
	}
	return p
}

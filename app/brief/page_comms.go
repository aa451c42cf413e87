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
		face := look.RowFace{Icon: look.IconUrgent, Tone: look.ToneNext, Word: deviceName(w, d), Detail: said}
		if good {
			face.Icon, face.Tone = look.IconLinkUp, look.TonePlain
		}
		row := p.row(face, pick{what: picksDevice, key: d.Key}, good)
		if d.Asked && !d.Test.Heard && !d.Self && s.Side != requests.Inside {
			row.Side, row.Does = look.BannerFace{Icon: look.IconSoundOn, Sentence: w.Say("brief.heard")}, pick{what: picksHeard, key: d.Key}
		}
	}
	p.row(spareFace(w, r), pick{}, len(r.Devices) > 1)
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
func spareFace(w words.Words, r Room) look.RowFace {
	switch len(r.Devices) {
	case 0:
		return look.RowFace{Icon: look.IconUrgent, Tone: look.ToneNext, Word: w.Say("brief.no-device"), Detail: w.Say("brief.no-device-tell"), Off: true}
	case 1:
		return look.RowFace{Icon: look.IconUrgent, Tone: look.ToneNext, Word: w.Say("brief.no-spare"), Off: true}
	}
	return look.RowFace{Icon: look.IconCopies, Word: w.Say("brief.spare"), Off: true}
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
		out = append(out, batterySaid(w, t))
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

// batterySaid is how full a battery is; an exercise may say so.
func batterySaid(w words.Words, t Test) string {
	if t.Injected {
		return w.Say("brief.battery-drill", t.Battery)
	}
	return w.Say("join.battery", t.Battery)
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
	said = joined(w.Say("brief.test.heard", string(d.Test.HeardBy)), age(w, s, d.Test.Since, d.Test.Least))
	if ago(s, d.Test.Since) > quietSpan {
		said = joined(said, w.Say("brief.test.old"))
	}
	return said, true
}

// commsDone is how many devices inside have passed their check.
func commsDone(w words.Words, s Snapshot, r Room) (n, all int) {
	for _, d := range r.Devices {
		if _, good := verdict(w, s, d); good {
			n++
		}
	}
	return n, len(r.Devices)
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
		p.row(f, pick{}, f.Tone == look.TonePlain && f.Icon != look.IconNone)
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

// findings are the rows of one device: link, test, door, then what it told of
// itself, and its clock.
func findings(w words.Words, s Snapshot, d Device) (out []look.RowFace) {
	if d.Self {
		out = append(out, found(true, look.IconLinkUp, w.Say("join.this"), ""))
	} else {
		trip := ""
		if d.RoundTrip > 0 {
			trip = w.Say("join.round-trip", max(1, d.RoundTrip.Round(time.Millisecond).Milliseconds()))
		}
		out = append(out, found(d.Health == mesh.Connected, look.IconLinkUp, w.Say("brief.link."+healthID(d.Health)), trip))
	}
	if !d.Asked {
		return append(out, found(false, look.IconNone, w.Say("brief.test.none"), ""))
	}
	since := age(w, s, d.Test.Since, d.Test.Least)
	switch {
	case !d.Test.Heard:
		out = append(out, found(false, look.IconNone, w.Say("brief.test.unheard"), since))
	case !d.Test.Sound:
		out = append(out, found(false, look.IconNone, w.Say("brief.test.silent"), since))
	default:
		out = append(out, found(true, look.IconSoundOn, w.Say("brief.test.heard", string(d.Test.HeardBy)), since))
	}
	out = append(out, found(d.Test.DoorOK, look.IconDoor, doorSaid(w, d.Test), ""))
	out = append(out, told(w, s, d.Test)...)
	switch {
	case d.Self: // it is the clock that others are compared with
	case d.WithinMS == 0:
		out = append(out, unknown(w.Say("join.clock-unknown")))
	default:
		out = append(out, found((time.Duration(d.OffsetMS)*time.Millisecond).Abs() <= clockOffMax, look.IconClock, clockSaid(w, d), ""))
	}
	return out
}

// told is what a device said of itself: battery, screen, disk.
func told(w words.Words, s Snapshot, t Test) (out []look.RowFace) {
	if t.Battery == BatteryUnknown {
		out = append(out, unknown(w.Say("join.battery-unknown")))
	} else {
		charger := w.Say("brief.no-charger")
		if t.Charging {
			charger = w.Say("brief.charger")
		}
		out = append(out, found(t.Charging || t.Battery > batteryLimit(s), look.IconBattery, batterySaid(w, t), charger))
	}
	if t.ScreenOn {
		out = append(out, found(true, look.IconLock, w.Say("brief.screen-on"), ""))
	} else {
		out = append(out, unknown(w.Say("brief.screen-unknown")))
	}
	if t.DiskMB > 0 {
		return append(out, found(t.DiskMB >= diskLowMB, look.IconSaved, w.Say("brief.disk", t.DiskMB), ""))
	}
	return append(out, unknown(w.Say("brief.disk-unknown")))
}

// found is a finding that is read: with its own icon when it is good.
func found(good bool, icon look.Icon, word, state string) look.RowFace {
	if !good {
		return look.RowFace{Word: word, State: state, Icon: look.IconUrgent, Tone: look.ToneNext, Off: true}
	}
	return look.RowFace{Word: word, State: state, Icon: icon, Off: true}
}

// unknown is one that nobody can tell: neither good nor trouble.
func unknown(word string) look.RowFace { return look.RowFace{Word: word, Off: true} }

// doorPage asks which number stands on the door, before a test is sent. None is
// marked: it is read on the door.
func doorPage(w words.Words, s Snapshot) Page {
	p := Page{Head: look.BannerFace{Icon: look.IconDoor, Sentence: w.Say("brief.which-door")}}
	for _, r := range s.Rooms {
		p.tile(string(r.ID), pick{what: picksTest, room: r.ID})
	}
	return p
}

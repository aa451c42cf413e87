package door

import (
	"fmt"
	"strings"
	"time"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/kits/calc"
	"lintel/mesh"
)

// Sign is what stands on the door while the air clears: when, and how long yet.
type Sign struct {
	Head   look.BannerFace // over both
	Alone  look.BannerFace // over Clear where there is room for one
	Nearly look.SignFace   // until 99 % are gone; empty: no number can be given
	Clear  look.SignFace   // until 99.9 % are gone, or why there is no number
	Before look.BannerFace // Nearly in one row, where there is no room for more
	Tell   look.BannerFace // what is taken for granted
	Brief  look.BannerFace // the same in fewer words
}

// sign words the sign of a door.
func sign(w words.Words, now mesh.Wall, r Room, zone *time.Location) Sign {
	s := Sign{Head: look.BannerFace{Icon: look.IconDoor, Sentence: joined(string(r.ID), w.Say("door.air"))}}
	s.Alone = look.BannerFace{Icon: look.IconDoor, Sentence: joined(string(r.ID), w.Say("door.air.alone"))}
	none := func(word, why words.ID) Sign {
		s.Alone.Sentence = joined(string(r.ID), w.Say("door.air.name"))
		s.Clear.Word = w.Say(word)
		s.Tell.Sentence = w.Say(why)
		s.Brief = s.Tell
		return s
	}
	nearly, err := calc.AirClearance(int64(r.Air.Milli), calc.Removed99)
	clear, err2 := calc.AirClearance(int64(r.Air.Milli), calc.Removed999)
	switch {
	case r.Air.Event == "":
		return none("door.air.no-event", "door.air.tell-no-event")
	case err != nil || err2 != nil:
		return none("door.air.unknown", "door.air.tell-unknown")
	}
	at99, at999 := r.Air.ends(nearly), r.Air.ends(clear)
	s.Nearly = look.SignFace{Head: w.Say("door.air.99"), Word: clockAt(at99, zone), Detail: left(w, now, at99)}
	s.Clear = look.SignFace{Head: w.Say("door.air.999"), Word: clockAt(at999, zone), Detail: left(w, now, at999)}
	s.Before.Sentence = w.Say("door.air.row-99", clockAt(at99, zone), left(w, now, at99))
	if now < at999 {
		s.Clear.Tone = look.ToneNext
	}
	if now < at99 {
		s.Nearly.Tone = look.ToneNext
	}
	changes := changesSaid(r.Air.Milli)
	s.Tell.Sentence = w.Say("door.air.tell", clockAt(r.Air.Since, zone), r.Air.Event, changes)
	s.Brief.Sentence = w.Say("door.air.brief", clockAt(r.Air.Since, zone), changes)
	return s
}

// ends is when a share is gone, by this device's clock, rounded up to the full
// minute: a sign never says that it is over before the estimate does.
func (a Air) ends(c calc.Clearance) mesh.Wall {
	const minute = mesh.Wall(time.Minute / time.Millisecond)
	at := a.Since + mesh.Wall(c.Exact.Milliseconds())
	return (at + minute - 1) / minute * minute
}

// left says how many minutes are left, the last one begun included.
func left(w words.Words, now, at mesh.Wall) string {
	if now >= at {
		return w.Say("door.air.over")
	}
	return w.Say("door.air.minutes", int((time.Duration(at-now)*time.Millisecond+time.Minute-1)/time.Minute))
}

// clockAt writes a time of day.
func clockAt(at mesh.Wall, zone *time.Location) string {
	return time.UnixMilli(int64(at)).In(zone).Format("15:04")
}

// changesSaid writes thousandths as people do: 12, 7.5.
func changesSaid(milli uint32) string {
	if milli%1000 == 0 {
		return fmt.Sprint(milli / 1000)
	}
	return strings.TrimRight(fmt.Sprintf("%d.%03d", milli/1000, milli%1000), "0")
}

// airFace is the tile that leads to the sign, with how long yet.
func airFace(w words.Words, now mesh.Wall, a Air) look.TileFace {
	f := look.TileFace{Word: w.Say("door.act.air")}
	if c, err := calc.AirClearance(int64(a.Milli), calc.Removed999); err == nil && a.Event != "" {
		f.Detail = left(w, now, a.ends(c))
		if now < a.ends(c) {
			f.Tone = look.ToneNext
		}
	}
	return f
}

package brief

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// lookRoom copies a room with its case, its devices and its drill.
func lookRoom(v station.View, s Snapshot, id mesh.ID) Room {
	out := Room{ID: id, Name: string(id)}
	if r, known := v.Board.Room(id); known && r.Name != "" {
		out.Name = string(r.Name)
	}
	c, open := v.Board.CaseIn(id)
	if open {
		out.Open, out.Case = true, lookCase(v, s, c)
		out.Others = max(0, len(v.Board.TwoCases(id))-1)
	}
	out.Devices = devices(v, id, c)
	if d, on := v.Board.DrillIn(id); on {
		out.Drill = Drill{On: true, Ref: d.Ref, Label: string(d.Label)}
		for _, x := range d.Injects {
			line := Line{ID: x.What, Words: string(x.Words), Done: true, Tag: x.By.Tag}
			line.Since, line.Least = v.Since(x.Mark)
			out.Drill.Given = append(out.Drill.Given, line)
		}
	}
	return out
}

func lookCase(v station.View, s Snapshot, c requests.Case) Case {
	out := Case{Ref: c.Ref, Label: string(c.Label), Hurry: c.Hurry, What: wordsOf(v, listKinds, c.What)}
	out.Since, out.Least = v.Since(c.Opened)
	for _, p := range c.People {
		if p.Side == requests.Inside {
			out.Inside++
		}
	}
	out.People = people(v, s, c)
	for _, p := range out.People {
		if r := s.role(p.RoleID); out.Lead == "" && r.Can&requests.CanLead != 0 && r.Side == requests.Inside {
			out.Lead = p.Tag
		}
	}
	out.Plans, out.Lines = ticked(v, c, listPlans), ticked(v, c, listBrief)
	for i, l := range out.Lines {
		if letter, is := strings.CutPrefix(string(l.ID), rescuePrefix); is {
			out.Lines[i].Lies = lies(v, mesh.ID(letter))
		}
	}
	out.Kits = kitsOf(v, c)
	out.Skipped = skipped(v, c, out)
	return out
}

// wordsOf is a line's words, or its id where no list has it.
func wordsOf(v station.View, list, id mesh.ID) string {
	if l, known := v.Board.ListLine(list, id); known {
		return string(l.Words)
	}
	return string(id)
}

// ticked are the lines of a list with what a case says of them.
func ticked(v station.View, c requests.Case, list mesh.ID) []Line {
	out := lines(v, list)
	for i := range out {
		tick(v, c, list, &out[i])
	}
	return out
}

// tick notes the newest word on a line.
func tick(v station.View, c requests.Case, list mesh.ID, l *Line) {
	for _, t := range c.Ticks {
		if t.List == list && t.Line == l.ID {
			l.Done, l.Tag, l.Said = t.Done, t.By.Tag, string(t.Words)
			l.Since, l.Least = v.Since(t.Mark)
		}
	}
}

// lies is where the rescue set of a letter lies.
func lies(v station.View, letter mesh.ID) string {
	for _, b := range v.Ledger.Bundles() {
		if b.Rescue == letter {
			return string(b.Words)
		}
	}
	return ""
}

// people are those who have a role in the case, were checked, or went in, by
// the order of the roles, then by tag.
func people(v station.View, s Snapshot, c requests.Case) (out []Person) {
	at := func(tag mesh.Tag) *Person {
		for i := range out {
			if out[i].Tag == tag {
				return &out[i]
			}
		}
		out = append(out, Person{Tag: tag})
		return &out[len(out)-1]
	}
	for _, r := range c.Roles {
		role := s.role(r.Role)
		p := at(r.Tag)
		p.Role, p.RoleID, p.Needs = role.Name, role.ID, role.Side != requests.Outside
	}
	for _, p := range c.People {
		if at(p.Tag); p.Side != requests.Outside {
			at(p.Tag).Needs = true
		}
	}
	for _, x := range c.PPE {
		if x.Off || x.Wearer == "" {
			continue
		}
		p := at(x.Wearer)
		p.Needs, p.Checked, p.Good, p.Self, p.Checker = true, true, x.Good, x.Self, x.Checker
		p.Since, p.Least = v.Since(x.Mark)
	}
	place := func(p Person) int {
		i := slices.IndexFunc(s.Roles, func(r Role) bool { return r.ID == p.RoleID })
		if i < 0 {
			return len(s.Roles)
		}
		return i
	}
	slices.SortStableFunc(out, func(a, b Person) int {
		return cmp.Or(cmp.Compare(place(a), place(b)), cmp.Compare(a.Tag, b.Tag))
	})
	return out
}

// kitsOf are the trays that are no rescue sets, and what the room lacks.
func kitsOf(v station.View, c requests.Case) (out []Kit) {
	for _, b := range v.Ledger.Bundles() {
		if b.Rescue != "" || b.Gone {
			continue
		}
		k := Kit{Line: Line{ID: mesh.ID(fmt.Sprint(b.Number)), Words: string(b.Name)}, Lies: string(b.Words)}
		tick(v, c, listKit, &k.Line)
		recorded := len(v.Ledger.BalancesAt(b.LiesAt)) > 0
		for _, t := range b.Lines {
			item, _ := v.Ledger.Item(t.Item)
			l := KitLine{Count: t.Count, Detail: string(item.Value.Detail)}
			l.ID, l.Words = mesh.ID(fmt.Sprintf("%s.%d", k.ID, t.Item)), string(item.Value.Name)
			tick(v, c, listKit, &l.Line)
			k.Lines = append(k.Lines, l)
			if have := v.Ledger.Held(b.LiesAt, t.Item); recorded && have < t.Count {
				k.Lacks = append(k.Lacks, fmt.Sprintf("%d × %s", t.Count-max(0, have), named(item.Value)))
			}
		}
		if len(k.Lines) > 0 && k.ticked() == len(k.Lines) {
			k.Done = true
		}
		out = append(out, k)
	}
	return append(out, roomKit(v, c)...)
}

// roomKitID is the line that the room itself has in the list of kits.
const roomKitID mesh.ID = "room"

// roomKit is what the room and its door should hold, if the unit said so.
func roomKit(v station.View, c requests.Case) []Kit {
	places := []kits.Place{{Sort: kits.InRoom, ID: c.Room}, {Sort: kits.Door, ID: c.Room}}
	k := Kit{Line: Line{ID: roomKitID, Words: string(c.Room)}}
	par := false
	for _, p := range places {
		for _, i := range v.Ledger.Items() {
			_, has := v.Ledger.Par(p, i.Number)
			par = par || has
		}
	}
	if !par {
		return nil
	}
	for _, r := range v.Ledger.Restock(places...) {
		k.Lacks = append(k.Lacks, fmt.Sprintf("%d × %s", r.Missing, named(r.Item)))
	}
	tick(v, c, listKit, &k.Line)
	return []Kit{k}
}

// ticked is how many lines of a kit were found there.
func (k Kit) ticked() (n int) {
	for _, l := range k.Lines {
		if l.Done {
			n++
		}
	}
	return n
}

// named is an item with its size or strength.
func named(i kits.ItemLine) string {
	return strings.TrimSpace(string(i.Name) + " " + words.Measured(string(i.Detail)))
}

// skipped lists what was left out by a tap, and in a hurry whatever was not said.
func skipped(v station.View, c requests.Case, have Case) (out []Skipped) {
	for _, r := range c.Skipped {
		l := Line{ID: r.Line, Words: wordsOf(v, r.List, r.Line)}
		if r.List == listKit {
			l.Words = kitWords(have, r.Line)
		}
		l.Since, l.Least = v.Since(r.Mark)
		tick(v, c, r.List, &l)
		out = append(out, Skipped{List: r.List, Line: l, Tag: r.By.Tag, Made: r.Made || l.Done})
	}
	if !c.Hurry {
		return out
	}
	for _, list := range []mesh.ID{listPlans, listBrief} {
		for _, l := range ticked(v, c, list) {
			known := slices.ContainsFunc(out, func(x Skipped) bool { return x.List == list && x.Line.ID == l.ID })
			if !l.Done && !known {
				out = append(out, Skipped{List: list, Line: l})
			}
		}
	}
	return out
}

func kitWords(c Case, id mesh.ID) string {
	for _, k := range c.Kits {
		if k.ID == id {
			return k.Words
		}
	}
	return string(id)
}

// devices are those that are held inside for the room, this one or others, with
// their newest test request.
func devices(v station.View, room mesh.ID, c requests.Case) (out []Device) {
	links := map[mesh.Key]mesh.PeerState{}
	for _, p := range v.Peer.Peers() {
		links[p.Peer] = p
	}
	names := map[mesh.Key]string{}
	for _, d := range v.Peer.Devices() {
		names[d.Key] = string(d.Name)
	}
	for _, h := range v.Board.Holders() {
		if h.Side != requests.Inside || !h.For(room) {
			continue
		}
		p := links[h.Device]
		d := Device{
			Key: h.Device, Name: names[h.Device], Tag: h.Tag, Self: h.Device == v.Peer.Self(),
			Health: p.Health, RoundTrip: p.RoundTrip, OffsetMS: p.OffsetMS, WithinMS: p.WithinMS,
		}
		if d.Name == "" {
			d.Name = h.Device.String()
		}
		for _, t := range c.Tests {
			if t.Device() == h.Device {
				d.Asked, d.Test = true, lookTest(v, t)
			}
		}
		if shown, _ := v.BatteryShown(h); v.BatteryInject(h) {
			d.Test.Battery, d.Test.Charging, d.Test.Injected = int(shown.Battery), shown.Charging, true
		}
		out = append(out, d)
	}
	return out
}

// lookTest is a test request with what the device told of itself since.
func lookTest(v station.View, t requests.CommsTest) Test {
	out := Test{
		Ref: t.Ref, Battery: int(t.Battery), Charging: t.Charging, DiskMB: t.DiskMB, ScreenOn: t.ScreenOn, Door: t.Door, DoorOK: t.DoorOK,
		Heard: len(t.Heard) > 0,
	}
	out.Since, out.Least = v.Since(t.Mark)
	for _, h := range t.Heard {
		if !out.Sound || h.Sound {
			out.Sound, out.HeardBy = h.Sound, h.By.Tag
		}
	}
	if n, m, told := v.Board.Condition(t.Device()); told && m.At.Compare(t.At) > 0 {
		out.Battery, out.Charging, out.DiskMB = int(n.Battery), n.Charging, n.DiskMB
	}
	return out
}

package join

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// step is the question that stands on the screen.
type step int

const (
	stepHome    step = iota // the unit's devices; without a unit: found or join
	stepName                // what the new unit is called
	stepWhere               // which device shows the code
	stepAddress             // an address is typed
	stepCode                // the code is typed
	stepShow                // this device shows a code
	stepRole                // who has this device: role
	stepTag                 // tag
	stepRooms               // rooms
)

// Invitation is a code that this device shows.
type Invitation struct {
	Code  string // as it is shown, "123 456 7"
	Until mesh.Wall
}

// hand is what the person at this device is doing. The UI goroutine owns it.
type hand struct {
	step    step
	address string
	digits  string
	role    mesh.ID
	tag     mesh.Tag
	rooms   []mesh.ID
	busy    bool // the network is asked, and has not answered
	shown   Invitation
	from    int
	fault   [2]string
}

// what a tap on a choice means.
type what int

const (
	picksBack what = iota
	picksFound
	picksJoin
	picksInvite
	picksHold
	picksNear
	picksType
	picksRole
	picksTag
	picksRoom
	picksEveryRoom
	picksDone
)

// pick is one choice, as data.
type pick struct {
	what what
	text string
	id   mesh.ID
}

// Choice is a choice with what stands on it.
type Choice struct {
	Face look.TileFace
	Pick pick
}

// Page is one question, or the list of devices.
type Page struct {
	Head    string
	Tell    look.BannerFace
	Lines   []look.BannerFace // devices
	Word    string            // in the largest letters
	Choices []Choice
	Keys    *look.KeypadFace
	Entry   bool // a text is typed
	Hint    string
}

// page decides what is shown.
func page(w words.Words, s Snapshot, h hand) Page {
	p := Page{Head: w.Say("join.device", s.Name)}
	switch h.step {
	case stepName:
		p.Head, p.Entry, p.Hint = w.Say("join.name"), true, w.Say("join.name-hint")
		p.add(w.Say("join.found"), pick{what: picksFound})
	case stepWhere:
		p.Head = w.Say("join.where")
		for _, n := range s.Near {
			p.Choices = append(p.Choices, Choice{nearFace(w, n), pick{what: picksNear, text: n.Address}})
		}
		p.add(w.Say("join.type"), pick{what: picksType})
	case stepAddress:
		p.Head, p.Entry, p.Hint = w.Say("join.address"), true, w.Say("join.address-hint")
		p.add(w.Say("join.on"), pick{what: picksDone})
	case stepCode:
		p.code(w, h)
		return p
	case stepShow:
		p.show(w, s, h)
	case stepRole:
		p.Head = w.Say("join.role")
		for _, r := range s.Roles {
			p.Choices = append(p.Choices, Choice{look.TileFace{Word: r.Name}, pick{what: picksRole, id: r.ID}})
		}
	case stepTag:
		p.Head = w.Say("join.tag")
		for _, tag := range tags(h.role) {
			p.add(tag, pick{what: picksTag, text: tag})
		}
	case stepRooms:
		p.rooms(w, s, h)
	default:
		p.home(w, s)
		return p
	}
	p.add(w.Say("inside.back"), pick{what: picksBack})
	return p
}

func (p *Page) add(word string, k pick) {
	p.Choices = append(p.Choices, Choice{look.TileFace{Word: word}, k})
}

// nearFace is a device nearby: its host, then port and how it was found.
func nearFace(w words.Words, n Near) look.TileFace {
	i := strings.LastIndex(n.Address, ":")
	if i < 0 {
		return look.TileFace{Word: n.Address, Detail: n.Way}
	}
	return look.TileFace{Word: n.Address[:i], Detail: w.Say("join.port", n.Address[i+1:], n.Way)}
}

// home is the list of devices, or the two ways into a unit.
func (p *Page) home(w words.Words, s Snapshot) {
	if s.Unit == "" {
		p.Tell = look.BannerFace{Sentence: w.Say("join.none")}
		p.add(w.Say("join.found-unit"), pick{what: picksFound})
		p.add(w.Say("join.join-unit"), pick{what: picksJoin})
		return
	}
	p.Head = w.Say("join.unit", s.Unit, s.Name)
	for _, d := range s.Devices {
		p.Lines = append(p.Lines, deviceFace(w, d))
	}
	p.add(w.Say("join.who"), pick{what: picksHold})
	p.add(w.Say("join.invite"), pick{what: picksInvite})
}

// deviceFace is one device: its name and holder, then link, clock, battery.
func deviceFace(w words.Words, d Device) look.BannerFace {
	name := d.Name
	if d.Held {
		name += " · " + strings.TrimSpace(string(d.Holds.Tag)+" "+d.RoleName)
		if rooms := roomWords(w, d.Holds.Rooms); rooms != "" {
			name += " · " + rooms
		}
	}
	battery := w.Say("join.battery-unknown")
	if d.Battery != BatteryUnknown {
		battery = w.Say("join.battery", d.Battery)
	}
	if d.Self {
		return look.BannerFace{Icon: look.IconSaved, Sentence: name, Hint: w.Say("join.this") + " · " + battery}
	}
	f := look.BannerFace{Icon: look.IconLinkLost, Sentence: name, Hint: w.Say("join.not-connected")}
	switch d.Health {
	case mesh.Connected:
		f.Icon = look.IconLinkUp
	case mesh.Doubtful:
		f.Icon, f.Hint = look.IconLinkDoubtful, w.Say("join.doubtful")
	default:
		return f
	}
	parts := []string{w.Say("join.via." + viaID(d.Via))}
	if d.Health == mesh.Doubtful {
		parts[0] = f.Hint
	}
	if d.RoundTrip > 0 {
		parts = append(parts, w.Say("join.round-trip", max(1, d.RoundTrip.Round(time.Millisecond).Milliseconds())))
	}
	parts = append(parts, clockSaid(w, d), battery)
	f.Hint = strings.Join(parts, " · ")
	return f
}

func viaID(t mesh.Transport) words.ID {
	if t == mesh.OverTCP {
		return "tcp"
	}
	return "quic"
}

// clockSaid says how far a clock is off, with what is not known about it.
func clockSaid(w words.Words, d Device) string {
	if d.WithinMS == 0 {
		return w.Say("join.clock-unknown")
	}
	return w.Say("join.clock", fmt.Sprintf("%+.2f", float64(d.OffsetMS)/1000), fmt.Sprintf("%.2f", float64(d.WithinMS)/1000))
}

func roomWords(w words.Words, rooms []mesh.ID) string {
	if len(rooms) == 0 {
		return w.Say("join.every-room")
	}
	var all []string
	for _, r := range rooms {
		all = append(all, string(r))
	}
	return strings.Join(all, ", ")
}

// codeDigits is how long a code is, its check digit included.
const codeDigits = 7

// code is the keypad for a code that another device shows.
func (p *Page) code(w words.Words, h hand) {
	p.Head = w.Say("join.code", h.address)
	p.Word = threeThreeOne(h.digits)
	p.Keys = &look.KeypadFace{
		Erase: w.Say("keys.erase-short"), Done: w.Say("keys.done-short"), DigitsOff: len(h.digits) >= codeDigits || h.busy, EraseOff: h.busy, DoneOff: true,
	}
	switch {
	case h.busy:
		p.Tell = look.BannerFace{Sentence: w.Say("join.asking")}
	case len(h.digits) < codeDigits:
		p.Tell = look.BannerFace{Sentence: w.Say("join.code-tell")}
	case mesh.DammFits(h.digits):
		p.Tell = look.BannerFace{Sentence: w.Say("join.code-ok")}
		p.Keys.DoneOff = false
	default:
		p.Tell = look.BannerFace{Sentence: w.Say("fault.code-typed"), Tone: look.ToneFault}
	}
}

// threeThreeOne writes digits as codes are shown, with dashes for those missing.
func threeThreeOne(digits string) string {
	all := []rune(digits + strings.Repeat("–", max(0, codeDigits-len(digits))))
	return string(all[:3]) + "\u00a0" + string(all[3:6]) + "\u00a0" + string(all[6:])
}

// show is the code of this device, with the time that is left.
func (p *Page) show(w words.Words, s Snapshot, h hand) {
	p.Head = w.Say("join.show-wait")
	if h.busy || h.shown.Code == "" {
		p.Tell = look.BannerFace{Sentence: w.Say("join.asking")}
		return
	}
	left := time.Duration(h.shown.Until-s.Now) * time.Millisecond
	if left <= 0 {
		p.Tell = look.BannerFace{Sentence: w.Say("join.code-over"), Tone: look.ToneFault}
		p.add(w.Say("join.invite"), pick{what: picksInvite})
		return
	}
	p.Word = strings.ReplaceAll(h.shown.Code, " ", "\u00a0")
	p.Head = w.Say("join.show", look.ClockText(left))
	p.Tell = look.BannerFace{Sentence: w.Say("join.at", s.Address)}
}

// tagsMax is how many tags of a role are offered.
const tagsMax = 6

// tags are what stands on gowns in a role: its letter and a number.
func tags(role mesh.ID) (out []string) {
	for n := range tagsMax {
		out = append(out, fmt.Sprintf("%s%d", station.TagLetter(role), n+1))
	}
	return out
}

// rooms are chosen one tap each; none chosen is every room.
func (p *Page) rooms(w words.Words, s Snapshot, h hand) {
	p.Head = w.Say("join.rooms")
	every := look.TileFace{Word: w.Say("join.every-room"), Tone: look.ToneBefore, Chosen: len(h.rooms) == 0}
	p.Choices = append(p.Choices, Choice{every, pick{what: picksEveryRoom}})
	for _, id := range s.Rooms {
		face := look.TileFace{Word: string(id), Tone: look.ToneBefore, Chosen: slices.Contains(h.rooms, id)}
		p.Choices = append(p.Choices, Choice{face, pick{what: picksRoom, id: id}})
	}
	p.add(w.Say("join.take"), pick{what: picksDone})
}

// holds is what was chosen.
func (h hand) holds() requests.Holds {
	return requests.Holds{Role: h.role, Tag: h.tag, Rooms: slices.Clone(h.rooms)}
}

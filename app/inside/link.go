package inside

import (
	"cmp"
	"slices"
	"strings"
	"unicode/utf8"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// linkRowMax is how many letters stand in the first row of the link's tile, so
// that another row is left.
const linkRowMax = 13

// linkTile is the link in words, as the way to what can be said. What hinders
// stands below it; then the link is said in short.
func linkTile(w words.Words, s Snapshot, long, short look.BannerFace) look.TileFace {
	face := look.TileFace{Word: long.Sentence, Icon: long.Icon, Tone: long.Tone, Chosen: long.Tone == look.ToneFault}
	if said, hinders := hindrance(w, s); hinders {
		face.Word, face.Detail = short.Sentence, said
		return face
	}
	if utf8.RuneCountInString(face.Word) <= linkRowMax {
		face.Detail = w.Say("inside.say")
	}
	return face
}

// headRowMax is how many letters stand beside the link's icon on a phone.
const headRowMax = 17

// withHint says in the row that a phone has for the link what hinders as well;
// if there is no room for both the icon alone says how the link is.
func withHint(face look.BannerFace, hint string) look.BannerFace {
	if utf8.RuneCountInString(face.Sentence+hint) > headRowMax {
		face.Sentence, hint = hint, ""
	}
	face.Hint = hint
	return face
}

// hindrance is what people should know of this device before it is too late.
func hindrance(w words.Words, s Snapshot) (string, bool) {
	switch {
	case s.lowBattery() && s.Injected:
		return w.Say("inside.battery-drill", s.Battery), true
	case s.lowBattery():
		return w.Say("inside.battery", s.Battery), true
	case len(s.Elsewhere) > 0:
		return w.Say("inside.elsewhere", s.Elsewhere[0]), true
	case s.Drill.Inject != "":
		return w.Say("inside.inject"), true
	case s.Leaving && !s.MayStay && s.OnlyHere > 0:
		return w.Say("inside.only-here-short", s.OnlyHere), true
	}
	return "", false
}

// lowBattery tells whether the device may end before the case does.
func (s State) lowBattery() bool {
	return s.Battery != batteryUnknown && s.Battery <= s.Limits.Battery && !s.Charging
}

func onlyHere(w words.Words, n int) string {
	if n == 1 {
		return w.Say("inside.only-here.1")
	}
	return w.Say("inside.only-here.n", n)
}

// link says which runners are in reach and where they are, in a sentence and in
// short.
func link(w words.Words, s Snapshot) (long, short look.BannerFace) {
	var near, tags, doubtful []string
	for _, r := range s.Runners {
		tag := cmp.Or(string(r.Tag), w.Say("inside.runner"))
		switch r.Health {
		case mesh.Connected:
			near, tags = append(near, at(w, r, tag, s.Room)), append(tags, tag)
		case mesh.Doubtful:
			doubtful = append(doubtful, tag)
		}
	}
	switch {
	case len(near) > 0:
		return look.BannerFace{Icon: look.IconLinkUp, Sentence: strings.Join(near, "; ")},
			look.BannerFace{Icon: look.IconLinkUp, Sentence: strings.Join(tags, ", ")}
	case len(doubtful) > 0:
		who := strings.Join(doubtful, ", ")
		return look.BannerFace{Icon: look.IconLinkDoubtful, Sentence: w.Say("inside.link.doubtful", who), Tone: look.ToneNext},
			look.BannerFace{Icon: look.IconLinkDoubtful, Sentence: w.Say("inside.link.doubtful-short", who), Tone: look.ToneNext}
	}
	return look.BannerFace{Icon: look.IconLinkLost, Sentence: w.Say("inside.link.none"), Tone: look.ToneFault},
		look.BannerFace{Icon: look.IconLinkLost, Sentence: w.Say("inside.link.none-short"), Tone: look.ToneFault}
}

// at says where a runner who is in reach is, by that runner's own marks.
func at(w words.Words, r Runner, tag string, room mesh.ID) (said string) {
	switch r.Doing {
	case requests.Away:
		return w.Say("inside.at.away", tag)
	case requests.Here:
		return w.Say("inside.at.here", tag)
	case requests.AtADoor:
		if r.Room == room {
			return w.Say("inside.at.here", tag)
		}
		said = w.Say("inside.at.door", tag, r.Room)
	case requests.Fetching:
		if r.Room == room {
			return w.Say("inside.at.fetching-here", tag)
		}
		said = w.Say("inside.at.fetching", tag, r.Room)
	default:
		return w.Say("inside.link.up", tag)
	}
	if r.Next {
		said = w.Say("inside.at.next", said)
	}
	return said
}

// inReach tells whether a runner's device is connected.
func (s Snapshot) inReach() bool {
	return slices.ContainsFunc(s.Runners, func(r Runner) bool { return r.Health == mesh.Connected || r.Health == mesh.Doubtful })
}

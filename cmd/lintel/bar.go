package main

import (
	"cmp"
	"strings"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/requests"
)

// bar is everything that the frame says, decided and worded.
type bar struct {
	Say    look.BannerFace
	Called look.TileFace // without a word: nothing calls, or the page says it
	Sound  look.BadgeFace
	Ways   []look.TileFace // one for each of outsideWays
	Turns  look.TileFace
	Home   look.TileFace
	Shade  look.TileFace
	Ruler  look.TileFace
	Keys   look.TileFace
	Noise  look.TileFace
}

// barRows decides what the frame shows over a page.
func barRows(w words.Words, s sight, p page, shade look.Shade) (b bar) {
	b.Say, b.Sound = saying(w, s, p), sounding(w, s)
	if len(s.Calls) > 0 && s.Side != requests.Inside && p != pageRequests {
		b.Called = callFace(w, s.Calls[0], len(s.Calls), s.Flash)
	}
	for _, x := range outsideWays() {
		b.Ways = append(b.Ways, look.TileFace{Word: w.Say(x.word()), Off: x == p})
	}
	b.Turns, b.Home = look.TileFace{Word: w.Say("window.pages")}, look.TileFace{Word: w.Say(pageBoard.word())}
	if p == pageChoice {
		b.Turns.Word = w.Say("window.back")
	}
	b.Shade = look.TileFace{Word: w.Say("window.light")}
	if shade == look.Light {
		b.Shade.Word = w.Say("window.dark")
	}
	b.Ruler = look.TileFace{Word: w.Say("window.size"), Off: p == pageMeasure}
	b.Keys = look.TileFace{Word: w.Say("window.keys"), Off: p == pageKeys}
	b.Noise = look.TileFace{Word: w.Say("window.sound-try")}
	return b
}

// saying is the one sentence of the bar: what hinders first, then who calls,
// then what to try.
func saying(w words.Words, s sight, p page) look.BannerFace {
	work := p == s.home()
	switch {
	case s.Fault != nil:
		sentence, hint := explainHere(w, s.Fault)
		return look.BannerFace{Icon: look.IconUrgent, Sentence: sentence, Hint: hint, Tone: look.ToneFault}
	case s.Memory:
		return look.BannerFace{Icon: look.IconNotSaved, Sentence: w.Say("window.memory"), Tone: look.ToneFault}
	case len(s.Calls) > 0 && p == pageRequests && (s.Flash || s.Hint == ""):
		face := look.BannerFace{Icon: look.IconUrgent, Sentence: w.Count("window.calls", len(s.Calls))}
		if s.Flash {
			face.Tone = look.ToneNow
		}
		return face
	case s.Hint != "" && work:
		return look.BannerFace{Sentence: w.Say(s.Hint)}
	case p != pageBoard && p != pageRequests: // which say it themselves
		return exercising(w, s.Drills)
	}
	return look.BannerFace{}
}

// exercising says that exercises go on, and what was given in one last.
func exercising(w words.Words, all []station.Exercise) look.BannerFace {
	if len(all) == 0 {
		return look.BannerFace{}
	}
	face := look.BannerFace{Icon: look.IconUrgent, Tone: look.ToneDrill}
	var rooms []string
	for _, x := range all {
		rooms = append(rooms, string(x.Room))
		face.Hint = cmp.Or(face.Hint, x.Inject)
	}
	face.Sentence = w.Say("runner.drill", strings.Join(rooms, ", "))
	return face
}

// sounding says whether a call would be heard.
func sounding(w words.Words, s sight) look.BadgeFace {
	switch {
	case s.SoundWorks:
		return look.BadgeFace{Icon: look.IconSoundOn, Word: w.Say("window.sound-on")}
	case s.SoundKnown:
		return look.BadgeFace{Icon: look.IconSoundOff, Word: w.Say("window.sound-off"), Tone: look.ToneFault}
	}
	return look.BadgeFace{}
}

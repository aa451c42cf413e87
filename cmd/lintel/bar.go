package main

import (
	"lintel/app/look"
	"lintel/app/words"
	"lintel/requests"
)

// bar is everything that the frame says, decided and worded.
type bar struct {
	Say   look.BannerFace
	Sound look.BadgeFace
	Page  look.TileFace
	Shade look.TileFace
	Ruler look.TileFace
	Noise look.TileFace
}

// barRows decides what the frame shows.
func barRows(w words.Words, s sight, now shown, shade look.Shade) (b bar) {
	b.Say, b.Sound = saying(w, s, now), sounding(w, s)
	b.Page = look.TileFace{Word: w.Say("window.device")}
	if now != shownWork {
		b.Page = look.TileFace{Word: w.Say("window.back")}
		b.Page.Off = !s.Unit || s.Side == 0
	}
	b.Shade = look.TileFace{Word: w.Say("window.light")}
	if shade == look.Light {
		b.Shade.Word = w.Say("window.dark")
	}
	b.Ruler = look.TileFace{Word: w.Say("window.size")}
	b.Noise = look.TileFace{Word: w.Say("window.sound-try")}
	return b
}

// saying is the one sentence of the bar: what hinders first, then who calls,
// then what to try.
func saying(w words.Words, s sight, now shown) look.BannerFace {
	switch {
	case s.Fault != nil:
		sentence, hint := explainHere(w, s.Fault)
		return look.BannerFace{Icon: look.IconUrgent, Sentence: sentence, Hint: hint, Tone: look.ToneFault}
	case s.Memory:
		return look.BannerFace{Icon: look.IconNotSaved, Sentence: w.Say("window.memory"), Tone: look.ToneFault}
	case len(s.Calls) > 0 && now == shownWork && (s.Flash || s.Hint == ""):
		face := look.BannerFace{Icon: look.IconUrgent, Sentence: w.Count("window.calls", len(s.Calls))}
		if s.Flash {
			face.Tone = look.ToneNow
		}
		return face
	case s.Hint != "" && now == shownWork:
		return look.BannerFace{Sentence: w.Say(s.Hint)}
	case now != shownWork || s.Side == requests.Inside || s.Can&requests.CanFetch != 0:
		return look.BannerFace{}
	case s.Can&requests.CanCharge != 0:
		return look.BannerFace{Sentence: w.Say("window.charge")}
	}
	return look.BannerFace{Sentence: w.Say("window.no-screen")}
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

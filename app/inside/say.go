package inside

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// sayPage is what can be said outwards with one tap, what was said both ways,
// and the ways to the other pages, also to those of the device.
func sayPage(w words.Words, s Snapshot, device bool) *Page {
	p := &Page{First: 2, Tell: deviceFace(w, s)}
	for _, l := range s.Phrases {
		p.Choices = append(p.Choices, Choice{look.TileFace{Word: l.Words}, pick{does: picksPhrase, id: l.ID}})
	}
	way := func(id words.ID, icon look.Icon, to page) {
		p.Ways = append(p.Ways, Choice{look.TileFace{Word: w.Say(id), Icon: icon}, pick{does: picksPage, page: to}})
	}
	way("inside.people", look.IconPerson, pagePeople)
	way("inside.breach", look.IconUrgent, pageBreach)
	way("inside.times", look.IconClock, pageTimes)
	way("inside.out", look.IconDoor, pageOut)
	way("inside.drugs", look.IconNone, pageDrugs)
	p.Ways = append(p.Ways, Choice{look.TileFace{Word: w.Say("inside.lock")}, pick{does: picksLock}})
	if device {
		p.Ways = append(p.Ways, Choice{look.TileFace{Word: w.Say("inside.ways")}, pick{does: picksWays}})
	}
	for _, x := range s.Said {
		p.Log = append(p.Log, logFace(w, s, x))
	}
	if len(p.Log) == 0 {
		p.Log = append(p.Log, look.BannerFace{Sentence: w.Say("said.none")})
	}
	if s.Drill.Label != "" {
		p.Real = &Choice{look.TileFace{Word: w.Say("inside.real")}, pick{does: picksReal}}
	}
	return p
}

// deviceFace says whether this device may stay behind, and that an exercise goes on.
func deviceFace(w words.Words, s Snapshot) (face look.BannerFace) {
	if s.Drill.Label != "" {
		return look.BannerFace{Icon: look.IconUrgent, Sentence: w.Say("inside.drill-say", cmp.Or(s.Drill.Inject, s.Drill.Label)), Tone: look.ToneDrill}
	}
	switch {
	case s.MayStay:
		face.Sentence = w.Say("inside.stay")
	case s.OnlyHere > 0:
		face.Sentence = onlyHere(w, s.OnlyHere)
	}
	low, hinders := hindrance(w, s)
	switch {
	case hinders && len(s.Elsewhere) > 0 && !s.lowBattery():
		face = look.BannerFace{Icon: look.IconRunner, Sentence: w.Say("inside.elsewhere-say", s.Elsewhere[0]), Tone: look.ToneNext}
	case hinders && s.lowBattery():
		face = look.BannerFace{Icon: look.IconBattery, Sentence: low, Hint: face.Sentence, Tone: look.ToneFault}
	case hinders:
		face.Icon, face.Tone = look.IconNotSaved, look.ToneFault
	}
	return face
}

// logFace is one thing that was said, with its honest state.
func logFace(w words.Words, s Snapshot, x Said) look.BannerFace {
	state, icon, tone := saidState(w, x)
	clock := w.Ago(look.ClockText(time.Duration(s.Now-x.Since)*time.Millisecond), x.Least)
	face := look.BannerFace{Icon: icon, Sentence: x.Words, Hint: state + " · " + clock}
	if x.Breach && x.By != "" {
		face.Sentence = x.By + ": " + x.Words
	}
	if tone == look.ToneFault {
		face.Tone = tone
	}
	return face
}

// saidState is how far a phrase got: heard is a person's tap, never a device's receipt.
func saidState(w words.Words, x Said) (string, look.Icon, look.Tone) {
	switch {
	case len(x.Heard) > 0:
		who := slices.Clone(x.Heard)
		for i, t := range who {
			who[i] = cmp.Or(t, w.Say("said.somebody"))
		}
		return w.Say("said.heard", strings.Join(who, ", ")), look.IconLoop, look.TonePlain
	case !x.Out:
		return w.Say("said.from", cmp.Or(x.By, w.Say("said.somebody"))), look.IconDoor, look.TonePlain
	case !x.Own:
		return w.Say("said.from", cmp.Or(x.By, w.Say("said.somebody"))), look.IconNone, look.TonePlain
	}
	return delivered(w, x.Reach, look.TonePlain)
}

// called is the newest phrase from outside that nobody here has heard: it stands
// over every page until somebody taps it.
func (r *Rows) called(w words.Words, s Snapshot) {
	r.Called.Off = true
	open := 0
	for _, x := range s.Said {
		if x.Out || len(x.Heard) > 0 {
			continue
		}
		if open++; open == 1 {
			r.CalledBy = x.Ref
			r.Called = look.TileFace{
				Number: w.Say("said.from", cmp.Or(x.By, w.Say("said.somebody"))), Note: w.Say("said.tap-heard"),
				Word: x.Words, Tone: look.ToneNext, Chosen: true,
			}
		}
	}
	if open > 1 {
		r.Called.Note += " · " + w.Say("said.of", open-1)
	}
}

// say says a phrase outwards. Where no case is open it begins one, so that
// somebody outside is called.
func (s *Screen) say(phrase mesh.ID) {
	if !s.snap.Case {
		s.do(station.OpenCase{Case: requests.CaseOpen{Room: s.snap.Room}}, nil)
	}
	s.record(station.Say{Room: s.snap.Room, Phrase: phrase, Out: true})
}

// glance is how long a phrase must have stood before a tap on it counts: a
// finger that was on its way to what stood there before has not read it.
const glance = time.Second

// tapCalled says that the phrase on top was heard.
func (s *Screen) tapCalled() {
	ref := s.rows.CalledBy
	if ref.IsZero() || s.opt.Now().Before(s.stands) {
		return
	}
	s.do(station.Hear{Said: ref}, nil)
}

// notice starts the glance when another phrase stands on top.
func (s *Screen) notice(ref mesh.Ref) {
	if ref != s.noticed {
		s.noticed, s.stands = ref, s.opt.Now().Add(glance)
	}
}

package runner

import (
	"strings"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// NoticeRow is a notice, worded, with its one or two answers.
type NoticeRow struct {
	Face    look.BannerFace // what stands over the list
	Alert   string          // the same in few words
	Thing   string          // what it is about; empty: nothing
	Short   string          // where there is room for a word or two
	Answers []Choice
}

// noticeKey names a notice that somebody has seen at this device.
type noticeKey struct {
	why   requests.CallWhy
	ref   mesh.Ref
	level uint8
}

func (n Notice) key() noticeKey { return noticeKey{n.Why, n.Ref, n.Level} }

// noticeRows words those that nobody has answered or turned away here.
func noticeRows(w words.Words, s Snapshot, h hand) (out []NoticeRow) {
	for _, n := range s.Notices {
		if !h.gone[n.key()] {
			out = append(out, noticeRow(w, n))
		}
	}
	return out
}

// noticeRow says one.
func noticeRow(w words.Words, n Notice) NoticeRow {
	r := wordNotice(w, n)
	if r.Alert == "" {
		r.Alert, r.Thing = r.Face.Sentence, ""
	}
	return r
}

func wordNotice(w words.Words, n Notice) NoticeRow {
	thing, long := "", ""
	if n.Thing.Count > 0 {
		thing = w.Counted(int64(n.Thing.Count), n.Thing.Name)
		long = w.Thing(int64(n.Thing.Count), n.Thing.Name, words.FirstPart(words.Measured(string(n.Thing.Strength))))
	}
	tag := string(n.Tag)
	if tag == "" {
		tag = w.Say("runner.head.untagged")
	}
	r := NoticeRow{Face: look.BannerFace{Icon: look.IconUrgent}, Thing: long, Short: w.Say("runner.notice.short", string(n.Room))}
	seen := choice(look.TileFace{Word: w.Say("runner.notice.seen")}, pick{what: picksLater, key: n.key()})
	goes := choice(look.TileFace{Word: w.Say("runner.act.acknowledge"), Icon: look.IconRunner}, doing(station.Go{Request: n.Ref}))
	switch n.Why {
	case requests.CallBreach:
		r.Face.Sentence, r.Face.Tone = w.Say("runner.notice.breach", string(n.Room), n.Words, tag), look.ToneFault
		r.Answers = []Choice{heard(w, n)}
	case requests.CallSaid:
		r.Face.Sentence, r.Face.Tone = w.Say("runner.notice.said", string(n.Room), n.Words), look.ToneNext
		r.Answers = []Choice{heard(w, n)}
	case requests.CallTest:
		r.Face.Sentence, r.Face.Hint = w.Say("runner.notice.test", string(n.Room)), testHint(w, n)
		r.Answers = []Choice{
			choice(look.TileFace{Word: w.Say("runner.notice.heard"), Icon: look.IconSoundOn}, doing(station.HearTest{Test: n.Ref, Sound: true})),
			choice(look.TileFace{Word: w.Say("runner.notice.no-sound"), Icon: look.IconSoundOff}, doing(station.HearTest{Test: n.Ref})),
		}
	case requests.CallStill, requests.CallReminded:
		r.still(w, n, thing, tag, goes, seen)
	case requests.CallPassed:
		r.passed(w, n, thing, tag, seen)
	case requests.CallContended:
		r.contended(w, n, tag)
		r.Answers = []Choice{seen}
	case NoticeInject:
		r.Face.Sentence, r.Face.Tone = w.Say("runner.notice.inject", string(n.Room), n.Words), look.ToneDrill
		r.Alert, r.Thing, r.Short = w.Say("runner.alert.inject", string(n.Room)), n.Words, w.Say("runner.notice.inject-short", string(n.Room))
		r.Answers = []Choice{seen}
	case NoticeSame:
		r.Face.Sentence = w.Say("runner.notice.same", string(n.Room), thing, tag)
		r.Alert = w.Say("runner.alert.same", string(n.Room))
		r.Answers = []Choice{
			choice(look.TileFace{Word: w.Say("runner.notice.joined")}, doing(station.Join{One: n.Ref, Other: n.Other})),
			choice(look.TileFace{Word: w.Say("runner.notice.another")}, seen.Pick),
		}
	case requests.CallNew:
		r.Face.Sentence, r.Face.Tone = w.Say("runner.notice.nobody", string(n.Room), thing), tone(Request{Urgency: n.Urgency})
		r.Face.Hint = look.ClockText(n.Elapsed)
		r.Alert = w.Say("runner.alert.nobody", string(n.Room))
		r.Answers = []Choice{goes, seen}
	default:
		r.Face.Sentence, r.Face.Tone = w.Say("runner.notice.withdrawn", string(n.Room), thing), look.ToneFault
		r.Alert = w.Say("runner.alert.withdrawn", string(n.Room))
		r.Answers = []Choice{seen}
	}
	return r
}

// doing is a choice that records an act at once.
func doing(act station.Act) pick { return pick{what: picksDo, do: act} }

func heard(w words.Words, n Notice) Choice {
	return choice(look.TileFace{Word: w.Say("runner.notice.heard")}, doing(station.Hear{Said: n.Ref}))
}

// testHint says who tests, with what left in the battery.
func testHint(w words.Words, n Notice) string {
	if n.Battery < 0 {
		return w.Say("runner.notice.battery-unknown", string(n.Tag))
	}
	return w.Say("runner.notice.battery", string(n.Tag), n.Battery)
}

// still asks whoever is going, or tells the other runners that it takes long.
func (r *NoticeRow) still(w words.Words, n Notice, thing, tag string, goes, seen Choice) {
	r.Face.Tone = tone(Request{Urgency: n.Urgency})
	r.Face.Hint = w.Say("runner.notice.usually", look.ClockText(n.Elapsed), look.ClockText(n.Usual))
	if !n.Self {
		r.Face.Sentence = w.Say("runner.notice.late", tag, string(n.Room), thing)
		r.Alert = w.Say("runner.alert.late", string(n.Room), tag)
		r.Answers = []Choice{goes, seen}
		return
	}
	r.Face.Sentence = w.Say("runner.notice.still", string(n.Room), thing)
	r.Alert = w.Say("runner.alert.still", string(n.Room))
	r.Answers = []Choice{
		choice(look.TileFace{Word: w.Say("runner.notice.yes")}, goes.Pick),
		choice(look.TileFace{Word: w.Say("runner.act.could-not")}, pick{what: picksAct, act: requests.ActCouldNot, ref: n.Ref}),
	}
}

// passed asks whether this runner takes what another one gives. Whoever does
// not, gives it back: then both know.
func (r *NoticeRow) passed(w words.Words, n Notice, thing, tag string, seen Choice) {
	r.Face.Icon, r.Face.Tone = look.IconPerson, tone(Request{Urgency: n.Urgency})
	take := choice(look.TileFace{Word: w.Say("runner.notice.take"), Icon: look.IconRunner}, doing(station.Go{Request: n.Ref}))
	if n.Back {
		r.Face.Sentence = w.Say("runner.notice.given-back", tag, string(n.Room), thing)
		r.Alert = w.Say("runner.alert.back", string(n.Room), tag)
		r.Answers = []Choice{take, seen}
		return
	}
	r.Face.Sentence = w.Say("runner.notice.passed", tag, string(n.Room), thing)
	r.Alert = w.Say("runner.alert.passed", string(n.Room), tag)
	r.Answers = []Choice{take, choice(look.TileFace{Word: w.Say("runner.notice.no")}, doing(station.PassOn{Request: n.Ref, To: n.Tag}))}
}

// contended says that two doors need one runner now.
func (r *NoticeRow) contended(w words.Words, n Notice, tag string) {
	var doors []string
	for _, d := range n.Doors {
		doors = append(doors, string(d))
	}
	said := strings.Join(doors, ", ")
	r.Face.Tone = look.ToneNow
	if n.Self {
		r.Face.Sentence, r.Alert = w.Say("runner.notice.contended", said), w.Say("runner.alert.contended", said)
		return
	}
	r.Face.Sentence, r.Alert = w.Say("runner.notice.help", tag, said), w.Say("runner.alert.help", said, tag)
}

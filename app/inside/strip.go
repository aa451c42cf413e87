package inside

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/requests"
)

// strip fills the strip with the first of the open requests.
func (r *Rows) strip(w words.Words, board station.BoardLayout, s Snapshot) {
	all := s.ordered()
	if len(all) == 0 {
		r.Strip = look.StripFace{Word: w.Say("inside.nothing-open")}
		if s.Room == "" {
			r.Strip.Word = w.Say("inside.say-room")
		}
		r.StripIn = look.StripFace{State: w.Say("short.nothing-open")}
		r.Now = look.BannerFace{Sentence: r.Strip.Word}
		r.Open = look.TileFace{Word: w.Say("inside.open"), Off: true}
		return
	}
	first := all[0]
	state, icon, t := state(w, first)
	item, _ := s.item(first.Thing.Item)
	name := words.ShortName(first.Thing.Name, item.Drug != nil)
	r.First = first.Ref
	r.Strip = look.StripFace{
		Word:  w.Thing(int64(first.Thing.Count), name, words.FirstPart(words.Measured(string(first.Thing.Strength)))),
		State: state, Icon: icon, Tone: t, Age: age(w, s, first),
	}
	r.Now = look.BannerFace{Icon: icon, Sentence: r.Strip.Word, Hint: state + " · " + r.Strip.Age}
	if first.Late {
		r.Strip.State, r.Strip.Age = lateState(w, first), ""
	}
	if t == look.ToneFault {
		r.Now.Tone = t
	}
	r.Open = look.TileFace{Word: w.Say("inside.open"), Detail: w.Say("inside.open-of", 1, len(all))}
	switch {
	case !s.inReach() || first.Unreached:
		r.Open.Word, r.Open.Icon = w.Say("inside.sign"), look.IconGlassSign
	case first.can(requests.ActAgree):
		r.Open.Word = w.Say("inside.answer")
	default:
		if _, twin := s.twin(first); twin {
			r.Open.Word = w.Say("inside.same-question")
		}
	}
	short := cmp.Or(wordOn(board, first.Thing.Item), name)
	r.StripIn = look.StripFace{Word: short, State: shortState(w, first), Tone: t}
}

// shortState is a state for the strip of a small screen, of which it shows no
// more than a word or two.
func shortState(w words.Words, r Request) string {
	switch {
	case r.Late:
		return w.Say("short.late")
	case r.Shown == requests.ShownInHand && !r.Out:
		return w.Say("short." + words.LoopWord(r.Loop, r.Unlike))
	case r.Shown == requests.ShownCouldNot, r.Shown == requests.ShownTakeBack:
		return w.Say("tile." + words.ShownID(r.Shown))
	case len(r.Offer) > 0:
		return w.Say("short.offer")
	case r.Shown == requests.ShownAsked && r.Own && r.Reach.Delivery() == words.NotSaved:
		return w.Say("short.not-saved")
	case r.Unreached:
		return w.Say("short.unreached")
	case r.Shown == requests.ShownAsked && r.Own && r.Reach.Delivery() == words.OnRunner:
		return w.Say("short.runner")
	}
	said, _, _ := state(w, r)
	return said
}

// age is how long ago the shown state began; of what takes longer than usual,
// how long since somebody goes for it, and what is usual.
func age(w words.Words, s Snapshot, r Request) string {
	if r.Late {
		return w.Say("age.usual", look.ClockText(r.Took), look.ClockText(r.Usual))
	}
	return w.Ago(look.ClockText(time.Duration(s.Now-r.Since)*time.Millisecond), r.Least)
}

// lateState fits into the strip's row with its age.
func lateState(w words.Words, r Request) string {
	who := strings.Join(slices.DeleteFunc(slices.Clone(r.Going), func(t string) bool { return t == "" }), ", ")
	return w.Say("strip.late", cmp.Or(who, w.Say("inside.runner")), look.ClockText(r.Took), look.ClockText(r.Usual))
}

// state is the honest state of a request in a word or two, with how it is
// drawn. Of what is known of its way here only the furthest is said, never more.
func state(w words.Words, r Request) (string, look.Icon, look.Tone) {
	t := tone(r.Urgency)
	switch {
	case r.Shown == requests.ShownTakeBack:
		return w.Say("strip.take-back"), look.IconWithdraw, t
	case r.Shown == requests.ShownAtDoor:
		return w.Say("shown.at-door"), look.IconDoor, t
	case r.Shown == requests.ShownTakenIn && r.Out:
		return w.Say("shown.taken-out"), look.IconDoor, t
	case r.Shown == requests.ShownTakenIn:
		return w.Say("shown.taken-in"), look.IconDoor, t
	case r.Shown == requests.ShownInHand && r.Out:
		return w.Say("shown.in-hand"), look.IconHand, t
	case r.Shown == requests.ShownInHand:
		return w.Say("loop." + words.LoopWord(r.Loop, r.Unlike)), loopIcon(r), t
	case len(r.Offer) > 0:
		return w.Say("strip.offer"), look.IconHand, t
	case r.Shown == requests.ShownAcknowledged:
		return going(w, r), look.IconRunner, t
	case r.Shown == requests.ShownCouldNot:
		return w.Say("shown.could-not"), look.IconUrgent, t
	}
	if !r.Own {
		return w.Say("shown.asked"), look.IconNone, t
	}
	if r.Unreached && r.Reach.Delivery() != words.NotSaved {
		return w.Say("strip.unreached"), look.IconLinkLost, t
	}
	return delivered(w, r.Reach, t)
}

// delivered is how far an own entry is known to have got, in a word or two.
func delivered(w words.Words, r words.Reach, t look.Tone) (string, look.Icon, look.Tone) {
	switch r.Delivery() {
	case words.NotSaved:
		return w.Count("strip.not-saved", r.Copies), look.IconNotSaved, look.ToneFault
	case words.OnRunner:
		return w.Say("step.runner"), look.IconCopies, t
	case words.Copies:
		return w.Count("step.copies", r.Copies), look.IconCopies, t
	}
	return w.Say("step.saved"), look.IconSaved, t
}

func loopIcon(r Request) look.Icon {
	if r.Loop == requests.LoopClosed && !r.Unlike {
		return look.IconLoop
	}
	return look.IconHand
}

func going(w words.Words, r Request) string {
	switch tags := slices.DeleteFunc(slices.Clone(r.Going), func(t string) bool { return t == "" }); {
	case len(tags) == 1:
		return w.Say("going.one", tags[0])
	case len(tags) > 1:
		return w.Say("going.many", strings.Join(tags, ", "))
	}
	return w.Say("going.one", w.Say("going.tag"))
}

package charge

import (
	"fmt"
	"strings"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
)

// soon tells whether a last day is near: by the calendar, not to the hour.
func (s Snapshot) soon(expiry uint32) bool {
	months := func(d uint32) uint32 { return d/10000*12 + d/100%100 }
	return expiry != 0 && s.Today != 0 && months(expiry) <= months(s.Today)+s.SoonMonths
}

func (s Snapshot) past(expiry uint32) bool { return expiry != 0 && expiry < s.Today }

// kitsPage lists every kit with its state and what is missing in words.
func kitsPage(w words.Words, s Snapshot) View {
	v := View{Head: look.BannerFace{Icon: look.IconKit, Sentence: w.Say("charge.kits.head")}, Empty: w.Say("charge.kits.none")}
	for _, k := range s.Kits {
		f := look.RowFace{Icon: look.IconKit, Word: string(k.ID), Detail: kitDetail(w, s, k), State: kitState(w, k), Tone: kitTone(s, k)}
		v.line(f, pick{what: picksPage, at: Wanted{Page: PageKit, ID: k.ID}})
	}
	if len(s.Templates) == 0 {
		v.Tell = look.BannerFace{Sentence: w.Say("charge.kits.no-template")}
	} else {
		v.button(w.Say("charge.kits.prepare"), pick{what: picksStep, step: stepTemplate})
	}
	v.button(w.Say("charge.kits.expiry"), toPage(PageExpiry))
	return v
}

// kitState is what a kit is, with the number of its seal.
func kitState(w words.Words, k kits.KitRow) string {
	word := w.Say("kit." + words.KitStateID(k.State))
	if k.Seal != "" && k.State == kits.KitSealed {
		return w.Say("charge.kit.sealed-as", word, k.Seal)
	}
	return word
}

func kitTone(s Snapshot, k kits.KitRow) look.Tone {
	switch {
	case k.State == kits.KitExpired:
		return look.ToneNow
	case !k.Ready(), s.soon(k.Expiry):
		return look.ToneNext
	}
	return look.TonePlain
}

// kitDetail is what has to be known of a kit: who did not check it, what is
// missing, what expires.
func kitDetail(w words.Words, s Snapshot, k kits.KitRow) string {
	var out []string
	if !k.TwoPeople && k.State != kits.KitNone && k.State != kits.KitBrokenDown {
		out = append(out, w.Say("charge.kit.one-person"))
	}
	if k.FoundBroken() {
		out = append(out, w.Say("charge.kit.found-broken"))
	}
	switch n := len(k.Missing); {
	case n == 1:
		out = append(out, w.Say("charge.kit.missing", missing(w, k.Missing[0])))
	case n > 1:
		out = append(out, w.Say("charge.kit.missing", w.Count("charge.lines", n)))
	}
	for _, x := range k.Lines {
		if x.HeldBack {
			out = append(out, w.Say("charge.kit.held", x.Lot))
			break
		}
	}
	switch {
	case k.Expiry != 0:
		out = append(out, w.Say("charge.kit.expires", day(w, k.Expiry)))
	case k.State != kits.KitBrokenDown && len(k.Missing) == 0:
		out = append(out, w.Say("charge.kit.no-day"))
	}
	return strings.Join(out, " · ")
}

func missing(w words.Words, m kits.KitMissing) string {
	return thing(w, m.Want-m.Got, m.Item)
}

// more says that there are others.
func more(w words.Words, n int) string {
	if n <= 0 {
		return ""
	}
	return w.Say("charge.and-more", n)
}

// kitPage is one kit: what it holds and lacks, and what can be done with it.
func kitPage(w words.Words, s Snapshot) View {
	k := s.Kit.KitRow
	v := View{Head: look.BannerFace{Icon: look.IconKit, Sentence: joined(string(k.ID), string(k.Name), kitState(w, k)), Hint: kitBy(w, k)}}
	if d := kitDetail(w, s, k); kitTone(s, k) != look.TonePlain {
		v.Tell = look.BannerFace{Sentence: d, Tone: kitTone(s, k)}
	}
	for _, m := range k.Missing {
		v.line(look.RowFace{Word: missing(w, m), Detail: w.Say("charge.kit.want", m.Got, m.Want), State: w.Say("charge.kit.lacks"), Tone: look.ToneNext}, pick{})
	}
	for _, x := range k.Lines {
		held := kits.LotHeld{Lot: x.Lot, Expiry: x.Expiry, Inferred: x.Inferred, How: x.How}
		f := look.RowFace{Word: thing(w, x.Quantity.N, s.Kit.Names[x.Item]), Detail: lot(w, held)}
		switch {
		case x.HeldBack:
			f.State, f.Tone = w.Say("charge.held"), look.ToneNow
		case s.past(kits.LastDay(x.Expiry)):
			f.State, f.Tone = w.Say("charge.expired"), look.ToneNow
		case s.soon(kits.LastDay(x.Expiry)):
			f.State, f.Tone = w.Say("charge.soon"), look.ToneNext
		}
		v.line(f, pick{})
	}
	kitActs(w, &v, k)
	return v
}

func kitBy(w words.Words, k kits.KitRow) string {
	by := w.Say("charge.kit.by", k.PreparedBy)
	if k.CheckedBy == "" {
		return by
	}
	return joined(by, w.Say("charge.kit.checked", k.CheckedBy))
}

// kitActs offers what fits the state; nothing is offered that would contradict it.
func kitActs(w words.Words, v *View, k kits.KitRow) {
	again := pick{what: picksPage, at: Wanted{Page: PagePrepare, ID: k.ID, Template: k.Template}}
	closed := len(k.Openings) == 0 && len(k.BrokenDown) == 0
	if closed && !k.TwoPeople {
		v.button(w.Say("charge.kit.check"), pick{what: picksSecond, to: forCheck})
	}
	if closed && k.Sealed.IsZero() {
		v.button(w.Say("charge.kit.seal"), pick{what: picksStep, step: stepSeal})
	}
	if closed {
		v.button(w.Say("charge.kit.open"), pick{what: picksStep, step: stepOpen})
	}
	v.button(w.Say("charge.kit.again"), again)
	if len(k.BrokenDown) == 0 {
		v.button(w.Say("charge.kit.apart"), pick{what: picksStep, step: stepApart})
	}
}

// expiryPage lists what expires, the first first.
func expiryPage(w words.Words, s Snapshot) View {
	v := View{Head: look.BannerFace{Icon: look.IconClock, Sentence: w.Say("charge.expiry.head", s.SoonMonths)}, Empty: w.Say("charge.expiry.none")}
	for _, x := range s.Expiring {
		if !s.soon(x.Expiry) {
			continue
		}
		f := look.RowFace{Word: thing(w, x.N, x.Item), Detail: joined(s.place(x.Place), w.Say("charge.lot", x.Lot)), State: day(w, x.Expiry), Tone: look.ToneNext}
		if s.past(x.Expiry) {
			f.State, f.Tone = w.Say("charge.expired-on", day(w, x.Expiry)), look.ToneNow
		}
		if x.Held {
			f.State, f.Tone = w.Say("charge.held"), look.ToneNow
		}
		p := pick{what: picksPage, at: Wanted{Page: PageItem, Item: x.Item.Number}}
		if x.Place.Sort == kits.Kit {
			p.at = Wanted{Page: PageKit, ID: x.Place.ID}
		}
		v.line(f, p)
	}
	return v
}

// preparePage proposes what goes into a kit. A person accepts it, and names the
// one who checked.
func preparePage(w words.Words, s Snapshot) View {
	v := View{Head: look.BannerFace{Icon: look.IconKit, Sentence: w.Say("charge.prepare.head", s.For.ID)}, Empty: w.Say("charge.prepare.none")}
	if s.InKit > 0 {
		v.Tell = look.BannerFace{Sentence: w.Count("charge.prepare.stays", s.InKit)}
	}
	for _, x := range s.Fill.Leave {
		v.line(look.RowFace{Word: w.Say("charge.prepare.leave", x.N, x.Lot), State: w.Say("refused." + words.RefusalID(x.Refused)), Tone: look.ToneNow}, pick{})
	}
	for _, m := range s.Fill.Short {
		v.line(look.RowFace{Word: missing(w, m), Detail: w.Say("charge.prepare.nowhere"), State: w.Say("charge.kit.lacks"), Tone: look.ToneNow}, pick{})
	}
	for _, x := range s.Taken {
		f := look.RowFace{Word: thing(w, x.Lot.N, x.Item), Detail: joined(s.place(x.From), string(x.Item.KeptWords)), State: lot(w, x.Lot)}
		if x.Lot.Expiry == 0 || s.soon(kits.LastDay(x.Lot.Expiry)) {
			f.Tone = look.ToneNext
		}
		v.line(f, pick{})
	}
	if len(s.Taken)+s.InKit > 0 {
		v.button(w.Say("charge.prepare.accept"), pick{what: picksSecond, to: forKit})
	}
	return v
}

// newKit is the first free name of a kit of a template.
func newKit(s Snapshot, t mesh.ID) mesh.ID {
	for n := 1; ; n++ {
		id := mesh.ID(fmt.Sprintf("%s-%d", t, n))
		used := false
		for _, k := range s.Kits {
			used = used || k.ID == id && k.State != kits.KitBrokenDown
		}
		if !used {
			return id
		}
	}
}

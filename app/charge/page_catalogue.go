package charge

import (
	"fmt"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/kits"
)

// cataloguePage lists the catalogue, or what was searched for.
func cataloguePage(w words.Words, s Snapshot, x setting) View {
	v := View{Head: look.BannerFace{Icon: look.IconSearch, Sentence: w.Say("charge.catalogue.head")}, Empty: w.Say("charge.catalogue.none"), Search: true}
	if s.For.Text != "" {
		v.Head.Sentence = w.Say("charge.catalogue.found", s.For.Text)
	}
	for _, i := range s.Items {
		f := look.RowFace{Word: named(i), Detail: joinedPlace(s, i.KeptAt, string(i.KeptWords)), State: fmt.Sprint(i.Number)}
		if i.KeptAt.Sort == 0 {
			f.Detail = ""
		}
		v.line(f, pick{what: picksPage, at: Wanted{Page: PageItem, Item: i.Number}})
	}
	v.button(w.Say("charge.find"), pick{what: picksStep, step: stepFind})
	if s.For.Text != "" || s.For.Gone {
		v.button(w.Say("charge.catalogue.all"), toPage(PageCatalogue))
	}
	v.button(w.Say("charge.form.receive"), pick{what: picksPage, at: Wanted{Page: PageForm, Form: FormReceive}})
	v.button(w.Say("charge.form.new-item"), pick{what: picksPage, at: Wanted{Page: PageForm, Form: FormItem}})
	v.button(w.Say("charge.places.head"), toPage(PagePlaces))
	v.button(w.Say("charge.sets.head"), toPage(PageSets))
	if x.files {
		v.button(w.Say("charge.lists.head"), toPage(PageLists))
	}
	if !s.For.Gone && len(s.Form.Gone) > 0 {
		v.button(w.Say("charge.catalogue.gone", len(s.Form.Gone)), pick{what: picksPage, at: Wanted{Page: PageCatalogue, Gone: true}})
	}
	return v
}

// itemPage is one line of the catalogue: pars and alternatives, which are edited
// here, and its lots.
func itemPage(w words.Words, s Snapshot) View {
	i := s.Item
	v := View{
		Head: look.BannerFace{Icon: look.IconKit, Sentence: named(i.ItemLine), Hint: joined(fmt.Sprint(i.Number), joinedPlace(s, i.KeptAt, string(i.KeptWords)))},
		Tell: look.BannerFace{Sentence: w.Say("charge.item.tell")},
	}
	if i.Two {
		v.Tell = look.BannerFace{Sentence: w.Say("charge.item.two"), Tone: look.ToneNext}
	}
	if i.Gone {
		v.Tell = look.BannerFace{Sentence: w.Say("charge.item.gone"), Tone: look.ToneNext}
	}
	kept := false
	for _, p := range i.Pars {
		kept = kept || p.Place == i.KeptAt
		f := look.RowFace{Word: w.Say("charge.item.par", s.place(p.Place)), Detail: w.Say("charge.item.have", i.Have[p.Place]), State: fmt.Sprint(p.Par)}
		if i.Have[p.Place] < p.Par {
			f.Tone = look.ToneNext
		}
		v.line(f, pick{what: picksPar, place: p.Place})
	}
	for _, a := range i.Other {
		v.line(look.RowFace{Word: w.Say("charge.item.other", named(a)), Detail: w.Say("charge.item.take-away"), State: fmt.Sprint(a.Number)}, pick{what: picksNoOther, item: a.Number})
	}
	for _, l := range i.Lots {
		f := look.RowFace{Word: lot(w, l), Detail: w.Say("charge.item.recall"), State: w.Say("charge.containers", l.N)}
		if l.Refused == kits.InQuarantine {
			f.State, f.Tone = w.Say("charge.held"), look.ToneNow
		}
		v.line(f, pick{what: picksPage, at: Wanted{Page: PageRecall, Item: i.Number, Lot: l.Lot}})
	}
	if !kept && i.KeptAt.Sort != 0 {
		v.button(w.Say("charge.item.par-here", s.place(i.KeptAt)), pick{what: picksPar, place: i.KeptAt})
	}
	v.button(w.Say("charge.item.add-other"), pick{what: picksStep, step: stepOther})
	v.button(w.Say("charge.item.change"), pick{what: picksPage, at: Wanted{Page: PageForm, Form: FormItem, Item: i.Number}})
	v.button(w.Say("charge.form.receive"), pick{what: picksPage, at: Wanted{Page: PageForm, Form: FormReceive, Item: i.Number}})
	return v
}

// recallPage says of a lot where it is, which kits hold it, and which cases it
// came into, each with how surely that is known.
func recallPage(w words.Words, s Snapshot) View {
	a := s.Recall
	v := View{
		Head:  look.BannerFace{Icon: look.IconSearch, Sentence: joined(named(a.Item), w.Say("charge.lot", s.For.Lot)), Hint: day(w, a.Lot.Value.Expiry)},
		Tell:  look.BannerFace{Sentence: w.Say("charge.recall.tell")},
		Empty: w.Say("charge.recall.none"),
	}
	if a.HeldBack {
		v.Tell = look.BannerFace{Sentence: w.Say("charge.recall.held"), Tone: look.ToneNow}
	}
	how := func(h kits.HowKnown) string { return w.Say("charge.certain." + words.LotHowID(h)) }
	for _, x := range a.Where {
		word := s.place(x.Cell.Place)
		if x.Cell.Place.Sort >= kits.Used {
			word = joined(sortWord(w, x.Cell.Place.Sort, ""), string(x.Cell.Place.ID))
		}
		n := w.Say("charge.containers", x.N)
		if !x.Cell.Syringe.IsZero() {
			n = joined(w.Say("charge.recall.syringe"), w.Amount(x.N, words.MeasureID(x.Cell.Measure)))
		}
		v.line(look.RowFace{Icon: look.IconList, Word: word, Detail: how(x.How), State: n}, pick{})
	}
	for _, k := range a.Kits {
		f := look.RowFace{Icon: look.IconKit, Word: w.Say("charge.recall.kit", k.ID), Detail: how(k.How), State: w.Say("kit." + words.KitStateID(k.State)), Tone: look.ToneNext}
		v.line(f, pick{what: picksPage, at: Wanted{Page: PageKit, ID: k.ID}})
	}
	for _, c := range a.Cases {
		v.line(look.RowFace{Icon: look.IconDoor, Word: w.Say("charge.recall.case", s.Cases[c.Case]), Detail: how(c.How), Tone: look.ToneNext}, pick{})
	}
	word := words.ID("charge.recall.hold")
	if a.HeldBack {
		word = "charge.recall.let-go"
	}
	v.button(w.Say(word), pick{what: picksHold, yes: !a.HeldBack})
	return v
}

package charge

import (
	"strings"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
)

// Table is one line for each issue with a column for each slot.
type Table struct {
	Columns []string // over the slots
	Rows    []TableRow
}

// TableRow is one issue.
type TableRow struct {
	Face  look.RowFace // what it is, and its state
	Slots []look.BannerFace
	Pick  pick
}

// controlledPage is the controlled-drug record: one line for each issue.
func controlledPage(w words.Words, s Snapshot, x setting) View {
	v := View{
		Head:  look.BannerFace{Icon: look.IconDrug, Sentence: w.Say("charge.controlled.head")},
		Tell:  look.BannerFace{Sentence: w.Say("charge.controlled.caution")},
		Empty: w.Say("charge.controlled.none"),
	}
	t := &Table{}
	for n, r := range s.Issues {
		row := TableRow{Face: issueFace(w, s, r), Pick: pick{what: picksPage, at: Wanted{Page: PageIssue, Ref: r.Ref}}}
		for _, slot := range r.Slots {
			if n == 0 {
				t.Columns = append(t.Columns, w.Say("charge.column."+words.ID(slot.ID)))
			}
			row.Slots = append(row.Slots, slotCell(w, slot, row.Face.Tone))
		}
		t.Rows = append(t.Rows, row)
		f := row.Face
		if r.Residual != 0 {
			f.Detail = joined(f.Detail, w.Say("charge.slot.residual")+" "+slotAmount(w, r.Slots[len(r.Slots)-1].Amount))
		}
		v.line(f, row.Pick)
	}
	for i, l := range s.Listed {
		v.line(look.RowFace{
			Icon: look.IconDrug, Word: named(s.Items[i]), Detail: amount(w, l.Amount), State: w.Say("charge.listed." + words.ID(l.ID)), Tone: look.ToneNext,
		}, pick{})
	}
	if x.broad && len(t.Rows) > 0 {
		v.Table = t
	}
	v.button(w.Say("charge.form.issue"), pick{what: picksPage, at: Wanted{Page: PageForm, Form: FormIssue}})
	v.button(w.Say("charge.form.draw"), pick{what: picksPage, at: Wanted{Page: PageForm, Form: FormDrawUp}})
	return v
}

// issueFace is an issue in short.
func issueFace(w words.Words, s Snapshot, r kits.IssueRecord) look.RowFace {
	f := look.RowFace{Icon: look.IconDrug, Word: named(r.Item), Detail: s.Cases[r.Case], State: w.Say("issue." + words.ID(r.State.Word()))}
	switch r.State {
	case kits.IssueBalanced:
	case kits.IssueOpen, kits.IssueUnwitnessed:
		f.Tone = look.ToneNext
	default:
		f.Tone = look.ToneNow
	}
	return f
}

// slotAmount is what stands in a slot: nothing where nothing is.
func slotAmount(w words.Words, m kits.Measured) string {
	switch {
	case m.Base.N == 0:
		return "0"
	case m.Base.N < 0:
		return w.Say("charge.over-by", w.Amount(-m.Base.N, words.MeasureID(m.Base.Measure)))
	}
	return amount(w, m)
}

// slotCell is a slot in the table: containers and volume over the base measure.
func slotCell(w words.Words, s kits.Slot, tone look.Tone) look.BannerFace {
	m := s.Amount
	f := look.BannerFace{Hint: slotAmount(w, m)}
	if m.Base.N > 0 && m.Base.Measure != mesh.Each && m.Containers+m.OverUL > 0 {
		var parts []string
		if m.Containers > 0 {
			parts = append(parts, w.Say("charge.amp", m.Containers))
		}
		if m.OverUL > 0 {
			parts = append(parts, volume(w, m.OverUL))
		}
		f = look.BannerFace{Sentence: strings.Join(parts, " + "), Hint: w.Amount(m.Base.N, words.MeasureID(m.Base.Measure))}
	}
	if s.ID == kits.SlotResidual && m.Base.N != 0 {
		f.Tone = tone // of the issue: what is open may still come
	}
	return f
}

// equation is an issue in one line: what was issued equals the slots with
// something in them.
func equation(w words.Words, r kits.IssueRecord) string {
	var parts []string
	for _, s := range r.Slots[min(1, len(r.Slots)):] {
		if s.Amount.Base.N != 0 {
			parts = append(parts, w.Say("charge.slot."+words.ID(s.ID))+" "+slotAmount(w, s.Amount))
		}
	}
	if len(r.Slots) == 0 {
		return ""
	}
	return w.Say("charge.equation", slotAmount(w, r.Slots[0].Amount), strings.Join(parts, " + "))
}

// issuePage is one line of the record with everything that was written for it.
func issuePage(w words.Words, s Snapshot, x setting) View {
	if len(s.Issues) == 0 {
		return View{Head: look.BannerFace{Sentence: w.Say("charge.looking")}}
	}
	r := s.Issues[0]
	short := issueFace(w, s, r)
	v := View{
		Head: look.BannerFace{Icon: look.IconDrug, Sentence: joined(short.Word, short.State), Hint: issueBy(w, s, r, x)},
	}
	if x.broad {
		v.Tell = look.BannerFace{Sentence: equation(w, r), Tone: short.Tone}
	}
	for _, slot := range r.Slots {
		f := look.RowFace{Word: w.Say("charge.slot." + words.ID(slot.ID)), State: slotAmount(w, slot.Amount)}
		if slot.ID == kits.SlotResidual && slot.Amount.Base.N != 0 {
			f.Tone = short.Tone
		}
		v.line(f, pick{})
	}
	for _, e := range r.Entries {
		p := pick{what: picksPage, at: Wanted{Page: PageForm, Form: FormReverse, Ref: r.Ref, Movement: e.Ref}}
		if len(e.Reversed) > 0 {
			p = pick{}
		}
		v.line(entryFace(w, s, e, x), p)
	}
	for _, c := range r.Closings {
		f := look.RowFace{Word: w.Say("charge.closed"), Detail: joined(clock(c.Wall, x.zone), string(c.By.Tag)), State: string(c.Why)}
		if c.Why == "" && r.Residual != 0 {
			f.State, f.Tone = w.Say("charge.why.unsaid"), look.ToneNext
		}
		v.line(f, pick{})
	}
	v.button(w.Say("charge.form.end"), pick{what: picksPage, at: Wanted{Page: PageForm, Form: FormEnd, Ref: r.Ref}})
	if len(r.Unwitnessed) > 0 {
		v.button(w.Say("charge.countersign"), pick{what: picksSecond, to: forWitness})
	}
	if len(r.Closings) == 0 {
		v.button(w.Say("charge.close"), pick{what: picksClose})
	}
	return v
}

// issueBy is who took it and checked it, and where the paper register has it.
func issueBy(w words.Words, s Snapshot, r kits.IssueRecord, x setting) string {
	out := []string{s.Cases[r.Case], clock(r.Wall, x.zone), w.Say("charge.taken-by", r.TakenBy)}
	if r.CheckedBy != "" {
		out = append(out, w.Say("charge.kit.checked", r.CheckedBy))
	}
	if r.AuthorisedBy != "" {
		out = append(out, w.Say("charge.authorised", r.AuthorisedBy))
	}
	if r.Register != "" {
		out = append(out, w.Say("charge.register", r.Register))
	}
	return joined(out...)
}

// entryFace is one movement of an issue, with who saw it and how.
func entryFace(w words.Words, s Snapshot, e kits.IssueEntry, x setting) look.RowFace {
	f := look.RowFace{Word: joined(entryWord(w, s, e), amount(w, e.Amount)), Detail: joined(clock(e.Wall, x.zone), string(e.By.Tag))}
	var seen []string
	for _, x := range e.Witnesses {
		seen = append(seen, w.Say("charge.seen-by", x.Tag, w.Say("grade."+words.GradeID(x.Grade))))
	}
	if e.ReceivedBy != "" {
		seen = append(seen, w.Say("charge.received-by", e.ReceivedBy))
	}
	f.State = strings.Join(seen, " · ")
	switch {
	case len(e.Reversed) > 0:
		f.State = w.Say("charge.reversed")
	case e.Needs && !e.Seen:
		f.State, f.Tone = w.Say("charge.unseen"), look.ToneNext
	}
	return f
}

// entryWord is what a movement did.
func entryWord(w words.Words, s Snapshot, e kits.IssueEntry) string {
	switch {
	case e.Kind == kits.KindDrawnUp:
		return w.Say("charge.drawn-up")
	case e.To.Sort >= kits.Used && e.To.Sort <= kits.LeftWithPatient:
		return sortWord(w, e.To.Sort, e.Why)
	}
	return w.Say("charge.way", s.place(e.From), s.place(e.To))
}

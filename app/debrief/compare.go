package debrief

import (
	"time"

	"lintel/app/look"
	"lintel/app/look/sheet"
	"lintel/app/words"
)

// Compare is the figures of cases beside each other: what is looked at first,
// then others, then all together.
type Compare struct {
	Labels []string
	Own    Column
	Others []Column // those that are seen come from somewhere among them
	All    Column
}

// Column is one case, or all.
type Column struct {
	Head  look.BannerFace
	Cells []string // as many as there are Labels
}

// beside puts the case among the others: in columns where there is room, else
// one below the other.
func beside(p *Page, w words.Words, s Snapshot, h hand, g setting) {
	rolesTold := look.BannerFace{Sentence: w.Say("debrief.beside"), Hint: w.Say("debrief.no-roles")}
	if len(s.All.Roles) > 0 {
		rolesTold.Hint = w.Say("debrief.no-persons")
	}
	toRoles := pick{what: picksStep, step: stepRoles}
	if !g.roomy {
		p.Sheet = stacked(w, s, g.zone)
		p.Sheet.Tell = look.BannerFace{Hint: rolesTold.Hint}
		if len(s.All.Roles) > 0 {
			p.Sheet.Choices = []choice{sheet.Tile(look.TileFace{Word: w.Say("debrief.to.roles")}, toRoles)}
		}
		return
	}
	p.Head, p.Compare = rolesTold, compare(w, s, g.zone)
	p.Buttons = []Button{back(w)}
	if len(s.All.Roles) > 0 {
		p.Buttons = append(p.Buttons, Button{Face: look.BannerFace{Sentence: w.Say("debrief.to.roles")}, pick: toRoles})
	}
}

// compare words the columns.
func compare(w words.Words, s Snapshot, zone *time.Location) *Compare {
	own, _ := s.looked()
	out := &Compare{Own: columnOf(w, own, zone), All: Column{Head: look.BannerFace{Sentence: w.Say("debrief.all"), Hint: w.Say("debrief.all-of", s.All.Cases, s.All.Drills)}}}
	for _, f := range figures(w, own.Figures, own, lists{}) {
		out.Labels = append(out.Labels, f.Label)
	}
	out.Own.Head.Hint = w.Say("debrief.this")
	out.All.Cells = cells(figures(w, s.All, Case{}, lists{}))
	for _, c := range s.others() {
		out.Others = append(out.Others, columnOf(w, c, zone))
	}
	return out
}

func columnOf(w words.Words, c Case, zone *time.Location) Column {
	f := look.BannerFace{Sentence: c.Label, Hint: opened(c, zone)}
	if f.Sentence == "" {
		f.Sentence = c.Room
	}
	if c.Drill {
		f.Sentence, f.Tone = joined(w.Say("list.case-drill"), f.Sentence), look.ToneDrill
	}
	return Column{Head: f, Cells: cells(figures(w, c.Figures, c, lists{}))}
}

func cells(all []Figure) (out []string) {
	for _, f := range all {
		out = append(out, f.Value)
	}
	return out
}

// stacked is each case as one line, for where there is no room beside it.
func stacked(w words.Words, s Snapshot, zone *time.Location) *face {
	f := &face{Head: w.Say("debrief.beside")}
	own, _ := s.looked()
	add := func(head string, c Column) {
		f.Lines = append(f.Lines, line{Face: look.BannerFace{Sentence: head, Hint: w.Say("debrief.in-short",
			c.Cells[atAck], c.Cells[atDeliver], c.Cells[atClosed], c.Cells[atUnanswered], c.Cells[atOpenings], c.Cells[atInside])}, Still: true})
	}
	all := compare(w, s, zone)
	add(joined(w.Say("debrief.this"), name(own)), all.Own)
	for _, c := range all.Others {
		add(joined(c.Head.Sentence, c.Head.Hint), c)
	}
	add(joined(w.Say("debrief.all"), all.All.Head.Hint), all.All)
	return f
}

// Places of figures among all, for a case in one line.
const (
	atAck        = 1
	atDeliver    = 3
	atUnanswered = 5
	atClosed     = 8
	atOpenings   = 9
	atInside     = 10
)

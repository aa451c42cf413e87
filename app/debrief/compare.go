package debrief

import (
	"time"

	"lintel/app/look"
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
	rolesTold := look.BannerFace{Sentence: w.Say("debrief.beside"), Hint: w.Say("debrief.no-roles", s.All.Drills)}
	if len(s.All.Roles) > 0 {
		rolesTold.Hint = w.Say("debrief.no-persons", s.All.Drills)
	}
	if !g.roomy {
		p.Sheet = stacked(w, s, g)
		return
	}
	p.Head, p.Compare = rolesTold, compare(w, s, g.zone)
	p.Buttons = []Button{back(w)}
	if len(s.All.Roles) > 0 {
		p.Buttons = append(p.Buttons, Button{Face: look.BannerFace{Sentence: w.Say("debrief.to.roles")}, pick: pick{what: picksStep, step: stepRoles}})
	}
}

// compare words the columns.
func compare(w words.Words, s Snapshot, zone *time.Location) *Compare {
	own, _ := s.looked()
	out := &Compare{Own: columnOf(w, own, zone), All: Column{Head: look.BannerFace{Sentence: w.Say("debrief.all"), Hint: w.Count("done.cases", s.All.Cases)}}}
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
	f := look.BannerFace{Sentence: c.Label, Hint: time.UnixMilli(int64(c.Opened)).In(zone).Format(time.DateOnly)}
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

// Cases that a figure stands beside where there is no room for columns.
const (
	besideBroad  = 3
	besideNarrow = 1
)

// stacked is one figure below the other, each with those of the newest other
// cases and of all.
func stacked(w words.Words, s Snapshot, g setting) *face {
	f, c := &face{Head: w.Say("debrief.beside")}, compare(w, s, g.zone)
	n := besideNarrow
	if g.broad {
		n = besideBroad
	}
	c.Others = c.Others[:min(n, len(c.Others))]
	for i, label := range c.Labels {
		var beside []string
		for _, o := range append(c.Others, c.All) {
			beside = append(beside, w.Say("debrief.beside-of", o.Head.Sentence, o.Cells[i]))
		}
		f.Lines = append(f.Lines, line{Face: look.BannerFace{Sentence: label + ": " + c.Own.Cells[i], Hint: joined(beside...)}, Still: true})
	}
	return f
}

// others are the cases that stand beside the one that is looked at.
func (s Snapshot) others() (out []Case) {
	for _, c := range s.Cases {
		if c.Ref != s.Of && c.Figured {
			out = append(out, c)
		}
	}
	return out
}

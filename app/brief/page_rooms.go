package brief

import (
	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
)

// roomsPage lists the rooms, each with its case and the way for a patient who
// cannot wait.
func roomsPage(w words.Words, s Snapshot) Page {
	p := Page{Head: look.BannerFace{Icon: look.IconDoor, Sentence: w.Say("brief.rooms")}}
	if s.InMemory {
		p.Tell = look.BannerFace{Icon: look.IconNotSaved, Sentence: w.Say("brief.memory"), Tone: look.ToneFault}
	}
	for _, r := range s.Rooms {
		row := p.row(roomFace(w, s, r), pick{what: picksRoom, room: r.ID}, false)
		row.Side, row.Does = look.BannerFace{Icon: look.IconUrgent, Sentence: w.Say("brief.hurry")}, pick{what: picksHurry, room: r.ID}
		if r.Open {
			row.Side, row.Does = look.BannerFace{Sentence: w.Say("brief.board")}, pick{what: picksBoard, room: r.ID}
		}
	}
	if len(s.Rooms) == 0 {
		p.Tell = look.BannerFace{Sentence: w.Say("brief.no-rooms")}
	}
	p.button(w.Say("brief.unit"), pick{what: picksGo, to: stepUnit})
	return p
}

// roomFace is what goes on in a room.
func roomFace(w words.Words, s Snapshot, r Room) look.RowFace {
	f := look.RowFace{Word: r.Name, Detail: w.Say("brief.no-case")}
	if r.Drill.On {
		f.Icon, f.Tone = look.IconDrill, look.ToneDrill
	}
	if !r.Open {
		if r.Drill.On {
			f.Detail = w.Say("brief.drill")
		}
		return f
	}
	c := r.Case
	lead := w.Say("brief.no-lead")
	if c.Lead != "" {
		lead = w.Say("brief.leads", string(c.Lead))
	}
	done, all := c.done()
	f.Word = joined(r.Name, caseName(w, c))
	f.State = age(w, s, c.Since, c.Least)
	f.Detail = joined(lead, w.Count("brief.inside", c.Inside), w.Say("brief.done-of", done, all))
	if r.Drill.On {
		f.Detail = w.Say("brief.drill") + " " + f.Detail
	}
	return f
}

// caseName is what kind of case it is, and what people call it.
func caseName(w words.Words, c Case) string {
	what := c.What
	if what == "" {
		what = w.Say("brief.kind-open")
	}
	return joined(what, c.Label)
}

// done is how much of the brief is done: lines, kits, and people checked.
func (c Case) done() (n, all int) {
	for _, lines := range [][]Line{c.Plans, c.Lines} {
		m, of := doneOf(lines)
		n, all = n+m, all+of
	}
	for _, k := range c.Kits {
		all++
		if k.Done {
			n++
		}
	}
	m, of := c.checked()
	return n + m, all + of
}

func doneOf(lines []Line) (n, all int) {
	for _, l := range lines {
		if l.Done {
			n++
		}
	}
	return n, len(lines)
}

// checked is how many of those who go in were checked well, by another.
func (c Case) checked() (n, all int) {
	for _, p := range c.People {
		if p.Needs {
			all++
			if p.Checked && p.Good && !p.Self {
				n++
			}
		}
	}
	return n, all
}

// kindPage asks what kind of case begins.
func kindPage(w words.Words, s Snapshot, r Room) Page {
	p := Page{Head: look.BannerFace{Icon: look.IconDoor, Sentence: w.Say("brief.kind", r.Name)}}
	for _, k := range s.Kinds {
		p.row(look.RowFace{Word: k.Words}, pick{what: picksKind, id: k.ID}, false)
	}
	p.Buttons = append(p.Buttons, Button{Face: look.BannerFace{Icon: look.IconUrgent, Sentence: w.Say("brief.hurry")}, Pick: pick{what: picksHurry, room: r.ID}})
	return p
}

// endPage says where a case goes on, or why it is shut.
func endPage(w words.Words, s Snapshot, r Room) Page {
	p := Page{Head: look.BannerFace{Icon: look.IconDoor, Sentence: w.Say("brief.end", r.Name)}}
	p.Entry, p.Hint = true, w.Say("brief.move-hint")
	for _, id := range []words.ID{"over", "nothing-done", "opened-twice"} {
		said := w.Say("brief.shut." + id)
		p.row(look.RowFace{Word: said, State: w.Say("brief.shut")}, pick{what: picksShut, text: said}, false)
	}
	for _, other := range s.Rooms {
		if other.ID != r.ID {
			p.row(look.RowFace{Icon: look.IconDoor, Word: other.Name, State: w.Say("brief.move")}, pick{what: picksMove, text: other.Name}, false)
		}
	}
	p.button(w.Say("brief.move-typed"), pick{what: picksMove})
	return p
}

// casePage is what of the brief is done, with the way to each part of it.
func casePage(w words.Words, s Snapshot, r Room) Page {
	c := r.Case
	p := Page{Head: look.BannerFace{Icon: look.IconDoor, Sentence: joined(r.Name, caseName(w, c)), Hint: commsLine(w, s, r)}}
	switch {
	case r.Others > 0:
		p.Tell = look.BannerFace{Icon: look.IconUrgent, Sentence: w.Say("brief.two-cases"), Tone: look.ToneNext}
	case c.Hurry && len(c.left()) > 0:
		p.Tell = look.BannerFace{Icon: look.IconUrgent, Sentence: w.Count("brief.hurried", len(c.left())), Tone: look.ToneNext}
	}
	part := func(id words.ID, to step, n, all int) {
		p.row(look.RowFace{Word: w.Say("brief.part." + id), State: w.Say("brief.of", n, all)}, pick{what: picksGo, to: to}, all > 0 && n >= all)
	}
	p.row(look.RowFace{Word: w.Say("brief.part.roles"), State: w.Count("brief.people", len(c.People))}, pick{what: picksGo, to: stepRoles}, len(c.People) > 0)
	for _, to := range []step{stepPlans, stepLines, stepSets, stepSingly} {
		n, all := doneOf(c.lines(to))
		part(partID(to), to, n, all)
	}
	kits := 0
	for _, k := range c.Kits {
		if k.Done {
			kits++
		}
	}
	part("kit", stepKits, kits, len(c.Kits))
	n, all := c.checked()
	part("ppe", stepPPE, n, all)
	n, all = commsDone(w, s, r)
	p.row(look.RowFace{Word: w.Say("brief.part.comms"), State: w.Say("brief.of", n, all)}, pick{what: picksGo, to: stepComms}, all > 0 && n == all)
	if left := c.left(); len(left) > 0 {
		p.row(look.RowFace{Word: w.Say("brief.part.skipped"), State: w.Count("brief.skipped", len(left)), Tone: look.ToneNext}, pick{what: picksGo, to: stepSkipped}, false)
	}
	p.row(look.RowFace{Word: w.Say("brief.part.end")}, pick{what: picksGo, to: stepEnd}, false)
	p.onward(w, c)
	return p
}

// onward leads to the board: as it is, or past what is not done, which is then
// recorded as left out.
func (p *Page) onward(w words.Words, c Case) {
	if n := len(c.open()); n > 0 && !c.Hurry {
		p.button(w.Count("brief.leave", n), pick{what: picksLeave})
		return
	}
	p.button(w.Say("brief.board"), pick{what: picksBoard})
}

// open are the lines and kits that are neither done nor recorded as left out.
func (c Case) open() (out []Skipped) {
	known := func(list, id mesh.ID) bool {
		for _, x := range c.Skipped {
			if x.List == list && x.Line.ID == id {
				return true
			}
		}
		return false
	}
	add := func(list mesh.ID, l Line) {
		if !l.Done && !known(list, l.ID) {
			out = append(out, Skipped{List: list, Line: l})
		}
	}
	for _, l := range c.Plans {
		add(listPlans, l)
	}
	for _, l := range c.Lines {
		add(listBrief, l)
	}
	for _, k := range c.Kits {
		add(listKit, k.Line)
	}
	return out
}

// left are the lines that were left out and not said since.
func (c Case) left() (out []Skipped) {
	for _, x := range c.Skipped {
		if !x.Made {
			out = append(out, x)
		}
	}
	return out
}

// skippedPage lists what was left out; a tap says that it is done after all.
func skippedPage(w words.Words, s Snapshot, r Room) Page {
	p := Page{Head: look.BannerFace{Icon: look.IconDoor, Sentence: joined(r.Name, w.Say("brief.part.skipped")), Hint: w.Say("brief.skipped-tell")}}
	for _, x := range r.Case.Skipped {
		face := look.RowFace{Word: x.Line.Words, Detail: w.Say("brief.skipped-hurry")}
		switch {
		case x.Made:
			face.Icon, face.Detail, face.State = look.IconSpeak, w.Say("brief.made"), said(w, s, x.Line)
		case x.Tag != "":
			face.Detail = w.Say("brief.skipped-by", string(x.Tag), age(w, s, x.Line.Since, x.Line.Least))
		}
		p.row(face, pick{what: picksTick, list: x.List, id: x.Line.ID, done: !x.Made}, x.Made)
	}
	return p
}

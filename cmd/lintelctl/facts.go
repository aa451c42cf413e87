package main

import (
	"slices"
	"strings"

	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// factEvent is something that was recorded for a case, its requests apart.
type factEvent struct {
	Event string   `json:"event"` // fact
	Kind  words.ID `json:"kind"`
	Case  string   `json:"case"` // code of the case
	Room  mesh.ID  `json:"room"`
	Fact  string   `json:"fact"` // its own code
	Ref   string   `json:"ref"`

	Happened int64    `json:"happened"`       // milliseconds since 1970 UTC, by the author's clock
	Late     bool     `json:"late,omitempty"` // entered or corrected afterwards
	Role     mesh.ID  `json:"role,omitempty"` // of whoever recorded it
	By       mesh.Tag `json:"by,omitempty"`

	Tag     mesh.Tag   `json:"tag,omitempty"` // whom it is about
	Checker mesh.Tag   `json:"checker,omitempty"`
	List    mesh.ID    `json:"list,omitempty"`
	What    mesh.ID    `json:"what,omitempty"`  // line, phrase, role, zone, step, time …
	Lines   []mesh.ID  `json:"lines,omitempty"` // those that were left out
	Words   string     `json:"words,omitempty"`
	Attempt uint32     `json:"attempt,omitempty"`
	Aerosol bool       `json:"aerosol,omitempty"`
	Names   string     `json:"names,omitempty"` // code of the fact that it is about
	Undone  bool       `json:"undone,omitempty"`
	Flags   []words.ID `json:"flags,omitempty"`

	mark requests.Mark
	as   words.ID // the sentence, where it is not the one of the kind
	text string   // for people
}

func (e factEvent) say(w words.Words) string {
	said := w.Say("fact.line", e.Fact, e.Room, e.text)
	if e.By != "" || e.Role != "" {
		said += w.Say("device.by", strings.TrimSpace(string(e.By)+" "+string(e.Role)))
	}
	if e.Late {
		said += w.Say("device.and") + w.Say("fact.late")
	}
	for _, f := range e.Flags {
		said += w.Say("device.and") + w.Say("fact.flag."+f)
	}
	if e.Undone {
		said = w.Say("fact.undone", said)
	}
	return said
}

// facts words what was recorded for one case. Whoever made it owns it.
type facts struct {
	w   words.Words
	b   *requests.Board
	c   requests.Case
	out []factEvent
}

// factsOf lists what was recorded for a case, in the order all devices agree on.
func factsOf(w words.Words, b *requests.Board, c requests.Case) []factEvent {
	f := &facts{w: w, b: b, c: c}
	f.course()
	f.prepared()
	f.tests()
	f.people()
	f.voices()
	f.times()
	f.afterwards()
	slices.SortStableFunc(f.out, func(x, y factEvent) int {
		if n := x.mark.At.Compare(y.mark.At); n != 0 {
			return n
		}
		return x.mark.Ref.Compare(y.mark.Ref)
	})
	return f.out
}

// add begins a fact; the caller fills in the rest.
func (f *facts) add(kind words.ID, m requests.Mark, about factEvent, blanks ...any) {
	e := about
	e.Event, e.Kind, e.mark = "fact", kind, m
	e.Case, e.Room, e.Fact, e.Ref = requests.Code(f.c.Ref), f.c.Room, requests.Code(m.Ref), m.Ref.Hex()
	if e.Happened == 0 {
		e.Happened, e.Late = int64(m.When()), m.By.Happened != 0 || m.Corrected != 0
	}
	e.Role, e.By = m.By.Role, m.By.Tag
	if e.as == "" {
		e.as = kind
	}
	e.text = f.w.Say("fact."+e.as, blanks...)
	if e.Words != "" {
		e.text += f.w.Say("fact.words", e.Words)
	}
	f.out = append(f.out, e)
}

// line is a line of a list in words; its id where the list lacks it.
func (f *facts) line(list, id mesh.ID) string {
	if l, known := f.b.ListLine(list, id); known && l.Words != "" {
		return string(l.Words)
	}
	return string(id)
}

// named is a role as people read it.
func (f *facts) named(role mesh.ID) string {
	if r, known := f.b.Role(role); known {
		return string(r.Name)
	}
	return string(role)
}

// course is how the case began, went on and ended.
func (f *facts) course() {
	c := f.c
	about := factEvent{What: c.What, Words: string(c.Label)}
	if c.What != "" {
		about.as = "case-what"
	}
	f.add("case", c.Opened, about, f.line("what", c.What))
	if c.Hurry {
		f.out[0].Flags = []words.ID{"hurry"}
	}
	for _, x := range c.Moves {
		f.add("moved", x.Mark, factEvent{Words: string(x.Why)}, c.Room)
	}
	for _, x := range c.Shut {
		f.add("shut", x.Mark, factEvent{Words: string(x.Why)}, c.Room)
	}
}

// prepared is what was agreed and checked before the door closed.
func (f *facts) prepared() {
	for _, x := range f.c.Roles {
		f.add("role", x.Mark, factEvent{Tag: x.Tag, What: x.Role}, x.Tag, f.named(x.Role))
	}
	for _, x := range f.c.Ticks {
		kind := words.ID("tick")
		if !x.Done {
			kind = "untick"
		}
		f.add(kind, x.Mark, factEvent{List: x.List, What: x.Line, Words: string(x.Words)}, f.line(x.List, x.Line))
	}
	for _, x := range f.c.PPE {
		kind := words.ID("ppe")
		if x.Off {
			kind = "ppe-off"
		}
		e := factEvent{Tag: x.Wearer, Checker: x.Checker, Words: string(x.Words)}
		if !x.Good {
			e.Flags = append(e.Flags, "bad")
		}
		if x.Self {
			e.Flags = append(e.Flags, "self")
		}
		f.add(kind, x.Mark, e, x.Wearer, f.person(x.Checker))
	}
	f.skipped()
}

// skipped lists what was left out, each list of each tap once.
func (f *facts) skipped() {
	type group struct {
		ref  mesh.Ref
		list mesh.ID
	}
	at := map[group]int{}
	for _, x := range f.c.Skipped {
		g := group{x.Ref, x.List}
		i, begun := at[g]
		if !begun {
			i = len(f.out)
			at[g] = i
			f.add("skipped", x.Mark, factEvent{List: x.List}, x.List)
		}
		if e := &f.out[i]; x.Made {
			e.text += f.w.Say("fact.left-since", f.line(x.List, x.Line))
		} else {
			e.Lines = append(e.Lines, x.Line)
			e.text += f.w.Say("fact.left", f.line(x.List, x.Line))
		}
	}
}

// person is a tag, or that nobody was named.
func (f *facts) person(t mesh.Tag) string {
	if t == "" {
		return f.w.Say("fact.nobody")
	}
	return string(t)
}

// tests are the test requests with the door shut, and who heard them.
func (f *facts) tests() {
	for _, x := range f.c.Tests {
		e := factEvent{What: x.Door}
		if !x.DoorOK {
			e.Flags = append(e.Flags, "door")
		}
		battery := f.w.Say("fact.unknown")
		if x.Battery >= 0 {
			battery = f.w.Say("fact.percent", x.Battery)
		}
		f.add("test", x.Mark, e, battery)
		for _, h := range x.Heard {
			heard := factEvent{Names: requests.Code(x.Ref)}
			if !h.Sound {
				heard.Flags = append(heard.Flags, "no-sound")
			}
			f.add("test-heard", h.Mark, heard, requests.Code(x.Ref), h.RoundTripMS)
		}
	}
}

// people is who went where, what failed, and how they came out of their gear.
func (f *facts) people() {
	for _, x := range f.c.Crossings {
		kind := words.ID("out")
		if x.In {
			kind = "in"
		}
		e := factEvent{Tag: x.Tag, What: x.Zone, Checker: x.Checker}
		if x.Checker == "" {
			e.Flags = append(e.Flags, "unchecked")
		} else {
			e.as = kind + "-checked"
		}
		f.add(kind, x.Mark, e, x.Tag, x.Zone, x.Checker)
	}
	for _, x := range f.c.Breaches {
		e := factEvent{Tag: x.Tag, What: x.What, Words: string(x.Words)}
		if len(x.Heard) == 0 {
			e.Flags = append(e.Flags, "unheard")
		}
		f.add("breach", x.Mark, e, f.person(x.Tag), f.line("breach", x.What))
		f.heard(x.Ref, x.Heard)
	}
	for _, x := range f.c.Doffing {
		e := factEvent{Tag: x.Tag, What: x.Step, Checker: x.Checker, List: "doff"}
		if !x.Good {
			e.Flags = append(e.Flags, "bad")
		}
		f.add("doff", x.Mark, e, x.Tag, f.line("doff", x.Step), f.person(x.Checker))
	}
}

package debrief

import (
	"slices"
	"time"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// Lists of the unit that this screen reads.
const (
	listKinds     mesh.ID = "what"
	listTimes     mesh.ID = "time"
	listBreaches  mesh.ID = "breach"
	listInjects   mesh.ID = "inject"
	listPhraseIn  mesh.ID = "phrase-in"
	listPhraseOut mesh.ID = "phrase-out"
	listQuestions mesh.ID = "debrief"
)

// BesideMax is how many cases have their figures in a Snapshot, the one that is
// looked at not counted.
const BesideMax = 24

// Snapshot is what the screen shows, copied out of the station.
type Snapshot struct {
	Now       mesh.Wall
	By        mesh.By
	InMemory  bool             // nothing new is saved on this device
	UndoFor   time.Duration    // how long a tap can be taken back here
	Of        mesh.Ref         // the case that is looked at; zero: there is none yet
	Course    Course           // of that case
	Cases     []Case           // all of them, the newest first
	All       requests.Figures // of every case that was no exercise
	Roles     map[mesh.ID]string
	Questions []Question // with the answers of the case that is looked at
}

// Case is one case in short.
type Case struct {
	Ref     mesh.Ref
	Room    string
	Label   string
	What    string
	Opened  mesh.Wall
	Over    bool
	Drill   bool
	Figured bool // Figures are there
	Figures requests.Figures
	Debrief Debrief
}

// Debrief is what was last said about whether one was held.
type Debrief struct {
	Said bool
	Held bool
	Why  string
	Tag  mesh.Tag
	At   mesh.Wall
}

// Question is a line of the unit's list with its newest answer.
type Question struct {
	ID     mesh.ID
	Words  string
	Answer string // empty: none
	Tag    mesh.Tag
}

// Look copies what the screen shows of a case; the zero Ref, or one that is no
// case, means the newest. It runs in the station's loop.
func Look(v station.View, of mesh.Ref) Snapshot {
	h, _ := v.Board.Holder(v.Peer.Self())
	s := Snapshot{
		Now: v.Now.Wall, By: mesh.By{Role: h.Role, Tag: h.Tag}, InMemory: v.Peer.InMemory(), UndoFor: v.Board.Seconds("undo-for"),
		Roles: map[mesh.ID]string{},
	}
	for _, r := range v.Board.Roles() {
		s.Roles[r.ID] = string(r.Name)
	}
	cases := slices.Clone(v.Board.Cases())
	if len(cases) == 0 {
		return s
	}
	slices.Reverse(cases)
	i := max(0, slices.IndexFunc(cases, func(c requests.Case) bool { return c.Ref == of }))
	s.Of = cases[i].Ref
	for n, c := range cases {
		s.Cases = append(s.Cases, short(v, c, n == i || n < BesideMax))
	}
	s.Course = course(v, cases[i], s.Cases[i].Figures)
	s.All = v.Board.Figures(mesh.Ref{})
	s.Questions = questions(v, cases[i])
	return s
}

// short is a case in short, with its figures where they are wanted.
func short(v station.View, c requests.Case, figured bool) Case {
	out := Case{Ref: c.Ref, Room: string(c.Room), Label: string(c.Label), What: wordsOf(v, listKinds, c.What), Opened: c.Opened.When(), Over: c.Over, Figured: figured}
	if r, known := v.Board.Room(c.Room); known && r.Name != "" {
		out.Room = string(r.Name)
	}
	out.Drill = v.Board.IsDrill(c.Ref)
	if n := len(c.Debriefs); n > 0 {
		d := c.Debriefs[n-1]
		out.Debrief = Debrief{Said: true, Held: d.Held, Why: string(d.Why), Tag: d.By.Tag, At: d.When()}
	}
	if figured {
		out.Figures = v.Board.Figures(c.Ref)
	}
	return out
}

// questions are the lines of the list with the answers of a case.
func questions(v station.View, c requests.Case) (out []Question) {
	for _, l := range v.Board.List(listQuestions) {
		q := Question{ID: l.ID, Words: string(l.Words)}
		for _, a := range c.Answers {
			if a.Line == l.ID {
				q.Answer, q.Tag = string(a.Words), a.By.Tag
			}
		}
		out = append(out, q)
	}
	return out
}

// wordsOf is a line's words, or its id where no list has it.
func wordsOf(v station.View, list, id mesh.ID) string {
	if l, known := v.Board.ListLine(list, id); known && l.Words != "" {
		return string(l.Words)
	}
	return string(id)
}

// looked is the case that is looked at.
func (s Snapshot) looked() (Case, bool) {
	i := slices.IndexFunc(s.Cases, func(c Case) bool { return c.Ref == s.Of })
	if i < 0 {
		return Case{}, false
	}
	return s.Cases[i], true
}

func (s Snapshot) question(id mesh.ID) (q Question, n int) {
	n = slices.IndexFunc(s.Questions, func(q Question) bool { return q.ID == id })
	if n < 0 {
		return Question{}, n
	}
	return s.Questions[n], n
}

// answered is how many questions have an answer.
func (s Snapshot) answered() (n int) {
	for _, q := range s.Questions {
		if q.Answer != "" {
			n++
		}
	}
	return n
}

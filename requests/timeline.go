package requests

import "lintel/mesh"

// Timeline is one case on one clock, in lanes. Every lane is in order of time.
type Timeline struct {
	Of       mesh.Ref
	Start    Placed
	End      Placed // the end of the case, else the last thing that was recorded
	Moments  []MomentAt
	People   []StayAt
	Requests []Bar
	Openings []OpeningAt
	Breaches []BreachAt
	Phrases  []PhraseAt
	Apart    []mesh.Key // devices whose clocks were never compared: their marks stand by their own
}

// MomentAt is a noted time.
type MomentAt struct {
	Moment
	Placed  Placed
	Monitor Placed // on the patient monitor's clock; not Known: the case is not tied to one
}

// StayAt is one person's stay in one zone.
type StayAt struct {
	Tag      mesh.Tag
	Zone     mesh.ID
	Side     Side
	From, To Placed
	Open     bool // no coming out was recorded: To is the end of the case
}

// Bar is one request from its asking to its end.
type Bar struct {
	Request  Request
	From, To Placed
	Open     bool    // it never ended: To is the end of the case
	Points   []Point // its marks that count
}

// Point is a mark on a bar.
type Point struct {
	Mark
	Placed Placed
}

// OpeningAt is one opening of the door.
type OpeningAt struct {
	From, To  Placed
	Measured  bool // by a contact at the door; else derived from what crossed
	HandOvers int  // taken in or out
	Crossings int  // persons
}

// BreachAt is a breach.
type BreachAt struct {
	Harm
	Placed Placed
}

// PhraseAt is a phrase.
type PhraseAt struct {
	Phrase
	Placed Placed
}

// Timeline lays a case out in time. Of a Ref that is no case it is empty.
func (b *Board) Timeline(of mesh.Ref) Timeline { return Timeline{} }

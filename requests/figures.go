package requests

import (
	"time"

	"lintel/mesh"
)

// RolesFrom is the number of cases from which there are figures per role.
const RolesFrom = 5

// Figures are what can be learned from a case, or from all of them. There is
// never one per person. Times are on the common clock of the devices.
type Figures struct {
	Of     mesh.Ref // the case; zero: all that were no exercise
	Drill  bool     // the case is an exercise
	Cases  int      // how many they are of
	Drills int      // exercises that were left out

	Requests int
	Needs    int // joined requests are one need

	ToAcknowledge Spread     // from asked to the first "going"
	ToDeliver     Spread     // from asked to the first taking in
	Unanswered    []mesh.Ref // asked, and nobody outside answered; in no spread
	Undelivered   []mesh.Ref // asked, and never taken in; not in ToDeliver
	Withdrawn     int        // of Undelivered: not wanted any more

	WrongCaught []mesh.Ref // read-backs that were something else than asked, and were refused or corrected before the door
	Closed      Share      // of what was asked and brought: loops that were closed

	Openings  OpeningFigures
	Inside    time.Duration // in sum over persons
	Entries   int           // persons going in
	StillIn   int           // persons without a coming out: counted to the end of the case
	Breaches  int
	Debriefs  Share       // of the cases that are over: those with a debrief
	NoDebrief []mesh.Text // the reasons given

	Within time.Duration // ± of every time above, at most
	Apart  int           // times between devices whose clocks were never compared: in no spread
	Roles  []RoleFigures // by role; none before RolesFrom cases
}

// OpeningFigures is how often and how long a door was open.
type OpeningFigures struct {
	Count    int
	Measured bool          // by a contact at the door; else derived from what crossed it
	Window   time.Duration // derived: crossings within this of the first are one opening
	Open     time.Duration // measured: in sum
}

// RoleFigures are the figures of one role over all cases.
type RoleFigures struct {
	Role          mesh.ID
	Cases         int // in which it took part
	Asked         int // requests
	Acknowledged  int
	ToAcknowledge Spread // of what it acknowledged
	ToDeliver     Spread // of what it acknowledged
	Closed        Share  // of what it asked for
}

// Figures sums up a case, or with the zero Ref all cases that were no exercise.
func (b *Board) Figures(of mesh.Ref) Figures { return Figures{} }

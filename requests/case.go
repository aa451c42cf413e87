package requests

import "lintel/mesh"

// Case is one job behind one door with everything that was recorded for it but
// its requests' own marks. Lists hold the facts that count, in the order all
// devices agree on; what was undone is left out. Slices are shared with
// the board and must not be changed.
type Case struct {
	Ref     mesh.Ref // its CaseOpen
	Opened  Mark
	Room    mesh.ID
	What    mesh.ID
	Label   mesh.Label
	Follows mesh.Ref // the case whose stock stayed inside; zero: none
	Hurry   bool     // patient cannot wait

	Over    bool       // somebody shut it
	Shut    []Ending   // who, when, why
	MovedTo mesh.Label // where it goes on; empty: here
	Moves   []Ending   // each CaseMoved; Why is where to

	Roles     []RoleOf     // newest per tag, by tag
	Ticks     []Tick       // newest per list and line, by list, then line
	PPE       []Check      // every check, in order
	Skipped   []SkippedRow // what "patient cannot wait" or an override left out
	Tests     []CommsTest  // every test request, in order
	People    []Person     // who went where, by tag
	Crossings []Crossing   // each going in and coming out, in order
	Breaches  []Harm
	Doffing   []Doff // every step, in order
	Said      []Phrase
	Moments   []Moment      // the scribe's times, by when they happened
	Charts    []Chart       // ties to the patient monitor's clock, in order
	Debriefs  []DebriefNote // newest last
	Answers   []Answer      // newest per line, by line
	Drills    []DrillRow    // exercises in this case
	Requests  []mesh.Ref    // asked for this case, in order
	Doors     []DoorSeen    // measured openings and shuttings, in order
}

// RoleOf is what a person does in a case.
type RoleOf struct {
	Mark
	Tag  mesh.Tag
	Role mesh.ID
}

// Tick is the newest word on a line of a list.
type Tick struct {
	Mark
	List  mesh.ID
	Line  mesh.ID
	Done  bool
	Words mesh.Text
}

// Check is one person's protective equipment as checked by another.
type Check struct {
	Mark
	Wearer  mesh.Tag
	Checker mesh.Tag
	Off     bool // at doffing
	Good    bool
	Words   mesh.Text
	Self    bool // wearer and checker are the same tag, or one is missing: it stands, and is no check by another
}

// SkippedRow is a line that was left out, until somebody ticks it after all.
type SkippedRow struct {
	Mark
	List mesh.ID
	Line mesh.ID
	Made bool // ticked since
}

// CommsTest is a device's test request, and who heard it.
type CommsTest struct {
	Mark
	TestAsked
	Heard  []Hearing
	DoorOK bool // the room on the screen is the room on the door
}

// Hearing answers a test request from outside.
type Hearing struct {
	Mark
	Sound       bool // a person heard the call
	RoundTripMS uint32
}

// Person is where a tag is by what was recorded.
type Person struct {
	Tag     mesh.Tag
	Zone    mesh.ID // the zone entered last and not left; empty: out
	Side    Side    // of that zone; Outside: out
	Since   Mark    // the crossing that brought the person there
	Checker mesh.Tag
}

// Crossing is a going in or a coming out.
type Crossing struct {
	Mark
	Tag     mesh.Tag
	Zone    mesh.ID
	Side    Side // of the zone
	In      bool
	Checker mesh.Tag // who checked the PPE; empty: nobody
}

// Harm is a breach of protective equipment, or a wish to get out.
type Harm struct {
	Mark
	Tag   mesh.Tag
	What  mesh.ID
	Words mesh.Text
	Heard []Mark // SaidHeard naming it: somebody outside knows
}

// Doff is a step of doffing that was read aloud.
type Doff struct {
	Mark
	Tag     mesh.Tag
	Step    mesh.ID
	Checker mesh.Tag
	Good    bool
}

// Phrase is a fixed phrase that was said through the device.
type Phrase struct {
	Mark
	Room   mesh.ID
	Phrase mesh.ID
	Out    bool // from inside to outside
	Heard  []Mark
}

// Moment is a time that was noted.
type Moment struct {
	Mark
	What     mesh.ID
	Attempt  uint32 // 0: it has no number
	Aerosol  bool
	Words    mesh.Text
	Happened mesh.Wall // by the author's clock: as corrected, else as stated, else as recorded
	Late     bool      // entered or corrected afterwards
	Fixes    []LateFix // every correction, in order; the newest is in use
	Against  []mesh.ID // out of order: what should have come before and did not, or came later
}

// LateFix is a correction of when something happened; all stay.
type LateFix struct {
	Mark
	Happened mesh.Wall
	WithinMS uint32 // ±, milliseconds; 0: not said
}

// Chart ties the patient monitor's clock to the device's.
type Chart struct {
	Mark
	Monitor  mesh.Wall // milliseconds, what the monitor showed read as if it were UTC
	WithinMS uint32    // ±, milliseconds; 0: not said
}

// DebriefNote says whether a debrief was held.
type DebriefNote struct {
	Mark
	Held bool
	Why  mesh.Text
}

// Answer is the newest answer to a plain question.
type Answer struct {
	Mark
	Line  mesh.ID
	Words mesh.Text
}

// DrillRow is an exercise: from its beginning until somebody says that this is
// real, or its case is over.
type DrillRow struct {
	Mark
	Case    mesh.Ref
	Room    mesh.ID
	Label   mesh.Label
	Injects []Injected
	Real    []Mark // "this is real"; empty: still a drill
}

// DoorSeen is a measured opening or shutting of a door.
type DoorSeen struct {
	Mark
	Room mesh.ID
	Open bool
}

// Injected is an event that the drill lead gave.
type Injected struct {
	Mark
	What  mesh.ID
	Words mesh.Text
}

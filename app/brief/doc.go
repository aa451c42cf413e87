// Package brief is what happens before the door closes: which room has which
// case, who does what, the plans, the lines that are said aloud, the kit, each
// other's protective equipment, and the comms check with the door shut. It also
// has what a unit decides in quiet times: drills, the board's layout, limits.
//
// It has three layers. Look fills a Snapshot from the station, in the station's
// loop. page decides and words everything that is shown and is pure. Screen
// copies that into its parts, on the UI goroutine.
//
//	screen := brief.New(brief.Options{Look: l, Words: w, Taps: taps, Explain: explain, Layout: starter.Board, Board: openBoard})
//	carrier := show.New(fyne.Do, screen.Set)
//	station.Look(ctx, func(v station.View) { s = brief.Look(v) })
//	carrier.Bring(s)   // on every change, which comes at least once a second
//
// # What stands where
//
// The first page lists the rooms, each with its case. Beside each stands the way
// for a patient who cannot wait: one tap opens the case and leads to the board,
// and what was left out is listed and can be said later. A tap on a room asks
// what kind of case it is, and then leads from one page of the brief to the
// next: roles, plans, lines, kit, equipment. Whoever says all of a page with one
// tap is led on. A page never says that something was done because another
// thing was: each line has its own tick, and lines that a unit marks singly are
// left out when all are said.
//
// Every page has the same build: what it is about, then rows, then at most a few
// buttons. A row that stands for something to do is tapped as a whole. What does
// not fit is on the next page of rows, not in a scroll.
//
// # The comms check
//
// It is done with the door shut. A device inside sends a test request, with the
// door's number as it is read there; a person outside says whether it was heard
// with its sound. Everything that is not known (battery, screen lock, free disk,
// clock) is said not to be known. The outcome stays in one line over the brief.
package brief

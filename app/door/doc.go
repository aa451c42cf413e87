// Package door is the observer's screen at the door: who is inside and since
// when, who goes in and comes out, what went wrong with protective equipment,
// doffing read aloud step by step, what has to be done before leaving, and
// until when the air is not clear.
//
// It has three layers. Look fills a Snapshot from the station, in the station's
// loop. rows and page decide and word everything that is shown and are pure.
// Screen copies that into its parts, on the UI goroutine.
//
//	screen := door.New(door.Options{Look: l, Words: w, Taps: taps, Explain: explain, Now: time.Now, Zone: time.Local})
//	carrier := show.New(fyne.Do, screen.Set)
//	station.Look(ctx, func(v station.View) { s = door.Look(v) })
//	carrier.Bring(s)   // on every change, which comes at least once a second
//
// # What stands where
//
// On top is the door, or what was said inside and nobody outside has heard yet:
// a breach before a phrase, the oldest first, until somebody says that it was
// heard. Below it are the people with their clocks, and beside or under them what
// the observer does. Nothing there moves when something is said on top.
//
// Who checked protective equipment is never filled in: it is one of the tiles
// that are tapped. Going in takes three taps, coming out two.
//
// # The sign of the air
//
// It counts from the last aerosol event that was noted in the room, whatever
// case that belongs to, and begins again with each. It is an estimate and says
// what it takes for granted. Where the air changes of the room are not known it
// gives no number.
package door

// Package scribe is the screen of whoever notes times: one tap notes what
// happened, also late; clocks that others read from 2 m run from it, and a list
// says what was noted, by which clock, and what stands out of order.
//
// It has three layers. Look fills a Snapshot from the station, in the station's
// loop. rows and page decide and word everything that is shown and are pure.
// Screen copies that into its parts, on the UI goroutine.
//
//	screen := scribe.New(scribe.Options{Look: l, Words: w, Taps: taps, Explain: explain, Now: time.Now, Zone: time.Local})
//	carrier := show.New(fyne.Do, screen.Set)
//	station.Look(ctx, func(v station.View) { s = scribe.Look(v) })
//	carrier.Bring(s)   // on every change, which comes at least once a second
//
// # Times
//
// The tiles are the unit's list of times, those of the front page first; their
// places follow from the list and never from what was noted. Attempts count up
// by themselves. Late entry is chosen first: the next tile that is tapped
// then counts so many minutes earlier, or at the typed time. It is marked as
// late for ever.
//
// A correction stands beside what it corrects. What is out of order is said in
// words and refused nowhere.
//
// # Clocks
//
// Times are shown on the common clock of the unit's devices, ± what is known of
// the clock that noted them. The patient monitor's clock is tied by one tap at a
// full minute; from then on each time is also said as the monitor would.
package scribe

// Package runner is the list outside the door: what is asked for at which door,
// where it is kept, and what a runner says about it with one tap after another.
//
// It has three layers. Look fills a Snapshot from the station, in the station's
// loop. rows and page decide and word everything that is shown and are pure.
// Screen copies that into its parts, on the UI goroutine.
//
//	screen := runner.New(runner.Options{Look: l, Words: w, Taps: taps, Explain: explain})
//	carrier := show.New(fyne.Do, screen.Set)
//	station.Look(ctx, func(v station.View) { s = runner.Look(v) })
//	carrier.Bring(s)   // on every change, which comes at least once a second
//	s.Calling()        // what should call with a tone now
//
// # What stands where
//
// The list shows what to do first: what was withdrawn and has to come back, then
// rescue sets, then by urgency, then by age. The door is the largest word. How
// many requests are seen at once follows from the size; a phone shows one. Under
// each stands the act that comes next, and the way to all the others.
//
// Everything else is one question after another, each on a page of its own:
// which item is in the hand, how many, at which door. Nothing on them is chosen
// beforehand: a read-back offers the asked item among those that are taken for
// it, in the order of their numbers, and the count is typed.
package runner

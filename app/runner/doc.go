// Package runner is the list outside the door: what is asked for at which door,
// where it is kept, and what a runner says about it with one tap after another.
//
// It has three layers. Look fills a Snapshot from the station, in the station's
// loop. rows and page decide and word everything that is shown and are pure.
// Screen copies that into its parts, on the UI goroutine.
//
//	screen := runner.New(runner.Options{Look: l, Words: w, Taps: taps, Explain: explain, Now: time.Now, Silence: silence})
//	carrier := show.New(fyne.Do, screen.Set)
//	station.Look(ctx, func(v station.View) { s = runner.Look(v) })
//	carrier.Bring(s)   // on every change, which comes at least once a second
//	s.Waiting()        // what should call with a tone now, and at which level
//
// # What stands where
//
// The list goes by door: over the requests of each stands its head, with the
// door in the largest letters, what is wrong there first (no link, no runner, a
// low battery, a comms test that failed), where each runner is, and how many
// requests the next opening serves. Doors and their requests come in the order
// of what to do first: what was withdrawn and has to come back, then rescue
// sets, then by urgency, then by age. How much is seen at once follows from the
// size (plan.go); a phone shows one request. Under each stands the act that
// comes next, and the way to all the others.
//
// What calls and is no new request stands above all of it until a tap answers
// it: a breach, a phrase, "still on it?", what another runner passes on, a comms
// test, two doors that want something now, what is likely the same need as
// something that was noted outside. While a question is open its place is that
// of the question's head, so that nothing moves under the finger. A notice that
// asks nothing of anybody is turned away at this device only.
//
// An exercise, a disk that failed and a silence stand over every page. A silence
// leaves out sounds and nothing else.
//
// Everything else is one question after another, each on a page of its own:
// which item is in the hand and how many, at which door. Nothing on them is chosen
// beforehand: a read-back offers the asked item among those that are taken for
// it, in the order of their numbers, each with a key for each count from one on,
// so that one tap states both; the last key leads to more counts. Columns and keys
// are the same whatever was asked. The door is tapped as it is read on the door,
// also where there is one; another door than the request's is a fault with its own
// way round.
//
// A label that is scanned states item and lot of the read-back of the request that
// is open, or of the only one being fetched; how many is asked on keys. What
// another label says differs, and is shown so. What a thing looks like and where
// it lies stands beside its request where there is room, and on a page of its own.
//
// # Passing on
//
// Whoever does not take what is passed on gives it back: that is a passing on in
// the other direction, so that both know and the record says it. Until somebody
// takes it, it stays with whoever had it.
package runner

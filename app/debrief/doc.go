// Package debrief is what a team looks at when a case is over: its course in
// time as a picture, its figures with their methods, the cases before it beside
// it, plain questions with their answers, and whether a debrief was held. There
// is no figure of a person anywhere, and one of a role only from several cases up.
//
// It has three layers. Look fills a Snapshot from the station, in the station's
// loop. page, figures and picture decide and word everything that is shown and
// are pure. Screen copies that into its parts, on the UI goroutine.
//
//	screen := debrief.New(debrief.Options{Look: l, Words: w, Taps: taps, Explain: explain, Now: time.Now, Zone: time.Local, Choose: choose})
//	carrier := show.New(fyne.Do, screen.Set)
//	station.Look(ctx, func(v station.View) { s = debrief.Look(v, of) })
//	carrier.Bring(s)
//
// Look works through whole cases. It is meant for when the page is shown, and
// again when something was recorded: not for once a second. Which case is
// wanted is told by Options.Choose, on the UI goroutine; the zero Ref is the
// newest one. Call Screen.AskNewest when the page is opened.
//
// # What stands where
//
// Where there is room, the picture comes first, with the ways to everything else
// below it; on a phone the ways come first and the picture is one of them. Bars
// of the picture run from asked to taken in, with a line across at acknowledged
// and one at the door. What never ended and what was entered afterwards is drawn
// as an outline. Times are on the common clock of the devices, and how far they
// may be off is said over the picture.
//
// # Answers
//
// A question of the unit's list is answered by choosing among what the case's own
// record offers for it, and on a desk by a few typed words. Nothing is chosen
// beforehand. A later answer stands in place of an earlier one; both are kept.
package debrief

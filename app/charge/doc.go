// Package charge is the screen for whoever answers for kits and stock: at a desk
// before the next patient and the day after, and as a pick list on a phone.
//
// It has three layers. Look fills a Snapshot with what one page needs, in the
// station's loop. page decides and words everything that is shown and is pure.
// Screen copies that into its parts, on the UI goroutine.
//
//	screen := charge.New(charge.Options{Look: l, Words: w, Taps: taps, Explain: explain, Now: time.Now, Zone: time.Local, Want: want})
//	carrier := show.New(fyne.Do, screen.Set)
//	station.Look(ctx, func(v station.View) { s = charge.Look(v, wanted) })
//	carrier.Bring(s)
//
// What is wanted is told by Options.Want, on the UI goroutine: bring a Snapshot of
// it at once, and again when something was recorded. Several pages work through
// the whole ledger; so not once a second. A Snapshot of another page than the
// one that is open is not shown.
//
// # What stands where
//
// On top what the page is, or what was recorded last with the way to take it back.
// Below it what has to be known, then lines, at the bottom the way back and what
// can be done. Nothing scrolls: lines that do not fit are on the next page, and
// the way there says how many there are.
//
// # What is never done by itself
//
// Lots are proposed, first expired first; a person accepts them. A count proposes
// an end for every line; one tap accepts those that need not be seen, all others
// are asked for singly and none of them is chosen beforehand. The second person
// is tapped, never filled in.
//
// # Editing the catalogue
//
// What a line is called, holds and costs is changed with an import of the unit's
// lists, which names every mistake before it changes anything. Here pars and
// alternatives are changed, which are what a shift finds out.
package charge

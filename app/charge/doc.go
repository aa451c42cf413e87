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
// # What is filled in
//
// Lines of the catalogue, bundles, templates of kits, places, stock that came,
// drugs that are issued, drawn up and ended, and counts of a place are forms: one
// line for each field, in any order, a tap on it asks, and one tap at the end
// writes all of it in one entry. A field that cannot be as it is is named;
// nothing is written then and nothing that was filled in is lost. A scanned label
// fills item, lot and last day, or adds its barcode, never a count.
//
// The unit's lists can also be read from a file, typed or dropped on the window:
// what it would change is shown, every problem with its row and column, and one
// tap takes it.
package charge

// Package inside is the board inside the room: numbered tiles that ask with one
// tap, the rescue sets, how soon, the open requests with their honest state,
// and behind it the pages for whatever is no item.
//
// It has three layers. Look fills a Snapshot from the station, in the station's
// loop. rows decides and words everything that is shown and is pure. Screen
// copies rows into its parts, on the UI goroutine.
//
//	screen := inside.New(inside.Options{Look: l, Words: w, Taps: taps, Board: starter.Board, Now: time.Now})
//	carrier := show.New(fyne.Do, screen.Set)
//	station.Look(ctx, func(v station.View) { s = inside.Look(v) })
//	carrier.Bring(s)   // on every change, which comes at least once a second
//
// # What stands where
//
// On a tablet rescue sets stand in a column at the left, how soon in the first
// row, below it the front page of the board, and at the bottom the request that
// needs somebody most. A tap on it opens a panel over the lower part of the
// board, with what it is in large letters, a drug by its label, and what can be
// done; the board below it is where it was when the panel goes. Nothing opens or
// moves by itself, but "one more", which stands in the strip for some seconds
// after a tap. How many tiles the front page has follows from the size; the
// places beyond it are the first page behind "other item". Under them stand the
// ways to the shelves, which hold the whole catalogue by groups, large ones by
// letters: so on a tablet and a desktop every item is two taps away at most, as
// long as the unit has no more than the shelves have room for; then the last one
// has pages. Smaller screens have no room for shelves: there "other item" leads to
// the groups, and from one to its items. A small phone shows
// six tiles at a time; a tall one has room for undo and for the state too.
//
// The link is said in the first row, and what hinders: a low battery, entries
// that are only here while people leave. A tap on it leads to what can be said,
// and from there to persons, breaches, times, what comes out, the drugs inside, and
// the lock for wiping. What was given, wasted or broke of a drug is all that is left,
// or what was typed in millilitres or containers; no amount is filled in. A page takes the place of the board; rescue sets and undo stay.
//
// Over every page stands what was said inwards, until somebody taps it; during an
// exercise a band above and below, and the word beside the room.
//
// # What is recorded
//
// Each tap is one act, and can be undone for some seconds: a request, an answer,
// a phrase, a time. How many of a controlled drug is asked before it is asked
// for. While the glass is wiped touches do nothing, and what arrives is shown.
package inside

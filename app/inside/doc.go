// Package inside is the board inside the room: numbered tiles that ask with one
// tap, the rescue sets, how soon, and the open requests with their honest state.
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
// needs somebody most. A tap on it opens a panel over the lower half of the
// board, with what it is in large letters and what can be done; the board below
// it is where it was when the panel goes. Nothing opens or moves by itself.
// How many tiles the front page has follows from the size; the places beyond it
// are the first page behind "other item". A phone shows six tiles at a time.
package inside

// Lintel is one device with a window: the board inside the room, and outside
// what is fetched, what is agreed before the door closes, who is at the door,
// what is noted, and what is learned afterwards.
//
//	lintel [-data DIR] [-name N] [-role R] [-tag T] [-room A1]… [-listen ADDR] [-peer ADDR]… [-find=false]
//	       [-window WIDTHxHEIGHT] [-full] [-density DP] [-shade dark|light]
//	lintel -demo           three devices of an invented unit, a window each
//	lintel -gallery DIR    every screen as a picture, without a display
//
// Without -data the device lives in the system's folder for programs' data.
// Without -role it is whose it was before; the screen of the device asks.
// -density is how many dp make 20 mm; the device's page measures it with a bank
// card. Which page is shown first follows from the role. F1 leads to the ways to
// all of them, and back.
//
// It ends with code 0 where all is well, 1 where something failed, 2 where it
// was called wrongly. An error is one sentence and a hint, on standard error
// and, where a window is open, in it.
//
// # How it is built
//
// The window's goroutine paints and takes taps; it owns every widget. The
// worker owns the device: after every change it looks at the station, fills one
// sight and brings it (app/show). Taps go through a queue (station.Taps) into
// the station, and come back as a sight once they are on the disk. Nothing
// durable happens on the window's goroutine.
//
// A page is made when it is opened first. A sight holds what stands on every
// page (what calls, what hinders) and the snapshot of the page that is open:
// the window says which that is, and the worker looks for no other. Papers are
// drawn and written beside both, into the folder "papers" of the device.
//
// # Steering
//
// With -steer the program obeys lines on standard input and answers each with
// one JSON line on standard output; it ends with its input. The demonstration
// brings its devices together in this way, and tests ask where targets are:
//
//	found NAME              {"event":"done"}
//	stock                   invented rooms and stock
//	invite                  {"event":"done","code":"1234567"}
//	join CODE ADDRESS
//	dial ADDRESS
//	case                    an invented case in the first room, with people inside
//	page NAME               board, requests, brief, door, times, debrief, device, pages
//	targets                 {"event":"targets","targets":[{"name":…,"x":…,"y":…,"w":…,"h":…}]} in pixels of the window
//	quit
//
// It begins with {"event":"ready","address":…,"device":…}. No line can record
// anything on a request: that takes a tap.
package main

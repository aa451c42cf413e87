// Package join is the screen on which a device becomes part of a unit and says
// who has it: found a unit, join one with the code that another device shows,
// show such a code, the unit's devices, and role, tag and rooms of the holder.
//
// It has three layers. Look fills a Snapshot from the station, in the station's
// loop, once there is one; what only the network knows (the own address, the
// devices nearby) the caller adds. page decides and words everything that is
// shown and is pure. Screen copies that into its parts, on the UI goroutine.
//
//	screen := join.New(join.Options{Look: l, Words: w, Unit: unit, Taps: taps, …})
//	carrier := show.New(fyne.Do, screen.Set)
//	s := join.Look(view)          // or join.Snapshot{} while there is no unit
//	s.Name, s.Address, s.Near = …
//	carrier.Bring(s)              // at least once a second: the code's time runs
//
// Whoever was found nearby is a stranger until the code was right: an address
// proves nothing. Battery is said not to be known where the program has no
// figure; a clock's offset stands with its uncertainty.
package join

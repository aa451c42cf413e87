// Package look is the small set of parts that every screen is made of, and the
// measures they keep: millimetres, letters by the distance they are read from,
// colours with a contrast that was computed, one font, one style of icon, and
// the sounds that the program with the window plays.
//
// # A look
//
// New(Options) gives a Look: density of the screen, shade, distance for
// ordinary text. One screen has one, handed to every part. The UI goroutine
// owns it and all parts; other goroutines reach them through app/show.
//
//	l, err := look.New(look.Defaults())
//	fyne.CurrentApp().Settings().SetTheme(l.Theme())   // again after SetScale, SetShade
//	tile := look.NewTile(l, look.UseInside, func() { asks(item) })
//	tile.Set(look.TileFace{Number: "12", Word: "Bougie", Detail: "15 Fr"})
//
// # Parts
//
// Each takes all it shows with Set (one comparable struct), paints only when
// that changed, and holds its lines by name. A part says nothing by itself:
// every sentence comes from outside.
//
//	Tile      what is tapped with gloves           Strip     one open request, one or two lines
//	Press     the same hands for any other part    Card      one request for whoever fetches it
//	Stepper   less, a count, more                  Banner    one sentence across the screen
//	Keypad    digits, erase, done                  Badge     icon and few words: link, sound, battery
//	Fault     what went wrong and what to do       BigWord   the largest letters that fit: door, glass sign
//	Clock     digits that do not jump              Picture   an icon by itself
//	Row       one line of a list, tapped whole     Rows      such lines on pages that are turned
//	DrugLabel a drug: name, strength, class        Band      its colour and class word, also on Tile and Card
//	BigClock  a running time with its marks        Sign      a screen full of letters for the glass or the door
//	Chart     a course of time in lanes            Lock      takes every touch while the glass is wiped
//	Calibration   a card's outline, to hold a card against
//
// Sizes of a part follow its box: a part never asks for more than its least
// size, wraps text at spaces (never at a no-break space: put one between a
// number and its unit), and ends with "…" what does not fit. The proof (app/look/proof)
// finds that, and every target, gap, letter, contrast and rune below the design.
//
// # Hands
//
// A gloved press is slow and slips: a tap, a long tap and a click do the same,
// the pressed look comes at once and claims nothing, it goes when the finger
// leaves, and a finger that came down elsewhere does nothing here. Of two
// fingers the first counts. Nothing waits for a second tap. A Tile or Press
// takes the finger, so a list of them cannot be dragged: turn pages instead.
//
// # Measures
//
// Length goes through Scale.MM, letters through Look.Letters. Letter height is
// that of capitals and digits; the size of the text follows from the font.
package look

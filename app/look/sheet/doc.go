// Package sheet is one question, or one list, on a page of its own: what is
// asked, what has to be known for the answer, and tiles, lines or digits to
// answer with. Screens that ask one thing after another share it.
//
//	s := sheet.New(sheet.Options[pick]{Look: l, Back: "back", Pick: screen.pick, …})
//	root := look.NewFree(l, lay, s.Objects()...)
//	s.Set(sheet.Face[pick]{Head: "Who goes in?", Choices: all})
//	s.Lay(put, area)     // from lay
//
// What a choice means is of the screen's own type; a Sheet hands it back when
// the choice is tapped and knows nothing of it. The UI goroutine owns it.
//
// # What stands where
//
// Above: the question, then what has to be known, then one word in the largest
// letters. Below: the way back, always in the same corner, and beside it the
// way to what did not fit. Between them lines, over a few tiles, or tiles only.
// Digits are typed beside the question, or below it where it is narrow; there
// the erasing key goes back while nothing was typed.
package sheet

// Package wedge tells a keyboard scanner's burst from a person's typing. A
// scanner over USB or Bluetooth is a keyboard to every system: it types a label's
// text within a moment and, usually, ends it with Enter or Tab.
//
//	r := wedge.Reader{}
//	for each key:  act(r.Key(k))
//	GapMax later:  act(r.Pause(now))
//
// Keys are held until it is known what they are: a burst becomes one Scan, all
// else is Typed, as it came, nothing lost and nothing twice. A person's key is
// held for GapMax at most.
//
// A burst is at least LenMin runes, each at most GapMax after the one before and
// EachMax on average, not all the same (a key that is held down repeats as fast),
// that Enter, Tab, another key without a rune, or a pause ends. The average counts
// because keys are seen late, several at once, while a window is painted: one gap
// says nothing about who pressed them. More than LenMax runes are nobody's label and
// are given on as typed. Some scanners send a function key for the separator between
// two elements: inside a burst it is one, at a burst's end it is a key.
//
// The package has no clock and no toolkit: times come with the keys.
package wedge

import "time"

// Bounds of a burst.
const (
	GapMax  = 200 * time.Millisecond // between two runes of a scanner, as they are seen
	EachMax = 40 * time.Millisecond  // on average; people take three times as long
	LenMin  = 6                      // runes; shorter ones are typed
	LenMax  = 512                    // runes; no label is longer
)

// Separator is GS1's between two elements.
const Separator = 0x1d

// Key is one key as it was pressed.
type Key struct {
	Rune rune          // 0: End, or a key without a rune
	Ends bool          // Enter or Tab
	Part bool          // a function key, which may stand for Separator
	At   time.Duration // since any start, never going back
	// Typed does what the key does where no scanner pressed it; nil: nothing.
	Typed func()
	// Undo takes back what the key did already, with all that keys behind it did;
	// again does it once more. nil: it did nothing yet.
	Undo func() (again func())
}

// Found is what keys turned out to be.
type Found struct {
	Typed []Key  // in the order in which they were pressed, all behind the scan
	Scan  string // empty: none
	// Undo is that of the scan's first key that has one; nil: none has.
	Undo func() (again func())
}

// Reader holds keys until it is known what they are. The zero value is ready.
type Reader struct{ held []Key }

// Holds tells whether keys are held: call Pause GapMax later.
func (r *Reader) Holds() bool { return len(r.held) > 0 }

// Key takes a key.
func (r *Reader) Key(k Key) (f Found) {
	if n := len(r.held); n > 0 && k.At-r.held[n-1].At > GapMax {
		f = r.over()
	}
	switch {
	case k.Part && r.isBurst() && len(r.held) < LenMax:
		r.held = append(r.held, k)
	case k.Rune == 0 && r.isBurst():
		if f = r.over(); !k.Ends {
			f.Typed = append(f.Typed, k)
		}
	case k.Rune == 0:
		f.Typed = append(append(f.Typed, r.held...), k)
		r.held = nil
	default:
		r.held = append(r.held, k)
		if len(r.held) > LenMax {
			f.Typed = append(f.Typed, r.held...)
			r.held = nil
		}
	}
	return f
}

// Pause says what the time is. What is held longer than GapMax is given on.
func (r *Reader) Pause(now time.Duration) Found {
	if n := len(r.held); n > 0 && now-r.held[n-1].At > GapMax {
		return r.over()
	}
	return Found{}
}

// over ends what is held: a scanner that sends no Enter ends with a pause.
func (r *Reader) over() (f Found) {
	if r.isBurst() {
		f.Scan, f.Typed = r.text()
		f.Undo = r.undo()
	} else {
		f.Typed = r.held
	}
	r.held = nil
	return f
}

func (r *Reader) undo() func() func() {
	for _, k := range r.held {
		if k.Undo != nil {
			return k.Undo
		}
	}
	return nil
}

// isBurst tells whether no person presses keys like those that are held.
func (r *Reader) isBurst() bool {
	n := len(r.held)
	if n < LenMin || r.held[n-1].At-r.held[0].At > time.Duration(n-1)*EachMax {
		return false
	}
	for _, k := range r.held[1:] {
		if k.Rune != r.held[0].Rune {
			return true
		}
	}
	return false
}

// text is the label that is held, and the function keys behind it.
func (r *Reader) text() (string, []Key) {
	end := len(r.held)
	for end > 0 && r.held[end-1].Rune == 0 {
		end--
	}
	var text []rune
	for _, k := range r.held[:end] {
		if k.Rune == 0 {
			k.Rune = Separator
		}
		text = append(text, k.Rune)
	}
	return string(text), r.held[end:]
}

package mesh

// Reader reads one encoded body field by field, without reflection and without
// writing it again: for the kinds that are read by the million. It takes only
// the form that Encode writes. What it hands out lies in the bytes it was given.
//
// A read that does not fit makes the reader fail: from then on it gives zeros,
// and Done says false. Whoever reads so asks Decode next, which has the last
// word and names the reason; a Reader that is stricter than Decode costs time
// and nothing else, and a test holds the two together.
type Reader struct {
	rest   []byte
	failed bool
}

// Read begins at the first byte of b, which must not change while what was
// read from it is in use.
func Read(b []byte) Reader { return Reader{rest: b, failed: len(b) > FrameLenMax} }

// Done tells whether everything fitted and nothing is left.
func (r *Reader) Done() bool { return !r.failed && len(r.rest) == 0 }

// Fail says that what was read is out of its range.
func (r *Reader) Fail() { r.failed, r.rest = true, nil }

// take gives the next n bytes, or n zeros where there are fewer.
func (r *Reader) take(n int) []byte {
	if n > len(r.rest) {
		r.Fail()
		return nil
	}
	b := r.rest[:n:n]
	r.rest = r.rest[n:]
	return b
}

// head gives the next byte; 0xc1, which begins nothing, at the end.
func (r *Reader) head() byte {
	if len(r.rest) == 0 {
		r.Fail()
		return 0xc1
	}
	c := r.rest[0]
	r.rest = r.rest[1:]
	return c
}

// Struct begins a struct of n fields, 15 at most.
func (r *Reader) Struct(n int) {
	if r.head() != 0x90|byte(n) {
		r.Fail()
	}
}

// List begins a list and gives its length. Each element takes at least leastLen
// bytes: the length is never more than the bytes that are there allow.
func (r *Reader) List(leastLen int) int {
	n := 0
	switch c := r.head(); {
	case c >= 0x90 && c <= 0x9f:
		n = int(c & 0x0f)
	case c == 0xdc:
		if n = int(r.big(2)); n < 16 || n > ListLenMax {
			r.Fail()
		}
	default:
		r.Fail()
	}
	if r.failed || n > len(r.rest)/leastLen {
		r.Fail()
		return 0
	}
	return n
}

// big gives the next n bytes, big-endian.
func (r *Reader) big(n int) (v uint64) {
	for _, c := range r.take(n) {
		v = v<<8 | uint64(c)
	}
	return v
}

// Uint gives a number from 0 to high.
func (r *Reader) Uint(high uint64) uint64 {
	c := r.head()
	v, least := uint64(c), uint64(0)
	switch {
	case c <= 0x7f:
	case c == 0xcc:
		v, least = r.big(1), 1<<7
	case c == 0xcd:
		v, least = r.big(2), 1<<8
	case c == 0xce:
		v, least = r.big(4), 1<<16
	case c == 0xcf:
		v, least = r.big(8), 1<<32
	default:
		r.Fail()
	}
	if r.failed || v < least || v > high {
		r.Fail()
		return 0
	}
	return v
}

// Bool gives a boolean.
func (r *Reader) Bool() bool {
	c := r.head()
	if c != 0xc2 && c != 0xc3 {
		r.Fail()
	}
	return c == 0xc3
}

// Fixed fills b from a byte string of exactly its length, 255 at most.
func (r *Reader) Fixed(b []byte) {
	if head := r.take(2); head == nil || head[0] != 0xc4 || int(head[1]) != len(b) {
		r.Fail()
		return
	}
	copy(b, r.take(len(b)))
}

// Bytes gives a byte string of any length.
func (r *Reader) Bytes() []byte {
	switch r.head() {
	case 0xc4:
		return r.take(int(r.big(1)))
	case 0xc5:
		if n := int(r.big(2)); n > 0xff {
			return r.take(n)
		}
	}
	r.Fail()
	return nil
}

// Text gives a text of at most lenMax bytes, 255 at most, that validText allows.
func (r *Reader) Text(lenMax int) []byte {
	b := r.str()
	if len(b) > lenMax || !isPlain(b) && validText(string(b), lenMax) != nil {
		r.Fail()
		return nil
	}
	return b
}

// ID gives the text of an ID.
func (r *Reader) ID() []byte {
	b := r.str()
	if len(b) > IDLenMax {
		r.Fail()
		return nil
	}
	for _, c := range b {
		if !inID(c) {
			r.Fail()
			return nil
		}
	}
	return b
}

// str gives a text of at most 255 bytes.
func (r *Reader) str() []byte {
	c := r.head()
	if c >= 0xa0 && c <= 0xbf {
		return r.take(int(c & 0x1f))
	}
	if c == 0xd9 {
		if n := int(r.big(1)); n > 31 {
			return r.take(n)
		}
	}
	r.Fail()
	return nil
}

// Ref gives a name; the part it names can exist.
func (r *Reader) Ref() (n Ref) {
	r.Fixed(n[:])
	if n[40] >= PartsMax {
		r.Fail()
	}
	return n
}

// Feed gives the name of a feed.
func (r *Reader) Feed() (f Feed) { r.Fixed(f[:]); return f }

// readBy reads the body of a By.
func readBy(b []byte) (by By, ok bool) {
	r := Read(b)
	r.Struct(4)
	by.Role = ID(r.ID())
	by.Tag = Tag(r.Text(TagLenMax))
	by.Happened = Wall(r.Uint(uint64(WallMax)))
	by.Way = Way(r.Uint(uint64(WayPaper)))
	return by, r.Done()
}

// readEntry reads an entry; the bodies of its parts lie in b.
func readEntry(b []byte, e *Entry) bool {
	r := Read(b)
	r.Struct(10)
	e.Version = uint8(r.Uint(Version))
	r.Fixed(e.Group[:])
	r.Fixed(e.Author[:])
	r.Fixed(e.Incarnation[:])
	e.Seq = Seq(r.Uint(uint64(SeqMax)))
	r.Fixed(e.Before[:])
	e.Turn = Turn(r.Uint(uint64(TurnMax)))
	e.Wall = Wall(r.Uint(uint64(WallMax)))
	r.Fixed(e.Tap[:])
	n := r.List(4)
	if n > PartsMax {
		return false
	}
	e.Parts = make([]Part, n)
	for i := range e.Parts {
		r.Struct(2)
		e.Parts[i] = Part{Kind: Kind(r.Uint(0xffff)), Body: r.Bytes()}
	}
	return r.Done() && e.Valid() == nil
}

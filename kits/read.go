package kits

import "lintel/mesh"

// texts shares equal texts: places, lots and tags are few, and written by the million.
type texts map[string]string

func (t texts) of(b []byte) string {
	if len(b) == 0 {
		return ""
	}
	s, ok := t[string(b)]
	if !ok {
		s = string(b)
		t[s] = s
	}
	return s
}

// reader reads the bodies that come by the million, each in the one form that
// mesh.Decode takes. The Ledger owns it.
type reader struct {
	mesh.Reader
	texts texts
	lines spare[Line]
	taken spare[int64]
}

// Bytes that these take at least.
const (
	lineLenLeast = 1 + 1 + 1 + 43 + 3 // no lot
	refLen       = 43
	headLenLeast = 1 + 42 + 1 + 10
)

func (r *reader) begin(b []byte, fields int) {
	r.Reader = mesh.Read(b)
	r.Struct(fields)
}

func (r *reader) number() mesh.Number   { return mesh.Number(r.Uint(uint64(mesh.NumberMax))) }
func (r *reader) measure() mesh.Measure { return mesh.Measure(r.Uint(uint64(mesh.Micromole))) }
func (r *reader) label() mesh.Label     { return mesh.Label(r.texts.of(r.Text(mesh.LabelLenMax))) }
func (r *reader) tag() mesh.Tag         { return mesh.Tag(r.texts.of(r.Text(mesh.TagLenMax))) }

// words is a text that people wrote for this one record.
func (r *reader) words() mesh.Label { return mesh.Label(r.Text(mesh.LabelLenMax)) }

func (r *reader) quantity() (q Quantity) {
	r.Struct(2)
	q.N = int64(r.Uint(uint64(QuantityMax)))
	q.Measure = r.measure()
	if q.Valid() != nil {
		r.Fail()
	}
	return q
}

func (r *reader) place() (p Place) {
	r.Struct(2)
	p.Sort = PlaceSort(r.Uint(uint64(LeftWithPatient)))
	p.ID = mesh.ID(r.texts.of(r.ID()))
	if p.Valid() != nil {
		r.Fail()
	}
	return p
}

func (r *reader) line(x *Line) {
	r.Struct(4)
	x.Item = r.number()
	x.Lot = r.label()
	x.Syringe = r.Ref()
	x.Quantity = r.quantity()
	if x.Valid() != nil {
		r.Fail()
	}
}

// list reads lines.
func (r *reader) list() []Line {
	out := r.lines.some(r.List(lineLenLeast))
	for i := range out {
		r.line(&out[i])
	}
	return out
}

func (r *reader) refs() []mesh.Ref {
	out := make([]mesh.Ref, r.List(refLen))
	for i := range out {
		out[i] = r.Ref()
	}
	return out
}

func (r *reader) moved(b []byte, m *Moved) bool {
	r.begin(b, 8)
	m.From, m.To, m.Then = r.place(), r.place(), r.place()
	m.Lines = r.list()
	m.Case, m.For, m.Issue = r.Ref(), r.Ref(), r.Ref()
	m.Why = r.words()
	return r.Done() && m.Valid() == nil
}

func (r *reader) reversed(b []byte, x *Reversed) bool {
	r.begin(b, 5)
	x.Names = r.Ref()
	x.From, x.To = r.place(), r.place()
	x.Lines = r.list()
	x.Why = r.words()
	return r.Done()
}

func (r *reader) ended(b []byte, e *Ended) bool {
	r.begin(b, 3)
	e.Names = r.Ref()
	e.Taken = r.taken.some(r.List(1))
	for i := range e.Taken {
		e.Taken[i] = int64(r.Uint(uint64(QuantityMax)))
	}
	e.Settles = r.refs()
	return r.Done()
}

func (r *reader) drawnUp(b []byte, d *DrawnUp) bool {
	r.begin(b, 11)
	d.Case = r.Ref()
	d.At = r.place()
	d.Lines = r.list()
	d.Item = r.number()
	d.Amount = r.quantity()
	d.VolumeUL = int64(r.Uint(1<<63 - 1))
	d.Label = r.label()
	d.DrawnBy, d.CheckedBy = r.tag(), r.tag()
	d.DiscardAfter = mesh.Wall(r.Uint(uint64(mesh.WallMax)))
	d.Issue = r.Ref()
	return r.Done() && d.Valid() == nil
}

func (r *reader) leftWith(b []byte, x *LeftWith) bool {
	r.begin(b, 6)
	x.From = r.place()
	x.Lines = r.list()
	x.Case = r.Ref()
	x.Unit = r.label()
	x.ReceivedBy = r.tag()
	x.Issue = r.Ref()
	return r.Done() && x.Valid() == nil
}

func (r *reader) witnessed(b []byte, w *Witnessed) bool {
	r.begin(b, 4)
	w.Names = r.Ref()
	w.Lines = r.list()
	w.Tag = r.tag()
	w.Grade = Grade(r.Uint(uint64(LaterSigned)))
	return r.Done() && w.Grade.Valid() == nil
}

func (r *reader) counted(b []byte, c *Counted) bool {
	r.begin(b, 5)
	c.Place = r.place()
	c.Before = r.Ref()
	c.Seen = make([]mesh.Head, r.List(headLenLeast))
	for i := range c.Seen {
		r.Struct(3)
		c.Seen[i].Feed = r.Feed()
		c.Seen[i].Seq = mesh.Seq(r.Uint(uint64(mesh.SeqMax)))
		r.Fixed(c.Seen[i].Hash[:])
	}
	c.Lines = r.list()
	c.Whole = r.Bool()
	return r.Done()
}

// read reads a body of a kind that comes often, into body. Where it says false
// mesh.Decode decides.
func (r *reader) read(b []byte, body any) bool {
	switch x := body.(type) {
	case *Moved:
		return r.moved(b, x)
	case *Reversed:
		return r.reversed(b, x)
	case *Ended:
		return r.ended(b, x)
	case *DrawnUp:
		return r.drawnUp(b, x)
	case *LeftWith:
		return r.leftWith(b, x)
	case *Witnessed:
		return r.witnessed(b, x)
	case *Counted:
		return r.counted(b, x)
	}
	return false
}

// body reads a body of any kind, or gives nil.
func (r *reader) body(b []byte, fresh func() any) any {
	body := fresh()
	if r.read(b, body) {
		return body
	}
	body = fresh()
	if mesh.Decode(b, body) != nil {
		return nil
	}
	return body
}

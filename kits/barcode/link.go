package barcode

import (
	"bytes"
	"slices"
	"strings"
)

// isAddress tells whether a scan is an address of the web. The scheme is
// written in capitals by some.
func isAddress(text []byte) bool {
	for _, scheme := range []string{"http://", "https://"} {
		if len(text) >= len(scheme) && strings.EqualFold(string(text[:len(scheme)]), scheme) {
			return true
		}
	}
	return false
}

// segment is a piece of an address, from one byte of the scan up to another.
type segment struct{ from, to int }

// digitalLink splits an address: a primary key and its qualifiers in the path,
// everything else in the query. Keys of the query that are no digits belong to
// whoever runs the host.
func (r *reading) digitalLink(at int) error {
	end := len(r.scan)
	if i := bytes.IndexByte(r.scan[at:], '#'); i >= 0 {
		end = at + i
	}
	query := end
	if i := bytes.IndexByte(r.scan[at:end], '?'); i >= 0 {
		query = at + i
	}
	host := at + bytes.Index(r.scan[at:], []byte("//")) + 2
	path := bytes.IndexByte(r.scan[host:query], '/')
	if path <= 0 {
		return r.fault(NoKey, query, "")
	}
	if err := r.path(host+path, query); err != nil || query == end {
		return err
	}
	return r.query(query+1, end)
}

// pieces cuts the bytes between from and to at any of the separators.
func (r *reading) pieces(from, to int, separators string) (out []segment) {
	start := from
	for i := from; i <= to; i++ {
		if i == to || strings.IndexByte(separators, r.scan[i]) >= 0 {
			out = append(out, segment{start, i})
			start = i + 1
		}
	}
	return out
}

func (r *reading) text(s segment) string { return string(r.scan[s.from:s.to]) }

// path reads the pairs at the end of the path, from the last primary key on.
func (r *reading) path(from, to int) error {
	if r.scan[to-1] == '/' && to-1 > from {
		to--
	}
	all := r.pieces(from+1, to, "/")
	for i := len(all) - 2; i >= 0; i -= 2 {
		key, known := lookUp(r.text(all[i]))
		if !known || key.path == "" {
			continue
		}
		for j := i; j < len(all); j += 2 {
			f, err := r.pair(all[j], all[j+1], false)
			if err != nil {
				return err
			}
			r.fields = append(r.fields, f)
		}
		return inOrder(r.fields)
	}
	return r.fault(NoKey, from, "")
}

// pair reads an identifier and its value.
func (r *reading) pair(name, value segment, inQuery bool) (f field, err error) {
	id, known := lookUp(r.text(name))
	if !known {
		return field{}, r.fault(UnknownID, name.from, r.text(name))
	}
	f = field{id: id, part: r.part, at: name.from, last: true}
	var text []byte
	for at := value.from; at < value.to; at++ {
		f.from = append(f.from, at)
		b := r.scan[at]
		switch {
		case b == '%':
			if at+2 >= value.to || !isHex(r.scan[at+1]) || !isHex(r.scan[at+2]) {
				return field{}, f.fault(BadEscape, at, "")
			}
			b = unhex(r.scan[at+1])<<4 | unhex(r.scan[at+2])
			at += 2
		case b == '+' && inQuery:
			b = ' '
		}
		text = append(text, b)
	}
	f.value, f.from = string(text), append(f.from, value.to)
	return f, nil
}

func isHex(b byte) bool { return strings.IndexByte("0123456789abcdefABCDEF", b) >= 0 }

func unhex(b byte) byte {
	if isDigit(b) {
		return b - '0'
	}
	return b&^0x20 - 'A' + 10
}

// inOrder wants the qualifiers that belong to the key, in their order. Of the
// orders that a key may have, the one that fits furthest says what is wrong.
func inOrder(fields []field) error {
	_, orders, _ := strings.Cut(fields[0].id.path, "=")
	furthest := 0
	for order := range strings.SplitSeq(orders, "|") {
		left := strings.Split(order, ",")
		misplaced := slices.IndexFunc(fields[1:], func(f field) bool {
			i := slices.Index(left, f.id.id)
			left = left[i+1:]
			return i < 0
		})
		if misplaced < 0 {
			return nil
		}
		furthest = max(furthest, 1+misplaced)
	}
	f := fields[furthest]
	return f.fault(BadPath, f.at, fields[0].id.id)
}

// belongsInPath tells whether an identifier qualifies the key of a path beside
// the qualifiers that are there.
func belongsInPath(id string, onPath []field) bool {
	_, orders, _ := strings.Cut(onPath[0].id.path, "=")
	for order := range strings.SplitSeq(orders, "|") {
		all := strings.Split(order, ",")
		other := slices.ContainsFunc(onPath[1:], func(f field) bool { return !slices.Contains(all, f.id.id) })
		if !other && slices.Contains(all, id) {
			return true
		}
	}
	return false
}

// parameters cuts a query at &, and at a semicolon where a name and = follow
// it: some delimit with it, and values may hold it.
func (r *reading) parameters(from, to int) (out []segment) {
	for _, s := range r.pieces(from, to, "&") {
		start := s.from
		for _, piece := range r.pieces(s.from, s.to, ";") {
			name := bytes.IndexByte(r.scan[piece.to:s.to], '=')
			if piece.to == s.to || name > 1 && isName(r.scan[piece.to+1:piece.to+name]) {
				out = append(out, segment{start, piece.to})
				start = piece.to + 1
			}
		}
	}
	return out
}

// isName tells whether a text can be the name of a parameter.
func isName(text []byte) bool {
	for _, b := range text {
		if strings.IndexByte(digits+capitals+small+"_-", b) < 0 {
			return false
		}
	}
	return true
}

// query reads the elements behind the question mark.
func (r *reading) query(from, to int) error {
	onPath := r.fields
	for _, piece := range r.parameters(from, to) {
		name, value := piece, segment{piece.to, piece.to}
		if i := bytes.IndexByte(r.scan[piece.from:piece.to], '='); i >= 0 {
			name.to = piece.from + i
			value = segment{name.to + 1, piece.to}
		}
		if !allDigits(r.text(name)) {
			continue
		}
		if len(r.fields) == ElementsMax {
			return r.fault(TooMany, name.from, "")
		}
		f, err := r.pair(name, value, true)
		if err != nil {
			return err
		}
		if !f.id.inQuery || belongsInPath(f.id.id, onPath) {
			return f.fault(NotInQuery, f.at, "")
		}
		r.fields = append(r.fields, f)
	}
	return nil
}

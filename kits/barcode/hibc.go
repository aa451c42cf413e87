package barcode

import (
	"bytes"
	"strings"
)

// Names of the elements of HIBC, in the place of identifiers.
const (
	hibcLabeler  = "LIC"
	hibcProduct  = "PCN"
	hibcLevel    = "UM"
	hibcQuantity = "QTY"
	hibcExpiry   = "EXP"
	hibcMade     = "MFD"
	hibcLot      = "LOT"
	hibcSerial   = "SERIAL"
)

// Lengths in HIBC.
const (
	labelerLen     = 4
	productLenMax  = 18
	batchLenMax    = 18 // lot or serial number
	julianLen      = 5
	quantityLenMax = 5
	fullDayLen     = 8
)

// hibcMarks are the characters beside digits and capitals that a lot or serial
// number may have: more than the standard's, for labels have them.
const hibcMarks = "-. $+%"

// hibc reads one symbol: + data check, where data is primary, primary and
// secondary joined by /, or secondary with the primary's check character as link.
func (r *reading) hibc(at int, out *Scan) error {
	end := len(r.scan) - 1
	if end-at < 2 {
		return r.fault(ValueShort, len(r.scan), "")
	}
	for i := at; i <= end; i++ {
		if strings.IndexByte(hibcCharacters, r.scan[i]) < 0 {
			return r.fault(BadCharacter, i, "")
		}
	}
	want, _ := CheckCharacterOf(string(r.scan[at:end]))
	if r.scan[end] != want {
		return r.fault(CheckDigit, end, "")
	}
	out.Scheme, out.Check, out.bare = HIBC, string(want), string(r.scan[at:])
	from := at + 1
	if first := r.scan[from]; first == '$' || isDigit(first) {
		end--
		if end <= from {
			return r.fault(ValueShort, end, "")
		}
		out.Link = string(r.scan[end])
		return r.secondary(from, end, out)
	}
	to := end
	if i := bytes.IndexByte(r.scan[from:end], '/'); i >= 0 {
		to = from + i
	}
	if err := r.primary(from, to, out); err != nil || to == end {
		return err
	}
	return r.secondary(to+1, end, out)
}

// primary reads the labeler's code, its product or catalogue number, and the
// packaging level.
func (r *reading) primary(from, to int, out *Scan) error {
	level := to - 1
	product := from + labelerLen
	switch {
	case level <= product:
		return r.fault(ValueShort, to, hibcProduct)
	case level-product > productLenMax:
		return r.fault(ValueLong, product+productLenMax, hibcProduct)
	case strings.IndexByte(capitals, r.scan[from]) < 0:
		return r.fault(BadCharacter, from, hibcLabeler)
	case !isDigit(r.scan[level]):
		return r.fault(BadCharacter, level, hibcLevel)
	}
	for i := from; i < level; i++ {
		if strings.IndexByte(digits+capitals, r.scan[i]) < 0 {
			id := hibcProduct
			if i < product {
				id = hibcLabeler
			}
			return r.fault(BadCharacter, i, id)
		}
	}
	r.add(out, hibcLabeler, from, product, Date{})
	r.add(out, hibcProduct, product, level, Date{})
	r.add(out, hibcLevel, level, to, Date{})
	out.primary = "+" + string(r.scan[from:to])
	return nil
}

// add takes an element whose value stands in the scan as it is.
func (r *reading) add(out *Scan, id string, from, to int, d Date) {
	out.Elements = append(out.Elements, Element{ID: id, Title: hibcTitle(id), Value: string(r.scan[from:to]), Position: from, Part: r.part, Date: d})
}

func hibcTitle(id string) string {
	switch id {
	case hibcLabeler:
		return "LABELER"
	case hibcProduct:
		return "PRODUCT or CATALOGUE No."
	case hibcLevel:
		return "UNIT OF MEASURE"
	case hibcQuantity:
		return "QUANTITY"
	case hibcExpiry:
		return "EXPIRY"
	case hibcMade:
		return "PROD DATE"
	case hibcLot:
		return "BATCH/LOT"
	}
	return "SERIAL"
}

// secondary reads pieces between strokes: first date and lot or serial number,
// then what stands behind a data identifier of its own.
func (r *reading) secondary(from, to int, out *Scan) error {
	for i, piece := range r.pieces(from, to, "/") {
		if len(out.Elements) >= ElementsMax {
			return r.fault(TooMany, piece.from, "")
		}
		var err error
		text := r.text(piece)
		switch {
		case strings.HasPrefix(text, "$$+"):
			err = r.counted(segment{piece.from + 3, piece.to}, hibcSerial, out)
		case strings.HasPrefix(text, "$$"):
			err = r.counted(segment{piece.from + 2, piece.to}, hibcLot, out)
		case strings.HasPrefix(text, "$+"):
			err = r.batch(piece.from+2, piece.to, hibcSerial, 1, out)
		case strings.HasPrefix(text, "$"):
			err = r.batch(piece.from+1, piece.to, hibcLot, 1, out)
		case strings.HasPrefix(text, "14D"):
			err = r.fullDay(segment{piece.from + 3, piece.to}, hibcExpiry, out)
		case strings.HasPrefix(text, "16D"):
			err = r.fullDay(segment{piece.from + 3, piece.to}, hibcMade, out)
		case strings.HasPrefix(text, "S"):
			err = r.batch(piece.from+1, piece.to, hibcSerial, 1, out)
		case strings.HasPrefix(text, "Q"):
			err = r.quantity(piece.from+1, piece.to, out)
		case i == 0 && len(text) >= julianLen && allDigits(text[:julianLen]):
			err = r.dated(piece, '5', hibcLot, out)
		default:
			err = r.fault(UnknownID, piece.from, text[:min(len(text), idLenMax)])
		}
		if err != nil {
			return err
		}
	}
	return nil
}

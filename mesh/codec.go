package mesh

import (
	"bytes"
	"errors"
	"fmt"
	"reflect"

	"github.com/vmihailenco/msgpack/v5"
)

// Limits of the codec. They hold for everything that comes from outside.
const (
	EntryLenMax = 16 << 10 // bytes of one encoded entry
	PartsMax    = 8        // parts of one entry
	FrameLenMax = 64 << 10 // bytes of one frame between paired devices
	DepthMax    = 6        // nesting of arrays
	ListLenMax  = 4096     // elements of one array; a byte string is bounded by its frame
)

// Errors of Decode. Bytes that cause one are refused and change nothing.
var (
	ErrTooLong      = errors.New("the bytes are longer than allowed")
	ErrNotCanonical = errors.New("the bytes are not in the one allowed form")
)

// Encode writes v, a struct or a pointer to one, as a msgpack array in
// declaration order: no maps, no nils, no floats, shortest integers. It checks
// v first and the length afterwards, so what it writes can be read again. Nil
// lists behind a pointer become empty ones.
func Encode(v any) ([]byte, error) {
	if err := Check(v); err != nil {
		return nil, err
	}
	b, err := encode(v)
	if err != nil {
		return nil, err
	}
	if len(b) > FrameLenMax {
		return nil, fmt.Errorf("%w: %d bytes, at most %d", ErrTooLong, len(b), FrameLenMax)
	}
	return b, nil
}

func encode(v any) ([]byte, error) {
	v = addressable(v)
	fillNil(reflect.ValueOf(v))
	var out bytes.Buffer
	enc := msgpack.GetEncoder()
	defer msgpack.PutEncoder(enc)
	enc.Reset(&out)
	enc.UseArrayEncodedStructs(true)
	enc.UseCompactInts(true)
	if err := enc.Encode(v); err != nil {
		return nil, fmt.Errorf("encode %T: %w", v, err)
	}
	return out.Bytes(), nil
}

// Decode reads what Encode wrote into v, a pointer to a struct. It bounds
// depth, counts and lengths by the bytes that are there before anything is
// allocated, refuses every second form of the same value, and checks ranges.
// On an error v holds rubbish and must not be used.
func Decode(b []byte, v any) error {
	if err := scan(b); err != nil {
		return err
	}
	dec := msgpack.GetDecoder()
	defer msgpack.PutDecoder(dec)
	dec.Reset(bytes.NewReader(b))
	if err := dec.Decode(v); err != nil {
		return fmt.Errorf("%w: %v", ErrNotCanonical, err)
	}
	again, err := encode(v)
	if err != nil {
		return fmt.Errorf("%w: %v", ErrNotCanonical, err)
	}
	if !bytes.Equal(again, b) {
		return fmt.Errorf("%w: %T", ErrNotCanonical, v)
	}
	return Check(v)
}

// scan walks b once and refuses maps, floats, nils, extensions, arrays or
// strings that claim more than the bytes that are there, deep nesting and
// trailing bytes. The msgpack library must see only what passes here: it
// allocates by the claimed length and recurses without a bound.
func scan(b []byte) error {
	if len(b) > FrameLenMax {
		return ErrTooLong
	}
	var open [DepthMax]int // elements still to come at each depth
	depth := 0
	for at := 0; ; {
		for depth > 0 && open[depth-1] == 0 {
			depth--
		}
		if depth == 0 && at > 0 {
			if at != len(b) {
				return fmt.Errorf("%w: bytes behind the value", ErrNotCanonical)
			}
			return nil
		}
		if at >= len(b) {
			return fmt.Errorf("%w: it ends too early", ErrNotCanonical)
		}
		if depth > 0 {
			open[depth-1]--
		}
		count, skip, err := token(b[at:])
		if err != nil {
			return err
		}
		at += skip
		if count >= 0 {
			if count > ListLenMax || count > len(b)-at || depth == DepthMax {
				return fmt.Errorf("%w: an array of %d at depth %d", ErrNotCanonical, count, depth)
			}
			open[depth] = count
			depth++
		}
	}
}

// token reads one msgpack head: for an array its element count and the length
// of the head, for anything else -1 and the length of the whole value.
func token(b []byte) (count, skip int, err error) {
	c := b[0]
	switch {
	case c <= 0x7f, c >= 0xe0, c == 0xc2, c == 0xc3: // small integers, booleans
		return -1, 1, nil
	case c >= 0x90 && c <= 0x9f:
		return int(c & 0x0f), 1, nil
	case c >= 0xa0 && c <= 0xbf:
		return sized(b, 1, int(c&0x1f))
	}
	switch c {
	case 0xcc, 0xd0:
		return sized(b, 2, 0)
	case 0xcd, 0xd1:
		return sized(b, 3, 0)
	case 0xce, 0xd2:
		return sized(b, 5, 0)
	case 0xcf, 0xd3:
		return sized(b, 9, 0)
	case 0xc4, 0xd9: // bin 8, str 8
		if len(b) < 2 {
			return sized(b, 2, 0)
		}
		return sized(b, 2, int(b[1]))
	case 0xc5, 0xda: // bin 16, str 16
		if len(b) < 3 {
			return sized(b, 3, 0)
		}
		return sized(b, 3, int(b[1])<<8|int(b[2]))
	case 0xdc: // array 16
		if len(b) < 3 {
			return sized(b, 3, 0)
		}
		return int(b[1])<<8 | int(b[2]), 3, nil
	}
	return 0, 0, fmt.Errorf("%w: byte %#02x", ErrNotCanonical, c)
}

func sized(b []byte, head, body int) (int, int, error) {
	if len(b) < head+body {
		return 0, 0, fmt.Errorf("%w: a length beyond the end", ErrNotCanonical)
	}
	return -1, head + body, nil
}

// addressable gives a pointer to v unless v is one: only what is reached
// through a pointer can have its nil lists filled.
func addressable(v any) any {
	value := reflect.ValueOf(v)
	if value.Kind() == reflect.Pointer {
		return v
	}
	p := reflect.New(value.Type())
	p.Elem().Set(value)
	return p.Interface()
}

// fillNil turns nil slices into empty ones, so that "nothing" has one form.
func fillNil(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		fillNil(v.Elem())
	case reflect.Struct:
		for i := range v.NumField() {
			fillNil(v.Field(i))
		}
	case reflect.Slice:
		if v.IsNil() && v.CanSet() {
			v.Set(reflect.MakeSlice(v.Type(), 0, 0))
		}
		if k := v.Type().Elem().Kind(); k == reflect.Struct || k == reflect.Slice {
			for i := range v.Len() {
				fillNil(v.Index(i))
			}
		}
	}
}

// checked is what a field's type implements when it has a range of its own.
type checked interface{ Valid() error }

// Check calls Valid on every value inside v, parents after children, and
// returns the first complaint with the field's name.
func Check(v any) error { return check(reflect.ValueOf(v), "") }

func check(v reflect.Value, name string) error {
	switch v.Kind() {
	case reflect.Pointer:
		return check(v.Elem(), name)
	case reflect.Struct:
		for i := range v.NumField() {
			if err := check(v.Field(i), v.Type().Field(i).Name); err != nil {
				return err
			}
		}
	case reflect.Slice:
		if err := checkList(v, name); err != nil {
			return err
		}
	}
	// Asked of the type first: taking an array out of v would copy it for nothing.
	if v.Type().Implements(reflect.TypeFor[checked]()) {
		if err := v.Interface().(checked).Valid(); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	return nil
}

// checkList checks the length and every element of a list. Byte strings pass:
// they have no elements with a range, and the frame bounds their length.
func checkList(v reflect.Value, name string) error {
	if v.Type().Elem().Kind() == reflect.Uint8 {
		return nil
	}
	if v.Len() > ListLenMax {
		return fmt.Errorf("%s: %w: %d elements", name, ErrRange, v.Len())
	}
	for i := range v.Len() {
		if err := check(v.Index(i), name); err != nil {
			return err
		}
	}
	return nil
}

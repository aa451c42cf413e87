package table

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"path"
	"strings"
)

// Limits of what a spreadsheet unpacks to.
const (
	PartsMax       = 256      // files within the file
	UnpackedLenMax = 64 << 20 // bytes of all of them
)

// Beginnings of files.
const (
	zipMark = "PK\x03\x04"
	oleMark = "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
)

// errPart says that a part of a spreadsheet cannot be read.
var errPart = errors.New("a part of the spreadsheet cannot be read")

// unpacked is a spreadsheet whose parts are known to be no longer than they say
// and than UnpackedLenMax.
type unpacked struct{ parts map[string]*zip.File }

// unpack looks at what a file says to hold, then at what it does hold, and keeps
// nothing of it: a length may lie. false: a problem is noted.
func (r *reading) unpack(file []byte) (unpacked, bool) {
	u := unpacked{parts: map[string]*zip.File{}}
	z, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		r.complain(Problem{ID: "cut-off"})
		return u, false
	}
	var says uint64
	for _, part := range z.File {
		if part.UncompressedSize64 > UnpackedLenMax || len(z.File) > PartsMax {
			r.complain(Problem{ID: "unpacked", Blanks: []any{UnpackedLenMax >> 20, PartsMax}})
			return u, false
		}
		says += part.UncompressedSize64
		name := strings.ReplaceAll(part.Name, `\`, "/")
		if u.parts[name] != nil {
			r.complain(Problem{ID: "part-twice", Blanks: []any{name}})
			return u, false
		}
		u.parts[name] = part
	}
	if says > UnpackedLenMax {
		r.complain(Problem{ID: "unpacked", Blanks: []any{UnpackedLenMax >> 20, PartsMax}})
		return u, false
	}
	for _, part := range z.File {
		if !honest(part) {
			r.complain(Problem{ID: "part", Blanks: []any{part.Name}})
			return u, false
		}
	}
	return u, true
}

// honest tells whether a part can be unpacked and is as long as it says.
func honest(part *zip.File) bool {
	in, err := part.Open()
	if err != nil {
		return false
	}
	n, err := io.Copy(io.Discard, io.LimitReader(in, int64(part.UncompressedSize64)+1))
	if closing := in.Close(); err == nil {
		err = closing
	}
	return err == nil && n == int64(part.UncompressedSize64)
}

// each calls what is to be done with every element that begins in a part.
func (u unpacked) each(name string, begins func(xml.StartElement) error) (err error) {
	part := u.parts[name]
	if part == nil {
		return errPart
	}
	in, err := part.Open()
	if err != nil {
		return errPart
	}
	defer func() {
		if closing := in.Close(); err == nil && closing != nil {
			err = errPart
		}
	}()
	d := xml.NewDecoder(in)
	for {
		t, err := d.Token()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return errPart
		}
		if e, ok := t.(xml.StartElement); ok {
			if err := begins(e); err != nil {
				return err
			}
		}
	}
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// sheetParts are the parts of the sheets, by the names of the sheets.
func (u unpacked) sheetParts() (map[string]string, error) {
	targets := map[string]string{}
	err := u.each("xl/_rels/workbook.xml.rels", func(e xml.StartElement) error {
		if target := attribute(e, "Target"); e.Name.Local == "Relationship" && target != "" {
			if strings.HasPrefix(target, "/") {
				targets[attribute(e, "Id")] = strings.TrimPrefix(path.Clean(target), "/")
			} else {
				targets[attribute(e, "Id")] = path.Join("xl", target)
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	sheets := map[string]string{}
	err = u.each("xl/workbook.xml", func(e xml.StartElement) error {
		if e.Name.Local == "sheet" {
			sheets[attribute(e, "name")] = targets[attribute(e, "id")]
		}
		return nil
	})
	return sheets, err
}

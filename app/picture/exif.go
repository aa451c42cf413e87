package picture

import (
	"bytes"
	"encoding/binary"
)

// Markers of JPEG (ITU-T T.81 table B.1) that matter here.
const (
	markerStart = 0xD8 // of the picture
	markerEnd   = 0xD9 // of the picture
	markerScan  = 0xDA // behind its head are the pixels
	markerExif  = 0xE1 // what the camera says

	markersOfPrograms = 0xE0 // and above: what is no picture, comments too
)

// segments shows the segments of a JPEG that stand before its pixels, one after
// another, as long as each goes on, and gives the pixels; false if one did not,
// or they end early.
func segments(b []byte, each func(marker byte, body []byte) bool) (pixels []byte, ok bool) {
	if len(b) < 2 || b[0] != 0xFF || b[1] != markerStart {
		return nil, false
	}
	for b = b[2:]; len(b) >= 4 && b[0] == 0xFF; {
		length := int(binary.BigEndian.Uint16(b[2:]))
		if length < 2 || length+2 > len(b) || !each(b[1], b[4:2+length]) {
			return nil, false
		}
		if b[1] == markerScan {
			return b[2+length:], true
		}
		b = b[2+length:]
	}
	return nil, false
}

// orientation is how the camera was held, 1 to 8 (EXIF 2.3, tag 0x0112); 1
// where the file does not say.
func orientation(file []byte) int {
	held := 1
	segments(file, func(marker byte, body []byte) bool {
		if marker == markerExif {
			if tiff, is := bytes.CutPrefix(body, []byte("Exif\x00\x00")); is {
				held = tagOf(tiff)
				return false
			}
		}
		return true
	})
	return held
}

// Of a TIFF, as EXIF is one.
const (
	tagOrientation = 0x0112
	tagLen         = 12  // bytes of one tag
	tagsMax        = 200 // looked at
)

// tagOf reads the orientation from the first list of tags.
func tagOf(tiff []byte) int {
	if len(tiff) < 8 {
		return 1
	}
	var order binary.ByteOrder = binary.LittleEndian
	switch string(tiff[:2]) {
	case "II":
	case "MM":
		order = binary.BigEndian
	default:
		return 1
	}
	at := int64(order.Uint32(tiff[4:]))
	if at+2 > int64(len(tiff)) {
		return 1
	}
	tags := tiff[at+2:]
	for range min(int(order.Uint16(tiff[at:])), tagsMax) {
		if len(tags) < tagLen {
			return 1
		}
		if order.Uint16(tags) == tagOrientation {
			if v := int(order.Uint16(tags[8:])); v >= 1 && v <= 8 {
				return v
			}
			return 1
		}
		tags = tags[tagLen:]
	}
	return 1
}

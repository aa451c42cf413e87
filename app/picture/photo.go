package picture

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	_ "image/gif" // photos come as one of the three
	"image/jpeg"
	_ "image/png"

	scale "golang.org/x/image/draw"
)

// Bounds of photos.
const (
	FileLenMax   = 32 << 20 // bytes of a file that a photo is made from
	PixelsMax    = 50e6     // of such a file, JPEG
	PixelsMaxPNG = 20e6     // of such a file, PNG or GIF: a pixel can take eight bytes
	SideMax      = 640      // pixels, of the photo that is kept
	sideLeast    = 80       // pixels; smaller is not tried to keep within LenMax
)

// qualities of the JPEG, the first that is short enough is taken.
func qualities() []int { return []int{85, 70, 55} }

// Photo makes a photo from a file of a camera or a screen, JPEG, PNG or GIF: at
// most SideMax on a side, turned as the camera was held, on white where it was
// clear, and with nothing but what is seen. Errors: *Refused.
func Photo(file []byte) ([]byte, error) {
	if len(file) > FileLenMax {
		return nil, &Refused{Why: WhyLong}
	}
	conf, format, err := image.DecodeConfig(bytes.NewReader(file))
	if err != nil {
		return nil, &Refused{Why: WhyUnknown}
	}
	most := int(PixelsMaxPNG)
	if format == "jpeg" {
		most = PixelsMax
	}
	if conf.Width < 1 || conf.Height < 1 || conf.Width > most/conf.Height {
		return nil, &Refused{Why: WhyPixels}
	}
	seen, _, err := image.Decode(bytes.NewReader(file))
	if err != nil {
		return nil, &Refused{Why: WhyBroken}
	}
	turned := turn(smaller(seen, SideMax), orientation(file))
	for side := SideMax; side >= sideLeast; side /= 2 {
		for _, quality := range qualities() {
			var b bytes.Buffer
			if err := jpeg.Encode(&b, smaller(turned, side), &jpeg.Options{Quality: quality}); err != nil {
				return nil, &Refused{Why: WhyBroken}
			}
			if b.Len() <= LenMax {
				return b.Bytes(), nil
			}
		}
	}
	return nil, &Refused{Why: WhyLong}
}

// smaller gives a picture on white that is at most most on a side.
func smaller(from image.Image, most int) *image.RGBA {
	w, h := from.Bounds().Dx(), from.Bounds().Dy()
	if longest := max(w, h); longest > most {
		w, h = max(1, w*most/longest), max(1, h*most/longest)
	}
	to := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(to, to.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src)
	scale.ApproxBiLinear.Scale(to, to.Bounds(), from, from.Bounds(), draw.Over, nil)
	return to
}

// turn undoes how the camera was held, by the number that EXIF has for it.
func turn(from *image.RGBA, held int) *image.RGBA {
	w, h := from.Rect.Dx(), from.Rect.Dy()
	tall := held >= 5
	to := image.NewRGBA(image.Rect(0, 0, w, h))
	if tall {
		to = image.NewRGBA(image.Rect(0, 0, h, w))
	}
	for y := range h {
		for x := range w {
			a, b := x, y
			if tall {
				a, b = y, x
			}
			if held == 2 || held == 3 || held == 6 || held == 7 {
				a = to.Rect.Dx() - 1 - a
			}
			if held == 3 || held == 4 || held == 7 || held == 8 {
				b = to.Rect.Dy() - 1 - b
			}
			to.SetRGBA(a, b, from.RGBAAt(x, y))
		}
	}
	return to
}

// checkPhoto takes a JPEG only as Photo makes it: few pixels, and no segment
// that holds anything but them.
func checkPhoto(b []byte) error {
	conf, err := jpeg.DecodeConfig(bytes.NewReader(b))
	if err != nil {
		return &Refused{Why: WhyBroken}
	}
	if conf.Width < 1 || conf.Height < 1 || conf.Width > SideMax || conf.Height > SideMax {
		return &Refused{Why: WhyPixels}
	}
	pixels, ok := segments(b, func(marker byte, _ []byte) bool { return marker < markersOfPrograms })
	if !ok || !endsAtOnce(pixels) {
		return &Refused{Why: WhyHidden}
	}
	return nil
}

// endsAtOnce tells whether pixels are one scan, and nothing comes behind it.
func endsAtOnce(pixels []byte) bool {
	for {
		at := bytes.IndexByte(pixels, 0xFF)
		if at < 0 || at+1 >= len(pixels) {
			return false
		}
		switch marker := pixels[at+1]; {
		case marker == markerEnd:
			return at+2 == len(pixels)
		case marker != 0 && (marker < 0xD0 || marker > 0xD7): // a byte 0xFF, or a restart
			return false
		}
		pixels = pixels[at+2:]
	}
}

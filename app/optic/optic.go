// Package optic reads the barcode in a picture: a file, or what the clipboard
// holds. What it finds is the text that a scanner would have typed, with its
// symbology prefix where the symbology tells it; kits/barcode reads that.
//
// A picture comes from anywhere, so its bytes and its claim of a size are bounded
// before anything is decoded, and so is the effort: the picture in a few sizes,
// upright, turned and tilted, dark on light and light on dark.
package optic

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	_ "image/gif"  // a format that is read
	_ "image/jpeg" // another
	_ "image/png"  // and another
	"io"
	"strings"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/datamatrix"
	"github.com/makiuchi-d/gozxing/oned"
	"github.com/makiuchi-d/gozxing/qrcode"
	"golang.org/x/image/draw"
)

// Bounds of a picture.
const (
	BytesMax  = 20 << 20
	PixelsMax = 40_000_000
)

// Why a picture tells nothing.
var (
	ErrTooLarge  = errors.New("the picture is too large")
	ErrNoPicture = errors.New("it is no picture that can be read")
	ErrNoCode    = errors.New("there is no barcode in it that can be read")
)

// Code is one barcode that was found.
type Code struct {
	Text      string // as a scanner would type it
	Symbology string // DataMatrix, QR Code, Code 128, …
}

// Read reads the barcode in a picture: PNG, JPEG or GIF.
func Read(r io.Reader) (Code, error) {
	b, err := io.ReadAll(io.LimitReader(r, BytesMax+1))
	switch {
	case err != nil:
		return Code{}, fmt.Errorf("reading the picture: %w", err)
	case len(b) > BytesMax:
		return Code{}, ErrTooLarge
	}
	c, _, err := image.DecodeConfig(bytes.NewReader(b))
	switch {
	case err != nil || c.Width < 1 || c.Height < 1:
		return Code{}, ErrNoPicture
	case c.Width > PixelsMax/c.Height:
		return Code{}, ErrTooLarge
	}
	p, _, err := image.Decode(bytes.NewReader(b))
	if err != nil {
		return Code{}, ErrNoPicture
	}
	return In(p)
}

// sides are the lengths in pixels that a picture's longer side is tried at: large
// photos hide a small code in noise, small ones lack points.
func sides(longer int) []int {
	out := []int{min(longer, 1600)}
	switch {
	case longer > 1600:
		out = append(out, 800)
	case longer < 400:
		out = append(out, 3*longer)
	}
	return out
}

// In reads the barcode in a decoded picture.
func In(p image.Image) (Code, error) {
	b := p.Bounds()
	longer := max(b.Dx(), b.Dy())
	if longer < 1 {
		return Code{}, ErrNoPicture
	}
	var first *image.Gray
	for _, side := range sides(longer) {
		grey := framed(p, max(1, b.Dx()*side/longer), max(1, b.Dy()*side/longer))
		if first == nil {
			first = grey
		}
		for _, upright := range []*image.Gray{grey, turned(grey)} {
			for _, inverted := range []bool{false, true} {
				if c, found := try(upright, inverted, readers()); found {
					return c, nil
				}
			}
		}
	}
	if c, found := tryTilted(first); found {
		return c, nil
	}
	return Code{}, ErrNoCode
}

// framed is a picture of a size, grey, with the white around it that codes need and
// that a picture may have cut away.
func framed(p image.Image, w, h int) *image.Gray {
	rim := max(8, max(w, h)/16)
	out := image.NewGray(image.Rect(0, 0, w+2*rim, h+2*rim))
	draw.Draw(out, out.Bounds(), image.White, image.Point{}, draw.Src)
	draw.CatmullRom.Scale(out, image.Rect(rim, rim, rim+w, rim+h), p, p.Bounds(), draw.Over, nil)
	return out
}

// turned is a picture turned by a quarter.
func turned(p *image.Gray) *image.Gray {
	w, h := p.Bounds().Dx(), p.Bounds().Dy()
	out := image.NewGray(image.Rect(0, 0, h, w))
	for y := range h {
		for x := range w {
			out.Pix[out.PixOffset(h-1-y, x)] = p.Pix[p.PixOffset(x, y)]
		}
	}
	return out
}

// try looks for one barcode.
func try(p *image.Gray, inverted bool, readers []gozxing.Reader) (Code, bool) {
	var source gozxing.LuminanceSource = gozxing.NewLuminanceSourceFromImage(p)
	if inverted {
		source = gozxing.NewInvertedLuminanceSource(source)
	}
	for _, r := range readers {
		for _, binary := range []gozxing.Binarizer{gozxing.NewHybridBinarizer(source), gozxing.NewGlobalHistgramBinarizer(source)} {
			if c, found := decode(r, binary); found {
				return c, true
			}
		}
	}
	return Code{}, false
}

// readers are those of the symbologies that medical goods carry, the surest first.
func readers() []gozxing.Reader {
	return []gozxing.Reader{
		datamatrix.NewDataMatrixReader(), qrcode.NewQRCodeReader(), oned.NewCode128Reader(), oned.NewEAN13Reader(), oned.NewUPCAReader(),
		oned.NewEAN8Reader(), oned.NewITFReader(), oned.NewCode39Reader(),
	}
}

// decode asks one reader. The library indexes what a picture claims in places, so
// that a hostile one may make it panic: that is no barcode either.
func decode(r gozxing.Reader, b gozxing.Binarizer) (c Code, found bool) {
	defer func() {
		if recover() != nil {
			c, found = Code{}, false
		}
	}()
	bitmap, err := gozxing.NewBinaryBitmap(b)
	if err != nil {
		return Code{}, false
	}
	result, err := r.Decode(bitmap, map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_TRY_HARDER: true, gozxing.DecodeHintType_ASSUME_GS1: true})
	if err != nil {
		return Code{}, false
	}
	if result.GetBarcodeFormat() == gozxing.BarcodeFormat_ITF && len(result.GetText()) != itfLen {
		return Code{}, false
	}
	return codeOf(result.GetBarcodeFormat(), result.GetText()), true
}

// itfLen is how many digits an item's number has as interleaved pairs. Without a
// length, any fence in a photo is such a code.
const itfLen = 14

// separator is GS1's, which also stands first where a symbology says that its
// contents are GS1's.
const separator = "\x1d"

// codeOf is what a scanner would type: the prefix that ISO/IEC 15424 gives a
// symbology, and its text.
func codeOf(f gozxing.BarcodeFormat, text string) Code {
	gs1 := len(text) > 0 && text[:1] == separator
	switch f {
	case gozxing.BarcodeFormat_DATA_MATRIX:
		if gs1 {
			return Code{"]d2" + text[1:], "DataMatrix"}
		}
		return Code{"]d1" + text, "DataMatrix"}
	case gozxing.BarcodeFormat_QR_CODE:
		if text = strings.TrimPrefix(text, separator); gs1 || strings.Contains(text, separator) {
			return Code{"]Q3" + text, "QR Code"}
		}
		return Code{text, "QR Code"} // the library does not say whether it is GS1's
	case gozxing.BarcodeFormat_CODE_128:
		if len(text) > 2 && text[:3] == "]C1" {
			return Code{text, "Code 128"}
		}
		return Code{"]C0" + text, "Code 128"}
	case gozxing.BarcodeFormat_EAN_13, gozxing.BarcodeFormat_UPC_A:
		if f == gozxing.BarcodeFormat_UPC_A {
			text = "0" + text
		}
		return Code{"]E0" + text, "EAN-13"}
	case gozxing.BarcodeFormat_EAN_8:
		return Code{"]E4" + text, "EAN-8"}
	case gozxing.BarcodeFormat_ITF:
		return Code{"]I1" + text, "ITF"}
	}
	return Code{"]A0" + text, "Code 39"}
}

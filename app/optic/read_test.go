package optic

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/gif"
	"image/jpeg"
	"image/png"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/datamatrix"
	"github.com/makiuchi-d/gozxing/oned"
	"github.com/stretchr/testify/require"
)

// claiming is a PNG whose header says another size, with the check sum that fits.
func claiming(file []byte, wide, high uint32) []byte {
	const header, length = 12, 17 // the chunk's name and contents
	out := bytes.Clone(file)
	binary.BigEndian.PutUint32(out[header+4:], wide)
	binary.BigEndian.PutUint32(out[header+8:], high)
	binary.BigEndian.PutUint32(out[header+length:], crc32.ChecksumIEEE(out[header:header+length]))
	return out
}

// Goal: a label that was photographed askew is read. Method: bars and squares at
// tilts around a full turn, as tilted draws them.
func TestALabelHeldAskewIsRead(t *testing.T) {
	bars := grey(drawn(t, oned.NewCode128Writer(), gozxing.BarcodeFormat_CODE_128, "\u00f1010950600013435210B7", 760, 200, nil))
	for _, degrees := range []int{6, 160} {
		c, err := In(tilted(bars, degrees))
		require.NoError(t, err, "bars at %d degrees", degrees)
		require.Equal(t, Code{"]C1010950600013435210B7", "Code 128"}, c)
	}
	squares := grey(drawn(t, datamatrix.NewDataMatrixWriter(), gozxing.BarcodeFormat_DATA_MATRIX, "B7 and more, and still more", 200, 200, nil))
	for _, degrees := range []int{20, 110} {
		c, err := In(tilted(squares, degrees))
		require.NoError(t, err, "squares at %d degrees", degrees)
		require.Equal(t, "]d1B7 and more, and still more", c.Text)
	}
}

// Goal: a fence in a photo is no item. Method: interleaved pairs of another length
// than an item's number has, and of that one.
func TestInterleavedPairsAreAnItemsNumberOrNothing(t *testing.T) {
	_, err := In(drawn(t, oned.NewITFWriter(), gozxing.BarcodeFormat_ITF, "123456", 300, 80, nil))
	require.ErrorIs(t, err, ErrNoCode)
	c, err := In(drawn(t, oned.NewITFWriter(), gozxing.BarcodeFormat_ITF, "09506000134352", 400, 80, nil))
	require.NoError(t, err)
	require.Equal(t, Code{"]I109506000134352", "ITF"}, c)
}

// fuzzPixelsMax keeps one try of the fuzzer short.
const fuzzPixelsMax = 10_000

// FuzzRead gives any bytes as a picture: they are read, or refused with a reason,
// and nothing ends the program.
func FuzzRead(f *testing.F) {
	var b bytes.Buffer
	p := image.NewGray(image.Rect(0, 0, 20, 12))
	for i := range p.Pix {
		p.Pix[i] = uint8(i * 37)
	}
	for _, encode := range []func() error{
		func() error { return png.Encode(&b, p) }, func() error { return jpeg.Encode(&b, p, nil) }, func() error { return gif.Encode(&b, p, nil) },
	} {
		b.Reset()
		require.NoError(f, encode())
		f.Add(bytes.Clone(b.Bytes()))
	}
	b.Reset()
	require.NoError(f, png.Encode(&b, p))
	f.Add(claiming(b.Bytes(), 1<<15, 1<<16))
	f.Add([]byte("no picture"))
	f.Fuzz(func(t *testing.T, file []byte) {
		if c, _, err := image.DecodeConfig(bytes.NewReader(file)); err == nil && c.Width*c.Height > fuzzPixelsMax && c.Width <= PixelsMax/max(1, c.Height) {
			return
		}
		c, err := Read(bytes.NewReader(file))
		if err == nil {
			require.NotEmpty(t, c.Symbology)
			return
		}
		require.True(t, errors.Is(err, ErrNoPicture) || errors.Is(err, ErrTooLarge) || errors.Is(err, ErrNoCode), "%v", err)
	})
}

package optic

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/datamatrix"
	"github.com/makiuchi-d/gozxing/oned"
	"github.com/makiuchi-d/gozxing/qrcode"
	"github.com/stretchr/testify/require"

	"lintel/kits/barcode"
)

// drawn draws a code with the library's own writer.
func drawn(t *testing.T, w gozxing.Writer, f gozxing.BarcodeFormat, text string, wide, high int, hints map[gozxing.EncodeHintType]any) image.Image {
	t.Helper()
	m, err := w.Encode(text, f, wide, high, hints)
	require.NoError(t, err)
	p := image.NewGray(image.Rect(0, 0, m.GetWidth()+40, m.GetHeight()+40))
	for y := range p.Bounds().Dy() {
		for x := range p.Bounds().Dx() {
			p.SetGray(x, y, color.Gray{Y: 255})
			if x >= 20 && y >= 20 && x-20 < m.GetWidth() && y-20 < m.GetHeight() && m.Get(x-20, y-20) {
				p.SetGray(x, y, color.Gray{})
			}
		}
	}
	return p
}

// Goal: what a label says is read from its picture, to its item, lot and last day,
// also turned, light on dark, small and as a photo is kept. Method: draw codes,
// spoil them, read, and have kits/barcode say what they mean.
func TestAPictureOfALabelIsReadToItsItemLotAndDay(t *testing.T) {
	const elements = "010950600013435217271231" + "10B7"
	pictures := map[string]image.Image{
		"code 128": drawn(t, oned.NewCode128Writer(), gozxing.BarcodeFormat_CODE_128, "\u00f1"+elements, 400, 100, nil),
		"qr":       drawn(t, qrcode.NewQRCodeWriter(), gozxing.BarcodeFormat_QR_CODE, "https://id.gs1.org/01/09506000134352/10/B7?17=271231", 200, 200, nil),
	}
	for name, p := range pictures {
		for spoiled, x := range map[string]image.Image{"": p, "turned": turned(grey(p)), "inverted": inverted(p), "jpeg": asJPEG(t, p)} {
			c, err := In(x)
			require.NoError(t, err, "%s %s", name, spoiled)
			s, err := barcode.Parse([]byte(c.Text), 2026)
			require.NoError(t, err, "%s %s: %q", name, spoiled, c.Text)
			require.Equal(t, "09506000134352", s.GTIN14, "%s %s: %q", name, spoiled, c.Text)
			require.Equal(t, "B7", s.Lot)
			require.Equal(t, "2027-12-31", s.Expiry.String())
		}
	}
	c, err := In(drawn(t, oned.NewEAN13Writer(), gozxing.BarcodeFormat_EAN_13, "4006381333931", 300, 80, nil))
	require.NoError(t, err)
	require.Equal(t, Code{"]E04006381333931", "EAN-13"}, c)
	c, err = In(drawn(t, datamatrix.NewDataMatrixWriter(), gozxing.BarcodeFormat_DATA_MATRIX, "B7 and more", 200, 200, nil))
	require.NoError(t, err)
	require.Equal(t, Code{"]d1B7 and more", "DataMatrix"}, c)
}

func grey(p image.Image) *image.Gray {
	out := image.NewGray(p.Bounds())
	for y := range p.Bounds().Dy() {
		for x := range p.Bounds().Dx() {
			out.Set(x, y, p.At(x, y))
		}
	}
	return out
}

func inverted(p image.Image) image.Image {
	out := grey(p)
	for i := range out.Pix {
		out.Pix[i] = 255 - out.Pix[i]
	}
	return out
}

func asJPEG(t *testing.T, p image.Image) image.Image {
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, p, &jpeg.Options{Quality: 60}))
	out, err := jpeg.Decode(&b)
	require.NoError(t, err)
	return out
}

// Goal: a prefix is what ISO/IEC 15424 gives each symbology. Method: a text of each.
func TestCodesCarryTheirPrefix(t *testing.T) {
	for want, x := range map[string]Code{
		"]d201":  codeOf(gozxing.BarcodeFormat_DATA_MATRIX, "\x1d01"),
		"]d1ab":  codeOf(gozxing.BarcodeFormat_DATA_MATRIX, "ab"),
		"]Q301":  codeOf(gozxing.BarcodeFormat_QR_CODE, "\x1d01"),
		"01":     codeOf(gozxing.BarcodeFormat_QR_CODE, "01"),
		"]C101":  codeOf(gozxing.BarcodeFormat_CODE_128, "]C101"),
		"]C0ab":  codeOf(gozxing.BarcodeFormat_CODE_128, "ab"),
		"]E001":  codeOf(gozxing.BarcodeFormat_UPC_A, "1"),
		"]E4ab":  codeOf(gozxing.BarcodeFormat_EAN_8, "ab"),
		"]I1ab":  codeOf(gozxing.BarcodeFormat_ITF, "ab"),
		"]A0+ab": codeOf(gozxing.BarcodeFormat_CODE_39, "+ab"),
	} {
		require.Equal(t, want, x.Text)
	}
}

// Goal: what is no picture, claims too much, or has no code is said, and nothing
// hostile ends the program. Method: each, and pictures of noise; the seed is printed.
func TestWhatCannotBeReadIsSaid(t *testing.T) {
	_, err := Read(strings.NewReader("no picture"))
	require.ErrorIs(t, err, ErrNoPicture)
	_, err = Read(bytes.NewReader(make([]byte, BytesMax+1)))
	require.ErrorIs(t, err, ErrTooLarge)
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, 1, 1))))
	_, err = Read(bytes.NewReader(claiming(b.Bytes(), 1<<15, 1<<16)))
	require.ErrorIs(t, err, ErrTooLarge, "2 GiB, by its header")
	_, err = Read(bytes.NewReader(claiming(b.Bytes(), 100, 100)))
	require.ErrorIs(t, err, ErrNoPicture, "there is less than the header says")
	_, err = In(image.NewGray(image.Rect(0, 0, 60, 60)))
	require.ErrorIs(t, err, ErrNoCode)
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	random := rand.New(rand.NewPCG(seed, 4))
	for range 2 {
		p := image.NewGray(image.Rect(0, 0, 1+random.IntN(80), 1+random.IntN(80)))
		for i := range p.Pix {
			p.Pix[i] = uint8(random.IntN(2) * 255)
		}
		_, _ = In(p) // noise may say something; it must come back
	}
}

// Goal: a clipboard's picture comes out of what each system's program writes.
// Method: the outputs as they are documented.
func TestClipboardsAreReadAsTheirProgramsWrite(t *testing.T) {
	b, err := fromScript([]byte("«data PNGf89504E47»\n"))
	require.NoError(t, err)
	require.Equal(t, []byte("\x89PNG"), b)
	_, err = fromScript([]byte("text"))
	require.ErrorIs(t, err, ErrEmpty)
	b, err = pasters("windows")[0].bytes([]byte(base64.StdEncoding.EncodeToString([]byte("x")) + "\r\n"))
	require.NoError(t, err)
	require.Equal(t, []byte("x"), b)
	require.Len(t, pasters("linux"), 2)
}

// Goal: pictures that another program draws say the same. Method: zint, a barcode
// library of its own, draws GS1 and HIBC labels in four symbologies; it is left
// out, and said, where it is not installed.
func TestPicturesOfAnotherEncoderAreRead(t *testing.T) {
	zint, err := exec.LookPath("zint")
	if err != nil {
		t.Skip("zint is not installed, so no pictures of another encoder are read")
	}
	const gs1 = "[01]09506000134352[17]271231[10]B7[21]SN1"
	for symbology, args := range map[string][]string{
		"DATAMATRIX": {"--gs1", "-d", gs1}, "QRCODE": {"--gs1", "-d", gs1}, "GS1_128": {"-d", gs1}, "HIBC_DM": {"-d", "A123BJC5D6E71"}, "HIBC_39": {"-d", "A123BJC5D6E71"},
	} {
		path := filepath.Join(t.TempDir(), "a.png")
		out, err := exec.Command(zint, append([]string{"-b", symbology, "-o", path, "--scale=3"}, args...)...).CombinedOutput()
		require.NoError(t, err, "%s: %s", symbology, out)
		file, err := os.Open(path)
		require.NoError(t, err)
		c, err := Read(file)
		require.NoError(t, file.Close())
		require.NoError(t, err, symbology)
		s, err := barcode.Parse([]byte(c.Text), 2026)
		require.NoError(t, err, "%s: %q", symbology, c.Text)
		if strings.HasPrefix(symbology, "HIBC") {
			require.Equal(t, "hibc", strings.ToLower(string(s.Scheme)), "%q", c.Text)
			continue
		}
		require.Equal(t, "09506000134352", s.GTIN14, "%s: %q", symbology, c.Text)
		require.Equal(t, "B7", s.Lot)
		require.Equal(t, "SN1", s.Serial)
	}
}

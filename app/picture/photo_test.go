package picture

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// quarters is a picture that shows how it is turned: red, green, blue, white
// from the upper left, clockwise.
func quarters(w, h int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{255, 0, 0, 255}
			switch right, low := x >= w/2, y >= h/2; {
			case right && !low:
				c = color.RGBA{0, 255, 0, 255}
			case right && low:
				c = color.RGBA{0, 0, 255, 255}
			case low:
				c = color.RGBA{255, 255, 255, 255}
			}
			m.SetRGBA(x, y, c)
		}
	}
	return m
}

// photo is a JPEG as Photo keeps it.
func photo(t testing.TB, w, h int) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, quarters(w, h), nil))
	return b.Bytes()
}

// withSegment puts a segment behind the beginning of a JPEG.
func withSegment(b []byte, marker byte, body []byte) []byte {
	out := append([]byte{}, b[:2]...)
	out = append(out, 0xFF, marker)
	out = binary.BigEndian.AppendUint16(out, uint16(len(body)+2))
	return append(append(out, body...), b[2:]...)
}

// held is what a camera writes that was held in one of eight ways, with words
// that must not be kept.
func held(way uint16, order binary.AppendByteOrder, mark string) []byte {
	b := append([]byte("Exif\x00\x00"), mark...)
	b = order.AppendUint16(b, 42)
	b = order.AppendUint32(b, 8)
	b = order.AppendUint16(b, 2)
	for _, tag := range []uint16{0x0110, tagOrientation} {
		b = order.AppendUint16(b, tag)
		b = order.AppendUint16(b, 3)
		b = order.AppendUint32(b, 1)
		b = order.AppendUint16(b, way)
		b = order.AppendUint16(b, 0)
	}
	return append(b, "GPS 51.5 R. Smith 2026:11:25"...)
}

// nameAt is the colour that a picture has at a place.
func nameAt(m image.Image, x, y int) string {
	r, g, b, _ := m.At(x, y).RGBA()
	return map[[3]bool]string{{true, false, false}: "red", {false, true, false}: "green", {false, false, true}: "blue", {true, true, true}: "white"}[[3]bool{r > 0x8000, g > 0x8000, b > 0x8000}]
}

// Goal: no photo carries a place, a time, a name or a comment out of a camera,
// and none lies on its side. Method: put all eight ways of holding a camera and
// a comment into a JPEG, in both byte orders; look at the four corners, and for
// the words, afterwards. The ways are those of EXIF 2.3, table of Orientation.
func TestPhotoTurnsAndForgetsWhatTheCameraSays(t *testing.T) {
	corners := []string{
		1: "red green blue white", 2: "green red white blue", 3: "blue white red green", 4: "white blue green red",
		5: "red white blue green", 6: "white red green blue", 7: "blue green red white", 8: "green blue white red",
	}
	for way := 1; way <= 8; way++ {
		file := withSegment(photo(t, 120, 80), 0xFE, []byte("bed 4"))
		file = withSegment(file, markerExif, held(uint16(way), binary.LittleEndian, "II"))
		if way%2 == 0 {
			file = withSegment(photo(t, 120, 80), markerExif, held(uint16(way), binary.BigEndian, "MM"))
		}
		_, err := Check(file)
		require.Equal(t, WhyHidden, why(t, err))
		made, err := Photo(file)
		require.NoError(t, err)
		for _, words := range []string{"Exif", "GPS", "Smith", "2026", "bed"} {
			require.NotContains(t, string(made), words)
		}
		kind, err := Check(made)
		require.NoError(t, err)
		require.Equal(t, KindPhoto, kind)
		m, _, err := image.Decode(bytes.NewReader(made))
		require.NoError(t, err)
		w, h := m.Bounds().Dx(), m.Bounds().Dy()
		require.Equal(t, way >= 5, h > w, way)
		seen := nameAt(m, 5, 5) + " " + nameAt(m, w-6, 5) + " " + nameAt(m, w-6, h-6) + " " + nameAt(m, 5, h-6)
		require.Equal(t, corners[way], seen, "held %d", way)
	}
}

// Goal: what a camera says can be nonsense. Method: cut its words off at every
// length, and change each byte; the picture is made all the same.
func TestNonsenseOfACameraIsPassedOver(t *testing.T) {
	said := held(6, binary.LittleEndian, "II")
	for n := range said {
		require.Contains(t, []int{1, 6}, orientation(withSegment(photo(t, 8, 8), markerExif, said[:n])))
		broken := bytes.Clone(said)
		broken[n] ^= 0xFF
		got := orientation(withSegment(photo(t, 8, 8), markerExif, broken))
		require.True(t, got >= 1 && got <= 8)
	}
	require.Equal(t, 1, orientation(nil))
	require.Equal(t, 1, orientation([]byte("\xFF\xD8\xFF\xE1\x00\x01")))
}

// Goal: whatever comes becomes small. Method: noise, which hardly shrinks, a
// long strip, a clear picture, in the three formats that cameras and screens write.
func TestPhotosBecomeSmall(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	noise := image.NewRGBA(image.Rect(0, 0, 1500, 1200))
	for i := range noise.Pix {
		noise.Pix[i] = byte(r.Uint32()) | 0x0F
	}
	clear := image.NewNRGBA(image.Rect(0, 0, 30, 20))
	strip := image.NewPaletted(image.Rect(0, 0, 3000, 2), color.Palette{color.Black, color.White})
	for name, encode := range map[string]func(*bytes.Buffer) error{
		"noise": func(b *bytes.Buffer) error { return jpeg.Encode(b, noise, &jpeg.Options{Quality: 100}) },
		"clear": func(b *bytes.Buffer) error { return png.Encode(b, clear) },
		"strip": func(b *bytes.Buffer) error { return gif.Encode(b, strip, nil) },
	} {
		var file bytes.Buffer
		require.NoError(t, encode(&file), name)
		made, err := OfItem(file.Bytes())
		require.NoError(t, err, name)
		_, err = Check(made)
		require.NoError(t, err, name)
		m, _, err := image.Decode(bytes.NewReader(made))
		require.NoError(t, err, name)
		require.LessOrEqual(t, max(m.Bounds().Dx(), m.Bounds().Dy()), SideMax, name)
		if name == "clear" {
			require.Equal(t, "white", nameAt(m, 3, 3), "what was clear is white, not black")
		}
	}
}

// Goal: a small file cannot claim a picture that takes all memory. Method: PNGs
// whose head claims too many pixels, or none; a file too long; a file cut off;
// bytes behind the end, another scan.
func TestPhotosAreBoundedBeforeTheyAreDecoded(t *testing.T) {
	for _, side := range [][2]uint32{{1 << 20, 1 << 20}, {5000, 5000}, {1 << 30, 1}, {0x7fffffff, 0x7fffffff}} {
		_, err := Photo(pngHead(side[0], side[1]))
		require.Error(t, err)
		require.Contains(t, []Why{WhyPixels, WhyUnknown}, why(t, err))
	}
	_, err := Photo(make([]byte, FileLenMax+1))
	require.Equal(t, WhyLong, why(t, err))
	whole := photo(t, 64, 64)
	_, err = Photo(whole[:len(whole)-50])
	require.Equal(t, WhyBroken, why(t, err))
	_, err = Check(append(bytes.Clone(whole), "R. Smith\xFF\xD9"...))
	require.Equal(t, WhyHidden, why(t, err))
	_, err = Check(whole[:len(whole)-1])
	require.Equal(t, WhyHidden, why(t, err))
	_, err = Check(photo(t, SideMax+1, 10))
	require.Equal(t, WhyPixels, why(t, err))
}

// pngHead is a PNG that ends behind its head.
func pngHead(w, h uint32) []byte {
	chunk := append([]byte("IHDR"), binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, w), h)...)
	chunk = append(chunk, 8, 2, 0, 0, 0)
	b := append([]byte("\x89PNG\r\n\x1a\n"), 0, 0, 0, 13)
	b = append(b, chunk...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(chunk))
}

// FuzzPhoto gives any bytes to Photo: it never panics, and what it makes passes.
func FuzzPhoto(f *testing.F) {
	f.Add(photo(f, 20, 10))
	f.Add(withSegment(photo(f, 8, 8), markerExif, held(6, binary.BigEndian, "MM")))
	f.Add(pngHead(10, 10))
	f.Fuzz(func(t *testing.T, file []byte) {
		if conf, _, err := image.DecodeConfig(bytes.NewReader(file)); err == nil && conf.Width*conf.Height > 1<<20 {
			return // bounded, but slow here
		}
		made, err := Photo(file)
		if err != nil {
			require.NotEmpty(t, why(t, err))
			return
		}
		_, err = Check(made)
		require.NoError(t, err)
	})
}

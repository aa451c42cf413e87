package lan

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// helloSeeds and the other seeds serve the fuzz targets and the table tests.
func helloSeeds(t testing.TB) [][]byte {
	good, err := encodeHello(Hello{Group: mesh.GroupID{1}, Wall: 1_800_000_000_000, Run: runID{2}, Port: 29460, Epoch: 3, Attempt: 4, ByAccepter: true})
	require.NoError(t, err)
	later := bytes.Clone(good)
	later[0]++
	return [][]byte{good, later, nil, {helloVersion}, good[:len(good)-1], append(bytes.Clone(good), 0),
		{helloVersion, 0xdd, 0xff, 0xff, 0xff, 0xff}, bytes.Repeat([]byte{helloVersion}, openFrameLenMax+1)}
}

// Goal: of the seeds only the good hello is read, another version is told apart.
func TestHelloHasOneForm(t *testing.T) {
	for i, b := range helloSeeds(t) {
		_, err := decodeHello(b)
		switch i {
		case 0:
			require.NoError(t, err)
		case 1:
			require.ErrorIs(t, err, ErrOtherVersion)
		default:
			require.Error(t, err, "%x", b)
		}
	}
	_, err := encodeHello(Hello{Epoch: rankMax + 1})
	require.Error(t, err)
}

// FuzzHello: what is read has one byte form and is within its ranges.
func FuzzHello(f *testing.F) {
	for _, b := range helloSeeds(f) {
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		h, err := decodeHello(b)
		if err != nil {
			return
		}
		again, err := encodeHello(h)
		require.NoError(t, err)
		require.Equal(t, b, again)
	})
}

// messages gives a fresh value for each message by its number.
func messages() map[byte]func() any {
	return map[byte]func() any{
		msgBegin:   func() any { return &Begin{Role: RoleJoiner} },
		msgShare:   func() any { return new(Share) },
		msgConfirm: func() any { return new(Confirm) },
		msgAbout:   func() any { return &About{Name: "Tablet 3", Port: PortDefault} },
		msgWelcome: func() any {
			w := welcome()
			return &Greeting{Group: w.Group, Founding: w.Founding, Inviter: w.Inviter, Admission: w.Admission, Port: 1}
		},
		msgDone:    func() any { return new(Done) },
		msgRefused: func() any { return &Refusal{Why: refusedWrong, Left: 1, Seconds: 600} },
	}
}

func messageSeeds(t testing.TB) (seeds [][]byte) {
	for number, v := range messages() {
		b, err := encodeMessage(number, v())
		require.NoError(t, err)
		require.LessOrEqual(t, len(b), mesh.FrameLenMax)
		seeds = append(seeds, b)
	}
	return append(seeds, nil, []byte{0}, []byte{msgWelcome, 0xdd, 0xff, 0xff, 0xff, 0xff}, []byte{msgRefused, 0x93, 99, 0, 0})
}

// Goal: each message is read only as what it is, whole, and in its ranges.
func TestMessagesHaveOneForm(t *testing.T) {
	for _, b := range messageSeeds(t) {
		read := 0
		for number, v := range messages() {
			if decodeMessage(b, number, v()) == nil {
				read++
				require.Equal(t, number, b[0])
				require.Error(t, decodeMessage(b[:len(b)-1], number, v()))
				require.Error(t, decodeMessage(append(bytes.Clone(b), 0), number, v()))
			}
		}
		if len(b) > 0 && messages()[b[0]] != nil && b[1] != 0xdd && !bytes.Equal(b, []byte{msgRefused, 0x93, 99, 0, 0}) {
			require.Equal(t, 1, read, "%x", b)
		} else {
			require.Zero(t, read, "%x", b)
		}
	}
}

// FuzzMessage: what is read has one byte form.
func FuzzMessage(f *testing.F) {
	for _, b := range messageSeeds(f) {
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		for number, fresh := range messages() {
			v := fresh()
			if decodeMessage(b, number, v) != nil {
				continue
			}
			again, err := encodeMessage(number, v)
			require.NoError(t, err)
			require.Equal(t, b, again)
		}
	})
}

func frameSeeds() [][]byte {
	good := appendFrame(nil, true, byte(mesh.StreamCatchUp), []byte("abc"))
	return [][]byte{good, appendFrame(nil, false, 0, []byte("abc")), appendFrame(good, true, goodbye, []byte{1, 'x'}),
		nil, {0}, {2, 0, 0, 0, 1, 1}, {0, 0, 0, 0, 0}, {0, 0xff, 0xff, 0xff, 0xff}, {1, 0, 1, 0, 1}, good[:6]}
}

// Goal: lengths of nothing, over the limit and beyond the end are refused, and
// so are streams that do not exist.
func TestFramesAreBounded(t *testing.T) {
	for i, b := range frameSeeds() {
		_, f, err := readFrame(bytes.NewReader(b), true, 16)
		if i == 0 || i == 2 {
			require.NoError(t, err)
			require.Equal(t, []byte("abc"), f)
		} else {
			require.Error(t, err, "%x", b)
		}
	}
	long := appendFrame(nil, false, 0, make([]byte, 17))
	_, _, err := readFrame(bytes.NewReader(long), false, 16)
	require.ErrorIs(t, err, errFrame)
	_, _, err = readFrame(bytes.NewReader(long), false, 17)
	require.NoError(t, err)
}

// FuzzFrames: a sequence of frames reads as exactly the bytes that it is, as far
// as it reads, and never more than the limit at once.
func FuzzFrames(f *testing.F) {
	for _, b := range frameSeeds() {
		f.Add(b, true)
		f.Add(b, false)
	}
	f.Fuzz(func(t *testing.T, b []byte, named bool) {
		const lenMax = 64
		r := bytes.NewReader(b)
		var again []byte
		for {
			stream, frame, err := readFrame(r, named, lenMax)
			if err != nil {
				break
			}
			require.NotEmpty(t, frame)
			require.LessOrEqual(t, len(frame), lenMax)
			again = appendFrame(again, named, stream, frame)
		}
		require.True(t, bytes.HasPrefix(b, again))
	})
}

// Goal: codes are read however they are spaced, and shown 3-3-1. Method: drawn
// codes, and a table of slips.
func TestCodesAreReadAsShown(t *testing.T) {
	for range 50 {
		digits, err := drawCode()
		require.NoError(t, err)
		shown := ShowCode(digits)
		require.Regexp(t, `^\d{3} \d{3} \d$`, shown)
		for _, typed := range []string{shown, digits, " " + digits + "\n", digits[:3] + "-" + digits[3:]} {
			got, err := ReadCode(typed)
			require.NoError(t, err)
			require.Equal(t, digits, got)
		}
		for _, slip := range []string{digits[:6], digits + "0", "x" + digits[1:], digits[:6] + "x", ""} {
			_, err := ReadCode(slip)
			require.ErrorIs(t, err, ErrCodeTyped, slip)
		}
	}
}

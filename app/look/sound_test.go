package look

import (
	"bytes"
	"encoding/binary"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// loudness gives the peak of every hundredth of a second, 0 to 1.
func loudness(samples []int16) (peaks []float64) {
	const step = SoundRate / 100
	for from := 0; from < len(samples); from += step {
		var peak float64
		for _, v := range samples[from:min(from+step, len(samples))] {
			peak = max(peak, math.Abs(float64(v))/math.MaxInt16)
		}
		peaks = append(peaks, peak)
	}
	return peaks
}

// pulses counts how often a sound comes up over a tenth of its peak again.
func pulses(samples []int16) (n int) {
	peaks := loudness(samples)
	var most float64
	for _, p := range peaks {
		most = max(most, p)
	}
	quiet := true
	for _, p := range peaks {
		if quiet && p > most/10 {
			n++
		}
		quiet = p <= most/10
	}
	return n
}

// Goal: no sound of ours can be taken for a monitor's. Method: the pulse groups
// of IEC 60601-1-8 (two, three, five, ten; secondary text) are bursts with
// silence between them: each of ours is one sound without a gap. It begins and
// ends in silence, and is never cut at full loudness.
func TestNoSoundIsARowOfPulses(t *testing.T) {
	for _, s := range []Sound{SoundCall, SoundReminder, SoundTick} {
		samples := s.PCM()
		require.Equal(t, 1, pulses(samples), "sound %d", s)
		require.Zero(t, samples[0])
		require.Less(t, math.Abs(float64(samples[len(samples)-1])), 0.01*math.MaxInt16)
		require.Equal(t, samples, s.PCM(), "the same every time")
	}
	three := make([]int16, SoundRate)
	for i := range three {
		if i/(SoundRate/6)%2 == 0 {
			three[i] = 20_000
		}
	}
	require.Equal(t, 3, pulses(three), "the count can tell")
}

// Goal: a tick inside is soft and short. Method: compare it with a call.
func TestTheTickInsideIsSoft(t *testing.T) {
	peak := func(s Sound) (most float64) {
		for _, p := range loudness(s.PCM()) {
			most = max(most, p)
		}
		return most
	}
	require.Less(t, peak(SoundTick), peak(SoundCall)/2)
	require.Less(t, len(SoundTick.PCM()), SoundRate/10)
	require.Greater(t, peak(SoundCall), 0.4)
}

// Goal: the file form is what players read. Method: its lengths and format, by hand.
func TestASoundFileSaysItsLengths(t *testing.T) {
	samples, file := SoundCall.PCM(), SoundCall.WAV()
	require.Len(t, file, 44+2*len(samples))
	require.True(t, bytes.HasPrefix(file, []byte("RIFF")))
	require.EqualValues(t, len(file)-8, binary.LittleEndian.Uint32(file[4:]))
	require.Equal(t, "WAVEfmt ", string(file[8:16]))
	require.EqualValues(t, SoundRate, binary.LittleEndian.Uint32(file[24:]))
	require.EqualValues(t, 2*len(samples), binary.LittleEndian.Uint32(file[40:]))
	require.Equal(t, uint16(samples[500]), binary.LittleEndian.Uint16(file[44+1000:]))
}

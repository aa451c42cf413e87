package look

import (
	"encoding/binary"
	"math"
	"time"
)

// Sound is one of our own sounds. Inside devices make none, but for Tick where
// a site switched it on. None is a row of pulses, as those of IEC 60601-1-8
// are (one, two, three, five and ten): each is a single sound that runs on
// from its first note to its end, with its notes above that standard's range
// of pulse pitches (150–1000 Hz, from memory).
type Sound int

// Sounds.
const (
	SoundCall     Sound = iota // a new request, outside: four notes, rising, of unequal length
	SoundReminder              // a request that nobody answered, outside: two long notes, falling
	SoundTick                  // at the door, inside, off unless a site wants it: one soft knock
)

// SoundRate is the number of samples in a second; one channel.
const SoundRate = 44_100

// note begins at a moment and rings on under those after it.
type note struct {
	at     time.Duration
	hertz  float64
	fading time.Duration // until it is down to a third
	share  float64       // of the loudest
}

func (s Sound) notes() (notes []note, lasts time.Duration) {
	switch s {
	case SoundCall:
		return []note{
			{0, 1175, 260 * time.Millisecond, 0.5},
			{110 * time.Millisecond, 1568, 240 * time.Millisecond, 0.5},
			{330 * time.Millisecond, 1319, 300 * time.Millisecond, 0.5},
			{480 * time.Millisecond, 1760, 420 * time.Millisecond, 0.6},
		}, 1400 * time.Millisecond
	case SoundReminder:
		return []note{
			{0, 1397, 420 * time.Millisecond, 0.5},
			{360 * time.Millisecond, 1047, 460 * time.Millisecond, 0.55},
		}, 1400 * time.Millisecond
	}
	return []note{{0, 1245, 18 * time.Millisecond, 0.2}}, 90 * time.Millisecond
}

// Times at which a sound comes and goes, so that nothing clicks.
const (
	soundRise = 8 * time.Millisecond
	soundFall = 60 * time.Millisecond
)

// PCM gives the samples. Each call makes fresh ones, always the same.
func (s Sound) PCM() []int16 {
	notes, lasts := s.notes()
	samples := make([]int16, int(lasts.Seconds()*SoundRate))
	for i := range samples {
		now := float64(i) / SoundRate
		var sum float64
		for _, n := range notes {
			sum += n.sample(now - n.at.Seconds())
		}
		left := lasts.Seconds() - now
		sum *= min(1, left/min(soundFall.Seconds(), lasts.Seconds()/2))
		samples[i] = int16(math.Tanh(sum) * 0.9 * math.MaxInt16)
	}
	return samples
}

// sample is a struck bar: the note, and a little of its fourth harmonic that
// fades sooner.
func (n note) sample(since float64) float64 {
	if since < 0 {
		return 0
	}
	fade := math.Exp(-since / n.fading.Seconds())
	rise := min(1, since/soundRise.Seconds())
	turn := 2 * math.Pi * n.hertz * since
	return n.share * rise * (fade*math.Sin(turn) + 0.15*fade*fade*fade*math.Sin(4*turn))
}

// WAV gives the sound as a file: RIFF, 16 bits, one channel.
func (s Sound) WAV() []byte {
	samples := s.PCM()
	size := uint32(2 * len(samples))
	file := make([]byte, 0, 44+size)
	file = append(file, "RIFF"...)
	file = binary.LittleEndian.AppendUint32(file, 36+size)
	file = append(file, "WAVEfmt "...)
	file = binary.LittleEndian.AppendUint32(file, 16)
	for _, v := range []uint16{1, 1} { // plain samples, one channel
		file = binary.LittleEndian.AppendUint16(file, v)
	}
	file = binary.LittleEndian.AppendUint32(file, SoundRate)
	file = binary.LittleEndian.AppendUint32(file, 2*SoundRate)
	for _, v := range []uint16{2, 16} { // bytes of a sample, bits
		file = binary.LittleEndian.AppendUint16(file, v)
	}
	file = append(file, "data"...)
	file = binary.LittleEndian.AppendUint32(file, size)
	for _, v := range samples {
		file = binary.LittleEndian.AppendUint16(file, uint16(v))
	}
	return file
}

package stage

import (
	"errors"
	"image/png"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/station"
	"lintel/mesh"
)

// Glass is a screen in dp, with its density in dp for 20 mm.
type Glass struct {
	Size    fyne.Size
	Density float32
}

// Glasses are a desk or a tablet, a small tablet, a phone, a small phone.
func Glasses() map[string]Glass {
	return map[string]Glass{
		"desk": {fyne.NewSize(1280, 800), look.DensityDesktop}, "small": {fyne.NewSize(800, 480), look.DensityDesktop},
		"phone": {fyne.NewSize(455, 800), look.DensityMobile}, "tiny": {fyne.NewSize(320, 480), look.DensityDesktop},
	}
}

// Noon is the wall clock of every scene, 08:00 UTC of some day.
const Noon mesh.Wall = 1_800_000_000_000

// Ref is a name for a fact that a test makes up.
func Ref(n byte) mesh.Ref { return mesh.MakeRef(mesh.Key{n}, mesh.Tap{n}, 1) }

// ErrTest is what a failing act answers.
var ErrTest = errors.New("test")

// Taps notes the acts and answers at once: the n-th with Ref(100+n), or with Err.
type Taps struct {
	Acts []station.Act
	By   mesh.By // of the last
	Err  error
}

// Tap is what screens call.
func (f *Taps) Tap(by mesh.By, act station.Act, done func(station.Result, error)) bool {
	f.Acts, f.By = append(f.Acts, act), by
	r := station.Result{Saved: true, Ref: Ref(byte(100 + len(f.Acts)))}
	if f.Err != nil {
		r = station.Result{}
	}
	if done != nil {
		done(r, f.Err)
	}
	return true
}

// Scene is one screen with everything around it.
type Scene struct {
	Look  *look.Look
	Taps  *Taps
	Glass Glass
	Now   time.Time

	t    *testing.T
	root fyne.CanvasObject
}

// New makes an empty scene; Show puts the screen on it.
func New(t *testing.T, shade look.Shade, g Glass) *Scene {
	o := look.Defaults()
	o.Shade, o.Reads, o.Density = shade, look.RunnerLine, g.Density
	l, err := look.New(o)
	require.NoError(t, err)
	return &Scene{t: t, Look: l, Taps: &Taps{}, Glass: g, Now: time.UnixMilli(int64(Noon))}
}

// Show puts a screen on the glass.
func (s *Scene) Show(screen fyne.CanvasObject) {
	s.root = screen
	screen.Resize(s.Glass.Size)
}

// Clock is the scene's time.
func (s *Scene) Clock() time.Time { return s.Now }

// Explain says the same of every failure.
func (s *Scene) Explain(error) (sentence, hint string) { return "The disk is full.", "Call it in." }

// Try taps what says a name, or begins with it; false: there is none.
func (s *Scene) Try(name string) bool { return proof.Tap(s.Look, s.root, s.Glass.Size, name) }

// Tap is Try for what must be there.
func (s *Scene) Tap(name string) {
	s.t.Helper()
	require.True(s.t, s.Try(name), "nothing to tap says %q:\n%s", name, s.Text())
}

// Hands lists what can be tapped.
func (s *Scene) Hands() []proof.Hand { return proof.Hands(s.Look, s.root, s.Glass.Size) }

// Text is what the screen says, and where.
func (s *Scene) Text() string { return proof.Text(s.Look, s.root, s.Glass.Size) }

// Audit lists what is below the design.
func (s *Scene) Audit() []proof.Finding { return proof.Audit(s.Look, s.root, s.Glass.Size) }

// Draw puts a picture into the folder that LINTEL_PICTURES names, if any.
func (s *Scene) Draw(name string) {
	folder := os.Getenv("LINTEL_PICTURES")
	if folder == "" {
		return
	}
	file, err := os.Create(filepath.Join(folder, name+".png"))
	require.NoError(s.t, err)
	require.NoError(s.t, png.Encode(file, proof.Picture(s.Look, s.root, s.Glass.Size, 1)))
	require.NoError(s.t, file.Close())
}

// Golden compares what the screen says with a file in testdata; with
// LINTEL_GOLDEN=1 it writes the file first.
func (s *Scene) Golden(name string) {
	s.t.Helper()
	path, got := filepath.Join("testdata", name+".txt"), s.Text()
	if os.Getenv("LINTEL_GOLDEN") != "" {
		require.NoError(s.t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(s.t, err)
	require.Equal(s.t, string(want), got, name)
}

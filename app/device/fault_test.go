package device

import (
	"errors"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/mesh/lan"
	"lintel/requests"
)

// TestEveryKnownErrorHasASentenceAndAHint wraps each error of the table and
// expects its own sentence, with every blank filled or left to the caller.
func TestEveryKnownErrorHasASentenceAndAHint(t *testing.T) {
	w := words.English()
	for _, s := range sentences() {
		id, _ := Fault(fmt.Errorf("doing it: %w", s.err))
		require.True(t, w.Has("fault."+id) && w.Has("hint."+id), "%v: %s", s.err, id)
	}
	id, blanks := Fault(errors.New("never heard of"))
	require.Equal(t, words.ID("other"), id)
	sentence, _ := w.Fault(id, blanks...)
	require.Contains(t, sentence, "never heard of")
}

// TestErrorsWithFieldsFillTheirBlanks gives a wrong code with tries left, and a
// closed pairing.
func TestErrorsWithFieldsFillTheirBlanks(t *testing.T) {
	w := words.English()
	id, blanks := Fault(&lan.CodeWrongError{Left: 1})
	_, hint := w.Fault(id, blanks...)
	require.Contains(t, hint, "Tries left there: 1.")
	until := time.Date(2026, 3, 1, 14, 5, 0, 0, time.Local)
	id, blanks = Fault(&lan.PairingClosedError{Until: until})
	_, hint = w.Fault(id, blanks...)
	require.Equal(t, "Wait until 14:05:00.", hint)
}

// TestASocketThatCannotBeOpenedIsWorded listens where this machine has no address.
func TestASocketThatCannotBeOpenedIsWorded(t *testing.T) {
	_, err := net.Listen("tcp", "192.0.2.1:0")
	require.Error(t, err)
	id, _ := Fault(err)
	require.Equal(t, words.ID("listen"), id)
	_, err = Open(Options{Dir: t.TempDir(), Name: "x", Listen: "192.0.2.1:0"})
	id, _ = Fault(err)
	require.Equal(t, words.ID("listen"), id)
}

// TestReadingAFolderThatIsNoneSaysSo reads what is missing, a file, and an
// empty folder.
func TestReadingAFolderThatIsNoneSaysSo(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	_, err := ReadFolder(dir)
	require.ErrorIs(t, err, ErrNoLog)
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	_, err = ReadFolder(file)
	require.ErrorIs(t, err, ErrNoFolder)
	_, err = ReadFolder(filepath.Join(dir, "none"))
	require.ErrorIs(t, err, ErrNoFolder)
	require.NoError(t, os.WriteFile(filepath.Join(dir, configName), []byte("{"), 0o600))
	_, err = ReadFolder(dir)
	require.ErrorIs(t, err, ErrConfig)
}

// TestAUnitFoundedLaterTakesOverWhatWasRecordedAlone records alone, founds, and
// finds the request under the same name.
func TestAUnitFoundedLaterTakesOverWhatWasRecordedAlone(t *testing.T) {
	d := running(t, t.TempDir(), "a")
	require.NoError(t, d.FoundAlone())
	r := asked(t, d)
	require.NoError(t, d.Found("Invented unit"))
	require.True(t, has(t, d, r))
	require.ErrorIs(t, d.Found("Another"), ErrHasUnit)
}

// asked records a request and returns its name.
func asked(t *testing.T, d *Device) mesh.Ref {
	t.Helper()
	act := station.Ask{Room: "A1", Thing: requests.Thing{Item: 1032, Count: 1}, Urgency: requests.RightNow}
	r, err := stationOf(t, d).Do(t.Context(), mesh.By{Tag: "L1"}, act)
	require.NoError(t, err)
	return r.Ref
}

// has tells whether a device's board has the request.
func has(t *testing.T, d *Device, ref mesh.Ref) (there bool) {
	t.Helper()
	require.NoError(t, stationOf(t, d).Look(t.Context(), func(v station.View) { _, there = v.Board.Request(ref) }))
	return there
}

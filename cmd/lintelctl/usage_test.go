package main

import (
	"bytes"
	"net"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/words"
)

// called runs the program in this process with nothing on its input.
func called(t *testing.T, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	code = run(t.Context(), args, strings.NewReader(""), &out, &errs)
	return code, out.String(), errs.String()
}

// TestWrongCallsSayWhatAndHow calls the program wrongly in every way and
// expects code 2 (or 1 where the call was right and the world was not), one
// sentence and a hint.
func TestWrongCallsSayWhatAndHow(t *testing.T) {
	dir, file := t.TempDir(), filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, []byte("x"), 0o600))
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer func() { require.NoError(t, taken.Close()) }()
	device := func(more ...string) []string {
		return append([]string{"device", "-data", filepath.Join(dir, "d"), "-name", "n", "-role", "lead"}, more...)
	}
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{nil, 2, "No command was given."},
		{[]string{"alert"}, 2, "There is no command alert."},
		{[]string{"device"}, 2, "The option -data is missing."},
		{[]string{"device", "-data", dir}, 2, "The option -name is missing."},
		{[]string{"device", "-data", dir, "-name", "n"}, 2, "The option -role is missing."},
		{device("-colour", "red"), 2, "The options were not understood"},
		{device("left", "over"), 2, "The options were not understood: left."},
		{device("-peer", "nowhere"), 2, "nowhere is not an address."},
		{device("-room", "A 1"), 2, `The option -room cannot be "A 1".`},
		{device("-tag", strings.Repeat("T", 17)), 2, "The option -tag cannot be"},
		{device("-role", "doctor"), 2, "The roles are: lead assistant scribe runner observer charge."},
		{device("-data", file), 1, "cannot be used."},
		{device("-data", filepath.Join(file, "below")), 1, "cannot be used."},
		{device("-listen", taken.Addr().String()), 1, "Another program uses the port."},
		{device("-listen", "nonsense"), 2, "The device cannot listen at that address."},
		{device("-listen", "192.0.2.1:0"), 1, "The device cannot listen at that address."},
		{[]string{"audit"}, 2, "The option DIR is missing."},
		{[]string{"audit", filepath.Join(dir, "none")}, 1, "There is no data folder"},
		{[]string{"audit", file}, 1, "There is no data folder"},
		{[]string{"audit", dir}, 1, "holds no unit's log."},
		{[]string{"replay", "-x"}, 2, "The options were not understood"},
		{[]string{"replay", dir}, 1, "holds no unit's log."},
		{[]string{"demo", "-out", filepath.Dir(file)}, 2, "is not empty."},
		{[]string{"demo", "-out", filepath.Join(file, "below")}, 1, "The data folder " + filepath.Join(file, "below") + " cannot be used."},
		{[]string{"bench"}, 2, "No command was given."},
		{[]string{"bench", "jog"}, 2, "There is no command bench jog."},
		{[]string{"bench", "run", "-work", "ack"}, 2, "The option -n is missing."},
		{[]string{"demo", "-seed", "x"}, 2, "The options were not understood"},
	} {
		code, _, errs := called(t, c.args...)
		require.Equal(t, c.code, code, "%v: %s", c.args, errs)
		require.Contains(t, errs, c.says, "%v", c.args)
		lines := strings.Split(strings.TrimSpace(errs), "\n")
		require.Len(t, lines, 2, "%v: a sentence and a hint", c.args)
		require.NotContains(t, errs, "{", "%v: a blank was left open", c.args)
		require.NotContains(t, errs, "fault.", "%v: a sentence is missing", c.args)
	}
}

// TestHelpListsEveryCommand asks for help outside and inside.
func TestHelpListsEveryCommand(t *testing.T) {
	code, out, _ := called(t, "help")
	require.Equal(t, exitFine, code)
	for _, u := range []string{usageDevice, usageDemo, usageAudit, usageReplay} {
		require.Contains(t, out, u)
	}
	for usage, args := range map[string][]string{
		usageDevice: {"device"}, usageDemo: {"demo"}, usageAudit: {"audit"}, usageReplay: {"replay"},
		usageBench: {"bench"}, usageBenchRun: {"bench", "run"}, usageBenchIdle: {"bench", "idle"},
	} {
		for _, asked := range []string{"-h", "--help"} {
			code, out, errs := called(t, append(args, asked)...)
			require.Equal(t, exitFine, code, args)
			require.Empty(t, errs)
			require.Contains(t, out, usage)
			require.NotContains(t, out, "help.", "words are missing")
		}
	}
	w := words.English()
	for _, c := range commands() {
		require.True(t, w.Has(c.about), c.name)
		require.Equal(t, c.name, strings.Fields(c.usage)[0])
	}
}

// TestEveryFaultAndFindingHasWords reads this package's own source for the ids
// that it names, so that none is forgotten.
func TestEveryFaultAndFindingHasWords(t *testing.T) {
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	w, n := words.English(), 0
	for _, p := range []struct {
		find   *regexp.Regexp
		prefix []words.ID
	}{
		{regexp.MustCompile(`&fault\{id: "([a-z-]+)"`), []words.ID{"fault.", "hint."}},
		{regexp.MustCompile(`\bfound\("([a-z-]+)"`), []words.ID{"finding."}},
		{regexp.MustCompile(`\.(?:note|noteOf)\("([a-z-]+)"`), []words.ID{"note."}},
		{regexp.MustCompile(`\.Say\("([a-z.-]+[a-z])"`), []words.ID{""}},
	} {
		for _, f := range files {
			if strings.HasSuffix(f, "_test.go") {
				continue
			}
			source, err := os.ReadFile(f)
			require.NoError(t, err)
			for _, m := range p.find.FindAllSubmatch(source, -1) {
				for _, prefix := range p.prefix {
					require.True(t, w.Has(prefix+words.ID(m[1])), "%s: %s%s", f, prefix, m[1])
					n++
				}
			}
		}
	}
	require.Greater(t, n, 50)
}

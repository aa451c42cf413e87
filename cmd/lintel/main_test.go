package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/requests"
)

// called runs the program and gives what it said.
func called(t *testing.T, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	code = run(t.Context(), args, nil, &out, &errs)
	return code, out.String(), errs.String()
}

// TestWrongOptionsAreNamed gives what cannot be understood: each is one
// sentence with a hint and exit code 2, and no folder is made.
func TestWrongOptionsAreNamed(t *testing.T) {
	for _, args := range [][]string{
		{"-nothing"}, {"word"}, {"-window", "wide"}, {"-window", "10x10"}, {"-density", "1"}, {"-shade", "grey"},
		{"-peer", "nowhere"}, {"-tag", "a tag that is much too long"}, {"-room", "A 1"}, {"-role", "no role"},
	} {
		code, out, errs := called(t, args...)
		require.Equal(t, exitUsage, code, "%v", args)
		require.Empty(t, out)
		require.Regexp(t, `^lintel: .+\.\n {8}.+\n$`, errs, "%v", args)
	}
}

// TestABuildWithoutWindowsSaysSo starts a device and the demonstration: the
// tests are built without a window driver.
func TestABuildWithoutWindowsSaysSo(t *testing.T) {
	w := words.English()
	code, _, errs := called(t, "-data", t.TempDir())
	require.Equal(t, exitFailure, code)
	require.Contains(t, errs, noWindow(w, mayOpen()))
	code, out, errs := called(t, "-demo")
	require.Equal(t, exitFailure, code, "lintelctl is not beside the test")
	require.Contains(t, out, w.Say("window.demo-plain"))
	require.Contains(t, errs, w.Say("fault.no-plain"))
}

// TestAWindowRemembersOnlyWhatCanBeUsed writes and reads back, and puts rubbish
// in the file.
func TestAWindowRemembersOnlyWhatCanBeUsed(t *testing.T) {
	dir := t.TempDir()
	require.Zero(t, remember(dir))
	kept := remembered{Density: 97.5, Shade: shadeLight}
	require.NoError(t, kept.keep(dir))
	require.Equal(t, kept, remember(dir))
	require.Equal(t, look.Light, kept.lookOptions(options{}).Shade)
	require.Equal(t, look.Dark, kept.lookOptions(options{shade: shadeDark}).Shade)
	require.EqualValues(t, 80, kept.lookOptions(options{density: 80}).Density)
	for _, text := range []string{"", "{", `{"density":-3}`, `{"density":1e9}`} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, windowFile), []byte(text), 0o600))
		require.Zero(t, remember(dir).Density)
	}
	require.Error(t, kept.keep(filepath.Join(dir, "missing")))
}

// TestTheTapsOfTheGalleryLeadSomewhere follows those of every picture on a
// tablet: a word that changed would leave a picture of another page. What only
// phones show is followed there. Every page keeps the design on every glass.
func TestTheTapsOfTheGalleryLeadSomewhere(t *testing.T) {
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	g := gallery{words: words.English(), starter: starter}
	for _, p := range pictures(g.words) {
		for _, size := range glasses() {
			if !p.on(size) {
				continue
			}
			l, o, window, err := g.make(p, size, look.Dark)
			require.NoError(t, err, p.name)
			for _, name := range p.taps {
				_, there := g.tap(l, o, window, name)
				assert.True(t, there || size != glasses()[1] && p.most == 0, "%s: nothing says %q:\n%s", p.name, name, proof.Text(l, o, window))
			}
			assert.Empty(t, proof.Audit(l, o, window), "%s on a %s", p.name, size.name)
		}
	}
}

// TestPicturesAreWritten draws one, and into a folder that is none.
func TestPicturesAreWritten(t *testing.T) {
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	g := gallery{words: words.English(), starter: starter}
	x, err := g.one(pictures(g.words)[0], glasses()[0], look.Dark)
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "a.png")
	files := make(chan drawn, 2)
	files <- drawn{path, x}
	close(files)
	require.NoError(t, writeAll(files))
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "\x89PNG", string(b[:4]))
	files = make(chan drawn, 2)
	files <- drawn{filepath.Join(path, "in a file"), x}
	files <- drawn{filepath.Join(t.TempDir(), "b.png"), x}
	close(files)
	require.Error(t, writeAll(files))
	code, _, errs := called(t, "-gallery", filepath.Join(path, "in a file"))
	require.Equal(t, exitFailure, code)
	require.Contains(t, errs, "could not be written")
}

// TestHintsFollowTheNewestRequest plays the canned case and reads what the
// demonstration would say at each step, on both sides.
func TestHintsFollowTheNewestRequest(t *testing.T) {
	c, err := newCanned()
	require.NoError(t, err)
	c.people(cannedLead, cannedRunner)
	said := func(tag string) words.ID {
		for _, h := range c.view.Board.Holders() {
			if string(h.Tag) == tag {
				return hint(h, c.view.Board.Open())
			}
		}
		return hint(requests.Holding{}, c.view.Board.Open())
	}
	both := func(inside, outside words.ID) {
		t.Helper()
		require.NoError(t, c.err)
		require.Equal(t, inside, said("L1"))
		require.Equal(t, outside, said("R1"))
		require.Equal(t, words.ID("try.watch"), said("nobody"))
	}
	both("try.tap", "try.wait")
	r := c.ask(cannedLead, itemTube, 1, requests.RightNow)
	both("try.going", "try.go")
	c.goes(cannedRunner, r)
	both("try.read", "try.readback")
	c.holds(cannedRunner, r, itemTube, 1)
	both("try.answer", "try.agree")
	c.do(cannedLead, "lead", "L1", station.Agree{Request: r})
	both("try.door", "try.put")
	c.do(cannedRunner, "runner", "R1", station.PutAtDoor{Request: r})
	both("try.take", "try.inside")
	c.do(cannedLead, "lead", "L1", station.TakeIn{Request: r})
	both("try.tap", "try.wait")
}

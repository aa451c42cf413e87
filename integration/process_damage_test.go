package integration

import (
	"bytes"
	"encoding/hex"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// segment is the path of a device's newest segment.
func (u *unit) segment(name string) string {
	u.t.Helper()
	all, err := filepath.Glob(filepath.Join(u.dir(name), "groups", "*", "*.seg"))
	require.NoError(u.t, err)
	require.NotEmpty(u.t, all)
	slices.Sort(all)
	return all[len(all)-1]
}

// fileTimes are all files of a folder, with their bytes and times.
func fileTimes(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		st, err := d.Info()
		if err == nil {
			out[path] = st.ModTime().String() + string(b)
		}
		return err
	}))
	return out
}

// Goal: what was cut off a log's end by a crash is said, the device goes on in a
// new row of entries, and the cut entry comes back from the others. Method: kill
// -9, take the last bytes of the newest segment away, start again.
func TestATornEntryComesBackFromTheOthers(t *testing.T) {
	t.Parallel()
	u := newUnit(t, "lead", "runner")
	ref := u.at["lead"].do("ask 1032 x3 now").Ref
	u.shownAs("runner", ref, "asked")
	u.at["lead"].await("that the runner's device has it", 0, func(h heard) bool { return h.Ref == ref && h.Delivery == "runner" })
	u.at["lead"].kill()
	path := u.segment("lead")
	st, err := os.Stat(path)
	require.NoError(t, err)
	require.NoError(t, os.Truncate(path, st.Size()-7))
	r := run(t, "audit", "-json", u.dir("lead"))
	require.Equal(t, 1, r.code)
	require.Contains(t, r.stdout, `"finding":"torn"`)

	p := u.again("lead")
	p.await("that the end was cut", 0, func(h heard) bool { return h.Note == "torn" })
	u.shownAs("lead", ref, "asked")
	p.do("withdraw " + ref)
	p.await("that a new row of entries begins", 0, func(h heard) bool { return h.Note == "new-incarnation" })
	u.shownAs("runner", ref, "withdrawn")
	u.settled(u.names...)
	u.leave()
	u.clean(u.names...)
}

// Goal: damage in the middle of a log is named with segment and position, by
// audit without changing anything and by the device; what stood there is fetched
// again, even an admission, without which the device does not know to whom to
// talk. Method: flip one bit of the entry that admitted the runner.
func TestDamageIsNamedAndFetchedAgain(t *testing.T) {
	t.Parallel()
	u := newUnit(t, "lead", "runner")
	u.bring("lead", "runner", "1032")
	hash := u.settled(u.names...)
	require.Zero(t, u.at["lead"].leave())
	path := u.segment("lead")
	log, err := os.ReadFile(path)
	require.NoError(t, err)
	key, err := hex.DecodeString(u.at["runner"].device)
	require.NoError(t, err)
	at := bytes.Index(log, key)
	require.Positive(t, at, "the admission names the runner's key")
	log[at] ^= 1
	require.NoError(t, os.WriteFile(path, log, 0o600))

	before := fileTimes(t, u.dir("lead"))
	r := run(t, "audit", "-json", u.dir("lead"))
	require.Equal(t, 1, r.code)
	require.Regexp(t, `"finding":"damage","where":"segment 1, bytes \d+ to \d+`, r.stdout)
	require.Equal(t, before, fileTimes(t, u.dir("lead")), "audit changed the folder")

	p := u.again("lead")
	h := p.await("where the damage is", 0, func(h heard) bool { return h.Note == "damage" })
	require.Regexp(t, `segment 1, bytes \d+ to \d+`, h.Text)
	p.await("a link", 0, func(h heard) bool { return h.Event == "link" && h.Health == "connected" })
	ref := p.do("ask 2019 x1 now").Ref
	u.shownAs("runner", ref, "asked")
	require.NotEqual(t, hash, u.settled(u.names...))
	require.Empty(t, p.list("audit", "finding"))
	u.leave()
	u.clean("runner")
	r = run(t, "audit", "-json", u.dir("lead"))
	require.Equal(t, 1, r.code, "damage stays named")
	require.Contains(t, r.stdout, `"findings":1}`)
}

// Goal: a folder that was copied while its device was off is no second life of
// the same device: both copies go on, nothing is lost, all devices agree at the
// end, and it is said. Method: copy a folder, start both, record on both.
func TestACopiedFolderLosesNothing(t *testing.T) {
	t.Parallel()
	u := newUnit(t, "lead", "runner", "charge")
	u.bring("lead", "runner", "1032")
	u.settled(u.names...)
	require.Zero(t, u.at["lead"].leave())
	require.NoError(t, os.CopyFS(u.dir("copy"), os.DirFS(u.dir("lead"))))
	require.NoError(t, os.Chmod(filepath.Join(u.dir("copy"), "device.key"), 0o600))

	p := u.again("lead")
	first := p.do("ask 2019 x1 now")
	args := u.args("lead", loopback, u.at["runner"].address, u.at["charge"].address)
	args[1] = u.dir("copy")
	c := launch(t, "copy", nil, args...).isReady()
	second := c.do("ask 4243 x1 now")
	c.await("that a new row of entries begins", 0, func(h heard) bool { return h.Note == "new-incarnation" })
	third := p.do("ask 1108 x1 now")
	require.True(t, first.Saved && second.Saved && third.Saved)
	for _, answer := range []heard{first, second, third} {
		for _, name := range []string{"runner", "charge"} {
			u.shownAs(name, answer.Ref, "asked")
		}
	}
	u.settled("runner", "charge")
	require.Zero(t, c.leave())
	p.await("the other one's request", 0, func(h heard) bool { return h.Event == "request" && h.Ref == second.Ref })
	u.settled(u.names...)
	u.leave()
	for _, name := range u.names {
		taps := u.taps(name)
		for _, answer := range []heard{first, second, third} {
			require.True(t, taps[tapOf(answer.Mark)], "%s lacks an entry", name)
		}
	}
}

// Goal: an older copy of a folder, put back in its place, is no step back: what
// the device had recorded since comes back from the others, and what it records
// now stands beside that. Method: copy a folder, record more, put the copy back.
func TestAnOlderCopyPutBackIsNoStepBack(t *testing.T) {
	t.Parallel()
	u := newUnit(t, "lead", "runner")
	u.settled(u.names...)
	require.Zero(t, u.at["lead"].leave())
	older := filepath.Join(u.root, "older")
	require.NoError(t, os.CopyFS(older, os.DirFS(u.dir("lead"))))

	u.again("lead")
	since := u.bring("lead", "runner", "1032")
	u.settled(u.names...)
	u.at["lead"].kill()
	require.NoError(t, os.RemoveAll(u.dir("lead")))
	require.NoError(t, os.CopyFS(u.dir("lead"), os.DirFS(older)))
	require.NoError(t, os.Chmod(filepath.Join(u.dir("lead"), "device.key"), 0o600))

	p := u.again("lead")
	now := p.do("ask 2019 x1 now")
	require.True(t, now.Saved)
	p.await("that a new row of entries begins", 0, func(h heard) bool { return h.Note == "new-incarnation" })
	u.shownAs("runner", now.Ref, "asked")
	u.shownAs("lead", since, "taken-in")
	u.settled(u.names...)
	u.leave()
	u.clean(u.names...)
}

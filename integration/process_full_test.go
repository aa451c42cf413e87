package integration

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// fillMax bounds how many requests fill the small disks of these tests.
const fillMax = 600

// Goal: a full disk, and a file that may not grow, are said at once; the device
// goes on in memory, its entries are on the others' disks, and after the disk
// has room again a start brings all of them back. Method: a small file system,
// where one may be mounted, and a limit on the length of files, each under one
// of two devices; requests until one is not saved, then some more.
func TestAFullDiskLosesNothing(t *testing.T) {
	t.Parallel()
	t.Run("full", func(t *testing.T) {
		t.Parallel()
		u := newUnit(t, "lead")
		mounted := u.dir("runner")
		require.NoError(t, os.MkdirAll(mounted, 0o700))
		free, err := mountSmall(t, mounted, 192<<10)
		if err != nil {
			t.Skip("no small file system can be mounted here: ", err)
		}
		goesOnWithoutDisk(t, u, u.start("runner"), free)
	})
	t.Run("may not grow", func(t *testing.T) {
		t.Parallel()
		if _, err := os.Stat("/bin/sh"); err != nil {
			t.Skip("no shell that can limit the length of files: ", err)
		}
		u := newUnit(t, "lead")
		// The unit of ulimit -f differs between shells: 512 bytes, or 1024.
		limit := []string{"/bin/sh", "-c", `trap "" XFSZ; ulimit -f 64 && exec "$@"`, "sh"}
		p := u.keep(launch(t, "runner", limit, u.args("runner", loopback)...).isReady())
		goesOnWithoutDisk(t, u, p, func() {})
	})
}

// goesOnWithoutDisk lets a device join, fills its disk, frees it and looks for
// everything.
func goesOnWithoutDisk(t *testing.T, u *unit, p *process, free func()) {
	t.Helper()
	u.join(p, u.at["lead"])
	p.await("a link", 0, func(h heard) bool { return h.Event == "link" && h.Health == "connected" })
	var marks []string
	unsaved := 0
	for n := 0; unsaved < 5; n++ {
		require.Less(t, n, fillMax, "the disk was never full")
		answer := p.do(fmt.Sprintf("voice 1032 x%d now", 1+n%9))
		marks = append(marks, tapOf(answer.Mark))
		if !answer.Saved {
			unsaved++
		}
	}
	p.await("that the disk failed", 0, func(h heard) bool { return h.Note == "store-failed" })
	require.Greater(t, len(marks), unsaved, "something was saved before")
	last := p.do("ask 2019 x1 now")
	require.False(t, last.Saved)
	marks = append(marks, tapOf(last.Mark))
	p.await("that others have it", 0, func(h heard) bool { return h.Event == "request" && h.Ref == last.Ref && h.Copies == 1 })
	u.shownAs("lead", last.Ref, "asked")
	u.settled("lead", "runner")
	p.leave()
	free()
	u.again("runner")
	u.settled("lead", "runner")
	require.True(t, u.at["runner"].do("ask 2019 x2 now").Saved)
	u.settled("lead", "runner")
	u.leave()
	for _, name := range u.names {
		taps := u.taps(name)
		for i, mark := range marks {
			require.True(t, taps[mark], "%s lacks entry %d of %d", name, i, len(marks))
		}
	}
	r := run(t, "audit", u.dir("lead"))
	require.Zero(t, r.code, r.stdout)
}

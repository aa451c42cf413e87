package disk

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// realOptions opens group A's log in a real folder.
func realOptions(dir string) Options {
	o := Defaults()
	o.Dir, o.Group, o.Machine = dir, groupA, "anvil"
	return o
}

// feedBegins is a batch in which author begins a feed.
func feedBegins(t *testing.T, batch uint64, author mesh.Key) mesh.Append {
	t.Helper()
	part, err := mesh.MakePart(mesh.KindFeedBefore, &mesh.FeedBefore{Why: mesh.WhyMark})
	require.NoError(t, err)
	b, err := mesh.EncodeEntry(&mesh.Entry{
		Version: mesh.Version, Group: groupA, Author: author, Seq: 1, Turn: 1, Parts: []mesh.Part{part},
	})
	require.NoError(t, err)
	return mesh.Append{Batch: batch, Records: []mesh.Record{{Item: mesh.Item{Bytes: b}}}}
}

// reopen opens and closes the log and tells why a new incarnation is due.
func reopen(t *testing.T, o Options) *Found {
	t.Helper()
	s, found, err := Open(o)
	require.NoError(t, err)
	require.NoError(t, s.Close())
	return found
}

func run(t *testing.T, name string, args ...string) {
	t.Helper()
	out, err := exec.Command(name, args...).CombinedOutput()
	require.NoError(t, err, "%s", out)
}

// Goal: a copied folder is noticed, and the original goes on. Method: cp -a of a
// real data folder, then open both.
func TestACopiedFolderIsNoticed(t *testing.T) {
	if _, err := exec.LookPath("cp"); err != nil {
		t.Skip("no cp on this machine: ", err)
	}
	dir := t.TempDir()
	original, clone := filepath.Join(dir, "original"), filepath.Join(dir, "clone")
	three(t, realOptions(original))
	run(t, "cp", "-a", original, clone)
	require.Zero(t, reopen(t, realOptions(original)).Fresh)
	found := reopen(t, realOptions(clone))
	require.Equal(t, mesh.WhyMark, found.Fresh)
	require.Zero(t, found.Verified, "a copy is verified from the start")
	require.Len(t, found.Records, 6)
}

// Goal: an older copy put over the folder is noticed although the folder keeps
// its inode. Method: cp -a away, write more, cp -a back over it.
func TestAnOlderCopyPutBackIsNoticed(t *testing.T) {
	if _, err := exec.LookPath("cp"); err != nil {
		t.Skip("no cp on this machine: ", err)
	}
	dir := t.TempDir()
	original, backup := filepath.Join(dir, "original"), filepath.Join(dir, "backup")
	three(t, realOptions(original))
	if id, err := Real().Identify(original); err != nil || id.Born == 0 {
		t.Skip("this system tells no time of birth: an older copy put back may stay unnoticed here ", err)
	}
	run(t, "cp", "-a", original, backup)
	three(t, realOptions(original))
	run(t, "cp", "-a", backup+"/.", original)
	found := reopen(t, realOptions(original))
	require.Equal(t, mesh.WhyMark, found.Fresh)
	require.Len(t, found.Records, 6)
}

// Goal: everything else that the mark can notice. Method: a table of what
// happens to a closed log of three batches.
func TestTheMarkNotices(t *testing.T) {
	markPath := filepath.Join(groupDir(dataDir, groupA), markName)
	for name, c := range map[string]struct {
		happens func(f *Faulty, o *Options)
		why     mesh.Why
	}{
		"nothing":       {func(*Faulty, *Options) {}, 0},
		"other machine": {func(_ *Faulty, o *Options) { o.Machine = "other" }, mesh.WhyMark},
		"mark damaged":  {func(f *Faulty, _ *Options) { f.SetBytes(markPath, []byte("lintel mark 1\n")) }, mesh.WhyMark},
		"other folder": {func(f *Faulty, _ *Options) {
			rewriteMark(t, f, markPath, func(m *mark) { m.folder.Inode++ })
		}, mesh.WhyMark},
		"other file": {func(f *Faulty, _ *Options) {
			rewriteMark(t, f, markPath, func(m *mark) { m.file.Inode++ })
		}, mesh.WhyMark},
		"last batch gone": {func(f *Faulty, _ *Options) { f.SetBytes(logFile(1), f.Bytes(logFile(1))[:300]) }, mesh.WhyTorn},
		"log emptied": {func(f *Faulty, _ *Options) {
			f.SetBytes(logFile(1), f.Bytes(logFile(1))[:segmentHeaderLen])
		}, mesh.WhyMark},
		"older mark": {func(f *Faulty, o *Options) {
			old := f.Bytes(markPath)
			s, found, _ := Open(*o)
			_ = s.Append(mesh.Append{Batch: found.Newest + 1})
			_ = s.Close()
			f.SetBytes(markPath, old)
		}, mesh.WhyMark},
	} {
		t.Run(name, func(t *testing.T) {
			f := NewFaulty(1)
			o := options(f)
			three(t, o)
			c.happens(f, &o)
			require.Equal(t, c.why, reopen(t, o).Fresh)
			require.Equal(t, c.why, reopen(t, o).Fresh, "and again, until a new incarnation has begun")
		})
	}
}

// rewriteMark changes a mark in place.
func rewriteMark(t *testing.T, f *Faulty, path string, change func(*mark)) {
	t.Helper()
	m, err := decodeMark(f.Bytes(path))
	require.NoError(t, err)
	change(m)
	f.SetBytes(path, m.encode())
}

// Goal: a process that was killed goes on in its own feed. Method: append, kill,
// open.
func TestAMissingCleanCloseIsNoReason(t *testing.T) {
	f := NewFaulty(1)
	s, _ := open(t, options(f))
	require.NoError(t, s.Append(mesh.Append{Batch: 1, Records: []mesh.Record{record("one", false)}}))
	f.Kill()
	found := reopen(t, options(f))
	require.Zero(t, found.Fresh)
	require.Len(t, found.Records, 1)
}

// Goal: a new incarnation stays owed over restarts until this device's own new
// feed is on the disk; another device's does not count. Method: tear the log,
// append another's feed, kill, open, append our own, kill, open.
func TestANewIncarnationStaysOwed(t *testing.T) {
	f := NewFaulty(1)
	o := options(f)
	o.Author = mesh.Key{7}
	three(t, o)
	f.SetBytes(logFile(1), f.Bytes(logFile(1))[:300])
	s, found := open(t, o)
	require.Equal(t, mesh.WhyTorn, found.Fresh)
	require.NoError(t, s.Append(feedBegins(t, found.Newest+1, mesh.Key{8})))
	f.Kill()
	s, found = open(t, o)
	require.Equal(t, mesh.WhyTorn, found.Fresh)
	require.NoError(t, s.Append(feedBegins(t, found.Newest+1, mesh.Key{7})))
	f.Kill()
	_, found = open(t, o)
	require.Zero(t, found.Fresh)
}

// Goal: after damage everything is verified again until a batch written later
// vouches for it, over restarts in between. Method: damage the first of four
// batches, open and close twice, then append.
func TestDamageIsVerifiedAgainUntilVouchedFor(t *testing.T) {
	f := NewFaulty(1)
	three(t, options(f))
	b := f.Bytes(logFile(1))
	b[segmentHeaderLen+batchHeaderLen] ^= 1
	f.SetBytes(logFile(1), b)
	require.Zero(t, reopen(t, options(f)).Verified)
	s, found := open(t, options(f))
	require.Zero(t, found.Verified)
	require.Len(t, found.Records, 5)
	require.NoError(t, s.Append(mesh.Append{Batch: 4, Records: []mesh.Record{record("four", true)}}))
	require.NoError(t, s.Close())
	found = reopen(t, options(f))
	require.Equal(t, 5, found.Verified)
	require.Len(t, found.Records, 6)
}

// Goal: the mark has one byte form and any other is refused. Method: change
// each byte of one.
func TestADamagedMarkIsRefused(t *testing.T) {
	m := &mark{machine: hashMachine("anvil"), state: stateClosed, end: position{3, 1, 99}, owed: mesh.WhyTorn}
	b := m.encode()
	got, err := decodeMark(b)
	require.NoError(t, err)
	require.Equal(t, m, got)
	for i := range b {
		bad := append([]byte{}, b...)
		bad[i] ^= 1
		_, err := decodeMark(bad)
		require.ErrorIs(t, err, errMark, "byte %d", i)
	}
	_, err = decodeMark(append(b, '\n'))
	require.ErrorIs(t, err, errMark)
}

// Goal: the machine's id never stands in a file. Method: search the mark.
func TestTheMachinesIDIsHidden(t *testing.T) {
	dir := t.TempDir()
	o := realOptions(dir)
	o.Machine = "0123456789abcdef0123456789abcdef"
	three(t, o)
	b, err := os.ReadFile(filepath.Join(groupDir(dir, groupA), markName))
	require.NoError(t, err)
	require.NotContains(t, string(b), o.Machine)
}

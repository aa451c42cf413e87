package main

import (
	"context"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
)

// listener is a sounder over a program of the test's own.
func listener(t *testing.T, script string) (p *programSounder, changed chan struct{}, dir string) {
	if runtime.GOOS == "windows" {
		t.Skip("the program that stands for a player is a shell script")
	}
	dir = t.TempDir()
	path := filepath.Join(dir, "player")
	require.NoError(t, os.WriteFile(path, []byte("#!/bin/sh\n"+script), 0o700))
	changed = make(chan struct{}, 8)
	p = newProgramSounder(dir, func() { changed <- struct{}{} })
	p.find = func() []string { return []string{path} }
	return p, changed, dir
}

// during runs a sounder until what is done with it has ended.
func during(t *testing.T, p *programSounder, do func()) {
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan struct{})
	go func() { // joined by the receive from ended below
		defer close(ended)
		p.run(ctx)
	}()
	do()
	stop()
	<-ended
}

// TestASoundThatPlaysIsKnownToWork plays one through a program that copies
// what it is given, and looks whether that is the sound.
func TestASoundThatPlaysIsKnownToWork(t *testing.T) {
	p, changed, dir := listener(t, `cp "$1" "$(dirname "$0")/heard"`)
	_, known := p.Works()
	require.False(t, known)
	during(t, p, func() {
		p.Play(look.SoundCall)
		<-changed
	})
	works, known := p.Works()
	require.True(t, works && known)
	heard, err := os.ReadFile(filepath.Join(dir, "heard"))
	require.NoError(t, err)
	require.True(t, strings.HasPrefix(string(heard), "RIFF"))
	require.Equal(t, look.SoundCall.WAV(), heard)
}

// TestWithoutASoundDeviceItIsSaid plays through a program that fails, and where
// there is no program at all.
func TestWithoutASoundDeviceItIsSaid(t *testing.T) {
	p, changed, _ := listener(t, "exit 1")
	for _, find := range []func() []string{p.find, func() []string { return nil }} {
		p.find, p.known = find, false
		during(t, p, func() {
			p.Play(look.SoundTick)
			<-changed
		})
		works, known := p.Works()
		require.True(t, known)
		require.False(t, works)
	}
}

// TestSoundsThatComeTooFastAreDropped fills the queue of a sounder that does
// not run: nothing waits.
func TestSoundsThatComeTooFastAreDropped(t *testing.T) {
	p, _, _ := listener(t, "")
	for range 3 * soundsMax {
		p.Play(look.SoundCall)
	}
	require.Len(t, p.queue, soundsMax)
}

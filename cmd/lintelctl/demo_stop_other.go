//go:build !unix

package main

// stop cannot stop a process here.
func (p *player) stop() bool { return false }

// goOn has nothing to do.
func (p *player) goOn() {}

//go:build unix

package main

import "syscall"

// stop stops the process until goOn; false: it could not.
func (p *player) stop() bool { return p.command.Process.Signal(syscall.SIGSTOP) == nil }

// goOn lets a stopped process go on.
func (p *player) goOn() { _ = p.command.Process.Signal(syscall.SIGCONT) } // one that ended is noticed by its next answer

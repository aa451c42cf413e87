//go:build ci

package main

// mayOpen says that this build has no windows.
func mayOpen() error { return errNoDriver }

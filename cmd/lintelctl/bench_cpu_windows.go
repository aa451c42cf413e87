package main

import (
	"syscall"
	"time"
)

// cpuTime is what this process has used so far, user and system.
func cpuTime() time.Duration {
	var created, ended, kernel, user syscall.Filetime
	self, err := syscall.GetCurrentProcess()
	if err == nil {
		err = syscall.GetProcessTimes(self, &created, &ended, &kernel, &user)
	}
	if err != nil {
		return 0
	}
	return filetimeSpan(kernel) + filetimeSpan(user)
}

// filetimeSpan reads a span in units of 100 ns.
func filetimeSpan(f syscall.Filetime) time.Duration {
	return time.Duration(int64(f.HighDateTime)<<32+int64(f.LowDateTime)) * 100
}

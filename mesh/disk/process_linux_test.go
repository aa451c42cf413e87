package disk

import (
	"fmt"
	"os/signal"
	"syscall"
	"testing"
)

// limitFileLen lets no file of this process grow beyond n bytes.
var limitFileLen = func(n uint64) error {
	signal.Ignore(syscall.SIGXFSZ) // the write fails then, instead of the process
	return syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: n, Max: n})
}

// mountSmall mounts a file system of size bytes on dir until the end of the test.
func mountSmall(t *testing.T, dir string, size int) error {
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, fmt.Sprintf("size=%d", size)); err != nil {
		return err
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(dir, 0); err != nil {
			t.Errorf("unmounting %s: %v", dir, err)
		}
	})
	return nil
}

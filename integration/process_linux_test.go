package integration

import (
	"fmt"
	"syscall"
	"testing"
)

// mountSmall mounts a file system of size bytes on dir until the end of the
// test. free gives it room.
func mountSmall(t *testing.T, dir string, size int) (free func(), err error) {
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, fmt.Sprintf("size=%d", size)); err != nil {
		return nil, err
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(dir, 0); err != nil {
			t.Errorf("unmounting %s: %v", dir, err)
		}
	})
	return func() {
		if err := syscall.Mount("tmpfs", dir, "tmpfs", syscall.MS_REMOUNT, fmt.Sprintf("size=%d", 8*size)); err != nil {
			t.Errorf("making %s larger: %v", dir, err)
		}
	}, nil
}

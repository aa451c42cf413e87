//go:build linux && !android

package disk

import "golang.org/x/sys/unix"

func identify(name string) (Identity, error) {
	var st unix.Statx_t
	if err := unix.Statx(unix.AT_FDCWD, name, 0, unix.STATX_INO|unix.STATX_BTIME, &st); err != nil {
		return Identity{}, err
	}
	id := Identity{Device: unix.Mkdev(st.Dev_major, st.Dev_minor), Inode: st.Ino}
	if st.Mask&unix.STATX_BTIME != 0 {
		id.Born = st.Btime.Sec*1e9 + int64(st.Btime.Nsec)
	}
	return id, nil
}

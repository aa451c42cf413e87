package device

import "golang.org/x/sys/unix"

// powerFolder is where Linux shows its supplies of power.
const powerFolder = "/sys/class/power_supply"

// freeMB is the space that is left for this process where a folder lies, in
// MB; 0: not known.
func freeMB(dir string) uint64 {
	var st unix.Statfs_t
	if err := unix.Statfs(dir, &st); err != nil || st.Bsize <= 0 {
		return 0
	}
	return st.Bavail * uint64(st.Bsize) / 1_000_000
}

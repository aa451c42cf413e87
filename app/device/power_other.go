//go:build !linux

package device

// powerFolder is empty where the system does not show its battery as files.
const powerFolder = ""

// freeMB is not known here.
func freeMB(string) uint64 { return 0 }

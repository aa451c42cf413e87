package disk

import "syscall"

// syncDir does nothing: Windows cannot sync a folder, and NTFS keeps its names
// in a journal.
func syncDir(string) error { return nil }

func identify(name string) (Identity, error) {
	path, err := syscall.UTF16PtrFromString(name)
	if err != nil {
		return Identity{}, err
	}
	const share = syscall.FILE_SHARE_READ | syscall.FILE_SHARE_WRITE | syscall.FILE_SHARE_DELETE
	// FILE_FLAG_BACKUP_SEMANTICS is what opens a folder.
	h, err := syscall.CreateFile(path, 0, share, nil, syscall.OPEN_EXISTING, syscall.FILE_FLAG_BACKUP_SEMANTICS, 0)
	if err != nil {
		return Identity{}, err
	}
	defer syscall.CloseHandle(h)
	var about syscall.ByHandleFileInformation
	if err := syscall.GetFileInformationByHandle(h, &about); err != nil {
		return Identity{}, err
	}
	return Identity{
		Device: uint64(about.VolumeSerialNumber),
		Inode:  uint64(about.FileIndexHigh)<<32 | uint64(about.FileIndexLow),
	}, nil
}

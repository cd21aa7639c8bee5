package session

import (
	"os"
	"syscall"
)

// takeLock opens a file that only one session has at a time; it is free again when that is closed or its process ends.
func takeLock(name string) (*os.File, error) {
	path, err := syscall.UTF16PtrFromString(name)
	if err != nil {
		return nil, err
	}
	const shareDelete = 4 // so that the holder can remove it
	h, err := syscall.CreateFile(path, syscall.GENERIC_READ|syscall.GENERIC_WRITE, shareDelete, nil, syscall.OPEN_ALWAYS, syscall.FILE_ATTRIBUTE_NORMAL, 0)
	if err != nil {
		return nil, err
	}
	return os.NewFile(uintptr(h), name), nil
}

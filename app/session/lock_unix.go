//go:build !windows

package session

import (
	"os"
	"syscall"
)

// takeLock opens a file that only one session has at a time; it is free again when that is closed or its process ends.
func takeLock(name string) (*os.File, error) {
	f, err := os.OpenFile(name, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return nil, err
	}
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err != nil {
		f.Close()
		return nil, err
	}
	held, err := f.Stat()
	if named, nameErr := os.Stat(name); err != nil || nameErr != nil || !os.SameFile(held, named) {
		f.Close() // taken away by the one that had it
		return nil, os.ErrNotExist
	}
	return f, nil
}

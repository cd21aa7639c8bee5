package session

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// replaceFile writes a file whole or not at all, also when the process or the machine stops in the middle: the new text is
// written beside it, made safe, and renamed over it. What was there before is kept first, the same way, under the name with a "~".
func replaceFile(path string, data, old []byte, there bool) error {
	mode := os.FileMode(0o666)
	if there && bytes.Equal(data, old) {
		return nil
	}
	if there {
		real, err := filepath.EvalSymlinks(path) // a link stays a link
		if err != nil {
			return err
		}
		path = real
		if info, err := os.Stat(path); err == nil {
			mode = info.Mode().Perm()
		}
		if err := writeFile(path+"~", old, mode); err != nil {
			return fmt.Errorf("keep the file as it was: %w", withoutPath(err))
		}
	}
	return writeFile(path, data, mode)
}

// writeFile writes a file beside its place and renames it there.
func writeFile(path string, data []byte, mode os.FileMode) error {
	beside := filepath.Join(filepath.Dir(path), besideOf(path)+fmt.Sprint(os.Getpid()))
	f, err := os.OpenFile(beside, os.O_CREATE|os.O_TRUNC|os.O_WRONLY, mode)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err == nil {
		err = os.Rename(beside, path)
	}
	if err != nil {
		os.Remove(beside)
		return err
	}
	syncFolder(filepath.Dir(path))
	return nil
}

// besideOf is what the name of a file begins with while it is written, before the number of the process.
func besideOf(path string) string { return "." + filepath.Base(path) + "." }

// syncFolder makes a rename safe against the machine stopping, where the system can.
func syncFolder(path string) {
	if f, err := os.Open(path); err == nil {
		f.Sync()
		f.Close()
	}
}

package build

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// LedgerName is the file in an output folder that lists what was written there.
const LedgerName = "results.json"

// output is a file that is to be written, by its name in the folder.
type output struct {
	Name string
	Data []byte
}

// written is a file of an output folder as its results.json lists it.
type written struct {
	File   string `json:"file"`
	SHA256 string `json:"sha256"`
}

func (o output) written() written {
	sum := sha256.Sum256(o.Data)
	return written{o.Name, hex.EncodeToString(sum[:])}
}

// Folder is an output folder. It replaces only what its results.json says was written there and has not been changed since, or
// anything with force; and either all files come out whole or the old ones stay.
type Folder struct {
	Path  string
	Force bool   // replace any plain file
	How   string // how to ask for Force, said where something is in the way: "with --force"; "" says nothing

	create func(name string) (io.WriteCloser, error) // nil: a file that does not exist yet
}

// InTheWay says which files of a folder must not be replaced; nothing was written.
type InTheWay struct {
	Files []string // with their paths
	Force bool     // Folder.Force would replace them

	reasons []error
}

// Error has a line for each file.
func (w InTheWay) Error() string { return errors.Join(w.reasons...).Error() }

func (w *InTheWay) add(path, reason string) {
	w.Files, w.reasons = append(w.Files, path), append(w.reasons, errors.New(path+" "+reason))
}

// replace writes the files, the ledger last, and takes away files of an earlier run that are not among them any more and have not
// been changed; it returns the names of those. The error names every file that is in the way.
func (f Folder) replace(files []output) (removed []string, err error) {
	names := make([]string, len(files))
	for i, o := range files {
		names[i] = o.Name
	}
	if err := f.refuse(names); err != nil {
		return nil, err
	}
	known, err := f.known()
	if err != nil {
		return nil, err
	}
	made, err := MakeFolders(f.Path)
	if err != nil {
		return nil, fmt.Errorf("write into %s: %w", f.Path, err)
	}
	staged, err := f.stage(files)
	if err != nil {
		RemoveAll(staged)
		RemoveAll(made)
		return nil, err
	}
	for i, o := range files {
		if err := os.Rename(staged[i], filepath.Join(f.Path, o.Name)); err != nil {
			RemoveAll(staged[i:])
			return nil, fmt.Errorf("write %s: %w", filepath.Join(f.Path, o.Name), err)
		}
	}
	for _, k := range known {
		stale := !slices.ContainsFunc(files, func(o output) bool { return o.Name == k.File })
		if stale && f.unchanged(k) && os.Remove(filepath.Join(f.Path, k.File)) == nil {
			removed = append(removed, k.File)
		}
	}
	return removed, nil
}

// refuse returns InTheWay for existing files that must not be replaced; nil when replace may write them all.
func (f Folder) refuse(names []string) error {
	known, err := f.known()
	if err != nil {
		return err
	}
	inTheWay := InTheWay{Force: true}
	for _, name := range names {
		path := filepath.Join(f.Path, name)
		info, err := os.Lstat(path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return fmt.Errorf("write %s: %w", path, err)
		case !info.Mode().IsRegular():
			inTheWay.Force = false
			inTheWay.add(path, "is not a plain file; choose another folder")
		case f.Force || name == LedgerName && len(known) > 0:
		default:
			i := slices.IndexFunc(known, func(w written) bool { return w.File == name })
			if i < 0 {
				inTheWay.add(path, "was not written by Mastwright; choose another folder, or replace it"+f.how())
			} else if !f.unchanged(known[i]) {
				inTheWay.add(path, "was changed since Mastwright wrote it; choose another folder, or replace it"+f.how())
			}
		}
	}
	if len(inTheWay.Files) > 0 {
		return inTheWay
	}
	return nil
}

func (f Folder) how() string {
	if f.How == "" {
		return ""
	}
	return " " + f.How
}

// known is what the ledger says was written into the folder. A results.json of another kind lists nothing.
func (f Folder) known() ([]written, error) {
	data, err := os.ReadFile(filepath.Join(f.Path, LedgerName))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, fmt.Errorf("read what was written before: %w", err)
	}
	var ledger struct {
		Schema int       `json:"schema"`
		Files  []written `json:"files"`
	}
	if json.Unmarshal(data, &ledger) != nil || ledger.Schema < 1 {
		return nil, nil
	}
	var known []written
	for _, w := range ledger.Files {
		if w.File == filepath.Base(w.File) && !strings.HasPrefix(w.File, ".") {
			known = append(known, w)
		}
	}
	return known, nil
}

// unchanged is whether a file is still what the ledger says.
func (f Folder) unchanged(w written) bool {
	name := filepath.Join(f.Path, w.File)
	if info, err := os.Lstat(name); err != nil || !info.Mode().IsRegular() {
		return false
	}
	data, err := os.ReadFile(name)
	return err == nil && output{w.File, data}.written() == w
}

// stage writes every file beside its place and returns the names they have there.
func (f Folder) stage(files []output) (staged []string, err error) {
	for _, o := range files {
		name := filepath.Join(f.Path, fmt.Sprintf(".%s.%d", o.Name, os.Getpid()))
		staged = append(staged, name)
		if err := f.write(name, o.Data); err != nil {
			return staged, fmt.Errorf("write %s: %s; nothing in the folder was changed", filepath.Join(f.Path, o.Name), reason(err))
		}
	}
	return staged, nil
}

func (f Folder) write(name string, data []byte) error {
	create := f.create
	if create == nil {
		create = createNew
	}
	file, err := create(name)
	if err != nil {
		return err
	}
	_, err = file.Write(data)
	if s, ok := file.(interface{ Sync() error }); ok && err == nil {
		err = s.Sync()
	}
	return errors.Join(err, file.Close())
}

func createNew(name string) (io.WriteCloser, error) {
	return os.OpenFile(name, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o666)
}

// WriteFile writes one new file: whole, or not at all.
func WriteFile(name string, data []byte) error {
	f := Folder{Path: filepath.Dir(name)}
	staged, err := f.stage([]output{{filepath.Base(name), data}})
	if err == nil {
		err = os.Rename(staged[0], name)
	}
	if err != nil {
		RemoveAll(staged)
	}
	return err
}

// MakeFolders makes a folder with those above it and returns the ones that were not there, the deepest first.
func MakeFolders(path string) (made []string, err error) {
	for at := filepath.Clean(path); ; at = filepath.Dir(at) {
		if _, err := os.Stat(at); err == nil || filepath.Dir(at) == at {
			break
		}
		made = append(made, at)
	}
	if err := os.MkdirAll(path, 0o777); err != nil {
		RemoveAll(made)
		return nil, err
	}
	return made, nil
}

// RemoveAll takes away files and empty folders that exist.
func RemoveAll(names []string) {
	for _, name := range names {
		os.Remove(name)
	}
}

// reason is an error about a file without the file's name.
func reason(err error) string {
	var at *os.PathError
	if errors.As(err, &at) {
		return at.Err.Error()
	}
	return err.Error()
}

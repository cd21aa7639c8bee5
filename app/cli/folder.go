package cli

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

// ledgerName is the file in an output folder that lists what was written there.
const ledgerName = "results.json"

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

// folder is an output folder. It replaces only what its results.json says was written there and has not been changed since, or
// anything with force; and either all files come out whole or the old ones stay.
type folder struct {
	path  string
	force bool

	create func(name string) (io.WriteCloser, error) // nil: a file that does not exist yet
}

// Replace writes the files, the ledger last, and takes away files of an earlier run that are not among them any more and have not
// been changed; it returns the names of those. The error names every file that is in the way.
func (f folder) Replace(files []output) (removed []string, err error) {
	names := make([]string, len(files))
	for i, o := range files {
		names[i] = o.Name
	}
	if err := f.Refuse(names); err != nil {
		return nil, err
	}
	known, err := f.known()
	if err != nil {
		return nil, err
	}
	made, err := makeFolders(f.path)
	if err != nil {
		return nil, fmt.Errorf("write into %s: %w", f.path, err)
	}
	staged, err := f.stage(files)
	if err != nil {
		removeAll(staged)
		removeAll(made)
		return nil, err
	}
	for i, o := range files {
		if err := os.Rename(staged[i], filepath.Join(f.path, o.Name)); err != nil {
			removeAll(staged[i:])
			return nil, fmt.Errorf("write %s: %w", filepath.Join(f.path, o.Name), err)
		}
	}
	for _, k := range known {
		stale := !slices.ContainsFunc(files, func(o output) bool { return o.Name == k.File })
		if stale && f.unchanged(k) && os.Remove(filepath.Join(f.path, k.File)) == nil {
			removed = append(removed, k.File)
		}
	}
	return removed, nil
}

// Refuse returns an error that names each existing file that must not be replaced; nil when Replace may write them all.
func (f folder) Refuse(names []string) error {
	known, err := f.known()
	if err != nil {
		return err
	}
	var inTheWay []error
	for _, name := range names {
		path := filepath.Join(f.path, name)
		info, err := os.Lstat(path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return fmt.Errorf("write %s: %w", path, err)
		case !info.Mode().IsRegular():
			inTheWay = append(inTheWay, fmt.Errorf("%s is not a plain file; choose another folder", path))
		case f.force || name == ledgerName && len(known) > 0:
		default:
			i := slices.IndexFunc(known, func(w written) bool { return w.File == name })
			if i < 0 {
				inTheWay = append(inTheWay, fmt.Errorf("%s was not written by Mastwright; choose another folder, or replace it with --force", path))
			} else if !f.unchanged(known[i]) {
				inTheWay = append(inTheWay, fmt.Errorf("%s was changed since Mastwright wrote it; choose another folder, or replace it with --force", path))
			}
		}
	}
	return errors.Join(inTheWay...)
}

// known is what the ledger says was written into the folder. A results.json of another kind lists nothing.
func (f folder) known() ([]written, error) {
	data, err := os.ReadFile(filepath.Join(f.path, ledgerName))
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
func (f folder) unchanged(w written) bool {
	name := filepath.Join(f.path, w.File)
	if info, err := os.Lstat(name); err != nil || !info.Mode().IsRegular() {
		return false
	}
	data, err := os.ReadFile(name)
	return err == nil && output{w.File, data}.written() == w
}

// stage writes every file beside its place and returns the names they have there.
func (f folder) stage(files []output) (staged []string, err error) {
	for _, o := range files {
		name := filepath.Join(f.path, fmt.Sprintf(".%s.%d", o.Name, os.Getpid()))
		staged = append(staged, name)
		if err := f.write(name, o.Data); err != nil {
			return staged, fmt.Errorf("write %s: %s; nothing in the folder was changed", filepath.Join(f.path, o.Name), reason(err))
		}
	}
	return staged, nil
}

func (f folder) write(name string, data []byte) error {
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

// writeFile writes one new file: whole, or not at all.
func writeFile(name string, data []byte) error {
	f := folder{path: filepath.Dir(name)}
	staged, err := f.stage([]output{{filepath.Base(name), data}})
	if err == nil {
		err = os.Rename(staged[0], name)
	}
	if err != nil {
		removeAll(staged)
	}
	return err
}

// makeFolders makes a folder with those above it and returns the ones that were not there, the deepest first.
func makeFolders(path string) (made []string, err error) {
	for at := filepath.Clean(path); ; at = filepath.Dir(at) {
		if _, err := os.Stat(at); err == nil || filepath.Dir(at) == at {
			break
		}
		made = append(made, at)
	}
	if err := os.MkdirAll(path, 0o777); err != nil {
		removeAll(made)
		return nil, err
	}
	return made, nil
}

// removeAll takes away files and empty folders that exist.
func removeAll(names []string) {
	for _, name := range names {
		os.Remove(name)
	}
}

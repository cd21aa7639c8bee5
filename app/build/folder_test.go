package build

import (
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
)

// run is what one run writes: the files and a ledger that lists them.
func run(t *testing.T, files ...output) []output {
	t.Helper()
	var list []written
	for _, o := range files {
		list = append(list, o.written())
	}
	data, err := json.Marshal(map[string]any{"schema": 1, "files": list})
	if err != nil {
		t.Fatal(err)
	}
	return append(files, output{LedgerName, data})
}

func text(name, content string) output { return output{name, []byte(content)} }

func put(t *testing.T, path, content string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(content), 0o666); err != nil {
		t.Fatal(err)
	}
}

func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

func holds(t *testing.T, path, want string) {
	t.Helper()
	got, err := os.ReadFile(path)
	if err != nil || string(got) != want {
		t.Errorf("%s holds %q (%v), want %q", path, got, err, want)
	}
}

func TestFolderReplacesWhatItWrote(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new", "out")
	f := Folder{Path: dir}
	if _, err := f.replace(run(t, text("mast_mm.stl", "a"), text("tray_mm.stl", "b"), text("foot_mm.stl", "c"))); err != nil {
		t.Fatal(err)
	}
	put(t, filepath.Join(dir, "foot_mm.stl"), "mine now")
	put(t, filepath.Join(dir, "notes.txt"), "not to be touched")
	removed, err := f.replace(run(t, text("mast_mm.stl", "A")))
	if err != nil {
		t.Fatal(err)
	}
	if want := []string{"tray_mm.stl"}; !slices.Equal(removed, want) {
		t.Errorf("took away %q, want %q: the changed foot stays", removed, want)
	}
	if got, want := names(t, dir), []string{"foot_mm.stl", "mast_mm.stl", "notes.txt", "results.json"}; !slices.Equal(got, want) {
		t.Errorf("folder holds %q, want %q", got, want)
	}
	holds(t, filepath.Join(dir, "mast_mm.stl"), "A")
	holds(t, filepath.Join(dir, "foot_mm.stl"), "mine now")
}

func TestFolderRefuses(t *testing.T) {
	for _, c := range []struct {
		name    string
		prepare func(t *testing.T, dir string)
		want    []string // said
		force   bool     // is refused even so
	}{
		{"a file of someone else", func(t *testing.T, dir string) { put(t, filepath.Join(dir, "mast_mm.stl"), "x") },
			[]string{"mast_mm.stl was not written by Mastwright"}, false},
		{"two files of someone else", func(t *testing.T, dir string) {
			put(t, filepath.Join(dir, "mast_mm.stl"), "x")
			put(t, filepath.Join(dir, "tray_mm.stl"), "x")
		}, []string{"mast_mm.stl was not", "tray_mm.stl was not"}, false},
		{"a file that was changed", func(t *testing.T, dir string) {
			if _, err := (Folder{Path: dir}).replace(run(t, text("mast_mm.stl", "a"))); err != nil {
				t.Fatal(err)
			}
			put(t, filepath.Join(dir, "mast_mm.stl"), "b")
		}, []string{"mast_mm.stl was changed since Mastwright wrote it; choose another folder, or replace it with --force"}, false},
		{"a results.json of another kind", func(t *testing.T, dir string) { put(t, filepath.Join(dir, LedgerName), `{"results": []}`) },
			[]string{"results.json was not written by Mastwright"}, false},
		{"a results.json that is no JSON", func(t *testing.T, dir string) { put(t, filepath.Join(dir, LedgerName), "\x00") },
			[]string{"results.json was not written by Mastwright"}, false},
		{"a folder in the place of a part", func(t *testing.T, dir string) {
			if err := os.Mkdir(filepath.Join(dir, "mast_mm.stl"), 0o777); err != nil {
				t.Fatal(err)
			}
		}, []string{"mast_mm.stl is not a plain file"}, true},
		{"a link in the place of a part", func(t *testing.T, dir string) {
			put(t, filepath.Join(dir, "elsewhere"), "x")
			if err := os.Symlink("elsewhere", filepath.Join(dir, "mast_mm.stl")); err != nil {
				t.Skip(err)
			}
		}, []string{"mast_mm.stl is not a plain file"}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			c.prepare(t, dir)
			before := names(t, dir)
			files := run(t, text("mast_mm.stl", "new"), text("tray_mm.stl", "new"))
			_, err := Folder{Path: dir, How: "with --force"}.replace(files)
			if err == nil {
				t.Fatal("nothing was refused")
			}
			for _, want := range c.want {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("said %q, want %q in it", err, want)
				}
			}
			if got := names(t, dir); !slices.Equal(got, before) {
				t.Errorf("folder holds %q, want %q as before", got, before)
			}
			if _, err := (Folder{Path: dir, Force: true}).replace(files); (err != nil) != c.force {
				t.Errorf("with force: %v", err)
			}
		})
	}
}

// A ledger may come from anywhere; it must not reach files outside its folder.
func TestFolderRemovesNothingOutside(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "out")
	outside := text("precious", "keep me")
	put(t, filepath.Join(top, "precious"), "keep me")
	if err := os.Mkdir(dir, 0o777); err != nil {
		t.Fatal(err)
	}
	w := outside.written()
	w.File = "../precious"
	data, err := json.Marshal(map[string]any{"schema": 1, "files": []written{w, text("x", "x").written()}})
	if err != nil {
		t.Fatal(err)
	}
	put(t, filepath.Join(dir, LedgerName), string(data))
	if _, err := (Folder{Path: dir}).replace(run(t, text("mast_mm.stl", "a"))); err != nil {
		t.Fatal(err)
	}
	holds(t, filepath.Join(top, "precious"), "keep me")
}

// full is a disk with room for so many bytes more.
type full struct {
	file io.WriteCloser
	room *int
}

func (f full) Write(p []byte) (int, error) {
	n := min(len(p), *f.room)
	*f.room -= n
	n, err := f.file.Write(p[:n])
	if err == nil && n < len(p) {
		err = &os.PathError{Op: "write", Path: "x", Err: syscall.ENOSPC}
	}
	return n, err
}

func (f full) Close() error { return f.file.Close() }

func TestFullDiskLeavesTheOldFiles(t *testing.T) {
	for _, room := range []int{0, 3, 100, 150} {
		dir := t.TempDir()
		old := run(t, text("mast_mm.stl", "old"), text("summary.txt", "old"))
		if _, err := (Folder{Path: dir}).replace(old); err != nil {
			t.Fatal(err)
		}
		before := names(t, dir)
		f := Folder{Path: dir, create: func(name string) (io.WriteCloser, error) {
			file, err := createNew(name)
			return full{file, &room}, err
		}}
		files := run(t, text("mast_mm.stl", strings.Repeat("m", 100)), text("summary.txt", strings.Repeat("s", 100)))
		_, err := f.replace(files)
		if err == nil || !strings.Contains(err.Error(), "no space left") || !strings.Contains(err.Error(), "nothing in the folder was changed") {
			t.Errorf("said %v", err)
		}
		if got := names(t, dir); !slices.Equal(got, before) {
			t.Errorf("folder holds %q, want %q as before", got, before)
		}
		holds(t, filepath.Join(dir, "mast_mm.stl"), "old")
		holds(t, filepath.Join(dir, "summary.txt"), "old")
	}
}

func TestUnwritableFolderLeavesNothing(t *testing.T) {
	top := t.TempDir()
	put(t, filepath.Join(top, "file"), "x")
	if _, err := (Folder{Path: filepath.Join(top, "file", "out")}).replace(run(t, text("a", "a"))); err == nil {
		t.Error("a folder under a file was made")
	}
	fresh := filepath.Join(top, "a", "b")
	f := Folder{Path: fresh, create: func(string) (io.WriteCloser, error) { return nil, errors.New("permission denied") }}
	if _, err := f.replace(run(t, text("a", "a"))); err == nil || !strings.Contains(err.Error(), "permission denied") {
		t.Errorf("said %v", err)
	}
	if got, want := names(t, top), []string{"file"}; !slices.Equal(got, want) {
		t.Errorf("left %q, want %q", got, want)
	}
}

package session_test

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"mastwright/app/session"
	"mastwright/design"
)

func open(t *testing.T, o session.Options) *session.Session {
	t.Helper()
	s := session.NewWith(o, session.Engines{})
	t.Cleanup(s.Close)
	return s
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func content(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	must(t, err)
	return string(data)
}

func conflict(t *testing.T, err error, want session.Reason) {
	t.Helper()
	var c session.Conflict
	if !errors.As(err, &c) || c.Reason != want {
		t.Errorf("got %v, want a conflict for reason %d", err, want)
	}
}

func TestSaveAndOpen(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "mine.yaml")
	s := open(t, session.Options{State: filepath.Join(dir, "state")})
	conflict(t, s.Save(), session.Unnamed)
	must(t, s.Set("name", "Mine"))
	if !s.Snapshot().Dirty {
		t.Error("an edit left nothing to save")
	}
	must(t, s.SaveAs(path))
	n := s.Snapshot()
	if n.Dirty || n.File != path || n.Saved.IsZero() || n.Undo == "" {
		t.Errorf("after saving: dirty %t, file %q, saved %v, undo %q", n.Dirty, n.File, n.Saved, n.Undo)
	}
	if _, err := os.Stat(path + "~"); err == nil {
		t.Error("there is a backup of a file that was not there")
	}
	first := content(t, path)

	must(t, s.Set("mast.height", "77 mm"))
	must(t, s.Save())
	if got := content(t, path+"~"); got != first {
		t.Errorf("the backup holds %d bytes, want the %d that were saved first", len(got), len(first))
	}
	s.Undo()
	if !s.Snapshot().Dirty {
		t.Error("undoing past a save left nothing to save")
	}
	s.Redo()
	if s.Snapshot().Dirty {
		t.Error("redoing to what is saved left something to save")
	}

	other := open(t, session.Options{State: filepath.Join(dir, "state")})
	must(t, other.Open(path))
	n = other.Snapshot()
	if n.Dirty || n.Name != "Mine" || n.Undo != "" || n.Document.Get("mast.height") != "77 mm" {
		t.Errorf("opened: dirty %t, name %q, undo %q, height %s", n.Dirty, n.Name, n.Undo, n.Document.Get("mast.height"))
	}
	if entries, _ := os.ReadDir(dir); len(entries) != 3 { // design, backup, state
		t.Errorf("the folder holds %v", entries)
	}
}

func TestSaveAsks(t *testing.T) {
	dir := t.TempDir()
	path, taken := filepath.Join(dir, "mine.yaml"), filepath.Join(dir, "taken.yaml")
	must(t, os.WriteFile(taken, []byte("precious"), 0o666))
	s := open(t, session.Options{})
	conflict(t, s.SaveAs(taken), session.Exists)
	must(t, s.SaveAs(path))
	must(t, os.WriteFile(path, []byte("somebody else's"), 0o666))
	if s.OnDisk() {
		t.Error("a change on disk is not noticed")
	}
	conflict(t, s.Save(), session.Changed)
	must(t, s.Set("mast.height", "60 mm"))
	conflict(t, s.Save(), session.Changed)
	if content(t, path) != "somebody else's" || content(t, taken) != "precious" {
		t.Fatal("a file was replaced without asking")
	}
	must(t, s.SaveOver(path))
	if content(t, path+"~") != "somebody else's" || !s.OnDisk() || s.Snapshot().Dirty {
		t.Error("what was replaced is not kept, or the session does not know its file")
	}
	must(t, os.Remove(path))
	must(t, s.Save()) // nothing is lost by writing it again
	content(t, path)
}

func TestFailedSaveLeavesTheFile(t *testing.T) {
	if os.Getuid() == 0 {
		t.Log("as root every folder can be written: only a folder in the file's place is tried")
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "mine.yaml")
	s := open(t, session.Options{})
	must(t, s.SaveAs(path))
	before := content(t, path)
	must(t, s.Set("mast.height", "60 mm"))
	must(t, os.Mkdir(path+"~", 0o777)) // the backup cannot be written
	err := s.Save()
	if err == nil || !strings.Contains(err.Error(), "keep the file as it was") {
		t.Errorf("said %v", err)
	}
	if content(t, path) != before || !s.Snapshot().Dirty {
		t.Error("the file was replaced though its backup could not be written")
	}
	if err := s.SaveAs(filepath.Join(dir, "none", "x.yaml")); err == nil || !strings.HasSuffix(err.Error(), "no such file or directory") {
		t.Errorf("said %v", err)
	}
	if entries, _ := os.ReadDir(dir); len(entries) != 2 {
		t.Errorf("the folder holds %v", entries)
	}
}

func TestSaveKeepsCommentsLinkAndMode(t *testing.T) {
	dir := t.TempDir()
	real, path := filepath.Join(dir, "real.yaml"), filepath.Join(dir, "mine.yaml")
	const text = `# My seven-inch.
mastwright: 1
name: "Mine" # to be changed
airframe:
  # weighed with the pack
  mass: 1180 g
  neighbours:
    - name: pack
      kind: pack # the big one
    - name: camera
      kind: camera # looks down
mast:
  height: 100 mm # as tall as it folds
# the end
`
	must(t, os.WriteFile(real, []byte(text), 0o600))
	if err := os.Symlink("real.yaml", path); err != nil {
		t.Skip(err)
	}
	s := open(t, session.Options{})
	must(t, s.Open(path))
	if s.Snapshot().Dirty {
		t.Error("a file written by hand is to be saved as soon as it is opened")
	}
	must(t, s.Save())
	if content(t, real) != text {
		t.Error("a design that was not edited was written anew")
	}
	must(t, s.Remove("airframe.neighbours", 0))
	must(t, s.Set("mast.height", "3 in"))
	must(t, s.Save())
	got := content(t, real)
	for _, want := range []string{"# My seven-inch.\n", "# to be changed\n", "# weighed with the pack\n", "camera # looks down\n", "height: 76.2 mm # as tall as it folds\n", "# the end\n"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is lost:\n%s", want, got)
		}
	}
	if strings.Contains(got, "big one") {
		t.Errorf("a comment outlived its entry:\n%s", got)
	}
	link, err := os.Lstat(path)
	must(t, err)
	info, err := os.Stat(real)
	must(t, err)
	if link.Mode()&os.ModeSymlink == 0 || info.Mode().Perm() != 0o600 {
		t.Errorf("the link is %v and the file %v", link.Mode(), info.Mode())
	}
}

func TestUnreadableLeavesWhatIsOpen(t *testing.T) {
	dir := t.TempDir()
	bad := filepath.Join(dir, "bad.yaml")
	must(t, os.WriteFile(bad, []byte("mastwright: 1\nmast: {height: tall}\nfoo: 1\n"), 0o666))
	s := open(t, session.Options{State: dir})
	before := s.Snapshot()
	err := s.Open(bad)
	var u session.Unreadable
	if !errors.As(err, &u) || len(u.Problems) != 2 || !strings.Contains(err.Error(), "bad.yaml:2: mast.height") {
		t.Errorf("said %v", err)
	}
	for _, path := range []string{dir, filepath.Join(dir, "none.yaml")} {
		if s.Open(path) == nil {
			t.Errorf("%s was opened", path)
		}
	}
	if n := s.Snapshot(); n.Document != before.Document || n.Name != before.Name || len(s.Recent()) != 0 {
		t.Error("a file that was not opened left traces")
	}
}

// A design that is understood but cannot be built is there to be repaired.
func TestOpenWithProblems(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.yaml")
	must(t, os.WriteFile(path, []byte("mastwright: 1\nmast: {wall: 9 mm}\n"), 0o666))
	changed := make(chan struct{}, 1)
	s := open(t, session.Options{Changed: func() { poke(changed) }})
	must(t, s.Open(path))
	n := until(t, s, changed, func(n *session.Snapshot) bool { return !n.Checking })
	if sentence, ok := n.Error("mast.wall"); !ok || n.Current() || !strings.HasPrefix(sentence, "Wall: 9 mm") {
		t.Errorf("said %q of %+v", sentence, n.Problems)
	}
}

func TestShelfFiles(t *testing.T) {
	dir, elsewhere := t.TempDir(), t.TempDir()
	must(t, os.WriteFile(filepath.Join(dir, "printer.yaml"), []byte("mastwright: 1\nlayer: 0.12 mm\n"), 0o666))
	s := open(t, session.Options{})
	if err := s.Set("print.from", "printer.yaml"); err == nil || !strings.Contains(err.Error(), "save it first") {
		t.Errorf("without a folder: %v", err)
	}
	must(t, s.SaveAs(filepath.Join(dir, "a.yaml")))
	must(t, s.Set("print.from", "printer.yaml"))
	d := s.Snapshot().Document
	if d.Get("print.layer") != "0.12 mm" || d.Origin("print.layer") != design.Shelved {
		t.Errorf("layer %s, %v", d.Get("print.layer"), d.Origin("print.layer"))
	}
	s.Undo()
	if got := s.Snapshot().Document.Get("print.layer"); got != "0.2 mm" {
		t.Errorf("after undo the layer is %s", got)
	}
	s.Redo()
	if err := s.SaveAs(filepath.Join(elsewhere, "a.yaml")); err == nil || !strings.Contains(err.Error(), "printer.yaml") {
		t.Errorf("saved away from its shelf file: %v", err)
	}
	must(t, s.Save())
	s.Clear("print.from")
	if got := s.Snapshot().Document.Get("print.layer"); got != "0.2 mm" {
		t.Errorf("without the shelf file the layer is %s", got)
	}
}

func TestRecent(t *testing.T) {
	dir := t.TempDir()
	o := session.Options{State: filepath.Join(dir, "state")}
	s := open(t, o)
	var want []string
	for _, name := range []string{"a", "b", "c", "d", "e", "f", "g", "h", "i", "j", "k", "l"} {
		path := filepath.Join(dir, name+".yaml")
		must(t, s.SaveAs(path))
		want = append([]string{path}, want...)
	}
	must(t, s.Open(want[3]))
	want = slices.Concat(want[3:4], want[:3], want[4:10])
	if got := open(t, o).Recent(); !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	must(t, os.Remove(want[1]))
	if got := s.Recent(); len(got) != 9 || slices.Contains(got, want[1]) {
		t.Errorf("a file that is gone is offered: %q", got)
	}
	must(t, os.WriteFile(filepath.Join(dir, "state", "recent.json"), []byte("{"), 0o666))
	if got := s.Recent(); len(got) != 0 {
		t.Errorf("a broken list gives %q", got)
	}
}

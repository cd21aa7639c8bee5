package session_test

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"mastwright/app/session"
	"mastwright/design"
)

// The test binary runs itself as a session that is killed.
func TestMain(m *testing.M) {
	switch os.Getenv("SESSION_TASK") {
	case "save":
		saveForEver()
	case "edit":
		editAndWait()
	default:
		os.Exit(m.Run())
	}
}

// saveForEver saves the design in SESSION_FILE under one revision after the other and prints each when it is saved.
func saveForEver() {
	s := session.NewWith(session.Options{State: os.Getenv("SESSION_STATE")}, session.Engines{})
	check(s.Open(os.Getenv("SESSION_FILE")))
	last, err := strconv.Atoi(s.Snapshot().Document.Revision)
	check(err)
	for i := last + 1; ; i++ {
		check(s.Set("revision", strconv.Itoa(i)))
		check(s.Save())
		fmt.Println(i)
	}
}

// editAndWait edits the design in SESSION_FILE, or the first example, and says when the edit is kept.
func editAndWait() {
	s := session.NewWith(session.Options{State: os.Getenv("SESSION_STATE"), KeepIn: time.Millisecond}, session.Engines{})
	if path := os.Getenv("SESSION_FILE"); path != "" {
		check(s.Open(path))
	}
	check(s.Set("name", "Unsaved work"))
	for {
		if kept, _ := filepath.Glob(filepath.Join(os.Getenv("SESSION_STATE"), "unsaved", "*.yaml")); len(kept) > 0 {
			fmt.Println("kept")
			time.Sleep(time.Hour) // until it is killed
		}
		time.Sleep(time.Millisecond)
	}
}

func check(err error) {
	if err != nil {
		fmt.Println("failed:", err)
		os.Exit(1)
	}
}

func child(t *testing.T, task, file, state string) (*exec.Cmd, *bufio.Scanner) {
	t.Helper()
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), "SESSION_TASK="+task, "SESSION_FILE="+file, "SESSION_STATE="+state)
	out, err := c.StdoutPipe()
	must(t, err)
	must(t, c.Start())
	return c, bufio.NewScanner(out)
}

func revision(t *testing.T, path string) int {
	t.Helper()
	data, err := os.ReadFile(path)
	must(t, err)
	doc, problems := design.Decode(data, design.Options{Name: path})
	if doc == nil {
		t.Fatalf("%s is not whole: %v", path, problems)
	}
	n, err := strconv.Atoi(doc.Revision)
	must(t, err)
	return n
}

// Whenever a session is killed, its file is whole and holds what was saved last, or what was being saved; the file before it is
// there too.
func TestKilledWhileSaving(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "mine.yaml")
	s := open(t, session.Options{})
	must(t, s.Set("revision", "1"))
	must(t, s.SaveAs(path))
	const kills = 40
	saves := 0
	for i := range kills {
		c, lines := child(t, "save", path, filepath.Join(dir, "state"))
		before := revision(t, path)
		said := before
		heard := func() {
			var err error
			said, err = strconv.Atoi(lines.Text())
			if err != nil {
				t.Fatal(lines.Text())
			}
			saves++
		}
		for range i % 5 {
			if !lines.Scan() {
				t.Fatal("the session ended by itself")
			}
			heard()
		}
		time.Sleep(time.Duration(i) * 137 * time.Microsecond) // to fall on other moments of a save
		must(t, c.Process.Kill())
		for lines.Scan() {
			heard()
		}
		c.Wait()
		if got := revision(t, path); got != said && got != said+1 {
			t.Errorf("kill %d: the file holds revision %d, want %d that was saved or the one after it", i, got, said)
		}
		if got := revision(t, path); got > 2 {
			if kept := revision(t, path+"~"); kept != got-1 && kept != got {
				t.Errorf("kill %d: the backup holds revision %d beside %d", i, kept, got)
			}
		}
	}
	if saves < kills {
		t.Errorf("only %d saves were seen; the kills do not fall on any", saves)
	}
	t.Logf("%d saves, %d kills", saves, kills)
}

func TestUnsavedWorkComesBack(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "mine.yaml")
	s := open(t, session.Options{})
	must(t, s.SaveAs(path))
	original := content(t, path)
	for _, c := range []struct {
		name, file string
		between    func() // the crash and the recovery
		save       func(s *session.Session) error
	}{
		{"a design without a file", "", func() {}, func(s *session.Session) error { return s.SaveAs(filepath.Join(dir, "new.yaml")) }},
		{"changes of a file", path, func() {}, (*session.Session).Save},
		{"changes of a file that was changed since", path, func() { must(t, os.WriteFile(path, []byte("mastwright: 1\nname: other\n"), 0o666)) },
			func(s *session.Session) error {
				conflict(t, s.Save(), session.Changed)
				return s.SaveOver(path)
			}},
		{"changes of a file that is gone", path, func() { must(t, os.Remove(path)) }, (*session.Session).Save},
	} {
		t.Run(c.name, func(t *testing.T) {
			must(t, os.WriteFile(path, []byte(original), 0o666))
			state := t.TempDir()
			victim, lines := child(t, "edit", c.file, state)
			if !lines.Scan() || lines.Text() != "kept" {
				t.Fatalf("the session said %q", lines.Text())
			}
			s := open(t, session.Options{State: state})
			if list := s.Recoveries(); len(list) != 0 {
				t.Errorf("the work of a living session is offered: %+v", list)
			}
			must(t, victim.Process.Kill())
			victim.Wait()
			c.between()
			list := s.Recoveries()
			if len(list) != 1 || list[0].File != c.file || list[0].Name != "Unsaved work" || list[0].At.IsZero() {
				t.Fatalf("offered %+v", list)
			}
			must(t, s.Recover(list[0]))
			n := s.Snapshot()
			if !n.Dirty || n.File != c.file || n.Document.Name != "Unsaved work" {
				t.Errorf("recovered: dirty %t, file %q, name %q", n.Dirty, n.File, n.Document.Name)
			}
			if other := open(t, session.Options{State: state}); len(other.Recoveries()) != 0 {
				t.Error("recovered work is offered to another session")
			}
			must(t, c.save(s))
			if s.Snapshot().Dirty {
				t.Error("it is still to be saved")
			}
			if left, _ := filepath.Glob(filepath.Join(state, "unsaved", "*.yaml")); len(left) != 0 {
				t.Errorf("%q is left after saving", left)
			}
			s.Close()
			if left, _ := filepath.Glob(filepath.Join(state, "unsaved", "*")); len(left) != 0 {
				t.Errorf("%q is left after closing", left)
			}
		})
	}
}

func TestClosingLeavesNothingUnsaved(t *testing.T) {
	state := t.TempDir()
	s := session.NewWith(session.Options{State: state, KeepIn: time.Nanosecond}, session.Engines{})
	must(t, s.Set("name", "Thrown away"))
	kept := filepath.Join(state, "unsaved", "1.yaml")
	for range 1000 {
		if _, err := os.Stat(kept); err == nil {
			break
		}
		time.Sleep(time.Millisecond)
	}
	if text := content(t, kept); !strings.Contains(text, "name: Thrown away") {
		t.Errorf("kept %q", text)
	}
	s.Close()
	s.Close()
	if left, _ := filepath.Glob(filepath.Join(state, "unsaved", "*")); len(left) != 0 {
		t.Errorf("%q is left", left)
	}
}

func TestDiscard(t *testing.T) {
	state := t.TempDir()
	must(t, os.Mkdir(filepath.Join(state, "unsaved"), 0o777))
	must(t, os.WriteFile(filepath.Join(state, "unsaved", "1.yaml"), []byte("mastwright: 1\nname: Old\n"), 0o666))
	must(t, os.WriteFile(filepath.Join(state, "unsaved", "2.yaml"), []byte("not a design"), 0o666))
	s := open(t, session.Options{State: state})
	list := s.Recoveries()
	if len(list) != 1 || list[0].Name != "Old" {
		t.Fatalf("offered %+v", list)
	}
	s.Discard(list[0])
	if list := s.Recoveries(); len(list) != 0 {
		t.Errorf("offered again: %+v", list)
	}
}

func TestUnkeptIsSaid(t *testing.T) {
	state := filepath.Join(t.TempDir(), "state")
	must(t, os.WriteFile(state, nil, 0o666)) // a file where the folder should be
	changed := make(chan struct{}, 1)
	s := open(t, session.Options{State: state, KeepIn: time.Nanosecond, Changed: func() { poke(changed) }})
	must(t, s.Set("name", "Mine"))
	n := until(t, s, changed, func(n *session.Snapshot) bool { return n.Unkept != "" })
	if !strings.HasPrefix(n.Unkept, "keep unsaved work in ") {
		t.Errorf("said %q", n.Unkept)
	}
	if err := s.SaveAs(filepath.Join(filepath.Dir(state), "a.yaml")); err != nil && !errors.Is(err, os.ErrExist) {
		t.Error(err)
	}
}

package main_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// rooms lists what each room may import of the project, longest room first: the rule of the longest matching room counts. A
// room may always import rooms below itself only if they are listed.
var rooms = []struct {
	room  string
	allow []string
}{
	{"cmd/mastwright", []string{"app/cli"}},
	{"cmd/mastwright-desktop", []string{"app/desktop", "assets"}},
	{"app/cli", []string{"app/cli", "app/build", "app/prove", "app/sheet", "design", "materials", "mesh", "assets"}},
	{"app/desktop", []string{"app/desktop", "app/session", "app/build", "app/prove", "app/sheet", "design", "materials", "mesh", "assets"}},
	{"app/session", []string{"app/build", "app/sheet", "design", "materials", "mesh", "assets"}},
	{"app/build", []string{"app/build", "app/sheet", "design", "materials", "mesh", "assets"}},
	{"app/prove", []string{"design", "materials"}},
	{"app/sheet", []string{"app/sheet", "design", "materials", "mesh", "assets"}},
	{"design/units", nil},
	{"design/frame", nil},
	{"design/magnetic", nil},
	{"design/motor", nil},
	{"design/strength", nil},
	{"design/evidence", []string{"design/evidence"}},
	{"design/parts", []string{"design", "design/units", "mesh", "materials"}},
	{"design/review", []string{"design", "materials", "mesh/outline", "mesh"}},
	{"design/sizing", []string{"design", "materials", "mesh/outline"}},
	{"design/revision", []string{"design", "design/review", "design/units", "materials"}},
	{"design", []string{"design/units", "materials"}},
	{"materials/hardware", []string{"design/units"}},
	{"materials", []string{"design/units"}},
	{"mesh/outline", nil},
	{"mesh/solid", []string{"mesh", "mesh/outline"}},
	{"mesh/stl", []string{"mesh"}},
	{"mesh/threemf", []string{"mesh"}},
	{"mesh/layout", nil},
	{"mesh/dxf", []string{"mesh/outline"}},
	{"mesh/svg", []string{"mesh/outline"}},
	{"mesh/view", []string{"mesh"}},
	{"mesh", nil},
	{"assets", nil},
}

// deep are the rooms whose permission covers what lies below them too.
var deep = []string{"app/cli", "app/desktop", "app/sheet", "design/evidence", "design/sizing", "materials", "mesh"}

// barred are arrows that a wide permission would let through.
var barred = map[string][]string{
	"design/parts":  {"design/review", "design/sizing", "design/frame", "design/motor", "design/strength", "design/magnetic"},
	"design/review": {"design/sizing", "design/revision", "design/evidence", "mesh/solid", "mesh/stl"},
}

func TestArrowsPointOneWay(t *testing.T) {
	top := filepath.Join("..", "..")
	found := 0
	err := filepath.WalkDir(top, func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && strings.HasPrefix(entry.Name(), ".") && name != top {
			return filepath.SkipDir
		}
		if entry.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		rel, err := filepath.Rel(top, name)
		if err != nil {
			return err
		}
		room := filepath.ToSlash(filepath.Dir(rel))
		source, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, source, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, spec := range file.Imports {
			imported, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			if target, ours := strings.CutPrefix(imported, "mastwright/"); ours {
				found++
				if !allowed(room, target) {
					t.Errorf("%s: %s may not import %s", rel, room, target)
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if found < 20 {
		t.Errorf("only %d imports of our own were read; the walk does not see the project", found)
	}
}

func allowed(room, target string) bool {
	rule := ""
	var allow []string
	for _, r := range rooms {
		if (room == r.room || strings.HasPrefix(room, r.room+"/")) && len(r.room) > len(rule) {
			rule, allow = r.room, r.allow
		}
	}
	if rule == "" || slices.Contains(barred[rule], target) {
		return false
	}
	for _, a := range allow {
		if target == a || covers(rule, a, target) {
			return true
		}
	}
	return false
}

// covers says whether a permission for room a reaches down to the target.
func covers(rule, a, target string) bool {
	if !strings.HasPrefix(target, a+"/") {
		return false
	}
	return slices.Contains(deep, a) || a == "design" && (rule == "design/review" || strings.HasPrefix(rule, "app") || rule == path.Join("design", "sizing"))
}

func TestArrowTestRefusesARunBack(t *testing.T) {
	for _, c := range []struct {
		room, target string
		want         bool
	}{
		{"design", "design/review", false},
		{"design/frame", "design", false},
		{"mesh", "design/units", false},
		{"mesh/solid", "design", false},
		{"materials", "design", false},
		{"materials", "design/units", true},
		{"design/review", "design/frame", true},
		{"design/review", "mesh/solid", false},
		{"design/parts", "design/review", false},
		{"app/cli", "design/review", true},
		{"cmd/mastwright", "design", false},
		{"assets", "app/cli", false},
		{"app/session", "app/desktop", false},
		{"app/desktop/view", "app/session", true},
		{"app/build", "app/session", false},
	} {
		if got := allowed(c.room, c.target); got != c.want {
			t.Errorf("%s importing %s: got allowed %t, want %t", c.room, c.target, got, c.want)
		}
	}
}

package cli_test

import (
	"bytes"
	"context"
	"encoding/binary"
	"encoding/json"
	"errors"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"mastwright/app/cli"
	"mastwright/assets"
)

// made writes the parts and the fit pieces of a design into a new folder.
func made(t *testing.T, file string) (dir string) {
	t.Helper()
	dir = filepath.Join(t.TempDir(), "out")
	var out, problems bytes.Buffer
	args := []string{"make", file, "--out", dir, "--fit", "--allow-missing"}
	if code := cli.Run(context.Background(), args, cli.Streams{Out: &out, Err: &problems}); code == cli.Unusable {
		t.Fatalf("make %s: %s", file, &problems)
	}
	return dir
}

// written writes an example design into a new folder.
func written(t *testing.T, e assets.Example) (file string) {
	t.Helper()
	file = filepath.Join(t.TempDir(), e.Name+".yaml")
	if err := os.WriteFile(file, e.Data, 0o666); err != nil {
		t.Fatal(err)
	}
	return file
}

// Every part of every example is read back by ADMesh, a reader of STL that has nothing in common with this project, and must be
// closed, with the volume and the box that results.json says.
func TestIndependentReaderAgrees(t *testing.T) {
	admesh, err := exec.LookPath("admesh")
	if err != nil {
		t.Skip("admesh is not installed; on Debian: apt-get install admesh")
	}
	for _, e := range assets.Examples() {
		t.Run(e.Name, func(t *testing.T) {
			if raced && e.Name != assets.FirstStart {
				t.Skip("one example is enough for the race detector; all are made without it")
			}
			dir := made(t, written(t, e))
			all := listed(t, dir)
			findsAHole(t, admesh, dir, all[0])
			for _, part := range all {
				out, err := exec.Command(admesh, filepath.Join(dir, part.File)).CombinedOutput()
				if err != nil {
					t.Fatalf("%s: %v\n%s", part.File, err, out)
				}
				agree(t, part, string(out))
			}
		})
	}
}

// A damaged file must not pass for a sound one.
func findsAHole(t *testing.T, admesh, dir string, part part) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, part.File))
	if err != nil {
		t.Fatal(err)
	}
	binary.LittleEndian.PutUint32(data[80:], uint32(part.Triangles-1))
	name := filepath.Join(t.TempDir(), "holed.stl")
	if err := os.WriteFile(name, data[:len(data)-50], 0o666); err != nil { // without the last triangle
		t.Fatal(err)
	}
	out, err := exec.Command(admesh, name).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	if open := reading(t, string(out), `Total disconnected facets +: +(\d+)`); open != 3 {
		t.Errorf("a triangle is missing: ADMesh finds %g facets with an open edge, want its 3 neighbours", open)
	}
}

type part struct {
	Name      string
	File      string
	Triangles int
	Volume    float64    `json:"volume_mm3"`
	Mass      float64    `json:"mass_g"`
	Box       [3]float64 `json:"box_mm"`
}

func listed(t *testing.T, dir string) []part {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, "results.json"))
	if err != nil {
		t.Fatal(err)
	}
	var results struct {
		Parts     []part
		FitPieces []part `json:"fit_pieces"`
	}
	if err := json.Unmarshal(data, &results); err != nil {
		t.Fatal(err)
	}
	if len(results.Parts) == 0 || len(results.FitPieces) == 0 {
		t.Fatalf("%d parts and %d fit pieces are listed", len(results.Parts), len(results.FitPieces))
	}
	return append(results.Parts, results.FitPieces...)
}

func agree(t *testing.T, part part, report string) {
	t.Helper()
	for _, c := range []struct {
		name, pattern string
		want          float64
		tolerance     float64
	}{
		{"facets", `Number of facets +: +(\d+)`, float64(part.Triangles), 0},
		{"disconnected facets", `Total disconnected facets +: +(\d+)`, 0, 0},
		{"parts", `Number of parts +: +(\d+)`, 1, 0},
		{"degenerate facets", `Degenerate facets +: +(\d+)`, 0, 0},
		{"edges fixed", `Edges fixed +: +(\d+)`, 0, 0},
		{"facets removed", `Facets removed +: +(\d+)`, 0, 0},
		{"facets added", `Facets added +: +(\d+)`, 0, 0},
		{"facets reversed", `Facets reversed +: +(\d+)`, 0, 0},
		{"backwards edges", `Backwards edges +: +(\d+)`, 0, 0},
		{"least x", `Min X = +(\S+),`, 0, 0},
		{"least y", `Min Y = +(\S+),`, 0, 0},
		{"least z", `Min Z = +(\S+),`, 0, 0},
		{"width", `Max X = +(\S+)`, part.Box[0], 1e-3},                  // results.json has six digits
		{"depth", `Max Y = +(\S+)`, part.Box[1], 1e-3},                  // of up to 999.999 mm
		{"height", `Max Z = +(\S+)`, part.Box[2], 1e-3},                 //
		{"volume", `Volume +: +(\S+)`, part.Volume, 1e-4 * part.Volume}, // ADMesh adds in single precision
	} {
		if got := reading(t, report, c.pattern); math.Abs(got-c.want) > c.tolerance {
			t.Errorf("%s: %s: ADMesh reads %g, results.json says %g", part.File, c.name, got, c.want)
		}
	}
	if part.Mass <= 0 || part.Mass > part.Volume*1e-3*3 {
		t.Errorf("%s: %g g of %g mm³ is lighter than nothing or heavier than any plastic", part.File, part.Mass, part.Volume)
	}
}

func reading(t *testing.T, report, pattern string) float64 {
	t.Helper()
	found := regexp.MustCompile(pattern).FindStringSubmatch(report)
	if found == nil {
		t.Fatalf("ADMesh does not say %s:\n%s", pattern, report)
	}
	value, err := strconv.ParseFloat(found[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	return value
}

// The same design gives the same bytes, whatever the number of cores.
func TestMakeIsDeterministic(t *testing.T) {
	file := written(t, assets.Examples()[0])
	var runs []map[string]string
	for _, cores := range []int{1, 2} {
		before := runtime.GOMAXPROCS(cores)
		dir := made(t, file)
		runtime.GOMAXPROCS(before)
		run := map[string]string{}
		entries, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		for _, entry := range entries {
			data, err := os.ReadFile(filepath.Join(dir, entry.Name()))
			if err != nil {
				t.Fatal(err)
			}
			run[entry.Name()] = string(data)
		}
		runs = append(runs, run)
	}
	if len(runs[0]) != len(runs[1]) {
		t.Errorf("one core wrote %d files, two wrote %d", len(runs[0]), len(runs[1]))
	}
	for name, data := range runs[0] {
		if data != runs[1][name] {
			t.Errorf("%s differs between one core and two", name)
		}
	}
}

// refusing is a standard output on a full disk.
type refusing struct{}

func (refusing) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

func TestUnwritableOutputIsSaid(t *testing.T) {
	for _, args := range [][]string{{"materials"}, {"examples"}, {"--help"}, {"check", filepath.Join("testdata", "wide.yaml"), "--json"}} {
		var problems strings.Builder
		code := cli.Run(context.Background(), args, cli.Streams{Out: refusing{}, Err: &problems})
		if code != cli.Unusable || !strings.Contains(problems.String(), "standard output: no space left on device") {
			t.Errorf("%q: exit code %d, said %q", args, code, problems.String())
		}
	}
}

func TestCancelledMakeWritesNothing(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	dir := filepath.Join(t.TempDir(), "out")
	args := []string{"make", filepath.Join("testdata", "wide.yaml"), "--out", dir}
	if code := cli.Run(ctx, args, cli.Streams{Out: io.Discard, Err: io.Discard}); code != cli.Unusable {
		t.Errorf("exit code %d, want %d", code, cli.Unusable)
	}
	if _, err := os.Stat(dir); err == nil {
		t.Error("the folder was made")
	}
}

// Progress is for a terminal; a pipe gets none of it.
func TestProgressOnlyOnATerminal(t *testing.T) {
	for _, terminal := range []bool{false, true} {
		var err strings.Builder
		args := []string{"sweep", filepath.Join("testdata", "wide.yaml"), "--field", "mast.height", "--from", "60", "--to", "100", "--step", "20"}
		if code := cli.Run(context.Background(), args, cli.Streams{Out: io.Discard, Err: &err, Terminal: terminal}); code != cli.Clean {
			t.Fatalf("exit code %d: %s", code, &err)
		}
		if got := strings.Contains(err.String(), "100 %"); got != terminal {
			t.Errorf("terminal %t: shown %t: %q", terminal, got, &err)
		}
	}
}

func BenchmarkCheck(b *testing.B) {
	args := []string{"check", filepath.Join("testdata", "wide.yaml")}
	for b.Loop() {
		if code := cli.Run(context.Background(), args, cli.Streams{Out: io.Discard, Err: io.Discard}); code != cli.Clean {
			b.Fatalf("exit code %d", code)
		}
	}
}

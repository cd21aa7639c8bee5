package parts_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/mesh/solid"
)

const examples = "../../assets/examples"

// BenchmarkPreview meshes whole mounts, all parts at once, as they are shown while a design is edited.
func BenchmarkPreview(b *testing.B) { benchExamples(b, 0.1) }

// BenchmarkPrint meshes whole mounts as they are printed.
func BenchmarkPrint(b *testing.B) { benchExamples(b, 0.01) }

func benchExamples(b *testing.B, tolerance float64) {
	files, err := filepath.Glob(filepath.Join(examples, "*.yaml"))
	if err != nil || len(files) == 0 {
		b.Fatalf("%d examples, %v", len(files), err)
	}
	for _, f := range files {
		b.Run(strings.TrimSuffix(filepath.Base(f), ".yaml"), func(b *testing.B) {
			a := example(b, f)
			b.ReportAllocs()
			var triangles, evaluations, grids float64
			for b.Loop() {
				triangles, evaluations, grids = 0, 0, 0
				_, reports, err := a.Meshes(context.Background(), solid.Options{Tolerance: tolerance})
				if err != nil {
					b.Fatal(err)
				}
				for _, r := range reports {
					triangles += float64(r.Triangles)
					evaluations += float64(r.Evaluations)
					grids = max(grids, float64(r.Rounds))
				}
			}
			b.ReportMetric(triangles, "triangles")
			b.ReportMetric(evaluations, "evaluations")
			b.ReportMetric(grids, "grids")
		})
	}
}

// TestExamplesMesh holds the parts of every example to both tolerances in use.
func TestExamplesMesh(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(examples, "*.yaml"))
	if err != nil || len(files) == 0 {
		t.Fatalf("%d examples, %v", len(files), err)
	}
	for _, f := range files {
		for _, p := range example(t, f).Parts {
			for _, tolerance := range []float64{0.1, 0.01} {
				_, r, err := solid.Polygonise(context.Background(), p.Solid(), solid.Options{Tolerance: tolerance})
				if err != nil || r.Coarse || r.Tolerance > tolerance || r.Pieces != 1 {
					t.Errorf("%s, %s to %g mm: reached %g mm in %d pieces, coarse %v, %v", filepath.Base(f), p.Name, tolerance, r.Tolerance, r.Pieces, r.Coarse, err)
				}
			}
		}
	}
}

// TestPreviewWork keeps the mounts that once took four grids and more than 800 thousand evaluations of their solids to what they
// have been brought down to.
func TestPreviewWork(t *testing.T) {
	cases := []struct {
		name        string
		evaluations int64
		grids       int // of the part with the most
	}{
		{"lake-soundings", 230_000, 1},
		{"marsh-census", 550_000, 2},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, reports, err := example(t, filepath.Join(examples, c.name+".yaml")).Meshes(context.Background(), solid.Options{Tolerance: 0.1})
			if err != nil {
				t.Fatal(err)
			}
			var evaluations int64
			grids := 0
			for _, r := range reports {
				evaluations, grids = evaluations+r.Evaluations, max(grids, r.Rounds)
			}
			if evaluations > c.evaluations || grids > c.grids {
				t.Errorf("%d evaluations on up to %d grids, want at most %d on %d", evaluations, grids, c.evaluations, c.grids)
			}
		})
	}
}

func example(t tester, file string) parts.Assembly {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	doc, problems := design.Decode(data, design.Options{Name: file, Open: func(name string) ([]byte, error) {
		return os.ReadFile(filepath.Join(filepath.Dir(file), name))
	}})
	for _, p := range problems {
		t.Fatal(p)
	}
	return built(t, doc)
}

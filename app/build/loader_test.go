package build_test

import (
	"context"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"mastwright/app/build"
	"mastwright/design"
)

// TestBedAgainstLoader has a loader, an XML parser and a mesh library from outside this project read the bed of a design: every copy
// is a two-manifold solid of the volume that results.json gives, in its place.
func TestBedAgainstLoader(t *testing.T) {
	if os.Getenv("MASTWRIGHT_NODE_MODULES") == "" {
		t.Skip("no loader to read with: install the npm packages three, linkedom and manifold-3d and name their node_modules folder in MASTWRIGHT_NODE_MODULES")
	}
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("no node to run the loader with: ", err)
	}
	doc, r := example(t)
	doc.Print.Copies = []design.Copies{{Part: "tray", Count: 2}}
	dir := filepath.Join(t.TempDir(), "out")
	if _, err := build.Make(context.Background(), build.Folder{Path: dir}, doc, r, build.Options{}); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(filepath.Join(dir, "results.json"))
	if err != nil {
		t.Fatal(err)
	}
	type part struct {
		Name   string
		Volume float64    `json:"volume_mm3"`
		Box    [3]float64 `json:"box_mm"`
	}
	var results struct {
		Parts []part
		Beds  []struct {
			File  string
			Parts []struct {
				Name   string
				At     [2]float64 `json:"at_mm"`
				Turned bool
			}
		}
	}
	if err := json.Unmarshal(data, &results); err != nil || len(results.Beds) != 1 || len(results.Beds[0].Parts) != 4 {
		t.Fatalf("%v in %+v", err, results)
	}
	command := exec.Command(node, filepath.Join("..", "..", "mesh", "threemf", "testdata", "read.mjs"), filepath.Join(dir, results.Beds[0].File))
	command.Stderr = os.Stderr
	out, err := command.Output()
	if err != nil {
		t.Fatal(err)
	}
	var seen []struct {
		Name     string
		Min, Max [3]float64
		Volume   float64
	}
	if err := json.Unmarshal(out, &seen); err != nil || len(seen) != 4 {
		t.Fatalf("%v in %s", err, out)
	}
	for i, place := range results.Beds[0].Parts {
		k := slices.IndexFunc(results.Parts, func(p part) bool { return p.Name == place.Name })
		made, got := results.Parts[k], seen[i]
		x, y := made.Box[0], made.Box[1]
		if place.Turned {
			x, y = y, x
		}
		want := [6]float64{place.At[0], place.At[1], 0, place.At[0] + x, place.At[1] + y, made.Box[2]}
		box := [6]float64{got.Min[0], got.Min[1], got.Min[2], got.Max[0], got.Max[1], got.Max[2]}
		for k := range box {
			if math.Abs(box[k]-want[k]) > 0.002 { // six digits of the box, four decimals of a place
				t.Errorf("%s lies in %v, want %v", got.Name, box, want)
				break
			}
		}
		// half the fourth decimal over the surface, some 20000 mm²
		if got.Name != place.Name || math.Abs(got.Volume-made.Volume) > 1 {
			t.Errorf("%s of %g mm³, want %s of %g", got.Name, got.Volume, place.Name, made.Volume)
		}
	}
}

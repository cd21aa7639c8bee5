package solid_test

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"os"
	"os/exec"
	"testing"

	. "mastwright/mesh/solid"
)

// TestAgainstMeshBoolean compares three parts with the same parts made by a
// mesh boolean from outside this project, out of primitives of 512 segments a
// circle: testdata/boolean.mjs. It needs node and the folder in which the npm
// package manifold-3d is installed.
func TestAgainstMeshBoolean(t *testing.T) {
	if os.Getenv("MASTWRIGHT_NODE_MODULES") == "" {
		t.Skip("no mesh boolean to compare with: install the npm package manifold-3d and name its node_modules folder in MASTWRIGHT_NODE_MODULES")
	}
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("no node to run the mesh boolean with: ", err)
	}
	out, err := exec.Command(node, "testdata/boolean.mjs").Output()
	if err != nil {
		var exit *exec.ExitError
		if errors.As(err, &exit) {
			t.Fatalf("boolean.mjs: %v\n%s", err, exit.Stderr)
		}
		t.Fatal(err)
	}
	type figures struct {
		Volume, Area float64
		Genus        int
	}
	var want map[string]figures
	if err := json.Unmarshal(out, &want); err != nil {
		t.Fatal(err)
	}
	for name, n := range map[string]Node{"reference": referencePart(), "wedge foot": wedgeFoot(), "clamp": clamp()} {
		w, ok := want[name]
		if !ok {
			t.Fatalf("no %s in %s", name, out)
		}
		m, r, err := Polygonise(context.Background(), n, Options{})
		if err != nil {
			t.Fatal(err)
		}
		b := m.Body()
		t.Logf("%s: volume %.3f, boolean %.3f (%+.4f %%); area %.3f, boolean %.3f (%+.4f %%)", name,
			b.Volume, w.Volume, 100*(b.Volume/w.Volume-1), b.Area, w.Area, 100*(b.Area/w.Area-1))
		// 0.03 % is what a mesh to 0.01 mm is held to; round parts of the
		// boolean are 0.01 % too small.
		if d := math.Abs(b.Volume - w.Volume); d > 4e-4*w.Volume {
			t.Errorf("%s: volume %.3f mm³, by boolean %.3f", name, b.Volume, w.Volume)
		}
		if d := math.Abs(b.Area - w.Area); d > 4e-4*w.Area {
			t.Errorf("%s: area %.3f mm², by boolean %.3f", name, b.Area, w.Area)
		}
		if r.Genus != w.Genus {
			t.Errorf("%s: genus %d, by boolean %d", name, r.Genus, w.Genus)
		}
	}
}

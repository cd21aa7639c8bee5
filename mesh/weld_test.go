package mesh_test

import (
	"math"
	"reflect"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

func TestWeld(t *testing.T) {
	m := &mesh.Mesh{
		Vertices: []r3.Vec{{X: 9}, {}, {X: 1}, {Y: 1}, {X: math.Copysign(0, -1), Y: 1}, {X: 1}, {X: 1, Y: 1}, {Z: math.NaN()}, {Z: 5}},
		Triangles: [][3]int32{
			{1, 2, 3},                        // kept
			{4, 5, 6},                        // -0 is 0: shares an edge with the first
			{2, 8, 5}, {1, 2, 7}, {1, 2, 99}, // two equal corners, no number, no vertex
		},
	}
	want := &mesh.Mesh{
		Vertices:  []r3.Vec{{}, {X: 1}, {Y: 1}, {X: 1, Y: 1}},
		Triangles: [][3]int32{{0, 1, 2}, {2, 1, 3}},
	}
	if got := m.Weld(); !reflect.DeepEqual(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestRounded(t *testing.T) {
	m := cube(0, 0, 0, 1)
	m.Append(cube(1+1e-9, 0, 0, 1)) // float32 steps by 1.2e-7 at 1
	if got := len(m.Rounded().Vertices); got != 12 {
		t.Errorf("%d vertices, want 12: two boxes share a face", got)
	}
	if got := len(m.Weld().Vertices); got != 16 {
		t.Errorf("%d vertices before rounding, want 16", got)
	}
}

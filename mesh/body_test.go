package mesh_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"mastwright/mesh"
)

func TestBodyOfBox(t *testing.T) {
	// I = m (b² + c²)/12; any mechanics handbook.
	a, b, c := 3.0, 4.0, 5.0
	m := box(r3.Vec{X: 100, Y: -20, Z: 7}, r3.Vec{X: 100 + a, Y: -20 + b, Z: 7 + c})
	got := m.Body()
	want := mesh.Body{
		Volume:   60,
		Area:     94,
		Centroid: r3.Vec{X: 101.5, Y: -18, Z: 9.5},
		Inertia:  mesh.Tensor{XX: 60 * (b*b + c*c) / 12, YY: 60 * (c*c + a*a) / 12, ZZ: 60 * (a*a + b*b) / 12},
	}
	near(t, "volume", got.Volume, want.Volume, 1e-12)
	near(t, "area", got.Area, want.Area, 1e-12)
	if d := r3.Norm(r3.Sub(got.Centroid, want.Centroid)); d > 1e-12 {
		t.Errorf("centroid %v, want %v", got.Centroid, want.Centroid)
	}
	nearTensor(t, got.Inertia, want.Inertia, 1e-10) // of about 200: rounding
}

// The error of a surface inscribed with step h shrinks as h²: a factor of 4
// for every halving. 3 % tells 4 from 2 or 8.
func TestBodyConverges(t *testing.T) {
	const R, r, h = 20.0, 6.0, 12.0
	cases := []struct {
		name, source                    string
		shape                           func(n int) *mesh.Mesh
		volume, area, inertiaX, inertia float64 // inertia about x and z
	}{
		{
			name: "sphere", source: "V = 4πr³/3, A = 4πr², I = 2mr²/5",
			shape:  func(n int) *mesh.Mesh { return sphere(R, n) },
			volume: 4 * math.Pi * R * R * R / 3, area: 4 * math.Pi * R * R,
			inertiaX: 4 * math.Pi * R * R * R / 3 * 2 * R * R / 5,
			inertia:  4 * math.Pi * R * R * R / 3 * 2 * R * R / 5,
		},
		{
			name: "torus", source: "Pappus; I_z = m(R² + 3r²/4), I_x = m(R²/2 + 5r²/8)",
			shape:  func(n int) *mesh.Mesh { return torus(R, r, n) },
			volume: 2 * math.Pi * math.Pi * R * r * r, area: 4 * math.Pi * math.Pi * R * r,
			inertiaX: 2 * math.Pi * math.Pi * R * r * r * (R*R/2 + 5*r*r/8),
			inertia:  2 * math.Pi * math.Pi * R * r * r * (R*R + 3*r*r/4),
		},
		{
			name: "cylinder with hole", source: "I_z = m(R² + r²)/2, I_x = m(3(R² + r²) + h²)/12",
			shape:  func(n int) *mesh.Mesh { return tube(R, r, h, n) },
			volume: math.Pi * (R*R - r*r) * h, area: 2*math.Pi*(R*R-r*r) + 2*math.Pi*(R+r)*h,
			inertiaX: math.Pi * (R*R - r*r) * h * (3*(R*R+r*r) + h*h) / 12,
			inertia:  math.Pi * (R*R - r*r) * h * (R*R + r*r) / 2,
		},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			errors := func(n int) [4]float64 {
				b := c.shape(n).Body()
				return [4]float64{
					b.Volume/c.volume - 1, b.Area/c.area - 1,
					b.Inertia.XX/c.inertiaX - 1, b.Inertia.ZZ/c.inertia - 1,
				}
			}
			coarse, fine := errors(40), errors(80)
			for i, what := range []string{"volume", "area", "inertia about x", "inertia about z"} {
				if rate := coarse[i] / fine[i]; math.Abs(rate-4) > 0.12 {
					t.Errorf("%s: error %g at 40, %g at 80 steps: ratio %.3f, want 4", what, coarse[i], fine[i], rate)
				}
				// Richardson's limit must be the closed form. What is left is
				// some h⁴/20, with h = 2π/40.
				if limit := (4*fine[i] - coarse[i]) / 3; math.Abs(limit) > 3e-5 {
					t.Errorf("%s: limit off by %g of the closed form", what, limit)
				}
			}
		})
	}
}

func TestBodyUnderRigidMotion(t *testing.T) {
	m := box(r3.Vec{X: 1, Y: 2, Z: 3}, r3.Vec{X: 3, Y: 7, Z: 14})
	m.Append(box(r3.Vec{X: 5}, r3.Vec{X: 9, Y: 1, Z: 2})) // off the axes: products of inertia
	before := m.Body()
	rapid.Check(t, func(rt *rapid.T) {
		f := func(name string, reach float64) float64 { return rapid.Float64Range(-reach, reach).Draw(rt, name) }
		axis := r3.Vec{X: f("x", 1), Y: f("y", 1), Z: f("z", 1)}
		if r3.Norm(axis) < 1e-3 {
			axis.Z = 1
		}
		p := mesh.Turn(axis, f("angle", 7)).Then(mesh.Move(r3.Vec{X: f("dx", 300), Y: f("dy", 300), Z: f("dz", 300)}))
		got := m.Moved(p).Body()
		near(rt, "volume", got.Volume, before.Volume, 1e-11)
		near(rt, "area", got.Area, before.Area, 1e-11)
		if d := r3.Norm(r3.Sub(got.Centroid, p.Apply(before.Centroid))); d > 1e-10 {
			rt.Errorf("centroid off by %g mm", d)
		}
		nearTensor(rt, got.Inertia, turned(before.Inertia, p), 1e-7) // of about 1e4, moved by 300
	})
}

// turned returns R I Rᵀ.
func turned(i mesh.Tensor, p mesh.Pose) mesh.Tensor {
	r := [3][3]float64{{p.X.X, p.Y.X, p.Z.X}, {p.X.Y, p.Y.Y, p.Z.Y}, {p.X.Z, p.Y.Z, p.Z.Z}}
	in := [3][3]float64{{i.XX, i.XY, i.ZX}, {i.XY, i.YY, i.YZ}, {i.ZX, i.YZ, i.ZZ}}
	var out [3][3]float64
	for a := range 3 {
		for b := range 3 {
			for c := range 3 {
				for d := range 3 {
					out[a][b] += r[a][c] * in[c][d] * r[b][d]
				}
			}
		}
	}
	return mesh.Tensor{XX: out[0][0], YY: out[1][1], ZZ: out[2][2], XY: out[0][1], YZ: out[1][2], ZX: out[2][0]}
}

func TestMirrorKeepsOutsideOut(t *testing.T) {
	m := cube(1, 2, 3, 4).Moved(mesh.Pose{X: r3.Vec{X: -1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: 1}})
	near(t, "volume", m.Volume(), 64, 1e-12)
}

func TestOnBed(t *testing.T) {
	m := box(r3.Vec{X: -3, Y: 5, Z: 100}, r3.Vec{X: 1, Y: 6, Z: 103})
	got := m.OnBed(mesh.Turn(r3.Vec{X: 1}, math.Pi/2)).Box()
	want := r3.Box{Max: r3.Vec{X: 4, Y: 3, Z: 1}}
	if got != want { // quarter turns of whole numbers are exact
		t.Errorf("box %v, want %v", got, want)
	}
}

func TestBodyIsFinite(t *testing.T) {
	bad := cube(0, 0, 0, 1)
	bad.Vertices[7] = r3.Vec{X: math.NaN(), Y: math.Inf(1), Z: 1e300}
	bad.Triangles = append(bad.Triangles, [3]int32{0, 1, 99}, [3]int32{-1, 0, 1})
	thin := &mesh.Mesh{Vertices: []r3.Vec{{X: 1e6}, {Y: 1e6}, {Z: 1e-9}}, Triangles: [][3]int32{{0, 1, 2}}}
	for _, m := range []*mesh.Mesh{{}, bad, thin} {
		b := m.Body()
		for _, x := range []float64{b.Volume, b.Area, b.Centroid.X, b.Centroid.Y, b.Centroid.Z, b.Inertia.XX, b.Inertia.XY, b.Inertia.ZZ} {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Errorf("%+v is not finite", b)
			}
		}
	}
}

type reporter interface {
	Errorf(format string, args ...any)
}

// near compares within a relative tolerance.
func near(t reporter, what string, got, want, tol float64) {
	if !(math.Abs(got-want) <= tol*math.Abs(want)) {
		t.Errorf("%s %.15g, want %.15g", what, got, want)
	}
}

// nearTensor compares within an absolute tolerance in mm⁵.
func nearTensor(t reporter, got, want mesh.Tensor, tol float64) {
	for i, d := range []float64{got.XX - want.XX, got.YY - want.YY, got.ZZ - want.ZZ, got.XY - want.XY, got.YZ - want.YZ, got.ZX - want.ZX} {
		if !(math.Abs(d) <= tol) {
			t.Errorf("inertia %+v, want %+v (entry %d off by %g)", got, want, i, d)
			return
		}
	}
}

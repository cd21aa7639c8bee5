package solid_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh/outline"
	. "mastwright/mesh/solid"
)

func nodes() map[string]Node {
	stem := TaperedPrism(Section{X: 18, Y: 14, Radius: 2}, Section{X: 12, Y: 11, Radius: 3}, 40)
	return map[string]Node{
		"box":            Box(10, 7, 4),
		"rounded prism":  RoundedPrism(12, 9, 5, 2),
		"tapered prism":  stem,
		"cylinder":       Cylinder(4, 9),
		"cone":           Cone(5, 0, 8),
		"sphere":         Sphere(5),
		"torus":          Torus(6, 2),
		"slot":           Slot(12, 4, 5),
		"hexagon":        HexPocket(5.5, 3),
		"counterbore":    Counterbore(3.2, 8, 6.5, 2),
		"outline":        Extrude(3, outline.Outline{Outer: outline.Arrow(12, 6), Holes: []outline.Loop{outline.Circle(0.7)}}),
		"fillet":         Fillet(stem, 0, Above, 3),
		"fillet below":   Fillet(stem, 40, Below, 3),
		"cylinder round": Fillet(Cylinder(4, 12), 2, Above, 3),
		"chamfer":        Chamfer(stem, 0, Above, 2),
		"half-space":     HalfSpace(at(1, 2, 3), at(1, -1, 2)),
		"difference":     Difference(Box(10, 7, 4), Move(Cylinder(2, 9), at(1, 1, -2))),
		"moved":          Rotate(Move(stem, at(1, 2, 3)), 0.7, at(1, 2, -1)),
	}
}

// TestLipschitz samples pairs of points, far and near: the value may change
// by no more than their distance.
func TestLipschitz(t *testing.T) {
	for name, n := range nodes() {
		t.Run(name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(1, 2))
			for range 100000 {
				p := at(30*r.Float64()-15, 30*r.Float64()-15, 50*r.Float64()-5)
				reach := math.Pow(10, 2-6*r.Float64())
				d := r3.Unit(at(r.NormFloat64(), r.NormFloat64(), r.NormFloat64()))
				q := r3.Add(p, r3.Scale(reach, d))
				// 1e-9 for rounding of values near 50 mm, and for the spine's
				// iteration in a fillet.
				if a, b := n.Value(p), n.Value(q); math.Abs(a-b) > reach*(1+1e-9)+1e-9 {
					t.Fatalf("value %g at %v and %g at %v, %g mm away", a, p, b, q, reach)
				}
			}
		})
	}
}

// TestLowerBound compares the value with the distance to the nearest of many
// points found on the surface by bisection along random lines.
func TestLowerBound(t *testing.T) {
	for name, n := range nodes() {
		t.Run(name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(3, 4))
			var surface []r3.Vec
			for range 20000 {
				a := at(30*r.Float64()-15, 30*r.Float64()-15, 50*r.Float64()-5)
				b := at(30*r.Float64()-15, 30*r.Float64()-15, 50*r.Float64()-5)
				if n.Value(a) < 0 == (n.Value(b) < 0) {
					continue
				}
				for range 50 {
					m := r3.Scale(0.5, r3.Add(a, b))
					if n.Value(m) < 0 == (n.Value(a) < 0) {
						a = m
					} else {
						b = m
					}
				}
				surface = append(surface, a)
			}
			if len(surface) < 20 {
				t.Fatalf("%d points on the surface", len(surface))
			}
			for _, p := range surface[:20] {
				if v := n.Value(p); math.Abs(v) > 1e-7 {
					t.Errorf("value %g on the surface at %v", v, p)
				}
				// Along the gradient the value grows about as the way: it is a
				// distance there, up to the share a taper's scale takes.
				g := n.Gradient(p)
				if d := n.Value(r3.Add(p, r3.Scale(1e-4, g))); d < 0.8e-4 {
					t.Errorf("value %g a tenth of a micron along the gradient %v at %v", d, g, p)
				}
			}
			for range 200 {
				p := at(30*r.Float64()-15, 30*r.Float64()-15, 50*r.Float64()-5)
				nearest := math.Inf(1)
				for _, q := range surface {
					nearest = min(nearest, r3.Norm(r3.Sub(p, q)))
				}
				if v := math.Abs(n.Value(p)); v > nearest+1e-6 {
					t.Errorf("value %g at %v, but the surface is %g mm away", v, p, nearest)
				}
			}
		})
	}
}

// TestSmoothJoints asks along the lines from the middle of a disc through the
// joints of the arcs that bound it, where by rounding no arc may claim a point.
func TestSmoothJoints(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 300 {
		radius, start := 1+20*r.Float64(), 2*math.Pi*r.Float64()
		disc := outline.Loop{}
		for i := range 3 {
			s, c := math.Sincos(start + 2*math.Pi/3*float64(i))
			disc = append(disc, outline.Vertex{X: radius * c, Y: radius * s, Bulge: math.Tan(math.Pi / 6)})
		}
		n := Extrude(2, outline.Outline{Outer: disc})
		for _, v := range disc {
			for _, share := range []float64{0.25, 0.5, 0.99, 1.01, 2} {
				if d := n.Value(at(share*v.X, share*v.Y, 1)); (d < 0) != (share < 1) {
					t.Fatalf("value %g at %g of the radius %g", d, share, radius)
				}
			}
		}
	}
}

// TestFilletTouches checks the rolling ball: it must touch the plane and the
// wall of the stem without cutting either, all round.
func TestFilletTouches(t *testing.T) {
	const ball = 4.0
	stem := TaperedPrism(Section{X: 18, Y: 18, Radius: 2}, Section{X: 12, Y: 12, Radius: 2}, 120)
	n := Fillet(stem, 0, Above, ball)
	// On the flat side x: the wall is x = 9 - 0.025 z. The ball's centre is at
	// height 4 and 4 mm off the wall along its normal.
	k := math.Hypot(1, 0.025)
	cx := 9 - 0.025*ball + ball*k
	for _, angle := range []float64{0.1, 0.4, 0.8, 1.2, 1.4} {
		p := at(cx-ball*math.Sin(angle), 3, ball-ball*math.Cos(angle))
		if v := n.Value(p); math.Abs(v) > 1e-9 {
			t.Errorf("value %g on the ball at %v", v, p)
		}
	}
	if f := n.Face(at(cx-ball*math.Sin(0.8), 3, ball-ball*math.Cos(0.8))); !strings.Contains(f, "fillet side +x") {
		t.Errorf("face %q, want the fillet's side +x", f)
	}
}

func TestBounds(t *testing.T) {
	got := Rotate(Move(Box(2, 4, 6), at(1, 2, 3)), math.Pi/2, axisZ).Bounds()
	want := r3.Box{Min: at(-4, 0, 3), Max: at(0, 2, 9)}
	if r3.Norm(r3.Sub(got.Min, want.Min)) > 1e-12 || r3.Norm(r3.Sub(got.Max, want.Max)) > 1e-12 {
		t.Errorf("bounds %v, want %v", got, want)
	}
}

package view

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

const (
	gridStep  = 10.0  // mm
	gridReach = 220.0 // mm
	gridHeavy = 5     // every so manieth line is heavier
	gridPiece = 40.0  // mm; the fading is straight within a piece
)

// rule strokes the ground's grid. Lines that crowd in the picture fade, so
// that a flat look along the ground does not turn it grey; the two middle
// lines stay.
func (r *Renderer) rule() {
	g := &r.scene.Ground
	if g.Hidden || !finite(g.Centre) {
		return
	}
	view := r.camera.projection(mesh.Move(r3.Vec{}))
	for _, axes := range [...][2]r3.Vec{{{X: 1}, {Y: 1}}, {{Y: 1}, {X: 1}}} {
		along, aside := axes[0], axes[1]
		apart := view.apart(along, aside) * gridStep / r.stroke
		for k := -gridReach / gridStep; k <= gridReach/gridStep; k++ {
			s := stroke{colour: r.scene.Palette.Grid, layer: layerGround, half: 0.4 * float32(r.stroke)}
			strength, room := 0.6, apart
			if int(k)%gridHeavy == 0 {
				strength, room, s.half = 1, gridHeavy*apart, 0.65*float32(r.stroke)
			}
			if k != 0 {
				strength *= min(max((room-1.5)/4, 0), 1)
			}
			if strength == 0 {
				continue
			}
			off := k * gridStep
			half := math.Sqrt(gridReach*gridReach - off*off)
			pieces := math.Ceil(2 * half / gridPiece)
			at := func(i float64) (point, float32) {
				u := half * (2*i/pieces - 1)
				p := r3.Add(g.Centre, r3.Add(r3.Scale(u, along), r3.Scale(off, aside)))
				return view.project(p), float32(strength * max(1-(u*u+off*off)/(gridReach*gridReach), 0))
			}
			for i := range int(pieces) {
				s.from, s.dense = at(float64(i))
				s.to, s.faint = at(float64(i + 1))
				r.add(s)
			}
		}
	}
}

// apart returns how many samples two lines along one axis are apart in the
// picture when they are 1 mm apart along another.
func (t *projection) apart(along, aside r3.Vec) float64 {
	image := func(v r3.Vec) (x, y float64) {
		return t.x[0]*v.X + t.x[1]*v.Y + t.x[2]*v.Z, t.y[0]*v.X + t.y[1]*v.Y + t.y[2]*v.Z
	}
	ax, ay := image(along)
	bx, by := image(aside)
	long := math.Hypot(ax, ay)
	if long == 0 {
		return math.Hypot(bx, by)
	}
	return math.Abs(ax*by-ay*bx) / long
}

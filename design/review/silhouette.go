package review

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// ring is a circle around the mast's axis within which the mount stays at a height, m.
type ring struct{ height, radius float64 }

// silhouette is the mount from foot to receiver as circles around the mast's axis.
func (s *subject) silhouette() []ring {
	const steps = 24
	rings := make([]ring, 0, steps+1)
	top := s.top()
	for i := range steps + 1 {
		z := top * float64(i) / steps
		rings = append(rings, ring{z, s.reach(z)})
	}
	return rings
}

// topAt returns the middle of the receiver's top, m.
func (s *subject) topAt() r3.Vec { return r3.Vec{X: s.receiver.X, Y: s.receiver.Y, Z: s.top()} }

// top returns the height of the receiver's top above the mounting face, m.
func (s *subject) top() float64 { return s.receiver.Z + s.doc.Receiver.Size.Z.Metres() }

// reach returns the radius in m of the circle around the mast's axis within which the mount stays at a height in m.
func (s *subject) reach(z float64) float64 {
	radius := func(x, y float64) float64 { return math.Hypot(x, y) / 2 }
	r := s.doc.Receiver.Size
	switch {
	case z >= s.receiver.Z:
		if s.doc.Receiver.Shape == "round" {
			return r.X.Metres() / 2
		}
		return radius(r.X.Metres(), r.Y.Metres())
	case z >= s.seat.Z-s.doc.Tray.Thickness.Metres():
		size, _ := s.doc.TraySize()
		return radius(size.X.Metres(), size.Y.Metres())
	case z <= s.assembly.Foot.Rise/1e3:
		box := s.assembly.Foot.Outline.Outer.Box()
		return radius((box.Max.X-box.Min.X)/1e3, (box.Max.Y-box.Min.Y)/1e3)
	}
	widest := 0.0
	for _, m := range s.assembly.Members {
		at := (z*1e3 - m.From.Z) / (m.To.Z - m.From.Z)
		if !(at >= 0 && at <= 1) { // a spacer lies level, between the plates
			continue
		}
		box := m.Outline(at).Outer.Box()
		x, y := m.From.X+at*(m.To.X-m.From.X), m.From.Y+at*(m.To.Y-m.From.Y)
		widest = math.Max(widest, math.Hypot(x, y)/1e3+radius((box.Max.X-box.Min.X)/1e3, (box.Max.Y-box.Min.Y)/1e3))
	}
	return widest
}

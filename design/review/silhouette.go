package review

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// ring is a level circle within which a piece of the mount stays at a height, m.
type ring struct {
	middle r3.Vec
	radius float64
}

// silhouette is the mount from foot to receiver as circles: around the mast's axis, around each of several members or pads that stand apart.
func (s *subject) silhouette() []ring {
	const steps = 24
	rings := make([]ring, 0, steps+1)
	top := s.top()
	for i := range steps + 1 {
		rings = append(rings, s.rings(top*float64(i)/steps)...)
	}
	return rings
}

// topAt returns the middle of the receiver's top, m.
func (s *subject) topAt() r3.Vec { return r3.Vec{X: s.receiver.X, Y: s.receiver.Y, Z: s.top()} }

// top returns the height of the receiver's top above the mounting face, m.
func (s *subject) top() float64 { return s.receiver.Z + s.doc.Receiver.Size.Z.Metres() }

// rings are the circles within which the mount stays at a height in m.
func (s *subject) rings(z float64) []ring {
	about := func(x, y, across, along float64) ring {
		return ring{r3.Vec{X: x, Y: y, Z: z}, math.Hypot(across, along) / 2}
	}
	r := s.doc.Receiver.Size
	switch {
	case z >= s.receiver.Z:
		if s.doc.Receiver.Shape == "round" {
			return []ring{{r3.Vec{Z: z}, r.X.Metres() / 2}}
		}
		return []ring{about(0, 0, r.X.Metres(), r.Y.Metres())}
	case z >= s.seat.Z-s.doc.Tray.Thickness.Metres():
		size, _ := s.doc.TraySize()
		return []ring{about(0, 0, size.X.Metres(), size.Y.Metres())}
	case z <= s.assembly.Foot.Rise/1e3:
		if len(s.assembly.Pads) == 0 {
			box := s.assembly.Foot.Outline.Outer.Box()
			return []ring{about(0, 0, (box.Max.X-box.Min.X)/1e3, (box.Max.Y-box.Min.Y)/1e3)}
		}
		var list []ring
		for _, pad := range s.assembly.Pads {
			middle := pad.Outline.Section().Centroid
			far := 0.0
			for _, v := range pad.Outline.Outer.Flatten(0.05) {
				far = math.Max(far, math.Hypot(v.X-middle.X, v.Y-middle.Y))
			}
			list = append(list, ring{r3.Vec{X: middle.X / 1e3, Y: middle.Y / 1e3, Z: z}, far / 1e3})
		}
		return list
	}
	list := []ring{{r3.Vec{Z: z}, 0}}
	for _, m := range s.assembly.Members {
		at := (z*1e3 - m.From.Z) / (m.To.Z - m.From.Z)
		if !(at >= 0 && at <= 1) { // a spacer lies level, between the plates
			continue
		}
		box := m.Outline(at).Outer.Box()
		x, y := m.From.X+at*(m.To.X-m.From.X), m.From.Y+at*(m.To.Y-m.From.Y)
		list = append(list, about(x/1e3, y/1e3, (box.Max.X-box.Min.X)/1e3, (box.Max.Y-box.Min.Y)/1e3))
	}
	return list
}

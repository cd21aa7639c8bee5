package view

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot/pen"
	"mastwright/design/review"
	raster "mastwright/mesh/view"
)

const (
	swingRate  = 0.8  // Hz, however fast the mount really rings
	swingReach = 0.06 // of the height, at the point that moves most
)

// shapes are the displacements of every body of a model in one of its modes, for 1 mm.
type shapes struct {
	model   *Model
	mode    int
	shift   [][]r3.Vec
	reach   float64   // mm, that is shown
	caption [2]string // while it swings, while it stands still
}

// ready works the displacements out where the model or the mode is another.
func (s *shapes) ready(m *Model, mode int) {
	if s.model == m && s.mode == mode {
		return
	}
	*s = shapes{model: m, mode: mode}
	if mode >= len(m.result.Flying) || len(m.result.Flying[mode].Path) == 0 {
		return
	}
	ringing := m.result.Flying[mode]
	s.reach = swingReach * m.assembly.Seat.Z
	s.shift = make([][]r3.Vec, len(m.bodies))
	for i := range m.bodies {
		if b := &m.bodies[i]; b.moves {
			s.shift[i] = b.surface.Displace(func(p r3.Vec) r3.Vec { return displaced(ringing.Path, p) })
		}
	}
	larger := 0.0
	if ringing.Move > 0 {
		compass := m.assembly.Seat.Z + m.doc.Receiver.Compass.Z.Millimetres()
		larger = r3.Norm(displaced(ringing.Path, r3.Vec{Z: compass})) * s.reach / ringing.Move
	}
	s.caption = [2]string{captionOf(ringing, larger, false), captionOf(ringing, larger, true)}
}

func (s *shapes) moves() bool { return s.shift != nil }

// displaced returns how a point of the mount moves: with the section at its height, which moves and turns. Below the first section, the
// foot goes along as far as it is high.
func displaced(path []review.ShapePoint, p r3.Vec) r3.Vec {
	at := func(move, turn r3.Vec) r3.Vec { return r3.Add(move, r3.Cross(turn, r3.Vec{X: p.X, Y: p.Y})) }
	first := path[0]
	if p.Z <= first.Height {
		share := 0.0
		if first.Height > 0 {
			share = max(p.Z/first.Height, 0)
		}
		return r3.Scale(share, at(first.Move, first.Turn))
	}
	for i := 1; i < len(path); i++ {
		a, b := path[i-1], path[i]
		if p.Z <= b.Height && b.Height > a.Height {
			t := (p.Z - a.Height) / (b.Height - a.Height)
			return r3.Add(r3.Scale(1-t, at(a.Move, a.Turn)), r3.Scale(t, at(b.Move, b.Turn)))
		}
	}
	last := path[len(path)-1]
	return at(last.Move, last.Turn)
}

// captionOf says how what is shown differs from what happens.
func captionOf(mode review.Mode, larger float64, still bool) string {
	text := fmt.Sprintf("%.0f Hz, shown %.0f times slower", mode.Hz, mode.Hz/swingRate)
	if still {
		text = fmt.Sprintf("%.0f Hz, both ends of the swing", mode.Hz)
	}
	if larger > 1 {
		text += fmt.Sprintf(", %s times larger", plain(larger))
	}
	return text
}

// plain rounds to two figures that count.
func plain(x float64) string {
	if x <= 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return "0"
	}
	unit := math.Pow(10, math.Floor(math.Log10(x))-1)
	x = math.Round(x/unit) * unit
	if x < 10 {
		return fmt.Sprintf("%.1f", x)
	}
	return fmt.Sprintf("%.0f", x)
}

// swinging adds a body that moves with the mount, and where it was.
func (f *frame) swinging(i int, t raster.Thing) {
	ghost := t
	ghost.Style, ghost.Ink, ghost.Inert, ghost.Band = raster.Outline, f.colours.of(look.Third), true, raster.Band{}
	shift, reach := f.shapes.shift[i], f.shapes.reach
	if f.still {
		f.scene.Things = append(f.scene.Things, t)
		for _, end := range [2]float64{-1, 1} {
			ghost.Shift, ghost.Amount, ghost.Ink = shift, end*reach, f.colours.of(look.Second)
			f.scene.Things = append(f.scene.Things, ghost)
		}
		return
	}
	t.Shift, t.Amount = shift, f.swing*reach
	f.scene.Things = append(f.scene.Things, ghost, t)
}

func (f *frame) captionShape() {
	if !f.shapes.moves() {
		return
	}
	width, height := f.size()
	text := f.shapes.caption[0]
	if f.still {
		text = f.shapes.caption[1]
	}
	f.label(pen.Spot{X: width / 2, Y: height - 52}, text, pen.Letters{Font: look.Caption, Colour: f.colours.of(look.Ink), Align: pen.Middle})
}

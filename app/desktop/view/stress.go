package view

import (
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot/pen"
	"mastwright/design/review"
	raster "mastwright/mesh/view"
)

// stressBand is the colour of the mast at every height.
type stressBand struct {
	model   *Model
	variant fyne.ThemeVariant
	band    raster.Band
	worst   review.StressPoint
	words   string
}

const stressSlices = 96

func (s *stressBand) ready(m *Model, c *colours) {
	if s.model == m && s.variant == c.variant {
		return
	}
	*s = stressBand{model: m, variant: c.variant}
	top := m.assembly.Seat.Z
	s.band = raster.Band{To: r3.Vec{Z: top}, Colours: make([]color.NRGBA, stressSlices)}
	slice := top / stressSlices
	for i := range s.band.Colours {
		low, high := slice*float64(i), slice*float64(i+1)
		s.band.Colours[i] = c.palette.Print
		if low <= m.assembly.Foot.Rise {
			continue
		}
		if low <= m.assembly.Foot.Rise+max(slice, m.doc.Mast.RootFillet.Millimetres()) {
			low = 0 // the root's notch counts over its fillet
		}
		if place, ok := placeBetween(m.result.Stress, low, high); ok {
			s.band.Colours[i] = c.state(place, c.palette.Print)
		}
	}
	for _, p := range m.result.Stress {
		if p.Place > s.worst.Place {
			s.worst = p
		}
	}
	s.words = fmt.Sprintf("%.3g of %.3g MPa", s.worst.Stress, s.worst.Allow)
}

// placeBetween returns the worst place on the verdict scale between two heights, among the members that are there.
func placeBetween(points []review.StressPoint, low, high float64) (float64, bool) {
	worst, found := 0.0, false
	last := map[string]review.StressPoint{}
	for _, b := range points {
		a, seen := last[b.Member]
		last[b.Member] = b
		if b.Height >= low && b.Height <= high {
			worst, found = max(worst, b.Place), true
		}
		z := min(max((low+high)/2, a.Height), b.Height)
		if seen && b.Height > a.Height && z >= low && z <= high {
			worst, found = max(worst, a.Place+(z-a.Height)/(b.Height-a.Height)*(b.Place-a.Place)), true
		}
	}
	return worst, found
}

// drawStress names the worst section.
func (f *frame) drawStress() {
	if f.stress.worst.Stress == 0 {
		return
	}
	z := f.stress.worst.Height
	at := f.spot(r3.Vec{Z: z})
	reach := 0.5 * f.mmWide() * f.model.doc.Mast.Outline(f.model.doc.Mast.Root).X.Millimetres()
	ink := f.colours.of(look.Ink)
	beside := at.Plus(-reach-24, -54)
	plate := f.label(beside, f.stress.words, pen.Letters{Font: look.Strong, Colour: f.colours.of(look.WordRole(stateOf(f.stress.worst.Place))), Align: pen.Right})
	f.label(beside.Plus(0, -22), f.stress.worst.Under, pen.Letters{Font: look.Caption, Colour: ink, Align: pen.Right})
	f.leader(plate, at.Plus(-0.5*reach, 0), ink)
}

// leader joins a label to what it names.
func (f *frame) leader(plate pen.Rect, to pen.Spot, c color.NRGBA) {
	from := pen.Spot{X: plate.X + plate.W, Y: plate.Y + plate.H/2}
	switch {
	case to.X >= plate.X && to.X <= plate.X+plate.W: // below or above it
		from = pen.Spot{X: to.X, Y: plate.Y}
		if to.Y > plate.Y {
			from.Y = plate.Y + plate.H
		}
	case to.X < plate.X:
		from.X = plate.X
	}
	f.pen.Line([]pen.Spot{from, to}, inked(1, c))
	f.pen.Area(pen.Disc(to, 2.4), c)
}

package sheet

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/sheet/draft"
	"mastwright/app/sheet/paper"
	"mastwright/mesh"
	"mastwright/mesh/view"
)

// scales of drawings, ISO 5455; 1:2.5 is not of it, but at 1:5 a stand on wide legs is too small to read.
var scales = []struct {
	factor float64
	name   string
}{{5, "5:1"}, {2, "2:1"}, {1, "1:1"}, {0.5, "1:2"}, {0.4, "1:2.5"}, {0.2, "1:5"}, {0.1, "1:10"}, {0.05, "1:20"}, {0.02, "1:50"}}

// scaleFor is the largest scale of the standard at which a body of some mm goes into some mm of paper.
func scaleFor(wide, high, roomWide, roomHigh float64) (float64, string) {
	for _, s := range scales {
		if wide*s.factor <= roomWide && high*s.factor <= roomHigh {
			return s.factor, s.name
		}
	}
	last := scales[len(scales)-1]
	return last.factor, last.name
}

// face is the frame's mounting face in the axes of the mount: turned with the pattern, and sloped where a wedge keeps the mast upright.
func (b *builder) face() mesh.Pose {
	place := b.place()
	pose := mesh.Turn(r3.Vec{Z: 1}, place.Turn.Radians())
	if b.Doc.Foot.Wedge == "level" {
		pose = pose.Then(mesh.Turn(r3.Vec{Y: 1}, place.SlopeForward.Radians())).Then(mesh.Turn(r3.Vec{X: 1}, -place.SlopeLeft.Radians()))
	}
	return pose
}

// box is the extent of the parts and of what lies on the tray.
func (b *builder) box() r3.Box {
	s := scene()
	b.stand(s, still)
	b.receiver(s, r3.Vec{})
	return s.Box()
}

// views are the dimensioned drawings.
func (b *builder) views() paper.Section {
	box := b.box()
	top := b.fromAbove(box)
	return paper.Section{Title: "Drawings", Fresh: true, Blocks: []paper.Block{
		paper.Prose{Quiet: true, Text: "All lengths in mm. The aircraft's nose is to the right in the side view and up in the top view. Measure the parts against these figures, not the paper."},
		b.elevations(box),
		paper.Beside{top, b.behind(82, top.Drawing.Height)},
	}}
}

// elevations are the front and the side view, on one line.
func (b *builder) elevations(box r3.Box) paper.Figure {
	const (
		roomHigh = 112.0
		roomWide = 53.0
		half     = paper.RoomWidth / 2
		above    = 9.0
		below    = 13.0
	)
	size := r3.Sub(box.Max, box.Min)
	scale, name := scaleFor(max(size.X, size.Y), size.Z, roomWide, roomHigh)
	high := size.Z*scale + above + below
	p := draft.New(paper.RoomWidth, high)
	s := scene()
	b.stand(s, still)
	b.receiver(s, r3.Vec{})
	middle := r3.Scale(0.5, r3.Add(box.Min, box.Max))
	picture := func(from view.Standard, wide, x float64) func(r3.Vec) paper.Point {
		c := view.Camera{Target: middle, Scale: scale * density, Size: pixels(wide*scale+4, size.Z*scale+4)}.From(from)
		return shaded(p, s, c, x-(wide*scale+4)/2, above-2)
	}
	front := picture(view.Front, size.Y, half/2-4)
	side := picture(view.Side, size.X, half*1.5-4)
	base := above + size.Z*scale

	seat := b.assembly.Seat.Z
	tray, foot := b.assembly.Tray.Floor.Outer.Box(), b.assembly.Foot.Outline.Outer.Box()
	p.Strong(paper.Point{X: 0, Y: 3}, paper.Start, draft.Large, paper.Ink, "Front")
	p.Strong(paper.Point{X: half, Y: 3}, paper.Start, draft.Large, paper.Ink, "Right side")
	for i, at := range []func(r3.Vec) paper.Point{front, side} {
		low, high, footLow, footHigh := tray.Min.Y, tray.Max.Y, foot.Min.Y, foot.Max.Y
		point := func(u, z float64) paper.Point { return at(r3.Vec{Y: u, Z: z}) }
		if i == 1 {
			low, high, footLow, footHigh = tray.Min.X, tray.Max.X, foot.Min.X, foot.Max.X
			point = func(u, z float64) paper.Point { return at(r3.Vec{X: u, Z: z}) }
		}
		b.ground(p, point, footLow, footHigh, i == 1)
		p.Dimension(draft.Dimension{From: point(low, seat), To: point(high, seat), Along: true,
			Away: paper.Point{Y: above - 4 - point(low, seat).Y}, Text: millimetres(high - low)})
		p.Dimension(draft.Dimension{From: point(footLow, 0), To: point(footHigh, 0), Along: true,
			Away: paper.Point{Y: base + 9 - point(footLow, 0).Y}, Text: millimetres(footHigh - footLow)})
		edge := max(high, footHigh)
		right := point(edge, 0).X + 7
		if i == 0 {
			p.Dimension(draft.Dimension{From: point(footHigh, 0), To: point(high, seat), Along: true,
				Away: paper.Point{X: right - max(point(footHigh, 0).X, point(high, seat).X)}, Text: millimetres(seat)})
			b.callouts(p, point)
		} else {
			b.sideHeights(p, point, right, min(low, footLow))
			b.widths(p, point, half-4)
		}
	}
	return paper.Figure{Drawing: p.Drawing, Caption: "Front and right side, " + name + ".", Words: b.dimensionsInWords()}
}

// sideHeights dimensions the foot, the cable's opening and the root fillet in the side view.
func (b *builder) sideHeights(p *draft.Pen, point func(u, z float64) paper.Point, right, leftmost float64) {
	doc, foot := b.Doc, b.assembly.Foot.Outline.Outer.Box()
	edge := foot.Max.X
	p.Dimension(draft.Dimension{From: point(edge, 0), To: point(edge, b.assembly.Foot.Rise), Along: true,
		Away: paper.Point{X: right - point(edge, 0).X}, Text: millimetres(b.assembly.Foot.Rise)})
	left := point(leftmost, 0).X
	if way := doc.Mast.CableWay; doc.Mast.Build == "column" && way.Side != "none" && way.Length > 0 {
		low := way.Bottom.Millimetres()
		u := map[string]float64{"front": 1, "rear": -1}[way.Side] * doc.Mast.Outline(b.Doc.Mast.Root).X.Millimetres() / 2
		if u <= 0 {
			p.Dimension(draft.Dimension{From: point(u, low), To: point(u, low+way.Length.Millimetres()), Along: true,
				Away: paper.Point{X: left - 5 - point(u, low).X}, Text: millimetres(way.Length.Millimetres())})
			p.Dimension(draft.Dimension{From: point(foot.Min.X, 0), To: point(u, low), Along: true,
				Away: paper.Point{X: left - 5 - min(point(foot.Min.X, 0).X, point(u, low).X)}, Text: millimetres(low)})
			lead(p, paper.Point{X: point(u, low).X, Y: point(u, low+way.Length.Millimetres()).Y - 1}, left-22, "cable way, "+way.Side)
		}
	}
	if r := doc.Mast.RootFillet.Millimetres(); r > 0 && doc.Mast.Build != "legs" {
		at := point(doc.Root().X.Millimetres()/2+0.5*r, b.assembly.Foot.Rise+0.25*r)
		to := paper.Point{X: right + 7, Y: at.Y - 9}
		p.Line(draft.Thin, paper.Act, to, at)
		p.Add(paper.Label{At: paper.Point{X: to.X - 2, Y: to.Y - 0.8}, Text: "R " + millimetres(r), Size: draft.Small, Weight: paper.Medium, Ink: paper.Act})
	}
}

// lead writes words at the left of a drawing with a line to what they name.
func lead(p *draft.Pen, to paper.Point, x float64, text string) {
	end := paper.Point{X: x + 0.53*draft.Small*float64(len([]rune(text))) + 1, Y: to.Y - 3}
	p.Add(paper.Label{At: paper.Point{X: x, Y: end.Y + 0.9}, Text: text, Size: draft.Small, Weight: paper.Medium, Ink: paper.Act})
	if end.X < to.X {
		p.Line(draft.Thin, paper.Act, end, to)
		p.Add(paper.Stroke{Points: paper.Round(to, 0.4), Closed: true, Filled: true, Fill: paper.Act})
	}
}

// ground draws the frame's mounting face under a view, hatched as what is cut away.
func (b *builder) ground(p *draft.Pen, point func(u, z float64) paper.Point, low, high float64, side bool) {
	slope := 0.0
	if b.Doc.Foot.Wedge == "level" {
		slope = -math.Tan(b.place().SlopeLeft.Radians())
		if side {
			slope = -math.Tan(b.place().SlopeForward.Radians())
		}
	}
	const over = 4
	u0, u1 := low-over, high+over
	a, c := point(u0, u0*slope), point(u1, u1*slope)
	p.Line(draft.Thick, paper.Ink, a, c)
	n := int((c.X - a.X) / 2)
	for i := range n {
		t := (float64(i) + 0.7) / float64(n)
		at := paper.Point{X: a.X + t*(c.X-a.X), Y: a.Y + t*(c.Y-a.Y)}
		p.Line(draft.Thin, paper.Third, at, paper.Point{X: at.X - 1.5, Y: at.Y + 1.5})
	}
}

// fromAbove is the top view.
func (b *builder) fromAbove(box r3.Box) paper.Figure {
	const room, left, above = 56.0, 13.0, 12.0
	size := r3.Sub(box.Max, box.Min)
	scale, name := scaleFor(size.Y, size.X, room, room)
	p := draft.New(92, size.X*scale+above+11)
	s := scene()
	b.stand(s, still)
	b.receiver(s, r3.Vec{})
	middle := r3.Scale(0.5, r3.Add(box.Min, box.Max))
	c := view.Camera{Target: middle, Scale: scale * density, Size: pixels(size.Y*scale+4, size.X*scale+4)}.From(view.Top)
	at := shaded(p, s, c, left-2, above-2)
	p.Strong(paper.Point{X: 0, Y: 3}, paper.Start, draft.Large, paper.Ink, "Top")
	p.Arrow(draft.Thin, paper.Ink, paper.Point{X: left + size.Y*scale + 16, Y: above + 12}, paper.Point{X: left + size.Y*scale + 16, Y: above})
	p.Text(paper.Point{X: left + size.Y*scale + 16, Y: above + 15.5}, paper.Middle, draft.Small, paper.Ink, "forward")
	tray := b.assembly.Tray.Floor.Outer.Box()
	p.Dimension(draft.Dimension{From: at(r3.Vec{X: tray.Max.X, Y: tray.Max.Y}), To: at(r3.Vec{X: tray.Max.X, Y: tray.Min.Y}), Along: true,
		Away: paper.Point{Y: above - 5 - at(r3.Vec{X: tray.Max.X}).Y}, Text: millimetres(tray.Max.Y - tray.Min.Y)})
	p.Dimension(draft.Dimension{From: at(r3.Vec{X: tray.Min.X, Y: tray.Min.Y}), To: at(r3.Vec{X: tray.Max.X, Y: tray.Min.Y}), Along: true,
		Away: paper.Point{X: left + size.Y*scale + 6 - at(r3.Vec{Y: tray.Min.Y}).X}, Text: millimetres(tray.Max.X - tray.Min.X)})
	b.spacing(p, at, left, above+size.X*scale)
	return paper.Figure{Drawing: p.Drawing, Caption: "From above, " + name + ".",
		Words: fmt.Sprintf("Tray %s mm fore and aft, %s mm across.", millimetres(tray.Max.X-tray.Min.X), millimetres(tray.Max.Y-tray.Min.Y))}
}

// spacing dimensions the foot's holes in the top view where they stand in a square pattern.
func (b *builder) spacing(p *draft.Pen, at func(r3.Vec) paper.Point, left, low float64) {
	holes := b.place().Holes
	if holes.As != "rectangle" || b.place().Turn != 0 || len(b.assembly.Foot.Screws) != 4 {
		return
	}
	h := b.assembly.Foot.Screws // 1 rear right, 2 front right, 3 front left, 4 rear left
	p.Dimension(draft.Dimension{From: at(r3.Vec{X: h[3].X, Y: h[3].Y}), To: at(r3.Vec{X: h[0].X, Y: h[0].Y}), Along: true,
		Away: paper.Point{Y: low + 5 - at(r3.Vec{X: h[3].X}).Y}, Text: millimetres(math.Abs(h[3].Y-h[0].Y)) + " holes"})
	p.Dimension(draft.Dimension{From: at(r3.Vec{X: h[3].X, Y: h[3].Y}), To: at(r3.Vec{X: h[2].X, Y: h[2].Y}), Along: true,
		Away: paper.Point{X: left - 6 - at(r3.Vec{Y: h[3].Y}).X}, Text: millimetres(math.Abs(h[2].X-h[3].X)) + " holes"})
}

// behind is the shaded view from the other corner, which stands beside the top view.
func (b *builder) behind(w, h float64) paper.Figure {
	f := b.portrait(w, h, math.Pi)
	f.Caption, f.Words = "From the rear left, on the frame's plate. No scale.", "The mount from behind."
	return f
}

// dimensionsInWords is what the elevations show.
func (b *builder) dimensionsInWords() string {
	tray, foot := b.assembly.Tray.Floor.Outer.Box(), b.assembly.Foot.Outline.Outer.Box()
	name, shape := b.shape()
	return fmt.Sprintf("From the frame's face to the seat %s mm; foot %s × %s × %s mm; tray %s × %s mm. %s: %s.",
		millimetres(b.assembly.Seat.Z), millimetres(foot.Max.X-foot.Min.X), millimetres(foot.Max.Y-foot.Min.Y), millimetres(b.assembly.Foot.Rise),
		millimetres(tray.Max.X-tray.Min.X), millimetres(tray.Max.Y-tray.Min.Y), name, shape)
}

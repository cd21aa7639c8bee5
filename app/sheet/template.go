package sheet

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"mastwright/app/sheet/draft"
	"mastwright/app/sheet/paper"
)

// template is the drilling template at its true size, and the holes as a table.
func (b *builder) template() paper.Section {
	section := paper.Section{Title: "Drilling template, true size 1:1", Fresh: true}
	section.Blocks = append(section.Blocks, b.pattern())
	section.Blocks = append(section.Blocks, b.holes())
	return section
}

// frameHoles are the middles of the frame's holes in the axes of the mount, mm, and the diameter they are drawn with.
func (b *builder) frameHoles() ([]r2.Vec, float64) {
	d := b.place().Holes.Diameter.Millimetres()
	if !(d > 0) && len(b.assembly.Screws) > 0 {
		d = b.assembly.Screws[0].Size.Diameter().Millimetres()
	}
	return b.assembly.Foot.Screws, d
}

// pattern is the foot's outline and its holes as they lie on the frame, seen from above, the nose up.
func (b *builder) pattern() paper.Block {
	holes, diameter := b.frameHoles()
	outer := b.assembly.Foot.Outline.Outer.Box()
	const around, above, below = 16.0, 12.0, 21.0
	wide, high := outer.Max.Y-outer.Min.Y+2*around, outer.Max.X-outer.Min.X+above+below
	if wide > paper.RoomWidth || high > paper.RoomHeight {
		return paper.Notice{Tone: paper.Unknown, Title: "The template does not fit on this paper at its true size", Lines: []string{
			fmt.Sprintf("The %s: %s mm fore and aft and %s mm across. Mark the holes from the table below with a rule and a square, or lay the printed part on the frame.", b.footName(),
				millimetres(outer.Max.X-outer.Min.X), millimetres(outer.Max.Y-outer.Min.Y))}}
	}
	wide = paper.RoomWidth
	p := draft.New(wide, high)
	p.Exact = true
	v := draft.View{Scale: 1, Turn: math.Pi / 2, Origin: paper.Point{X: wide/2 + (outer.Max.Y+outer.Min.Y)/2, Y: above + outer.Max.X}}
	if len(b.assembly.Pads) == 0 {
		p.Loop(v, draft.Thick, paper.Ink, b.assembly.Foot.Outline.Outer)
	}
	for _, pad := range b.assembly.Pads { // the foot is then only the box around them
		p.Loop(v, draft.Thick, paper.Ink, pad.Outline.Outer)
	}
	for _, hole := range b.assembly.Foot.Outline.Holes {
		if !slices.ContainsFunc(holes, func(h r2.Vec) bool { return hole.Contains(h) }) { // the screws' holes are drawn as the frame has them
			p.Loop(v, draft.Thin, paper.Ink, hole)
		}
	}
	middle := v.At(0, 0)
	p.Dashed(draft.Thin, 2, paper.Third, paper.Point{X: middle.X, Y: above - 6}, paper.Point{X: middle.X, Y: high - below + 5})
	p.Dashed(draft.Thin, 2, paper.Third, paper.Point{X: middle.X - (outer.Max.Y-outer.Min.Y)/2 - 8, Y: middle.Y}, paper.Point{X: middle.X + (outer.Max.Y-outer.Min.Y)/2 + 8, Y: middle.Y})
	p.Arrow(draft.Thick, paper.Ink, paper.Point{X: middle.X, Y: above - 2}, paper.Point{X: middle.X, Y: above - 10})
	p.Strong(paper.Point{X: middle.X + 2, Y: above - 7}, paper.Start, draft.Normal, paper.Ink, "forward")
	for i, h := range holes {
		at := v.At(h.X, h.Y)
		p.Circle(draft.Thin, paper.Ink, at, diameter/2)
		p.Cross(draft.Thin, paper.Ink, at, diameter/2+1.6)
		out := paper.Point{X: at.X - middle.X, Y: at.Y - middle.Y}
		reach := max(math.Hypot(out.X, out.Y), 1)
		p.Strong(paper.Point{X: at.X - out.X/reach*(diameter/2+3.6), Y: at.Y - out.Y/reach*(diameter/2+3.6) + 1}, paper.Middle, draft.Small, paper.Ink, fmt.Sprint(i+1))
	}
	if len(holes) > 1 {
		a, c := holes[0], holes[1]
		mid := paper.Point{X: (v.At(a.X, a.Y).X + v.At(c.X, c.Y).X) / 2, Y: (v.At(a.X, a.Y).Y + v.At(c.X, c.Y).Y) / 2}
		nx, ny := mid.X-middle.X, mid.Y-middle.Y
		if reach := math.Hypot(nx, ny); reach > 1 {
			far := (outer.Max.Y-outer.Min.Y)/2 + 7 - reach
			p.Dimension(draft.Dimension{From: v.At(a.X, a.Y), To: v.At(c.X, c.Y), Away: paper.Point{X: nx / reach * far, Y: ny / reach * far},
				Text: millimetres2(math.Hypot(a.X-c.X, a.Y-c.Y))})
		}
	}
	p.CheckBar((wide-50)/2, high-11)
	return paper.Figure{Drawing: p.Drawing, Caption: fmt.Sprintf("The %s from above; the frame's holes are Ø %s mm. Before you drill, lay the sheet on the frame: each hole must show in its circle.", b.footName(), number(diameter)),
		Words: "The outline of the " + b.footName() + " with the numbered holes and a bar of 50 mm."}
}

// holes is the pattern in figures.
func (b *builder) holes() paper.Block {
	holes, diameter := b.frameHoles()
	t := paper.Table{Columns: []paper.Column{
		{Title: "Hole", Share: 8}, {Title: "Forward of the middle, mm", Share: 26, Right: true}, {Title: "Left of the middle, mm", Share: 26, Right: true},
		{Title: "Frame's hole, mm", Share: 22, Right: true}, {Title: "To the next hole, mm", Share: 24, Right: true},
	}}
	for i, h := range holes {
		next := holes[(i+1)%len(holes)]
		t.Rows = append(t.Rows, paper.Row{Cells: paper.Words(fmt.Sprint(i+1), hundredths(h.X), hundredths(h.Y), number(diameter), hundredths(math.Hypot(h.X-next.X, h.Y-next.Y)))})
	}
	return t
}

// footName is what stands on the frame.
func (b *builder) footName() string {
	if len(b.assembly.Pads) > 0 {
		return "pads"
	}
	return "foot"
}

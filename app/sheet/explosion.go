package sheet

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/sheet/draft"
	"mastwright/app/sheet/paper"
	"mastwright/design/parts"
	"mastwright/mesh/view"
)

// explosion is the assembly pulled apart, the lists of parts and the hardware.
func (b *builder) explosion() paper.Section {
	blocks := []paper.Block{b.exploded(), paper.Heading{Text: "Printed parts"}, b.partsTable()}
	if len(b.making(parts.Cut, parts.Stock)) > 0 {
		blocks = append(blocks, paper.Heading{Text: "Cut parts"}, b.cutTable())
	}
	return paper.Section{Title: "Parts and assembly", Fresh: true, Blocks: append(append(blocks, paper.Heading{Text: "Hardware"}, b.steelFree(), b.hardwareTable()), b.holding()...)}
}

// exploded draws the parts apart along the mast, with the numbers of the list.
func (b *builder) exploded() paper.Figure {
	const w, gap = 130.0, 14.0
	h := 97 - 4*float64(min(max(len(b.items)-8, 0), 5)) // a longer list leaves less room
	s := scene()
	moves := b.moves(gap)
	b.stand(s, func(part, place int) r3.Vec { return moves[part][place] })
	things := len(s.Things)
	anchors := map[int]r3.Vec{} // by the item's number
	for _, it := range b.items {
		if it.screw < 0 {
			continue
		}
		u := b.assembly.Screws[it.screw]
		head, nut := b.carried(u, moves, gap)
		if !it.nut {
			anchors[it.number] = screws(s, u, screwOut(u, gap), head)
			continue
		}
		away := gap * 0.5
		if len(b.assembly.Parts) > 1 && u.For == "foot" {
			away = gap * 0.25
		}
		anchors[it.number] = nuts(s, u, away, nut)
	}
	lift := r3.Vec{Z: gap * 1.4}
	if tray, ok := b.partNamed("tray"); ok {
		lift = r3.Add(lift, moves[tray][0])
	}
	b.receiver(s, lift)
	last := b.items[len(b.items)-1]
	anchors[last.number] = r3.Add(r3.Add(b.assembly.Seat, lift), r3.Vec{Z: b.Doc.Receiver.Size.Z.Millimetres() / 2})

	p := draft.New(w, h)
	c := s.Fit(view.Camera{Size: pixels(w-40, h)}.From(view.Corner), 2*density)
	b.anchorParts(s, c, things, anchors)
	at := shaded(p, s, c, 20, 0)
	shown := slices.DeleteFunc(slices.Clone(b.items), func(it item) bool { _, ok := anchors[it.number]; return !ok })
	balloons(p, w, h, shown, func(n int) paper.Point { return at(anchors[n]) })
	words := "From below to above:"
	for _, it := range shown {
		words += fmt.Sprintf(" %d %s,", it.number, it.name)
	}
	return paper.Figure{Drawing: p.Drawing, Caption: "The assembly pulled apart. The numbers are those of the lists below.", Words: words[:len(words)-1] + "."}
}

// anchorParts finds for every part the point that can be seen and is nearest to its middle, of the one in front where it has several.
// The first things of the scene are the parts.
func (b *builder) anchorParts(s *view.Scene, c view.Camera, things int, anchors map[int]r3.Vec) {
	const tries = 240
	thing := 0
	best := make([]float64, len(b.meshes))
	for i, m := range b.meshes {
		best[i] = math.Inf(1)
		for range b.places(i) {
			pose := s.Things[thing].Pose
			box := m.Box()
			middle := pose.Apply(r3.Scale(0.5, r3.Add(box.Min, box.Max)))
			centre := c.Project(middle)
			type spot struct {
				at  r3.Vec
				far float64
			}
			var spots []spot
			for k := 0; k < len(m.Triangles); k += 1 + len(m.Triangles)/tries {
				t := m.Triangles[k]
				at := pose.Apply(r3.Scale(1.0/3, r3.Add(m.Vertices[t[0]], r3.Add(m.Vertices[t[1]], m.Vertices[t[2]]))))
				seen := c.Project(at)
				spots = append(spots, spot{at, math.Hypot(seen.X-centre.X, seen.Y-centre.Y)})
			}
			slices.SortStableFunc(spots, func(x, y spot) int {
				switch {
				case x.far < y.far:
					return -1
				case x.far > y.far:
					return 1
				}
				return 0
			})
			found := false
			for _, one := range spots[:min(len(spots), 60)] {
				seen := c.Project(one.at)
				if hit, ok := s.Pick(c, seen.X, seen.Y, 0); ok && hit.Thing == thing {
					if found = true; centre.Depth < best[i] { // the one in front
						best[i], anchors[b.numberOf(i)] = centre.Depth, hit.At
					}
					break
				}
			}
			if _, any := anchors[b.numberOf(i)]; !found && !any {
				anchors[b.numberOf(i)] = middle
			}
			thing++
		}
	}
}

// moves are how far each part is moved in each of its places. The foot stays. A printed mast goes up into it from below; a tube and legs
// stand above it, plates beside it; the tray comes down on what carries it.
func (b *builder) moves(gap float64) [][]r3.Vec {
	out := make([][]r3.Vec, len(b.assembly.Parts))
	top, column := 0.0, b.Doc.Mast.Build == "column"
	if column {
		top = b.collarTop()
	}
	for i, p := range b.assembly.Parts {
		out[i] = make([]r3.Vec, len(b.places(i)))
		if len(b.assembly.Parts) == 1 || p.Name == "tray" {
			continue
		}
		for k, at := range b.places(i) {
			box := b.meshes[i].Moved(at).Box()
			switch {
			case p.Name == "mast":
				out[i][k].Z = -(box.Max.Z + gap)
			case p.Name == "tube":
				out[i][k].Z = b.clampTop() - box.Min.Z + gap
			case p.Name == "leg":
				out[i][k] = r3.Scale(b.Doc.Mast.Legs.Grip.Millimetres()+gap, b.legWay(k))
			case p.Making == parts.Cut:
				out[i][k].Y = math.Copysign(1.6*gap, box.Min.Y+box.Max.Y)
			}
			if !column {
				top = max(top, box.Max.Z+out[i][k].Z)
			}
		}
	}
	if tray, ok := b.partNamed("tray"); ok && len(b.assembly.Parts) > 1 {
		out[tray][0].Z = top - b.meshes[tray].Box().Min.Z + gap
	}
	return out
}

// clampTop is the upper end of the foot's clamp.
func (b *builder) clampTop() float64 { return b.topOf("foot clamp") }

// collarTop is the upper end of the foot's collar; 0 where there is none.
func (b *builder) collarTop() float64 { return b.topOf("foot collar") }

func (b *builder) topOf(member string) float64 {
	for _, m := range b.assembly.Members {
		if m.Name == member {
			return m.To.Z
		}
	}
	return 0
}

// legWay is the direction of a leg, upwards.
func (b *builder) legWay(leg int) r3.Vec {
	for _, m := range b.assembly.Members {
		if m.Bears {
			if leg == 0 {
				return r3.Unit(r3.Sub(m.To, m.From))
			}
			leg--
		}
	}
	return r3.Vec{Z: 1}
}

// partNamed is the place of a part in the list.
func (b *builder) partNamed(name string) (int, bool) {
	i := slices.IndexFunc(b.assembly.Parts, func(p parts.Part) bool { return p.Name == name })
	return i, i >= 0
}

// carried is how far a group of screws and their nuts are moved with the parts that they go into.
func (b *builder) carried(u parts.ScrewUse, moves [][]r3.Vec, gap float64) (head, nut r3.Vec) {
	switch u.For {
	case "foot block", "tray block", "spacers":
		out := r3.Scale(1.6*gap, u.Axis)
		return r3.Scale(-1, out), out
	case "tray joint", "tray clamp", "tray key", "receiver":
		if tray, ok := b.partNamed("tray"); ok {
			return moves[tray][0], moves[tray][0]
		}
	}
	return r3.Vec{}, r3.Vec{}
}

// screwOut is how far a screw stands out of its seat.
func screwOut(u parts.ScrewUse, gap float64) float64 {
	long := max(u.Length.Millimetres(), u.Grip)
	if u.Pilot > 0 {
		return long + gap*0.6
	}
	if u.For == "receiver" {
		return long + gap*2.2
	}
	return long + gap*0.4
}

// balloons writes the numbers beside a picture, in two columns, each as high as what it names as far as the others leave room.
func balloons(p *draft.Pen, w, h float64, items []item, at func(number int) paper.Point) {
	const pitch = 7.4
	var columns [2][]item
	for _, it := range items {
		side := 0
		if at(it.number).X > w/2 || it.nut && at(it.number).X > w/2-6 {
			side = 1
		}
		columns[side] = append(columns[side], it)
	}
	for len(columns[0]) > len(columns[1])+1 {
		columns[1], columns[0] = append(columns[1], columns[0][len(columns[0])-1]), columns[0][:len(columns[0])-1]
	}
	for len(columns[1]) > len(columns[0])+1 {
		columns[0], columns[1] = append(columns[0], columns[1][len(columns[1])-1]), columns[1][:len(columns[1])-1]
	}
	for side, list := range columns {
		slices.SortStableFunc(list, func(a, b item) int {
			switch ya, yb := at(a.number).Y, at(b.number).Y; {
			case ya < yb:
				return -1
			case ya > yb:
				return 1
			}
			return 0
		})
		y := make([]float64, len(list))
		low := 4.0
		for i, it := range list {
			y[i] = max(at(it.number).Y, low)
			low = y[i] + pitch
		}
		if over := low - pitch - (h - 4); over > 0 {
			for i := len(y) - 1; i >= 0; i-- {
				y[i] -= over
				if i == 0 || y[i-1]+pitch <= y[i] {
					break
				}
				over = y[i-1] + pitch - y[i]
			}
		}
		x := []float64{6, w - 6}[side]
		for i, it := range list {
			p.Balloon(paper.Point{X: x, Y: y[i]}, at(it.number), it.number)
		}
	}
}

package review

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/frame"
	"mastwright/design/parts"
	"mastwright/design/strength"
	"mastwright/materials"
	"mastwright/mesh"
	"mastwright/mesh/outline"
)

// span is a piece of a member without a jump in its outline: one member of the frame model.
type span struct {
	name     string
	bears    bool // from the foot to the tray
	clamped  bool // a stock tube in clamps, which is weaker beside them
	material materials.Material
	along    materials.Direction // of its axis relative to the layers
	sectionX r3.Vec              // where its sections' x points; zero: forward
	from, to int                 // points of the spine
	stations []frame.Station
	elements int
	notches  []place
}

// spine is the mount as a frame of members, SI, in the axes of the place.
type spine struct {
	points []r3.Vec
	spans  []span
	roots  []int // points that stand on the foot, or one on each pad
	tips   []int // points that carry the tray
	joints []spineJoint
}

// elementLength is the longest element of a mast, m. Halving it moves no first frequency of the examples by 0.1 %; a shorter piece, as in a
// fillet, is one element: two of them, with a section between, moved none by more than 0.025 % when it was measured.
const elementLength = 0.005

// newSpine integrates the sections of the very outlines that the parts are made of.
func (s *subject) newSpine() (spine, error) {
	var sp spine
	marks := map[string][]mark{} // of each member
	for _, m := range s.assembly.Members {
		material, err := s.library.Find(m.Material)
		if err != nil {
			return sp, err
		}
		part := s.part(m.Part)
		cuts := []float64{}
		for _, j := range s.assembly.Joints {
			if j.A == m.Name {
				cuts = append(cuts, j.AtA)
			}
			if j.B == m.Name {
				cuts = append(cuts, j.AtB)
			}
		}
		at := func(share float64) r3.Vec {
			return metres(r3.Add(m.From, r3.Scale(share, r3.Sub(m.To, m.From))))
		}
		sp.points = append(sp.points, at(0))
		marks[m.Name] = []mark{{0, len(sp.points) - 1}}
		rows, err := s.rowsOf(m, material)
		if err != nil {
			return sp, fmt.Errorf("%s: %w", m.Name, err)
		}
		var closed frame.Section
		for _, piece := range m.Spans() {
			for _, bounds := range split(piece.From.At, piece.To.At, cuts) {
				sp.points = append(sp.points, at(bounds[1]))
				last := len(sp.points) - 1
				marks[m.Name] = append(marks[m.Name], mark{bounds[1], last})
				one, err := s.newSpan(m, piece, bounds, material, directionOf(m, part), closed, rows)
				if err != nil {
					return sp, fmt.Errorf("%s: %w", m.Name, err)
				}
				one.from, one.to = last-1, last
				if len(piece.Outline(1).Holes) > 0 {
					closed = one.stations[len(one.stations)-1].Section
				}
				sp.spans = append(sp.spans, one)
			}
		}
	}
	point := func(e parts.End) int {
		best := marks[e.Member][0]
		for _, m := range marks[e.Member] {
			if math.Abs(m.at-e.At) < math.Abs(best.at-e.At) {
				best = m
			}
		}
		return best.point
	}
	for _, j := range s.assembly.Joints {
		one, err := s.newJoint(j, point)
		if err != nil {
			return sp, err
		}
		one.arm, one.far = r3.Sub(metres(j.Centre), sp.points[one.a]), r3.Sub(metres(j.Centre), sp.points[one.b])
		sp.joints = append(sp.joints, one)
	}
	for _, e := range s.assembly.Roots {
		sp.roots = append(sp.roots, point(e))
	}
	for _, e := range s.assembly.Tips {
		sp.tips = append(sp.tips, point(e))
	}
	return sp, nil
}

// mark is a point of the spine at a share of a member's length.
type mark struct {
	at    float64
	point int
}

// member returns a member of the assembly by its name.
func (s *subject) member(name string) parts.Member {
	i := slices.IndexFunc(s.assembly.Members, func(m parts.Member) bool { return m.Name == name })
	if i < 0 {
		return parts.Member{}
	}
	return s.assembly.Members[i]
}

// narrower returns the smaller of an outline's outside widths, mm.
func narrower(o outline.Outline) float64 {
	box := o.Outer.Box()
	return math.Min(box.Max.X-box.Min.X, box.Max.Y-box.Min.Y)
}

// place is a section of a span with what concentrates stress in it.
type place struct {
	name    string
	cut     int // of the span's elements + 1
	section strength.Section
	kt      float64
	again   bool   // the end of the span before, once more
	title   string // of a link of the load path
}

// places returns a span's cuts and then its notches.
func (s *subject) places(index int) []place {
	if s.placed == nil {
		s.placed = make([][]place, len(s.spine.spans))
	}
	if s.placed[index] == nil {
		p := s.spine.spans[index]
		list := make([]place, 0, len(p.stations)+len(p.notches))
		for cut, st := range p.stations {
			list = append(list, place{name: p.name, cut: cut, section: section(st.Section), kt: 1})
		}
		if index > 0 {
			before := s.spine.spans[index-1]
			list[0].again = before.to == p.from && before.name == p.name && before.stations[len(before.stations)-1].Section == p.stations[0].Section
		}
		list = append(list, p.notches...)
		for k := range list {
			if k == 0 || k >= len(p.stations)-1 {
				list[k].title = fmt.Sprintf("%s, %.0f mm up", list[k].name, s.height(&p, list[k].cut)*1e3)
			}
		}
		s.placed[index] = list
	}
	return s.placed[index]
}

// mast returns the points of what bears the tray, without the collars around its ends: of the first where there are several.
func (sp spine) mast() []int {
	var points []int
	for _, p := range sp.spans {
		if p.name == sp.spans[0].name {
			if len(points) == 0 {
				points = append(points, p.from)
			}
			points = append(points, p.to)
		}
	}
	return points
}

// split cuts a stretch of a member at the shares that lie inside it.
func split(from, to float64, cuts []float64) [][2]float64 {
	inside := []float64{from}
	for _, c := range cuts {
		if c > from+1e-9 && c < to-1e-9 {
			inside = append(inside, c)
		}
	}
	slices.Sort(inside)
	inside = slices.CompactFunc(inside, func(a, b float64) bool { return math.Abs(b-a) < 1e-9 }) // screws side by side share a cut
	pieces := make([][2]float64, len(inside))
	for i, a := range inside {
		pieces[i] = [2]float64{a, to}
		if i+1 < len(inside) {
			pieces[i][1] = inside[i+1]
		}
	}
	return pieces
}

// newSpan makes a span of a stretch of a member; closed is the last closed section below it, rows are the member's.
func (s *subject) newSpan(m parts.Member, piece parts.Span, bounds [2]float64, material materials.Material, direction materials.Direction, closed frame.Section, rows []row) (span, error) {
	length := (bounds[1] - bounds[0]) * m.Length() / 1e3
	one := span{
		name: m.Name, bears: m.Bears, clamped: s.inClamp(m.Name), material: material, along: direction, sectionX: m.SectionX,
		elements: max(1, int(math.Ceil(length/elementLength))),
	}
	width := piece.To.At - piece.From.At
	places := make([]float64, one.elements+1)
	for i := range places {
		places[i] = (bounds[0] + float64(i)/float64(one.elements)*(bounds[1]-bounds[0]) - piece.From.At) / width
	}
	sections, err := s.sectionsAlong(piece, places, material, closed, rows)
	if err != nil {
		return one, err
	}
	for i, section := range sections {
		share := float64(i) / float64(one.elements)
		fill := piece.From.Fill + places[i]*(piece.To.Fill-piece.From.Fill)
		one.stations = append(one.stations, frame.Station{At: share, Section: section, Mass: section.A * fill * material.Density.Typical.KilogramsPerCubicMetre()})
	}
	for _, n := range m.Notches {
		if n.At < bounds[0]-1e-9 || n.At > bounds[1]+1e-9 || n.At == bounds[1] && bounds[1] < 1 {
			continue
		}
		one.notches = append(one.notches, s.notchOf(n, one, bounds))
	}
	return one, nil
}

// member turns a span into a member of the frame model at an end of the material's spread.
func (p span) member(below, above int, e end) frame.Member {
	modulus, shear := p.moduli(e)
	return frame.Member{
		Name: p.name, A: below, B: above, SectionX: p.sectionX, Stations: p.stations, Elements: p.elements,
		Material: frame.Elastic{E: modulus, G: shear, Density: p.material.Density.Typical.KilogramsPerCubicMetre()},
	}
}

// moduli returns E along the span and G in Pa at an end of the material's spread.
func (p span) moduli(e end) (modulus, shear float64) {
	modulus = stiffness(p.material, p.along, e)
	shear = pick(p.material.ShearModulus, e) * p.material.Conditioning.Typical.Fraction()
	if e == hot {
		shear *= heated
	}
	if p.material.Form == materials.Print && p.along == materials.Across {
		shear *= modulus / stiffness(p.material, materials.InLayer, e) // a print's layers shear as softly as they bend
	}
	return modulus, shear
}

// heated is the share of stiffness that a polymer keeps near its softening temperature: judgement.
const heated = 0.7

// stiffness returns a modulus at an end of its spread, in humid air, Pa.
func stiffness(m materials.Material, d materials.Direction, e end) float64 {
	modulus := pick(m.Modulus(d), e) * m.Conditioning.Typical.Fraction()
	if e == hot {
		modulus *= heated
	}
	return modulus
}

// lump is a rigid part of the mount.
type lump struct {
	mass    float64
	cg      r3.Vec // axes of the place, m
	inertia [3][3]float64
}

// newLump turns the plastic of a body into a rigid mass.
func newLump(b parts.Body, material materials.Material) lump {
	density := material.Density.Typical.KilogramsPerCubicMetre()
	return lump{mass: b.Plastic * 1e-9 * density, cg: metres(b.Centre), inertia: tensor(b.Inertia, density*1e-15)}
}

// at puts the lump on a node that stands at a position.
func (l lump) at(node int, position r3.Vec) frame.Body {
	return frame.Body{Node: node, Mass: l.mass, CG: r3.Sub(l.cg, position), Inertia: l.inertia}
}

func tensor(t mesh.Tensor, scale float64) [3][3]float64 {
	return [3][3]float64{
		{t.XX * scale, t.XY * scale, t.ZX * scale},
		{t.XY * scale, t.YY * scale, t.YZ * scale},
		{t.ZX * scale, t.YZ * scale, t.ZZ * scale},
	}
}

// metres turns a position in mm into m.
func metres(v r3.Vec) r3.Vec { return r3.Scale(1e-3, v) }

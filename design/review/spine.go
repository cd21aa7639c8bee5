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
	material materials.Material
	along    materials.Direction // of its axis relative to the layers
	from, to int                 // points of the spine
	stations []frame.Station
	elements int
	notches  []place
}

// spine is the mount as a line of members, SI, in the axes of the place.
type spine struct {
	points []r3.Vec
	spans  []span
	root   int // point that stands on the foot
	tip    int // point that carries the tray
	joints []spineJoint
}

// spineJoint is a printed socket around a member's end.
type spineJoint struct {
	name           string
	collar, inside int     // points
	grip           float64 // m, along the mast
	width          float64 // m, of the mast inside, the narrower way
	clearance      float64 // m, each side
	material       materials.Material
	along          materials.Direction
}

// elementLength is the longest element of a mast, m. Halving it moves no first frequency of the examples by 0.1 %.
const elementLength = 0.005

// newSpine integrates the sections of the very outlines that the parts are made of.
func (s *subject) newSpine() (spine, error) {
	var sp spine
	ends := map[string][2]int{}
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
		first := len(sp.points)
		sp.points = append(sp.points, at(0))
		var closed frame.Section
		for _, piece := range m.Spans() {
			for _, bounds := range split(piece.From.At, piece.To.At, cuts) {
				sp.points = append(sp.points, at(bounds[1]))
				last := len(sp.points) - 1
				one, err := s.newSpan(m, piece, bounds, material, along(part.Orientation), closed)
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
		ends[m.Name] = [2]int{first, len(sp.points) - 1}
	}
	rootMember, tipMember := s.assembly.Members[0].Name, s.assembly.Members[0].Name
	for _, j := range s.assembly.Joints {
		material, err := s.library.Find(j.Material)
		if err != nil {
			return sp, err
		}
		nearest := func(member string) int {
			want := metres(j.Centre)
			best := ends[member][0]
			for p := ends[member][0]; p <= ends[member][1]; p++ {
				if r3.Norm(r3.Sub(sp.points[p], want)) < r3.Norm(r3.Sub(sp.points[best], want)) {
					best = p
				}
			}
			return best
		}
		sp.joints = append(sp.joints, spineJoint{
			name: j.Name, collar: nearest(j.A), inside: nearest(j.B), grip: j.Grip / 1e3, clearance: j.Clearance / 1e3,
			width:    narrower(s.member(j.B).Outline(j.AtB)) / 1e3,
			material: material, along: along(s.part(s.member(j.A).Part).Orientation),
		})
		if j.Name == "foot joint" {
			rootMember = j.A
		} else {
			tipMember = j.A
		}
	}
	sp.root, sp.tip = ends[rootMember][0], ends[tipMember][1]
	return sp, nil
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
			list = append(list, place{p.name, cut, section(st.Section), 1})
		}
		s.placed[index] = append(list, p.notches...)
	}
	return s.placed[index]
}

// mast returns the points of the mast itself, without the collars around its ends.
func (sp spine) mast() []int {
	var points []int
	for _, p := range sp.spans {
		if p.name == mastMember {
			if len(points) == 0 {
				points = append(points, p.from)
			}
			points = append(points, p.to)
		}
	}
	return points
}

// mastMember is the member that every build has.
const mastMember = "mast"

// split cuts a stretch of a member at the shares that lie inside it.
func split(from, to float64, cuts []float64) [][2]float64 {
	inside := []float64{from}
	for _, c := range cuts {
		if c > from+1e-9 && c < to-1e-9 {
			inside = append(inside, c)
		}
	}
	slices.Sort(inside)
	pieces := make([][2]float64, len(inside))
	for i, a := range inside {
		pieces[i] = [2]float64{a, to}
		if i+1 < len(inside) {
			pieces[i][1] = inside[i+1]
		}
	}
	return pieces
}

// along says how a member's axis lies to the layers of its part.
func along(orientation string) materials.Direction {
	if orientation == "lying" {
		return materials.InLayer
	}
	return materials.Across
}

// newSpan makes a span of a stretch of a member; closed is the last closed section below it.
func (s *subject) newSpan(m parts.Member, piece parts.Span, bounds [2]float64, material materials.Material, direction materials.Direction, closed frame.Section) (span, error) {
	length := (bounds[1] - bounds[0]) * m.Length() / 1e3
	one := span{
		name: m.Name, material: material, along: direction,
		elements: max(2, int(math.Ceil(length/elementLength))),
	}
	width := piece.To.At - piece.From.At
	outlineAt := func(at float64) outline.Outline { return piece.Outline((at - piece.From.At) / width) }
	for i := range one.elements + 1 {
		share := float64(i) / float64(one.elements)
		at := bounds[0] + share*(bounds[1]-bounds[0])
		section, err := s.sectionAt(outlineAt(at), material, closed)
		if err != nil {
			return one, err
		}
		fill := piece.From.Fill + (at-piece.From.At)/width*(piece.To.Fill-piece.From.Fill)
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

// sectionAt returns the section of an outline; where the cable way opens it, by way of the closed section below.
func (s *subject) sectionAt(o outline.Outline, material materials.Material, closed frame.Section) (frame.Section, error) {
	if len(o.Holes) == 0 && closed.A > 0 {
		return opened(closed, o, s.doc.Mast.CableWay, s.doc.Mast.Wall.Metres(), material.Poisson.Typical.Fraction()), nil
	}
	return s.sectionOf(o, material)
}

// sectionOf integrates an outline in mm into a section in m.
func (s *subject) sectionOf(o outline.Outline, material materials.Material) (frame.Section, error) {
	poisson := material.Poisson.Typical.Fraction()
	return s.shop.sections.take(keyOf(o, poisson), func() (frame.Section, error) {
		s.work.Sections++
		return frame.Integrate(loops(o), frame.SectionOptions{Poisson: poisson})
	})
}

// member turns a span into a member of the frame model at an end of the material's spread.
func (p span) member(below, above int, e end) frame.Member {
	modulus := stiffness(p.material, p.along, e)
	shear := pick(p.material.ShearModulus, e) * p.material.Conditioning.Typical.Fraction()
	if e == hot {
		shear *= heated
	}
	if p.material.Form == materials.Print && p.along == materials.Across {
		shear *= modulus / stiffness(p.material, materials.InLayer, e) // a print's layers shear as softly as they bend
	}
	return frame.Member{
		Name: p.name, A: below, B: above, Stations: p.stations, Elements: p.elements,
		Material: frame.Elastic{E: modulus, G: shear, Density: p.material.Density.Typical.KilogramsPerCubicMetre()},
	}
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

// spring returns the joint's stiffness: the mast on a bed of k_w = E of the collar per metre, k_w e sideways and k_w e³/12 in tilt; along
// the mast and about it the cross screw and the fitting flanks hold it like a bed of the same k_w around the grip's circumference.
func (j spineJoint) spring(e end) [6][6]float64 {
	bed := stiffness(j.material, j.along, e)
	side, tilt := bed*j.grip, bed*j.grip*j.grip*j.grip/12
	return frame.Uncoupled(side, side, side, tilt, tilt, tilt)
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

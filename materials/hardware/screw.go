package hardware

import (
	"fmt"

	"mastwright/design/units"
)

// HeadForm is the form of a screw's head.
type HeadForm string

// The head forms.
const (
	Socket HeadForm = "socket" // cylinder with hexagon socket, ISO 4762
	Button HeadForm = "button" // flat dome with hexagon socket, ISO 7380-1, from M3 on
)

// Head is a screw's head: the largest dk and k, the key s, the smallest socket
// depth t (keys, depths and M5 from trade reprints of the standards).
type Head struct {
	Diameter units.Length
	Height   units.Length
	Key      units.Length
	Depth    units.Length
}

// Standard is the form's.
func (f HeadForm) Standard() string {
	if f == Button {
		return "ISO 7380-1"
	}
	return "ISO 4762"
}

// Head is the head of a size; ISO 7380-1 begins at M3.
func (s Size) Head(form HeadForm) (Head, error) {
	switch head := s.row().button; {
	case form == Socket:
		return s.row().socket, nil
	case form != Button:
		return Head{}, fmt.Errorf("no screw head %q; write socket or button", string(form))
	case head == Head{}:
		return Head{}, fmt.Errorf("no button head in %s, ISO 7380-1 begins at M3; use a socket head", s)
	default:
		return head, nil
	}
}

// Screw is one screw.
type Screw struct {
	Size   Size
	Head   HeadForm
	Length units.Length // under the head
}

// String is the screw as one orders it: "M3 x 10 socket".
func (s Screw) String() string {
	return fmt.Sprintf("%s x %s %s", s.Size, units.CountKind.Format(s.Length.Millimetres()), s.Head)
}

// Mass is the screw's mass, threaded all along. The head is taken as a cylinder
// less its socket, a button head as the cap of a sphere less its socket.
func (s Screw) Mass(m Material) (units.Mass, error) {
	head, err := s.Size.Head(s.Head)
	if err != nil {
		return 0, err
	}
	grams := mass(circleArea(head.Diameter), head.Height, m)
	if s.Head == Button {
		// A cap of base radius r and height h has the volume πh(3r² + h²)/6.
		ratio := head.Height.Millimetres() / head.Diameter.Millimetres()
		grams *= units.Mass(0.5 + 2.0/3*ratio*ratio)
	}
	grams -= mass(hexagonArea(head.Key), head.Depth, m)
	return grams + mass(circleArea(s.Size.PitchDiameter()), s.Length, m), nil
}

// BreakingLoad is the tension that breaks the screw: the strength on the stress
// area, for nylon a fastener catalogue's 200, 400 and 700 N for M3, M4 and M5
// (M2 80 N and M2.5 130 N: judgement, the stress of M3).
func (s Size) BreakingLoad(m Material) units.Force {
	if m.ID == "nylon" {
		return s.row().nylon
	}
	return units.Newtons(m.Strength.Megapascals() * s.StressArea().SquareMillimetres())
}

// YieldLoad is the tension at which the screw stays stretched; a nylon one is
// taken at half its breaking load (judgement).
func (s Size) YieldLoad(m Material) units.Force {
	if m.ID == "nylon" {
		return s.row().nylon / 2
	}
	return units.Newtons(m.Yield.Megapascals() * s.StressArea().SquareMillimetres())
}

package review

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/frame"
	"mastwright/design/units"
	"mastwright/materials"
)

// end is an end of a spread.
type end int

const (
	low end = iota
	typical
	high
	hot // typical, near the softening temperature
)

// seat says how the foot's plate and the frame's plate are held.
type seat int

const (
	soft   seat = iota // screws pinned, the plates bend between them
	middle             // geometric mean of the two
	stiff              // clamped around the screws
)

// variant is one model of the spread.
type variant struct {
	base    seat
	modulus end
}

// freedom says what the foot stands on.
type freedom int

const (
	held   freedom = iota // base on the ground: what a tap test on a bench sees
	flying                // base on the aircraft, free in space: what the motors see
)

// nodes are the places of the model that are asked about.
type nodes struct {
	vehicle, face, plate, root, tray, receiver, compass, top int
	motors                                                   []int
	points                                                   []int // of the spine
}

// solved is a model with what was computed of it.
type solved struct {
	model  frame.Model
	system *frame.System
	nodes  nodes

	// Once solve has been asked for it:
	modes   []frame.Mode
	damping []float64
	paths   []path // from each motor, of a flying model
	turning frame.Receptances
	pulsing frame.Receptances
}

// stiffest stands for a rigid spring: far above any stiffness of a mount, N/m and N·m/rad.
const (
	rigidForce  = 1e9
	rigidMoment = 1e6
)

// solvedKey names a model.
type solvedKey struct {
	variant variant
	freedom freedom
}

// assemble returns the model of a variant, its stiffness factored. It is computed once for each.
func (s *subject) assemble(v variant, f freedom) (*solved, error) {
	key := solvedKey{s.of(v), f}
	if e, ok := s.models[key]; ok {
		return e, nil
	}
	e := s.build(key.variant, f)
	var err error
	if e.system, err = frame.Assemble(e.model); err != nil {
		return nil, fmt.Errorf("the mount's frame: %w", err)
	}
	s.work.Factors++
	s.models[key] = e
	return e, nil
}

// solve returns the model of a variant with its modes. They are computed once for each.
func (s *subject) solve(v variant, f freedom) (*solved, error) {
	e, err := s.assemble(v, f)
	if err != nil || e.modes != nil {
		return e, err
	}
	modes, err := e.system.Modes(frame.Options{Count: flexible + 1})
	if err != nil {
		return nil, fmt.Errorf("the mount's modes: %w", err)
	}
	s.work.Modal++
	members, springs := s.losses(e)
	e.damping = make([]float64, len(modes))
	for i, m := range modes {
		e.damping[i] = m.Damping(s.doc.Assume.JointLoss.Fraction(), members, springs)
	}
	e.modes = modes
	for _, motor := range e.nodes.motors {
		e.paths = append(e.paths, path{e.system.Transfer(modes, motor, e.nodes.compass), e.system.Transfer(modes, motor, e.nodes.vehicle)})
	}
	return e, nil
}

// build lays out the frame: vehicle, frame plate, foot plate, mast, tray, receiver.
func (s *subject) build(v variant, f freedom) *solved {
	e := &solved{}
	m := &e.model
	add := func(name string, at r3.Vec) int {
		m.Nodes = append(m.Nodes, frame.Node{Name: name, At: at})
		return len(m.Nodes) - 1
	}
	n := &e.nodes
	n.vehicle = add("vehicle", s.aircraft.cg)
	n.face = add("mounting face", r3.Vec{})
	n.plate = add("frame plate", r3.Vec{})
	m.Links = append(m.Links, frame.Link{Master: n.vehicle, Slave: n.face})
	m.Springs = append(m.Springs, frame.Spring{Name: framePlate, A: n.plate, B: n.face, K: s.plateSpring(v.base)})
	m.Bodies = append(m.Bodies, s.foot.at(n.plate, r3.Vec{}))

	point := make([]int, len(s.spine.points))
	for i, at := range s.spine.points {
		point[i] = add(fmt.Sprintf("mast %d", i), at)
	}
	n.root, n.points = point[s.spine.root], point
	m.Springs = append(m.Springs, frame.Spring{Name: footPlate, A: n.root, B: n.plate, K: s.footSpring(v)})
	for _, p := range s.spine.spans {
		m.Members = append(m.Members, p.member(point[p.from], point[p.to], v.modulus))
	}
	for _, j := range s.spine.joints {
		m.Springs = append(m.Springs, frame.Spring{Name: j.name, A: point[j.collar], B: point[j.inside], K: j.spring(v.modulus)})
	}

	n.tray = add("tray", s.seat)
	m.Links = append(m.Links, frame.Link{Master: point[s.spine.tip], Slave: n.tray})
	m.Bodies = append(m.Bodies, s.tray.at(n.tray, s.seat))
	n.receiver = add("receiver", s.receiver)
	if s.doc.Receiver.Fixing == "tape" {
		m.Springs = append(m.Springs, frame.Spring{Name: foamTape, A: n.receiver, B: n.tray, K: s.tapeSpring(v.modulus)})
	} else {
		m.Links = append(m.Links, frame.Link{Master: n.tray, Slave: n.receiver})
	}
	m.Bodies = append(m.Bodies, s.receiverBody(n.receiver))
	n.compass = add("compass", s.compass)
	n.top = add("mast top", r3.Vec{X: s.receiver.X, Y: s.receiver.Y, Z: s.top()})
	m.Links = append(m.Links, frame.Link{Master: n.receiver, Slave: n.compass}, frame.Link{Master: n.receiver, Slave: n.top})

	if f == held {
		m.Supports = append(m.Supports, frame.Clamp(n.vehicle))
		return e
	}
	m.Bodies = append(m.Bodies, frame.Body{Node: n.vehicle, Mass: s.aircraft.mass, Inertia: s.aircraft.inertia})
	for i, at := range s.aircraft.motors {
		motor := add(fmt.Sprintf("motor %d", i+1), at)
		n.motors = append(n.motors, motor)
		m.Links = append(m.Links, frame.Link{Master: n.vehicle, Slave: motor})
	}
	return e
}

// The springs of the model.
const (
	framePlate = "frame plate"
	footPlate  = "foot plate"
	foamTape   = "foam tape"
)

// losses returns the loss factor of every member and spring of a model.
func (s *subject) losses(e *solved) (members, springs []float64) {
	for _, p := range s.spine.spans {
		members = append(members, p.material.LossFactor.Typical.Fraction())
	}
	for _, spring := range e.model.Springs {
		loss := s.footMaterial.LossFactor.Typical.Fraction()
		switch spring.Name {
		case framePlate:
			loss = s.plateMaterial.LossFactor.Typical.Fraction()
		case foamTape:
			loss = tapeLoss
		}
		springs = append(springs, loss)
	}
	return members, springs
}

// tapeLoss is the loss factor of acrylic foam tape, from memory.
const tapeLoss = 0.3

// solidBox returns the inertia of an even box of sides x, y, z about its middle.
func solidBox(mass float64, x, y, z float64) (i [3][3]float64) {
	i[0][0] = mass * (y*y + z*z) / 12
	i[1][1] = mass * (x*x + z*z) / 12
	i[2][2] = mass * (x*x + y*y) / 12
	return i
}

func (s *subject) receiverBody(node int) frame.Body {
	r := s.doc.Receiver
	mass := r.Mass.Kilograms()
	x, y, z := r.Size.X.Metres(), r.Size.Y.Metres(), r.Size.Z.Metres()
	inertia := solidBox(mass, x, y, z)
	if r.Shape == "round" {
		inertia = solidBox(mass, 0, 0, 0)
		inertia[0][0] = mass * (3*x*x/4 + z*z) / 12
		inertia[1][1] = inertia[0][0]
		inertia[2][2] = mass * x * x / 8
	}
	return frame.Body{Node: node, Mass: mass, CG: r3.Vec{Z: z / 2}, Inertia: inertia}
}

// tapeSpring returns the six springs of the foam pad under the receiver: shear G A / t sideways, 3 G A / t upright (rubber, Poisson's
// ratio near a half, bulging left out), and the same over the pad's second moments in rotation.
func (s *subject) tapeSpring(e end) [6][6]float64 {
	tape := s.doc.Receiver.Tape
	shear := [4]float64{tape.ShearLow.Pascals(), tape.ShearTypical.Pascals(), tape.ShearHigh.Pascals(), tape.ShearTypical.Pascals()}[e]
	a, b, t := tape.Size.X.Metres(), tape.Size.Square().Y.Metres(), tape.Thickness.Metres()
	side := shear * a * b / t
	ix, iy := a*b*b*b/12, b*a*a*a/12
	return frame.Uncoupled(side, side, 3*side, 3*shear*ix/t, 3*shear*iy/t, shear*(ix+iy)/t)
}

// pick returns the value of a range at an end, Pa; hot things are typical.
func pick(r materials.Range[units.Stress], e end) float64 {
	return [4]float64{r.Low.Pascals(), r.Typical.Pascals(), r.High.Pascals(), r.Typical.Pascals()}[e]
}

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
	vehicle, face, plate, tray, receiver, compass, top int
	motors                                             []int
	points                                             []int // of the spine
}

// solved is a model with what was computed of it.
type solved struct {
	nodes   nodes
	springs []frame.Spring
	system  *frame.System    // its own, or its kin's
	kin     *kin             // nil where it is assembled on its own
	own     *frame.Condensed // what it is among its kin

	// Once solve has been asked for it:
	modes   []frame.Mode
	damping []float64
	paths   []path // from each motor, of a flying model
	turning frame.Receptances
	pulsing frame.Receptances
	shaken  map[float64]shaking // by rotor speed
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

// model returns the model of a variant, ready to be solved. It is made once for each.
func (s *subject) model(v variant, f freedom) (*solved, error) {
	key := solvedKey{s.of(v), f}
	if e, ok := s.models[key]; ok {
		return e, nil
	}
	k, err := s.kinOf(f)
	if err != nil {
		return nil, err
	}
	e := &solved{nodes: k.nodes, springs: s.springs(key.variant, k.nodes), system: k.system, kin: k}
	as, related := s.relative(key.variant, k, e.springs)
	if related {
		s.work.Condensed++
		if e.own, err = k.family.Condense(as); err != nil {
			return nil, fmt.Errorf("the mount's frame: %w", err)
		}
	} else {
		m, _ := s.build(key.variant, f)
		e.kin = nil
		if e.system, err = s.assemble(m); err != nil {
			return nil, err
		}
	}
	s.models[key] = e
	return e, nil
}

func (s *subject) assemble(m frame.Model) (*frame.System, error) {
	s.work.Factors++
	system, err := frame.Assemble(m)
	if err != nil {
		return nil, fmt.Errorf("the mount's frame: %w", err)
	}
	return system, nil
}

// solve returns the model of a variant with its modes. They are computed once for each.
func (s *subject) solve(v variant, f freedom) (*solved, error) {
	e, err := s.model(v, f)
	if err != nil || e.modes != nil {
		return e, err
	}
	s.work.Modal++
	var modes []frame.Mode
	if o := (frame.Options{Count: flexible + 1}); e.kin != nil {
		modes, err = e.own.Modes(o)
	} else {
		modes, err = e.system.Modes(o)
	}
	if err != nil {
		return nil, fmt.Errorf("the mount's modes: %w", err)
	}
	members, springs := s.losses(e)
	e.damping = make([]float64, len(modes))
	for i, m := range modes {
		e.damping[i] = m.Damping(s.doc.Assume.JointLoss.Fraction(), members, springs)
	}
	e.modes, e.shaken = modes, map[float64]shaking{}
	for _, motor := range e.nodes.motors {
		e.paths = append(e.paths, path{e.system.Transfer(modes, motor, e.nodes.compass), e.system.Transfer(modes, motor, e.nodes.vehicle)})
	}
	return e, nil
}

// build lays out the frame: vehicle, frame plate, foot plate, mast, tray, receiver.
func (s *subject) build(v variant, f freedom) (m frame.Model, n nodes) {
	add := func(name string, at r3.Vec) int {
		m.Nodes = append(m.Nodes, frame.Node{Name: name, At: at})
		return len(m.Nodes) - 1
	}
	n.vehicle = add("vehicle", s.aircraft.cg)
	n.face = add("mounting face", r3.Vec{})
	n.plate = add("frame plate", r3.Vec{})
	m.Links = append(m.Links, frame.Link{Master: n.vehicle, Slave: n.face})
	m.Bodies = append(m.Bodies, s.foot.at(n.plate, r3.Vec{}))

	point := make([]int, len(s.spine.points))
	for i, at := range s.spine.points {
		point[i] = add(fmt.Sprintf("mast %d", i), at)
	}
	n.points = point
	for _, p := range s.spine.spans {
		m.Members = append(m.Members, p.member(point[p.from], point[p.to], v.modulus))
	}

	n.tray = add("tray", s.seat)
	if tips := s.spine.tips; len(tips) == 1 {
		m.Links = append(m.Links, frame.Link{Master: point[tips[0]], Slave: n.tray})
	} else {
		for _, tip := range tips {
			m.Links = append(m.Links, frame.Link{Master: n.tray, Slave: point[tip]})
		}
	}
	m.Bodies = append(m.Bodies, s.tray.at(n.tray, s.seat))
	m.Bodies = append(m.Bodies, s.fastened(n)...)
	n.receiver = add("receiver", s.receiver)
	if s.doc.Receiver.Fixing != "tape" {
		m.Links = append(m.Links, frame.Link{Master: n.tray, Slave: n.receiver})
	}
	m.Bodies = append(m.Bodies, s.receiverBody(n.receiver))
	n.compass = add("compass", s.compass)
	n.top = add("mast top", s.topAt())
	m.Links = append(m.Links, frame.Link{Master: n.receiver, Slave: n.compass}, frame.Link{Master: n.receiver, Slave: n.top})

	m.Springs = s.springs(v, n)
	if f == held {
		m.Supports = append(m.Supports, frame.Clamp(n.vehicle))
		return m, n
	}
	m.Bodies = append(m.Bodies, frame.Body{Node: n.vehicle, Mass: s.aircraft.mass, Inertia: s.aircraft.inertia})
	for i, at := range s.aircraft.motors {
		motor := add(fmt.Sprintf("motor %d", i+1), at)
		n.motors = append(n.motors, motor)
		m.Links = append(m.Links, frame.Link{Master: n.vehicle, Slave: motor})
	}
	return m, n
}

// springs returns the springs of a variant: the frame's plate, the foot's, the joints', the tape.
func (s *subject) springs(v variant, n nodes) []frame.Spring {
	list := []frame.Spring{
		{Name: framePlate, A: n.plate, B: n.face, K: s.plateSpring(v.base)},
	}
	for i, root := range s.spine.roots {
		foot := frame.Spring{Name: footPlate, A: n.points[root], B: n.plate}
		if len(s.assembly.Pads) > 0 {
			foot.Name, foot.K = pads, s.padSpring(i, v)
		} else {
			foot.K = s.footSpring(v)
		}
		list = append(list, foot)
	}
	for _, j := range s.spine.joints {
		list = append(list, frame.Spring{Name: j.name, A: n.points[j.a], B: n.points[j.b], K: j.spring(v.modulus)})
	}
	if s.doc.Receiver.Fixing == "tape" {
		list = append(list, frame.Spring{Name: foamTape, A: n.receiver, B: n.tray, K: s.tapeSpring(v.modulus)})
	}
	return list
}

// The springs of the model.
const (
	framePlate = "frame plate"
	footPlate  = "foot plate"
	pads       = "pads"
	foamTape   = "foam tape"
)

// losses returns the loss factor of every member and spring of a model.
func (s *subject) losses(e *solved) (members, springs []float64) {
	for _, p := range s.spine.spans {
		members = append(members, p.material.LossFactor.Typical.Fraction())
	}
	for _, spring := range e.springs {
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

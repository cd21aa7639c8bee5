package review

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/design/frame"
	"mastwright/design/magnetic"
	"mastwright/design/motor"
	"mastwright/design/parts"
	"mastwright/design/strength"
	"mastwright/design/units"
	"mastwright/materials"
)

// subject is a design being reviewed: the document translated for the engines, and what they have answered so far.
type subject struct {
	doc      *design.Document
	library  materials.List
	place    design.Place
	holes    []design.Spot
	assembly parts.Assembly
	aircraft aircraft

	mastMaterial, footMaterial, trayMaterial, plateMaterial materials.Material
	direction                                               materials.Direction // of the mast's axis to its layers
	footDirection, trayDirection                            materials.Direction // of their plates' bending to their layers

	seat, receiver, compass r3.Vec // m: tray's floor, receiver's underside, compass
	spine                   spine
	foot, tray              lump
	base                    base

	rotors      motor.Rotors
	rotorsError error
	earth       magnetic.EarthField
	earthError  error

	shop  *Workshop
	rigid bool // nothing is asked that depends on what bends: what the mast stands on is left out
	lot   *Lot // nil: the document's spreads
	answers
	work Work // not yet counted by the workshop
}

// answers are what the engines have answered so far.
type answers struct {
	kin         [2]*kin // by freedom
	models      map[solvedKey]*solved
	standing    map[variant]*loaded
	missing     map[string][]string
	bands       []modeBand
	shaken      map[int]shaking
	excitation  float64
	loads       []strength.Case
	placed      [][]place
	gripped     []Grip
	critical    *float64
	toppled     bool
	fallen      *strength.Fall
	fallenError error
	dropped     *float64
}

func newAnswers() answers {
	return answers{models: map[solvedKey]*solved{}, standing: map[variant]*loaded{}, missing: map[string][]string{}, shaken: map[int]shaking{}}
}

// prepare translates the document. The problems are those of geometry that cannot be built.
func (s *subject) prepare() []design.Problem {
	doc := s.doc
	var problems []design.Problem
	refuse := func(path string, err error) {
		problems = append(problems, design.Problem{Path: path, Value: doc.Get(path), Text: err.Error()})
	}
	var ok bool
	var err error
	if s.place, ok = doc.PlaceChosen(); !ok {
		if len(doc.Airframe.Places) == 0 {
			refuse("airframe.places", errors.New("no place to stand is described yet; add one with its holes, and the rest can be checked"))
		} else {
			refuse("mast.place", errors.New("no place to stand is chosen; name one of the airframe's places"))
		}
		return problems
	}
	for _, m := range []struct {
		path, id string
		into     *materials.Material
	}{
		{"materials.mast", doc.Materials.Mast, &s.mastMaterial},
		{"materials.foot", doc.Materials.Foot, &s.footMaterial},
		{"materials.tray", doc.Materials.Tray, &s.trayMaterial},
		{"airframe.places", s.place.Plate.Material, &s.plateMaterial},
	} {
		if *m.into, err = s.library.Find(m.id); err != nil {
			refuse(m.path, err)
		}
	}
	s.assembly, problems = appendBuild(doc, problems)
	if len(problems) > 0 {
		return problems
	}
	if len(s.assembly.Joints) == 0 { // one piece is of the mast's material throughout
		s.footMaterial, s.trayMaterial = s.mastMaterial, s.mastMaterial
	}
	bearing := s.assembly.Members[0].Material
	if s.mastMaterial, err = s.library.Find(bearing); err != nil {
		refuse("materials.mast", err)
		return problems
	}
	s.holes, _, _ = s.place.Holes.Centres()
	s.aircraft = s.newAircraft()
	s.seat = metres(s.assembly.Seat)
	s.receiver = s.seat
	if doc.Receiver.Fixing == "tape" {
		s.receiver.Z += doc.Receiver.Tape.Thickness.Metres()
	}
	c := doc.Receiver.Compass
	s.compass = r3.Add(s.receiver, r3.Vec{X: c.X.Metres(), Y: c.Y.Metres(), Z: c.Z.Metres()})
	s.direction = s.mastDirection()
	s.footDirection, s.trayDirection = s.plateDirection("foot"), s.plateDirection("tray")

	if s.spine, err = s.newSpine(); err != nil {
		refuse("mast", fmt.Errorf("its sections cannot be worked out: %w", err))
		return problems
	}
	if !s.rigid {
		if s.base, err = s.newBase(); err != nil {
			refuse("foot", err)
			return problems
		}
	}
	s.foot, s.tray = newLump(s.assembly.Foot.Body, s.footMaterial), newLump(s.assembly.Tray.Body, s.trayMaterial)
	s.rotors, s.rotorsError = s.newRotors()
	s.earth, s.earthError = magnetic.Earth(magnetic.Place{
		Latitude: doc.Site.Latitude.Radians(), Longitude: doc.Site.Longitude.Radians(), Height: doc.Site.Altitude.Metres(),
	}, doc.Site.Year.Fraction(), magnetic.EarthOptions{Extrapolated: doc.Site.Extrapolated})
	return nil
}

// euler returns the force in N at which the mast buckles when pressed at its top, 0 when it does not.
func (s *subject) euler() float64 {
	if s.critical == nil {
		force, err := s.buckling(pressedTop)
		if err != nil || math.IsInf(force, 1) {
			force = 0
		}
		s.critical = &force
	}
	return *s.critical
}

func appendBuild(doc *design.Document, problems []design.Problem) (parts.Assembly, []design.Problem) {
	assembly, more := parts.Build(doc)
	return assembly, append(problems, more...)
}

// mastDirection says how the mast's axis lies to its layers.
func (s *subject) mastDirection() materials.Direction {
	m := s.assembly.Members[0]
	return directionOf(m, s.part(m.Part))
}

// plateDirection says how a plate's bending lies to the layers of its part: a plate printed flat bends along its layers, one that is printed on
// edge, with a lying mast in one piece, pulls them apart one way.
func (s *subject) plateDirection(part string) materials.Direction {
	if len(s.assembly.Joints) == 0 && s.part("mast").Orientation == "lying" {
		return materials.Across
	}
	return materials.InLayer
}

// part returns a part of the assembly by its name.
func (s *subject) part(name string) parts.Part {
	for _, p := range s.assembly.Parts {
		if p.Name == name {
			return p
		}
	}
	return parts.Part{}
}

func (s *subject) newRotors() (motor.Rotors, error) {
	d, m := s.doc, s.doc.Motors
	drive := motor.Drive{
		Count: len(s.aircraft.motors), KV: m.KV.RevolutionsPerMinutePerVolt(), Cells: m.Cells, Blades: m.Blades, Diameter: m.Propeller.Metres(),
		Mass: s.whole().mass, Altitude: d.Site.Altitude.Metres(),
		Ripple: d.Assume.ThrustRipple.Fraction(),
		Grade:  map[string]float64{"balanced": motor.Balanced, "unselected": motor.Unselected, "worn": motor.Worn}[m.Balance],
	}
	if d.Has("assume.thrust_coefficient") {
		c := d.Assume.ThrustCoefficient.Fraction()
		drive.ThrustCoefficient = motor.Spread{Low: c, Mid: c, High: c}
	}
	if d.Has("motors.rotating_mass") {
		drive.RotatingMass = m.RotatingMass.Kilograms()
	}
	if d.Has("motors.hover_speed") {
		drive.MeasuredHover = m.HoverSpeed.RevolutionsPerSecond()
	}
	if d.Has("motors.full_speed") {
		drive.MeasuredFull = m.FullSpeed.RevolutionsPerSecond()
	}
	if d.Has("airframe.bandwidth") {
		drive.Bandwidth = d.Airframe.Bandwidth.Hertz()
	}
	return motor.Estimate(drive)
}

// used is a part with its material.
type used struct {
	name     string
	material materials.Material
}

// materialsUsed returns each printed part's material.
func (s *subject) materialsUsed() []used {
	var list []used
	for _, p := range s.assembly.Parts {
		if m, err := s.library.Find(p.Material); err == nil {
			list = append(list, used{p.Name, m})
		}
	}
	return list
}

// heatedParts says whether any part is near its softening temperature in service. A lot is as it is.
func (s *subject) heatedParts() bool {
	if s.lot != nil {
		return false
	}
	for _, p := range s.materialsUsed() {
		if p.material.Softening.Known() && p.material.Softening.Typical.Minus(s.doc.Site.Service).Kelvins() < 20 {
			return true
		}
	}
	return false
}

// worstShake returns the peak acceleration at the compass in g, worst over every mode's band.
func (s *subject) worstShake() float64 {
	peak := 0.0
	if bands, err := s.modeBands(); err == nil {
		for i, b := range bands {
			peak = math.Max(peak, s.shakeAt(i, b).peak)
		}
	}
	return peak
}

// axialCase is the load along the mast from thrust over weight.
func (s *subject) axialCase() frame.Case {
	return frame.Case{Field: r3.Vec{Z: -s.doc.Loads.Axial.MetresPerSecondSquared()}}
}

func fraction(x float64) units.Ratio { return units.Fraction(x) }

func mm(metres float64) units.Length { return units.Metres(metres) }

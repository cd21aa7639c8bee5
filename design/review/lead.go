package review

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/design/magnetic"
)

// state is a state of flight in which a lead carries a current.
type state int

const (
	hover state = iota
	cruise
	full
)

func (t state) String() string { return [...]string{"hover", "cruise", "full throttle"}[t] }

// current returns what a lead carries in a state, A.
func current(c design.Currents, t state) float64 {
	switch t {
	case cruise:
		return c.Cruise.Amperes()
	case full:
		return c.Full.Amperes()
	}
	return c.Hover.Amperes()
}

// leads returns the aircraft's leads for the magnetic engine in a state, in the axes of the place.
func (s *subject) leads(t state) ([]magnetic.Lead, error) {
	leads := make([]magnetic.Lead, len(s.doc.Leads))
	for i, lead := range s.doc.Leads {
		l := magnetic.Lead{
			Name: lead.Name, LoopFactor: lead.LoopFactor.Fraction(),
			Idle: lead.Currents.Idle.Amperes(), Load: current(lead.Currents, t),
		}
		if m, ok := s.doc.LeadField(lead.Name); ok {
			l.Correction = m.Factor.Fraction()
		}
		if lead.Given == "measured" {
			l.Measured = magnetic.Measurement{
				PerAmpere: r3.Vec{X: lead.Flux.TeslasPerAmpere()},
				Source:    s.at(design.Point{Z: lead.Height}).Z,
				Height:    lead.MeasuredHeight.Metres(),
				Exponent:  lead.Decay.Fraction(),
			}
			leads[i] = l
			continue
		}
		route, ok := s.route(i)
		if ok && lead.Given == "loop" {
			l.Loops, l.Radius, l.LoopFactor = [][]r3.Vec{route}, lead.Conductor.Metres()/2, 0
			leads[i] = l
			continue
		}
		if !ok {
			return nil, fmt.Errorf("lead %q: nothing says where it runs; name the parts it joins, or list its points", lead.Name)
		}
		l.Pair = magnetic.Pair{
			Centre: route, Spacing: lead.Spacing.Metres(), Lay: lay(lead.Run), Pitch: lead.Pitch.Metres(),
			Untwisted: math.Min(untwisted, length(route)/4),
			Radius:    lead.Conductor.Metres() / 2,
		}
		leads[i] = l
	}
	return leads, nil
}

// untwisted is how far a twisted pair lies flat at each end, m: less on a short lead. Common practice.
const untwisted = 0.020

func length(line []r3.Vec) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		sum += r3.Norm(r3.Sub(line[i], line[i-1]))
	}
	return sum
}

func lay(run string) magnetic.Lay {
	switch run {
	case "stacked":
		return magnetic.Stacked
	case "twisted":
		return magnetic.Twisted
	}
	return magnetic.SideBySide
}

// route returns the middle line of a lead's pair, or the loop of a single wire, in the axes of the place, m; false for a lead given by a measurement or not at
// all. A lead in words runs level at its height from one part's middle to the other's, past the mast on the side that is said.
func (s *subject) route(i int) ([]r3.Vec, bool) {
	lead := s.doc.Leads[i]
	switch lead.Given {
	case "route":
		line := make([]r3.Vec, len(lead.Points))
		for k, p := range lead.Points {
			line[k] = s.at(p)
		}
		return line, len(line) > 1
	case "loop":
		line := make([]r3.Vec, 0, len(lead.Points)+1)
		for _, p := range lead.Points {
			line = append(line, s.at(p))
		}
		if len(line) < 3 {
			return nil, false
		}
		return append(line, line[0]), true // back to where it began
	case "words":
		from, ok1 := s.neighbour(lead.From)
		to, ok2 := s.neighbour(lead.To)
		if !ok1 || !ok2 {
			return nil, false
		}
		return s.wordedRoute(lead, s.at(from.At), s.at(to.At)), true
	}
	return nil, false
}

func (s *subject) wordedRoute(lead design.Lead, from, to r3.Vec) []r3.Vec {
	z := s.at(design.Point{Z: lead.Height}).Z
	from.Z, to.Z = z, z
	offset := lead.Offset.Metres()
	switch lead.Side {
	case "under":
		offset = 0
	case "right":
		offset = -offset
	}
	pass := r3.Vec{Y: offset, Z: z}
	if from.X*to.X < 0 && r3.Norm(r3.Sub(pass, from)) > 1e-3 && r3.Norm(r3.Sub(pass, to)) > 1e-3 {
		return []r3.Vec{from, pass, to}
	}
	return []r3.Vec{from, to}
}

func (s *subject) neighbour(name string) (design.Neighbour, bool) {
	for _, n := range s.doc.Airframe.Neighbours {
		if n.Name == name {
			return n, true
		}
	}
	return design.Neighbour{}, false
}

// placement turns the document's tolerances into the engine's options, where 0 would mean the default and not none.
func (s *subject) placement() magnetic.HeadingOptions {
	none := func(x float64) float64 {
		if x == 0 {
			return -1
		}
		return x
	}
	a := s.doc.Assume
	return magnetic.HeadingOptions{
		Sideways: none(a.PlacementSide.Metres()), Roll: none(a.PlacementRoll.Radians()), Gap: none(a.PlacementGap.Fraction()),
	}
}

// swing returns the worst heading error in degrees in a state, with the compass moved up by rise (m) and the leads changed by
// edit, which may be nil.
func (s *subject) swing(t state, rise float64, edit func([]magnetic.Lead)) (magnetic.HeadingError, error) {
	leads, err := s.leads(t)
	if err != nil {
		return magnetic.HeadingError{}, err
	}
	if edit != nil {
		edit(leads)
	}
	at, options := r3.Add(s.compass, r3.Vec{Z: rise}), s.placement()
	compute := func() (magnetic.HeadingError, error) {
		s.work.Fields++
		return magnetic.Heading(leads, at, s.earth.Elements, options)
	}
	if edit != nil {
		return compute() // a lever is tried once
	}
	return s.shop.headings.take(keyOf(leads, at, s.earth.Elements, options), compute)
}

func degrees(radians float64) float64 { return radians * 180 / math.Pi }

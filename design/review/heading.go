package review

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"mastwright/design/magnetic"
)

// The heights in mm over which the heading error is followed.
const (
	lowestHeight  = 30
	highestHeight = 200
)

// FieldPoint is the heading error at a height of the mast.
type FieldPoint struct {
	Height              float64 // mm
	Hover, Cruise, Full float64 // deg, worst over yaw and placement
	HoverChange         float64 // µT, horizontal, as drawn
	FullChange          float64
}

// HeightNeeded is where the heading error passes a limit as the mast grows.
type HeightNeeded struct {
	State  string  // state of flight
	Limit  float64 // deg
	Always bool    // met at every height looked at
	Never  bool
	At     []float64 // mm, every crossing in order
}

// Lever is a change of one lead that lowers the heading error, solved for the limit where it can meet it.
type Lever struct {
	Lead   string
	State  string // of flight, in which the swing is Before and would be After
	Path   string
	To     string  // what the field becomes, as the document writes it
	Before float64 // deg
	After  float64
	Meets  bool
	Field  []FieldPoint // the error over height with the lever pulled; of the best three only
}

// Compass is what the leads do to the heading.
type Compass struct {
	Declination, Dip       float64 // deg
	Horizontal, Total      float64 // µT
	DeclinationUncertainty float64 // deg
	Field                  []FieldPoint
	Heights                []HeightNeeded
	Levers                 []Lever
}

// heading judges the swing of the compass under throttle.
func (s *subject) heading() Verdict {
	if missing := s.lacks("site.latitude", "site.longitude", "site.year", "leads[].currents.hover", "leads[].currents.cruise", "leads[].currents.full"); missing != nil {
		return lacking("it needs the place on earth and what the leads carry", missing...)
	}
	if s.earthError != nil {
		return lacking(s.earthError.Error(), "site.latitude", "site.year")
	}
	var figures []Figure
	var errors [3]magnetic.HeadingError
	for _, t := range []state{hover, cruise, full} {
		e, err := s.swing(t, 0, nil)
		if err != nil {
			return lacking(err.Error(), "leads")
		}
		errors[t] = e
		limit := s.swingLimit(t)
		figures = append(figures, spread("swing in "+t.String(), degrees(e.Worst.Error), degrees(e.Nominal.Error), degrees(e.Worst.Error), "°", &limit))
	}
	for _, t := range []state{hover, full} {
		figures = append(figures, fixed("change of total field, "+t.String(), errors[t].Nominal.Share*100, "%", nil))
	}
	v := judged(figures...)
	worst := cruise
	switch v.Figure.Name {
	case figures[hover].Name:
		worst = hover
	case figures[full].Name:
		worst = full
	}
	e := errors[worst]
	lead := e.Leads[0]
	for _, c := range e.Leads {
		if c.Share > lead.Share {
			lead = c
		}
	}
	v.Because = fmt.Sprintf("in %s the lead %q swings the compass most; %.3g° at the worst heading and placement", worst, lead.Name, degrees(e.Worst.Error))
	for i, word := range []string{"north", "east", "south", "west"} {
		v.Figures = append(v.Figures, fixed("error with the nose "+word+", "+worst.String(), degrees(e.Nominal.Compass[i]), "°", nil))
	}
	for _, c := range e.Leads {
		v.Figures = append(v.Figures, fixed("from "+c.Name+" alone, "+worst.String(), degrees(c.Error), "°", nil))
	}
	v.Formula = fmt.Sprintf("ΔB %.3g µT across H %.3g µT: asin(%.3g / %.3g) = %.3g° as drawn, %.3g° at the worst placement",
		e.Nominal.Horizontal*1e6, s.earth.H*1e6, e.Nominal.Horizontal*1e6, s.earth.H*1e6, degrees(e.Nominal.Error), degrees(e.Worst.Error))
	v.Notes = append(v.Notes, s.leadNotes()...)
	if s.earth.Zone != magnetic.Usable {
		v.Notes = append(v.Notes, s.earth.Zone.Advice())
	}
	return v
}

// swingLimit returns the limit of the swing in a state, deg: position is held in hover and cruise, full throttle comes in bursts.
func (s *subject) swingLimit(t state) Limit {
	l := s.doc.Limits.HeadingHold
	if t == full {
		l = s.doc.Limits.HeadingFull
	}
	return Limit{AtMost, l.Pass.Degrees(), l.Marginal.Degrees()}
}

// leadNotes says for each lead how its field is known.
func (s *subject) leadNotes() []string {
	var notes []string
	for i, lead := range s.doc.Leads {
		how := "its field is computed from its route"
		if lead.Given == "measured" {
			how = fmt.Sprintf("its field is the measured %.3g µT/A at %.0f mm, scaled to other heights", lead.Flux.MicroteslasPerAmpere(), lead.MeasuredHeight.Millimetres())
		} else if lead.Given == "loop" {
			how = "its field is computed from the loop that its wire makes, as it is, without a loop factor"
		} else if lead.Given == "words" {
			how = fmt.Sprintf("its route is drawn from words (from %s to %s), %s", lead.From, lead.To, lead.Run)
			if line, ok := s.route(i); ok && len(line) == 2 && lead.Side != "under" && lead.Offset != 0 {
				how += "; both ends lie on one side of the mast, so its side and offset are not used"
			}
		}
		notes = append(notes, lead.Name+": "+how)
	}
	return notes
}

// Study follows the heading error over height and solves for what would meet the limits. It is not part of a check: it costs
// some hundred evaluations.
func (s *subject) study() (*Compass, error) {
	if s.lacks("site.latitude", "site.longitude", "site.year", "leads[].currents.hover", "leads[].currents.cruise", "leads[].currents.full") != nil || s.earthError != nil {
		return nil, nil
	}
	c := &Compass{
		Declination: degrees(s.earth.D), Dip: degrees(s.earth.I), Horizontal: s.earth.H * 1e6, Total: s.earth.F * 1e6,
		DeclinationUncertainty: degrees(s.earth.Uncertainty.D),
	}
	here := s.doc.Mast.Height.Millimetres()
	at := func(t state, height float64) (magnetic.HeadingError, error) {
		return s.swing(t, (height-here)/1e3, nil)
	}
	c.Field = s.overHeight(10, nil)
	for _, t := range []state{hover, cruise, full} {
		limit := s.swingLimit(t).Pass
		crossed, err := magnetic.Crossings(func(height float64) (float64, error) {
			e, err := at(t, height)
			return degrees(e.Worst.Error), err
		}, lowestHeight, highestHeight, limit, magnetic.CrossingOptions{Samples: 24, Tolerance: 0.01})
		if err != nil {
			continue
		}
		need := HeightNeeded{State: t.String(), Limit: limit}
		for _, x := range crossed.Crossings {
			need.At = append(need.At, x.At)
		}
		need.Always = len(need.At) == 0 && crossed.Within
		need.Never = len(need.At) == 0 && !crossed.Within
		c.Heights = append(c.Heights, need)
	}
	levers, err := s.levers()
	if err != nil {
		return nil, err
	}
	c.Levers = levers
	return c, nil
}

// overHeight follows the heading error over height in steps of mm, with the leads changed by edit, which may be nil. Heights at which the
// compass would stand inside a conductor are left out.
func (s *subject) overHeight(step float64, edit func([]magnetic.Lead)) []FieldPoint {
	var points []FieldPoint
	here := s.doc.Mast.Height.Millimetres()
	for height := float64(lowestHeight); height <= highestHeight; height += step {
		var e [3]magnetic.HeadingError
		var err error
		for _, t := range []state{hover, cruise, full} {
			if e[t], err = s.swing(t, (height-here)/1e3, edit); err != nil {
				break
			}
		}
		if err != nil {
			continue
		}
		points = append(points, FieldPoint{
			Height: height,
			Hover:  degrees(e[hover].Worst.Error), Cruise: degrees(e[cruise].Worst.Error), Full: degrees(e[full].Worst.Error),
			HoverChange: e[hover].Nominal.Horizontal * 1e6, FullChange: e[full].Nominal.Horizontal * 1e6,
		})
	}
	return points
}

// levers tries, for each lead with a route, what binding it closer, stacking or laying it flat, twisting it, or moving it aside would do to
// the swing in the state that is nearest to failing.
func (s *subject) levers() ([]Lever, error) {
	worst, before, limit, farthest := hover, 0.0, 0.0, -1.0
	for _, t := range []state{hover, cruise, full} {
		e, err := s.swing(t, 0, nil)
		if err != nil {
			return nil, err
		}
		limits := s.swingLimit(t)
		if d := degrees(e.Worst.Error); limits.Place(d) > farthest {
			worst, before, limit, farthest = t, d, limits.Pass, limits.Place(d)
		}
	}
	type pulled struct {
		Lever
		edit func([]magnetic.Lead)
	}
	var levers []pulled
	for i, lead := range s.doc.Leads {
		if lead.Given == "measured" || lead.Given == "loop" {
			continue
		}
		with := func(edit func(*magnetic.Lead)) func(float64) (float64, error) {
			return func(float64) (float64, error) {
				e, err := s.swing(worst, 0, func(l []magnetic.Lead) { edit(&l[i]) })
				return degrees(e.Worst.Error), err
			}
		}
		try := func(path, to string, edit func(*magnetic.Lead)) {
			after, err := with(edit)(0)
			if err == nil && after < before {
				levers = append(levers, pulled{
					Lever{Lead: lead.Name, State: worst.String(), Path: fmt.Sprintf("leads[%d].%s", i, path), To: to, Before: before, After: after, Meets: after <= limit},
					func(l []magnetic.Lead) { edit(&l[i]) },
				})
			}
		}
		touching := lead.Conductor.Metres()
		spacing := lead.Spacing.Metres()
		if lead.Run != "twisted" && spacing > touching {
			crossed, err := magnetic.Crossings(func(x float64) (float64, error) {
				return with(func(l *magnetic.Lead) { l.Pair.Spacing = x })(x)
			}, touching, spacing, limit, magnetic.CrossingOptions{Samples: 8, Tolerance: 1e-4})
			to := touching
			if err == nil && len(crossed.Crossings) > 0 {
				to = math.Max(touching, math.Floor(crossed.Crossings[len(crossed.Crossings)-1].At*2e3)/2e3)
			}
			try("spacing", fmt.Sprintf("%.4g mm", to*1e3), func(l *magnetic.Lead) { l.Pair.Spacing = to })
		}
		for _, run := range []string{"side by side", "stacked"} {
			if run != lead.Run {
				try("run", run, func(l *magnetic.Lead) { l.Pair.Lay = lay(run) })
			}
		}
		if lead.Run != "twisted" {
			pitch := math.Max(0.025, 8*touching)
			try("pitch", fmt.Sprintf("%.4g mm", pitch*1e3), func(l *magnetic.Lead) { l.Pair.Lay, l.Pair.Pitch = magnetic.Twisted, pitch })
		}
		if lead.Given == "words" {
			for _, aside := range []float64{0.02, 0.04, 0.06} {
				to := lead
				to.Side, to.Offset = "left", lead.Offset
				if lead.Side == "right" {
					to.Side = "right"
				}
				to.Offset += mm(aside)
				from, _ := s.neighbour(lead.From)
				end, _ := s.neighbour(lead.To)
				route := s.wordedRoute(to, s.at(from.At), s.at(end.At))
				if len(route) == 3 {
					try("offset", to.Offset.String(), func(l *magnetic.Lead) { l.Pair.Centre = route })
				}
			}
		}
	}
	slices.SortStableFunc(levers, func(a, b pulled) int { return cmp.Compare(a.After, b.After) })
	list := make([]Lever, len(levers))
	for i, l := range levers {
		list[i] = l.Lever
		if i < 3 {
			list[i].Field = s.overHeight(20, l.edit)
		}
	}
	return list, nil
}

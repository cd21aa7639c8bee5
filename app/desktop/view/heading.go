package view

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot/pen"
	"mastwright/design"
	"mastwright/design/review"
)

// swingCurve is the swing of the compass against the mast's height, in the state of flight that decides.
type swingCurve struct {
	model  *Model
	limit  review.Limit
	value  float64 // deg, at the present height
	points []swingPoint
	lead   string // which swings it most, in words
	wire   r3.Vec // a point of it near the mast
	wired  bool

	curve, area []pen.Spot
}

type swingPoint struct{ height, swing float64 } // mm, deg

const (
	swingStep    = 2.0 // mm between two points of the curve
	leastUpright = 0.3 // of a height that is still seen: below, the swing does not hang beside the mast
)

func (s *swingCurve) ready(m *Model) {
	if s.model == m {
		return
	}
	*s = swingCurve{model: m}
	v, ok := m.result.Verdict("heading")
	if !ok || m.result.Compass == nil || v.Figure.Limit == nil {
		return
	}
	s.limit, s.value = *v.Figure.Limit, v.Figure.Value
	pick := func(p review.FieldPoint) float64 { return p.Cruise }
	switch {
	case strings.HasSuffix(v.Figure.Name, "hover"):
		pick = func(p review.FieldPoint) float64 { return p.Hover }
	case strings.HasSuffix(v.Figure.Name, "full throttle"):
		pick = func(p review.FieldPoint) float64 { return p.Full }
	}
	var heights, swings []float64
	for _, p := range m.result.Compass.Field {
		heights, swings = append(heights, p.Height), append(swings, pick(p))
	}
	var curve interp.FritschButland
	if len(heights) < 2 || curve.Fit(heights, swings) != nil {
		return
	}
	last := heights[len(heights)-1]
	for h := heights[0]; h <= last; h += swingStep {
		s.points = append(s.points, swingPoint{h, curve.Predict(h)})
	}
	s.nameLead()
}

// nameLead finds the lead that swings the compass most and a point of it beside the mast.
func (s *swingCurve) nameLead() {
	lead, ok := s.model.worstLead()
	if !ok {
		return
	}
	switch {
	case lead.Given == "measured":
		s.lead = lead.Name
	case lead.Run == "twisted":
		s.lead = lead.Name + ", twisted"
	default:
		s.lead = fmt.Sprintf("%s, %.1f mm apart", lead.Name, lead.Spacing.Millimetres())
	}
	s.wire, s.wired = s.model.worstWire()
}

// worstLead returns the lead that swings the compass most.
func (m *Model) worstLead() (worst design.Lead, found bool) {
	v, _ := m.result.Verdict("heading")
	most := 0.0
	for _, f := range v.Figures {
		for _, lead := range m.doc.Leads {
			if strings.HasPrefix(f.Name, "from "+lead.Name+" alone") && f.Value > most {
				most, worst, found = f.Value, lead, true
			}
		}
	}
	return worst, found
}

// worstWire returns the point nearest to the mast of the lead that swings the compass most.
func (m *Model) worstWire() (r3.Vec, bool) {
	lead, ok := m.worstLead()
	for _, w := range m.result.Wires {
		if ok && w.Lead == lead.Name && len(w.Red) > 1 {
			return nearest(w.Red, r3.Vec{Z: w.Red[0].Z}), true
		}
	}
	return r3.Vec{}, false
}

// drawHeading hangs the swing beside the mast: every height of the curve is that height of the mast.
func (f *frame) drawHeading() {
	s := &f.swings
	s.ready(f.model)
	if len(s.points) == 0 || math.Cos(f.camera.Elevation) < leastUpright {
		return
	}
	width, height := f.size()
	tray, _ := f.model.doc.TraySize()
	seat := f.spot(f.model.assembly.Seat)
	reach := 0.5 * math.Hypot(tray.X.Millimetres(), tray.Y.Millimetres()) * f.mmWide()
	zero := math.Round(seat.X - reach - 16)
	room := min(zero-56, 170)
	if room < 24 {
		return
	}
	k := room / max(1.2*s.limit.Pass, 1.3*s.value) // pixels a degree
	perMM := f.spot(r3.Vec{}).Y - f.spot(r3.Vec{Z: 1}).Y
	at := func(p swingPoint) pen.Spot {
		return pen.Spot{X: zero - min(p.swing*k, room), Y: f.spot(r3.Vec{}).Y - p.height*perMM}
	}
	curve := s.curve[:0]
	begin, state := 0, review.NoData
	lane := func(to int) {
		if to > begin {
			s.area = append(append(s.area[:0], pen.Spot{X: zero, Y: curve[begin].Y}), curve[begin:to+1]...)
			s.area = append(s.area, pen.Spot{X: zero, Y: curve[to].Y})
			f.pen.Area(s.area, fade(f.colours.of(look.BarRole(state)), 0.34))
		}
		begin = to
	}
	for _, p := range s.points {
		spot := at(p)
		if spot.Y < 46 || spot.Y > height-78 {
			continue
		}
		curve = append(curve, spot)
		if now := s.limit.State(p.swing); now != state {
			lane(len(curve) - 1)
			state = now
		}
	}
	s.curve = curve
	if len(curve) < 2 {
		return
	}
	lane(len(curve) - 1)
	bottom, top := curve[0].Y, curve[len(curve)-1].Y
	ink, act := f.colours.of(look.Ink), f.colours.of(look.Act)
	f.stroke(zero, top, zero, bottom, inked(1, f.colours.of(look.Second)))
	letters := pen.Letters{Font: look.Caption, Colour: ink, Align: pen.Middle}
	edge := f.scaleMark(math.Inf(1), zero, bottom, "0", letters)
	good := math.Round(zero - s.limit.Pass*k)
	f.stroke(good, top, good, bottom, pen.Stroke{Width: 1, Colour: ink, Dash: 3})
	edge = f.scaleMark(edge, good, bottom, fmt.Sprintf("%.3g°", s.limit.Pass), letters)
	if bad := math.Round(zero - s.limit.Marginal*k); bad >= zero-room {
		f.stroke(bad, top, bad, bottom, inked(2, ink))
		f.scaleMark(edge, bad, bottom, fmt.Sprintf("%.3g°", s.limit.Marginal), letters)
	}
	within := 0
	for within < len(curve)-2 && curve[within+1].X <= zero-room { // off the scale
		within++
	}
	f.pen.Line(curve[within:], inked(1.8, ink))
	here := at(swingPoint{f.model.assembly.Seat.Z, s.value})
	if here.Y >= top && here.Y <= bottom {
		f.stroke(here.X, here.Y, seat.X-0.6*reach, here.Y, pen.Stroke{Width: 1.4, Colour: act, Dash: 3})
		f.pen.Area(pen.Disc(here, 4), act)
		f.label(here.Plus(-9, 0), fmt.Sprintf("%.3g°", s.value), pen.Letters{Font: look.Strong, Colour: act, Align: pen.Right})
	}
	if wire := f.spot(s.wire); s.wired && wire.X > 0 && wire.Y > 0 && wire.X < width && wire.Y < height {
		plate := f.label(pen.Spot{X: min(wire.X+40, width-12), Y: wire.Y + 46}, s.lead, letters)
		f.leader(plate, wire, ink)
	}
}

func (f *frame) stroke(x0, y0, x1, y1 float64, s pen.Stroke) {
	f.pen.Line([]pen.Spot{{X: x0, Y: y0}, {X: x1, Y: y1}}, s)
}

// scaleMark writes a figure under the swing's scale, left of an edge, and returns the edge for the next.
func (f *frame) scaleMark(edge, x, bottom float64, text string, l pen.Letters) float64 {
	plate := pen.PlateOf(&f.pen, pen.Spot{X: x, Y: bottom + 12}, text, l)
	plate.X = min(plate.X, edge-plate.W)
	f.pen.Area(pen.Box(plate, 3), f.colours.plate())
	pen.Inside(&f.pen, plate, text, l)
	f.taken = append(f.taken, plate)
	return plate.X
}

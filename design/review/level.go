package review

import (
	"fmt"
	"math"

	"mastwright/design/magnetic"
	"mastwright/design/parts"
	"mastwright/materials/hardware"
)

// level judges the tilt of the receiver in hover and the heading error that follows from it where the earth's field dips.
func (s *subject) level() Verdict {
	if missing := s.lacks("site.latitude", "site.longitude", "site.year"); missing != nil {
		return lacking("what a tilt costs depends on the dip of the earth's field at the site", missing...)
	}
	if s.earthError != nil {
		return lacking(s.earthError.Error(), "site.latitude", "site.year")
	}
	face := math.Atan(math.Hypot(math.Tan(s.place.SlopeForward.Radians()), math.Tan(s.place.SlopeLeft.Radians())))
	tilt := face
	if s.doc.Foot.Wedge == "level" {
		tilt = 0
	}
	rest := s.leanAtRest()
	tilt += rest
	wrong := magnetic.TiltError(s.earth.I, tilt)
	limits := s.doc.Limits
	v := judged(
		fixed("heading error from tilt", degrees(wrong), "°", &Limit{AtMost, limits.Level.Pass.Degrees(), limits.Level.Marginal.Degrees()}),
		fixed("tilt of the receiver", degrees(tilt), "°", &Limit{AtMost, limits.Tilt.Pass.Degrees(), limits.Tilt.Marginal.Degrees()}),
		fixed("slope of the face", degrees(face), "°", nil),
		fixed("lean at rest", degrees(rest), "°", nil),
	)
	v.Because = fmt.Sprintf("the face slopes by %.1f° and the foot has no wedge", degrees(face))
	switch {
	case face == 0:
		v.Because = "the face is level in hover"
	case s.doc.Foot.Wedge == "level":
		v.Because = fmt.Sprintf("the foot's wedge takes up the face's %.1f°", degrees(face))
	}
	v.Formula = fmt.Sprintf("asin(min(1, tan %.1f° × tan %.2f°)) = %.2f°", degrees(s.earth.I), degrees(tilt), degrees(wrong))
	if play, radius := s.yawPlay(); play > 0 {
		v.Figures = append(v.Figures, fixed("yaw play of the foot's holes", degrees(play), "°", nil))
		v.Notes = append(v.Notes, fmt.Sprintf("hole clearance lets the foot turn by %.2f° either way on holes %.1f mm from its middle: drill to fit, pin it, or mark it once it points forward",
			degrees(play), radius*1e3))
	}
	for _, j := range s.spine.joints {
		if j.kind == parts.Sleeve && len(s.assembly.Pads) == 0 {
			v.Figures = append(v.Figures, fixed("yaw play of the "+j.name, degrees(math.Atan(2*j.play/j.width)), "°", nil))
		}
	}
	return v
}

// yawPlay returns the angle in rad by which the clearance of the frame's and the foot's holes lets the foot turn, and the mean
// distance of the holes from their middle in m.
func (s *subject) yawPlay() (play, radius float64) {
	size, err := hardware.ParseSize(s.place.Screw)
	if err != nil || len(s.holes) == 0 {
		return 0, 0
	}
	for _, h := range s.holes {
		radius += math.Hypot(h.X.Metres(), h.Y.Metres()) / float64(len(s.holes))
	}
	if radius == 0 {
		return 0, 0
	}
	clearance := (s.place.Holes.Diameter.Metres() - size.Diameter().Metres()) / 2
	clearance += (s.footHole() - size.Diameter().Metres()) / 2
	return math.Max(0, clearance) / radius, radius
}

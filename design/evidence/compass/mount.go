package compass

import (
	"fmt"
	"math"

	"mastwright/design/evidence/bench"
)

// mount holds the compass's axes, a row each, in those of the aircraft: x forward, y right, z down.
type mount [3][3]float64

// mount is the mounting of a turn: the arrow points by the angle to the right of the nose.
func (t turn) mount() mount {
	s, c := math.Sincos(t.angle)
	if t.up {
		return mount{{c, s, 0}, {-s, c, 0}, {0, 0, 1}}
	}
	return mount{{c, s, 0}, {s, -c, 0}, {0, 0, -1}}
}

// mirrored has the upright axis the wrong way round.
func (m mount) mirrored() mount {
	for i := range m[2] {
		m[2][i] = -m[2][i]
	}
	return m
}

// shown is the heading that a flight controller makes of the compass as if it were mounted straight, with the nose pitched
// down, in a field of the given dip. Facing along with nothing across it is 0.
func (m mount) shown(nose, down, dip float64) float64 {
	sn, cn := math.Sincos(nose)
	sp, cp := math.Sincos(down)
	h, z := math.Cos(dip), math.Sin(dip)
	ahead, right := h*cn, -h*sn
	body := [3]float64{ahead*cp + z*sp, right, z*cp - ahead*sp}
	var read [3]float64
	for i, row := range m {
		read[i] = row[0]*body[0] + row[1]*body[1] + row[2]*body[2]
	}
	return turned(math.Atan2(-read[1], read[0]*cp-read[2]*sp))
}

// onSide describes the sixteen mountings along the aircraft's axes with the compass on its side that fit level readings. It
// needs the dip.
func onSide(level []Reading, o PointingOptions) []string {
	if o.Dip == 0 {
		return nil
	}
	var fit []string
	for x := range 6 {
		for z := range 6 {
			if x%3 == z%3 || z%3 == 2 {
				continue // one axis twice, or lying flat
			}
			var m mount
			m[0][x%3], m[2][z%3] = sign(x), sign(z)
			m[1] = cross(m[2], m[0])
			worst := 0.0
			for _, r := range level {
				worst = max(worst, math.Abs(wrap(r.Shown-m.shown(r.Nose, 0, o.Dip))))
			}
			if worst <= o.Tolerance {
				fit = append(fit, fmt.Sprintf("its arrow points %s, its underside %s", toward(m[0]), toward(m[2])))
			}
		}
	}
	return fit
}

func sign(i int) float64 {
	if i < 3 {
		return 1
	}
	return -1
}

func cross(a, b [3]float64) [3]float64 {
	return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

func toward(v [3]float64) string {
	words := [3][2]string{{"forward", "to the rear"}, {"right", "left"}, {"down", "up"}}
	for i, c := range v {
		if c > .5 {
			return words[i][0]
		}
		if c < -.5 {
			return words[i][1]
		}
	}
	return "askew"
}

// compose adds what the flight controller was set to and says it all in words.
func (p *Pointing) compose(found turn, count int, o PointingOptions) {
	total := turn{angle: found.angle + o.SetTurn, up: !o.SetUpsideDown}
	if !found.up {
		total = turn{angle: found.angle - o.SetTurn, up: o.SetUpsideDown}
	}
	// A hand points a nose to within 5 degrees: common practice, no source.
	plus := 2 * max(found.root, 5*degree) / math.Sqrt(float64(count))
	if count > 2 {
		plus = max(plus, bench.Student(count-1)*found.root/math.Sqrt(float64(count-1)))
	}
	p.Angle, p.RightWayUp = bench.Around(wrap(total.angle), plus), total.up
	p.TurnDeg = 45 * int(math.Round(p.Angle.Value/degree/45))
	if p.TurnDeg == -180 {
		p.TurnDeg = 180
	}
	p.Mounting = inWords(p.TurnDeg, total.up)
	same := turn{angle: o.SetTurn, up: !o.SetUpsideDown}
	switch set := int(math.Round(wrap(o.SetTurn) / degree)); {
	case same.up == total.up && math.Abs(wrap(float64(p.TurnDeg-set)*degree)) < 1*degree:
		p.Correction = "nothing to correct: the flight controller is set to how the compass is mounted"
	case p.TurnDeg == 0 && total.up:
		p.Correction = "tell the flight controller that the compass is mounted straight; right way up"
	case !total.up:
		p.Correction = "tell the flight controller that the compass is " + p.Mounting + "; or mount it right way up with its arrow forward"
	default:
		p.Correction = fmt.Sprintf("tell the flight controller that the compass is %s; or turn it by %s seen from above and set nothing", p.Mounting, clockwise(-p.TurnDeg))
	}
	p.say(found, o)
}

func (p *Pointing) say(found turn, o PointingOptions) {
	words := []string{"the compass is " + p.Mounting, p.Correction}
	off := wrap(p.Angle.Value - float64(p.TurnDeg)*degree)
	if by := math.Abs(off); by > 10*degree {
		way := "clockwise"
		if off < 0 {
			way = "anticlockwise"
		}
		words = append(words, fmt.Sprintf("it lies %.0f° farther %s than that: loosen it and turn it back, or look for steel near by", by/degree, way))
	}
	if !found.up && !p.Proved {
		wrong, right := found.mount().mirrored().shown(math.Pi/2, math.Pi/4, o.Dip), found.mount().shown(math.Pi/2, math.Pi/4, o.Dip)
		s := "mirrored axes would look the same as turned over: read it with the nose to the east and 45° down"
		if o.Dip != 0 && math.Abs(wrap(wrong-right)) > 2*o.Tolerance {
			s += fmt.Sprintf("; this mounting then shows about %.0f°, mirrored axes %.0f°", right/degree, wrong/degree)
		}
		words = append(words, s)
	}
	if o.NoseNorth == o.ShownNorth {
		words = append(words, fmt.Sprintf("nose and shown headings both count from %v", o.NoseNorth))
	} else {
		words = append(words, fmt.Sprintf("the nose was turned by %v, the shown headings count from %v; the declination of %.1f° was taken off", o.NoseNorth, o.ShownNorth, o.Declination/degree))
	}
	p.Words = append(words, p.Words...)
}

func inWords(turnDeg int, up bool) string {
	way := "right way up"
	if !up {
		way = "upside down"
	}
	if turnDeg == 0 {
		return "pointing forward; " + way
	}
	return "turned by " + clockwise(turnDeg) + " seen from above; " + way
}

func clockwise(turnDeg int) string {
	switch {
	case turnDeg == 180 || turnDeg == -180:
		return "180 degrees"
	case turnDeg < 0:
		return fmt.Sprintf("%d degrees anticlockwise", -turnDeg)
	}
	return fmt.Sprintf("%d degrees clockwise", turnDeg)
}

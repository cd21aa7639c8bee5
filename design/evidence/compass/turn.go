package compass

import (
	"fmt"
	"math"
	"slices"

	"mastwright/design/evidence/bench"
)

// TurnOptions say what is known of site and record.
type TurnOptions struct {
	Unit       string  // of the axes, one of Units; "" guesses
	Total      float64 // T, earth's field at the site; needed where the unit is not told
	Horizontal float64 // T, its horizontal part; 0 leaves the heading error out
	Calibrated bool    // the flight controller's calibration is in the record already; else an offset is to be expected
}

// Turned is what a compass saw while it was turned through all attitudes.
type Turned struct {
	Offset   [3]bench.Estimate `json:"offset_t"` // T, centre of the ellipsoid on the compass's axes
	Away     float64           `json:"away_t"`   // T, size of Offset
	Axes     [3]SemiAxis       `json:"axes"`     // longest first
	Radius   float64           `json:"radius_t"` // T, mean of the three
	OfField  float64           `json:"of_field"` // Radius over the earth's field; 0 when either is not known
	Residual float64           `json:"residual_t"`
	Rest     float64           `json:"residual_part"`         // Residual over Radius
	Share    float64           `json:"share"`                 // of the sphere seen
	Unit     Unit              `json:"unit"`                  // of the record
	Heading  float64           `json:"heading_rad,omitempty"` // worst heading error if the offset is left as it is; 0 when not known
	Says     string            `json:"says"`                  // good, usable, bad
	Causes   []bench.Cause     `json:"causes,omitempty"`      // the likeliest first
	Words    []string          `json:"words"`
}

// SemiAxis is one axis of the ellipsoid.
type SemiAxis struct {
	Scale bench.Estimate `json:"scale"` // over the mean radius
	Along [3]float64     `json:"along"` // unit vector on the compass's axes
}

// What an offset, a distortion and a residual may be, as parts of the field. Common practice, no source.
const (
	smallOffset, largeOffset        = .1, .5
	smallSkew, largeSkew            = .06, .2
	smallRest, largeRest            = .04, .1
	smallMisfit                     = .15
	leastShare, leastRows, mostRows = 1. / 3, 60, 20000
)

// Turn fits an ellipsoid to three axes that were logged while the compass was turned through all attitudes in a steady field.
// Less than a third of the sphere seen, a scatter that is no ellipsoid and saturated axes are refused. The share seen counts
// equal patches, between a hundred and four hundred on the sphere; a patch on the edge counts whole.
func Turn(axes [3][]float64, o TurnOptions) (Turned, error) {
	if err := sound(axes, leastRows); err != nil {
		return Turned{}, err
	}
	points := thin(axes)
	e, err := fitEllipsoid(points)
	if err != nil {
		return Turned{}, err
	}
	t := Turned{Share: e.share(points)}
	if t.Share < leastShare {
		return Turned{}, refuse("turn it about all three axes, also upside down, until every side has faced every way",
			"only %.0f %% of the sphere was seen; a third is the least that settles an ellipsoid", 100*t.Share)
	}
	lengths, along, spread := e.semiAxes()
	radius := math.Cbrt(lengths[0] * lengths[1] * lengths[2])
	if off := slices.Max(e.errors[6:]); off > .2*radius {
		return Turned{}, refuse("turn it further and more slowly", "the centre is known to %.0f %% of the field only", 100*off/radius)
	}
	if t.Unit, err = unitOf(o.Unit, radius, o.Total); err != nil {
		return Turned{}, err
	}
	size := t.Unit.Tesla
	for i := range 3 {
		t.Offset[i] = bench.Around(e.centre[i], 2*e.errors[6+i]).Times(size)
		t.Away = math.Hypot(t.Away, t.Offset[i].Value)
		t.Axes[i] = SemiAxis{bench.Around(lengths[i]/radius, 2*spread[i]/radius), along[i]}
	}
	t.Radius, t.Residual, t.Rest = radius*size, e.residual*radius*size, e.residual
	if o.Total > 0 && t.Unit.Name != "counts" {
		t.OfField = t.Radius / o.Total
	}
	if o.Horizontal > 0 {
		t.Heading = Swing(t.Away, o.Horizontal)
	}
	t.judge(o)
	return t, nil
}

// thin returns at most some number of rows as points, evenly taken.
func thin(axes [3][]float64) [][3]float64 {
	every := (len(axes[0]) + mostRows - 1) / mostRows
	var points [][3]float64
	for i := 0; i < len(axes[0]); i += every {
		points = append(points, [3]float64{axes[0][i], axes[1][i], axes[2][i]})
	}
	return points
}

// judge says what the ellipsoid means.
func (t *Turned) judge(o TurnOptions) {
	offset, skew := t.Away/t.Radius, t.Axes[0].Scale.Value/t.Axes[2].Scale.Value-1
	t.Says = "good"
	worse := func(value, small, large float64) bool {
		if value > large {
			t.Says = "bad"
		} else if value > small && t.Says == "good" {
			t.Says = "usable"
		}
		return value > small
	}
	if worse(offset, smallOffset, largeOffset) || o.Calibrated && offset > smallOffset/2 {
		magnet := bench.Cause{Why: "a magnetised screw, tool or loudspeaker close to the compass", Test: "change the screws near it for brass or plastic ones and turn again: the offset falls"}
		stale := bench.Cause{Why: "a calibration from before the mount was built", Test: "calibrate anew and turn again: the offset is gone"}
		own := bench.Cause{Why: "the sensor's own offset, which calibration takes out", Test: "turn the receiver alone, away from the aircraft: the offset stays"}
		switch {
		case o.Calibrated && offset <= largeOffset:
			t.Causes = append(t.Causes, stale, magnet)
		case o.Calibrated:
			t.Causes = append(t.Causes, magnet, stale)
		case offset > largeOffset:
			t.Causes = append(t.Causes, magnet, own)
		default:
			t.Causes = append(t.Causes, own, magnet)
		}
	}
	if worse(skew, smallSkew, largeSkew) {
		t.Causes = append(t.Causes, bench.Cause{Why: "steel near the compass that is not magnetised, such as standoffs or a battery case",
			Test: "turn the receiver alone, away from the aircraft: the ellipsoid becomes round"})
		if o.Calibrated {
			t.Causes = append(t.Causes, bench.Cause{Why: "a bad calibration: its scales do not fit", Test: "calibrate anew and turn again: the ellipsoid becomes round"})
		}
	}
	if worse(t.Rest, smallRest, largeRest) {
		t.Causes = append(t.Causes, bench.Cause{Why: "the field was not steady: turned near a car, a reinforced floor or a running motor, or with a watch or phone in the hand",
			Test: "repeat on open grass with bare hands: the residual falls"})
	}
	if t.OfField > 0 && worse(math.Abs(t.OfField-1), smallMisfit, 2*smallMisfit) {
		t.Causes = append(t.Causes, bench.Cause{Why: "the place was disturbed, or the scale of the sensor or of its unit is off", Test: "repeat 50 m away: the same radius speaks for the scale"})
	}
	say := func(format string, a ...any) { t.Words = append(t.Words, fmt.Sprintf(format, a...)) }
	say("%s", t.Unit.Said)
	say("%s: offset %.1f uT (%.0f %% of the field), longest over shortest axis %.3f, residual %.2f uT (%.1f %%), %.0f %% of the sphere seen",
		t.Says, 1e6*t.Away, 100*offset, 1+skew, 1e6*t.Residual, 100*t.Rest, 100*t.Share)
	if t.OfField > 0 {
		say("its radius of %.1f uT is %.0f %% of the earth's field at the site", 1e6*t.Radius, 100*t.OfField)
	}
	if t.Heading > 0 {
		say("left as it is the offset turns the heading by up to %.0f°", t.Heading/degree)
	}
}

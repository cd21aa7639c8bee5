package compass

import (
	"io"
	"math"
	"math/rand/v2"

	"mastwright/design/evidence/record"
)

// invented begins the first comment of every file made here.
const invented = record.InventedMark + ": made up for trying out, not measured"

// InventedThrottle describes the log of a flight to make up: current up in steps over a hover and climbs to full and down again, the
// nose held at magnetic north. It is the same for the same description.
type InventedThrottle struct {
	Slope   [3]float64 // T/A on the compass's axes; all 0 means 0.21, -0.12, 0.05 uT/A
	Field   [3]float64 // T, earth's on the compass's axes; all 0 means 20, 0, 44 uT
	Idle    float64    // A; 0 means 1.2
	Full    float64    // A; 0 means 60
	Noise   float64    // T, standard deviation of each sample; 0 means 0.4 uT
	Seconds float64    // 0 means 30
	Rate    float64    // samples a second; 0 means 50
	Seed    uint64
}

func (v InventedThrottle) whole() InventedThrottle {
	if v.Slope == ([3]float64{}) {
		v.Slope = [3]float64{.21e-6, -.12e-6, .05e-6}
	}
	if v.Field == ([3]float64{}) {
		v.Field = [3]float64{20e-6, 0, 44e-6}
	}
	or(&v.Idle, 1.2)
	or(&v.Full, 60)
	or(&v.Noise, .4e-6)
	or(&v.Seconds, 30)
	or(&v.Rate, 50)
	return v
}

// Log returns the log in tesla.
func (v InventedThrottle) Log() Log {
	v = v.whole()
	random := rand.New(rand.NewPCG(v.Seed, 1))
	var l Log
	n := int(v.Seconds * v.Rate)
	for i := range n {
		part := 1 - math.Abs(2*float64(i)/float64(n)-1)
		part = math.Round(8*part) / 8
		current := v.Idle + (v.Full-v.Idle)*math.Pow(part, 1.5)
		l.Throttle = append(l.Throttle, part)
		l.Current = append(l.Current, max(0, current*(1+.01*random.NormFloat64())))
		for a := range l.Axes {
			l.Axes[a] = append(l.Axes[a], v.Field[a]+v.Slope[a]*current+v.Noise*random.NormFloat64())
		}
	}
	return l
}

// Write writes the log as a table in seconds, microtesla and amperes.
func (v InventedThrottle) Write(w io.Writer) error {
	l := v.Log()
	v = v.whole()
	return writeAxes(w, v.Rate, l.Axes, []string{"current (A)", "throttle"}, l.Current, l.Throttle)
}

// InventedTurn describes a turn record to make up. It is the same for the same description.
type InventedTurn struct {
	Total  float64    // T; 0 means 48 uT
	Offset [3]float64 // T; all 0 means 6, -9, 4 uT
	Scale  [3]float64 // of the axes; all 0 means 1, 1.04, .97
	Noise  float64    // T, standard deviation of each sample; 0 means 0.4 uT
	Count  int        // samples; 0 means 1500
	Share  float64    // part of the sphere that is seen, a cap about z; 0 means all
	Seed   uint64
}

// Axes returns the three axes in tesla.
func (v InventedTurn) Axes() [3][]float64 {
	or(&v.Total, 48e-6)
	or(&v.Noise, .4e-6)
	or(&v.Share, 1)
	if v.Offset == ([3]float64{}) {
		v.Offset = [3]float64{6e-6, -9e-6, 4e-6}
	}
	if v.Scale == ([3]float64{}) {
		v.Scale = [3]float64{1, 1.04, .97}
	}
	if v.Count == 0 {
		v.Count = 1500
	}
	random := rand.New(rand.NewPCG(v.Seed, 2))
	var axes [3][]float64
	for i := range v.Count {
		z := 1 - 2*v.Share*(float64(i)+.5)/float64(v.Count)
		s, c := math.Sincos(2 * math.Pi * 25 * float64(i) / float64(v.Count))
		r := math.Sqrt(1 - z*z)
		for a, d := range []float64{r * c, r * s, z} {
			axes[a] = append(axes[a], v.Offset[a]+v.Total*v.Scale[a]*d+v.Noise*random.NormFloat64())
		}
	}
	return axes
}

// Write writes the record as a table in seconds and microtesla.
func (v InventedTurn) Write(w io.Writer) error { return writeAxes(w, 50, v.Axes(), nil) }

// InventedPointing describes headings to make up: level with the nose at north, east, south and west, then at east and 45
// degrees down. It is the same for the same description.
type InventedPointing struct {
	Turn       float64 // rad, of the arrow from the nose, clockwise seen from above
	UpsideDown bool
	Dip        float64 // rad; 0 means 65 degrees
	Noise      float64 // rad, standard deviation; 0 means 3 degrees
	Seed       uint64
}

// Readings returns the headings, from magnetic north.
func (v InventedPointing) Readings() []Reading {
	or(&v.Dip, 65*degree)
	or(&v.Noise, 3*degree)
	random := rand.New(rand.NewPCG(v.Seed, 3))
	m := turn{up: !v.UpsideDown, angle: v.Turn}.mount()
	var readings []Reading
	for i := range 5 {
		r := Reading{Nose: float64(i%4) * math.Pi / 2}
		if i == 4 {
			r.Nose, r.Down = math.Pi/2, math.Pi/4
		}
		r.Shown = turned(m.shown(r.Nose, r.Down, v.Dip) + v.Noise*random.NormFloat64())
		readings = append(readings, r)
	}
	return readings
}

// Write writes the headings as a table in degrees.
func (v InventedPointing) Write(w io.Writer) error {
	var nose, shown, down []float64
	for _, r := range v.Readings() {
		nose, shown, down = append(nose, math.Round(r.Nose/degree)), append(shown, math.Round(r.Shown/degree)), append(down, math.Round(r.Down/degree))
	}
	return record.WriteTable(w, invented, []string{"nose (deg)", "heading (deg)", "down (deg)"}, [][]float64{nose, shown, down})
}

func writeAxes(w io.Writer, rate float64, axes [3][]float64, names []string, more ...[]float64) error {
	table := [][]float64{make([]float64, len(axes[0]))}
	for i := range table[0] {
		table[0][i] = float64(i) / rate
	}
	for _, values := range axes {
		scaled := make([]float64, len(values))
		for i, b := range values {
			scaled[i] = 1e6 * b
		}
		table = append(table, scaled)
	}
	return record.WriteTable(w, invented, append([]string{"time (s)", "mag x (uT)", "mag y (uT)", "mag z (uT)"}, names...), append(table, more...))
}

func or(v *float64, usual float64) {
	if *v == 0 {
		*v = usual
	}
}

package strength

import (
	"fmt"
	"math"
)

// Loads are the figures the load cases are made of.
type Loads struct {
	Sideways float64 // of a manoeuvre, m/s²; 0 means 3 g
	Axial    float64 // along the mast from thrust over weight, m/s²; 0 means 5 g
	Hand     float64 // on the tray, N; 0 means 20
	TopSpeed float64 // m/s; 0 means 25
	Drag     float64 // coefficient of mast and receiver; 0 means 1.2
	Density  float64 // of the air, kg/m³; 0 means 1.225
	Azimuths int     // directions around; 0 means 24
}

// Case is one load on the mast, all parts at once.
type Case struct {
	Name     string
	Body     [3]float64 // on every mass, m/s² (N per kg)
	Pressure [3]float64 // on the area seen along it, drag coefficient included, Pa
	Hand     [3]float64 // at the tray, N
}

// Cases returns the load cases: sideways manoeuvre with drag the same way, one per
// azimuth; a hand at the tray, per azimuth level and 45 degrees up and down, and straight up
// and down; axial, pressing the mast down. A linear structure needs solving for
// unit loads only. Source: common practice.
func (l Loads) Cases() []Case {
	for _, f := range []struct {
		field *float64
		value float64
	}{{&l.Sideways, 3 * gravity}, {&l.Axial, 5 * gravity}, {&l.Hand, 20}, {&l.TopSpeed, 25}, {&l.Drag, 1.2}, {&l.Density, 1.225}} {
		if *f.field == 0 {
			*f.field = f.value
		}
	}
	if l.Azimuths <= 0 {
		l.Azimuths = 24
	}
	pressure := l.Drag * l.Density * l.TopSpeed * l.TopSpeed / 2
	var zero [3]float64
	var sideways, hand []Case
	for i := range l.Azimuths {
		azimuth := 2 * math.Pi * float64(i) / float64(l.Azimuths)
		s, c := math.Sincos(azimuth)
		way := [3]float64{c, s, 0}
		name := fmt.Sprintf("%.0f degrees", azimuth*180/math.Pi)
		sideways = append(sideways, Case{Name: "manoeuvre, " + name, Body: along(zero, l.Sideways, way), Pressure: along(zero, pressure, way)})
		for _, tilt := range []struct {
			name string
			rise float64
		}{{"", 0}, {", upwards", 1}, {", downwards", -1}} {
			way := unit([3]float64{c, s, tilt.rise})
			hand = append(hand, Case{Name: "hand, " + name + tilt.name, Hand: along(zero, l.Hand, way)})
		}
	}
	cases := append(sideways, hand...)
	return append(cases,
		Case{Name: "hand, up", Hand: [3]float64{0, 0, l.Hand}},
		Case{Name: "hand, down", Hand: [3]float64{0, 0, -l.Hand}},
		Case{Name: "axial", Body: [3]float64{0, 0, -l.Axial}},
	)
}

package strength_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"mastwright/design/strength"
)

func effective(t *testing.T, v strength.Vehicle, way [3]float64) float64 {
	t.Helper()
	m, err := v.EffectiveMass(way)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestEffectiveMass(t *testing.T) {
	// A uniform rod of length L struck across its end puts a quarter of its mass behind the blow, one struck
	// along itself all of it: centre of percussion, any mechanics textbook. L 1 m, 3 kg, I = M L²/12.
	v := strength.Vehicle{Mass: 3, Inertia: [3][3]float64{{.25, 0, 0}, {0, .25, 0}, {0, 0, 1e-6}}, Top: [3]float64{0, 0, .5}}
	near(t, "across the end", effective(t, v, [3]float64{1, 0, 0}), .75, 1e-12)
	near(t, "along the rod", effective(t, v, [3]float64{0, 0, -1}), 3, 1e-12)
	if _, err := (strength.Vehicle{Mass: 1, Top: [3]float64{0, 0, 1}}).EffectiveMass([3]float64{1, 0, 0}); err == nil {
		t.Error("no inertia: got no error")
	}
}

// strike integrates a free rigid body whose top runs at 1 m/s into a spring along a direction, and returns the
// spring's peak force: velocity Verlet on the six velocities, the inertia inverted by its cofactors.
func strike(v strength.Vehicle, way [3]float64, compliance float64) float64 {
	m := v.Inertia
	minor := func(a, b, c, d float64) float64 { return a*d - b*c }
	cof := [3][3]float64{
		{minor(m[1][1], m[1][2], m[2][1], m[2][2]), -minor(m[0][1], m[0][2], m[2][1], m[2][2]), minor(m[0][1], m[0][2], m[1][1], m[1][2])},
		{-minor(m[1][0], m[1][2], m[2][0], m[2][2]), minor(m[0][0], m[0][2], m[2][0], m[2][2]), -minor(m[0][0], m[0][2], m[1][0], m[1][2])},
		{minor(m[1][0], m[1][1], m[2][0], m[2][1]), -minor(m[0][0], m[0][1], m[2][0], m[2][1]), minor(m[0][0], m[0][1], m[1][0], m[1][1])},
	}
	det := m[0][0]*cof[0][0] + m[0][1]*cof[1][0] + m[0][2]*cof[2][0]
	r := sub(v.Top, v.CentreOfGravity)
	speed, spin, pressed, peak, dt := scaled(-1, way), [3]float64{}, 0.0, 0.0, 1e-6
	for {
		force := pressed / compliance
		peak = math.Max(peak, force)
		torque := scaled(force, outer(r, way))
		for k := range 3 {
			speed[k] += dt * force * way[k] / v.Mass
			spin[k] += dt * inner(cof[k], torque) / det
		}
		top := outer(spin, r)
		rate := -inner(way, speed) - inner(way, top)
		pressed += dt * rate
		if rate < 0 {
			return peak
		}
	}
}

func TestBlowAgainstIntegration(t *testing.T) {
	for seed := range uint64(2) {
		_, v := aircraft(seed)
		for _, way := range [][3]float64{{1, 0, 0}, {.48, .6, -.64}, {0, 0, -1}, {-.6, .8, 0}} {
			b := strength.Blow{Speed: 1, Mass: effective(t, v, way), Compliance: v.Along(way)}
			near(t, "peak force", b.Force(), strike(v, way, b.Compliance), 2e-3) // steps of 1 µs in 10 ms
		}
	}
}

// Turning the aircraft as a whole turns nothing else: same masses and speeds.
func TestDropsKeepTheirMassWhenTheAircraftTurns(t *testing.T) {
	links := func([3]float64) []strength.Link { return []strength.Link{{Name: "mast", Capacity: one(100)}} }
	rapid.Check(t, func(t *rapid.T) {
		_, v := aircraft(rapid.Uint64Range(0, 50).Draw(t, "seed"))
		turned := v // a quarter turn about z: x to y
		turn := func(p [3]float64) [3]float64 { return [3]float64{-p[1], p[0], p[2]} }
		turned.CentreOfGravity, turned.Top, turned.ArmEnds = turn(v.CentreOfGravity), turn(v.Top), nil
		for _, e := range v.ArmEnds {
			turned.ArmEnds = append(turned.ArmEnds, turn(e))
		}
		tensor := func(m [3][3]float64) [3][3]float64 {
			return [3][3]float64{{m[1][1], -m[1][0], -m[1][2]}, {-m[0][1], m[0][0], m[0][2]}, {-m[2][1], m[2][0], m[2][2]}}
		}
		turned.Inertia, turned.Compliance = tensor(v.Inertia), tensor(v.Compliance)
		a, _, err := strength.Drops(v, links, strength.Rule{}, strength.Grid{Polar: 3, Azimuth: 8})
		if err != nil {
			t.Fatal(err)
		}
		b, _, err := strength.Drops(turned, links, strength.Rule{}, strength.Grid{Polar: 3, Azimuth: 8})
		if err != nil {
			t.Fatal(err)
		}
		at := func(drops []strength.Drop, polar, azimuth int) strength.Drop {
			if polar == 0 {
				return drops[0]
			}
			return drops[1+(polar-1)*8+azimuth%8]
		}
		for polar := range 4 {
			for azimuth := range 8 {
				p, q := at(a, polar, azimuth), at(b, polar, azimuth+2)
				if math.Abs(p.Mass/q.Mass-1) > 1e-9 || math.Abs(p.Compliance/q.Compliance-1) > 1e-9 {
					t.Errorf("polar %d azimuth %d: %g kg, %g m/N; turned %g kg, %g m/N", polar, azimuth, p.Mass, p.Compliance, q.Mass, q.Compliance)
				}
				if !(p.Mass <= v.Mass*(1+1e-12)) {
					t.Errorf("effective mass %g above the aircraft's %g", p.Mass, v.Mass)
				}
			}
		}
	})
}

func TestDrops(t *testing.T) {
	_, v := aircraft(1)
	m := cantilever(bar(.012, .018), .1)
	m.Strength, m.Modulus = strength.Spread{Low: 25e6, Typical: 31e6, High: 43e6}, 1.7e9
	links := func(way [3]float64) []strength.Link { return []strength.Link{m.Link(way)} }
	drops, worst, err := strength.Drops(v, links, strength.Rule{}, strength.Grid{})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := len(drops), 1+6*24; got != want {
		t.Fatalf("drops: got %d, want %d", got, want)
	}
	for i, d := range drops {
		near(t, "direction", math.Sqrt(inner(d.Direction, d.Direction)), 1, 1e-12)
		near(t, "polar", d.Direction[2], -math.Cos(d.Polar), 1e-9)
		if d.Outcome.Typical.BreakHeight < drops[worst].Outcome.Typical.BreakHeight {
			t.Errorf("drop %d breaks from %g m, below the worst's %g", i, d.Outcome.Typical.BreakHeight, drops[worst].Outcome.Typical.BreakHeight)
		}
		if s := d.Outcome.Break(); !(s.Low < s.Typical && s.Typical < s.High) {
			t.Errorf("drop %d: break speeds %v are not in order", i, s)
		}
	}
	if drops[0].Direction != [3]float64{0, 0, -1} {
		t.Errorf("first drop: got %v, want straight on the mast", drops[0].Direction)
	}
	hard := v
	hard.Contact = strength.Hard
	near(t, "contact", v.Along([3]float64{0, 0, -1})-hard.Along([3]float64{0, 0, -1}), strength.Turf-strength.Hard, 1e-12)
	if _, _, err := strength.Drops(strength.Vehicle{}, links, strength.Rule{}, strength.Grid{}); err == nil {
		t.Error("empty vehicle: got no error")
	}
}

// A column of the 7-inch class on turf over materials: common practice, no source. Strength, modulus and
// elongation from data sheets. Lying prints take a blow along their layers, where toughness helps; upright
// ones across them, where it does not.
func TestTipOverOverMaterials(t *testing.T) {
	type material struct {
		E, elongation, low, typical, high float64 // MPa, fraction, MPa
	}
	lying := map[string]material{
		"PLA": {2600, .025, 23, 45, 55}, "PETG": {1850, .08, 33, 48, 52}, "CPE": {1800, 1.30, 40, 42, 44}, "ABS": {2200, .11, 30, 34, 44},
		"ASA": {2300, .09, 36, 41, 44}, "PC": {2310, .03, 58, 62, 75}, "acetal": {2800, .28, 64, 65, 67},
	}
	upright := map[string]material{"PLA": {2060, .009, 12, 28, 36}, "PETG": {1700, .033, 25, 31, 43}, "CPE": {1860, .039, 25, 28, 30}}
	ratio := func(m material) strength.Spread {
		v := square7(.03)
		// Hollow 18 mm square, 2.4 mm wall, as a uniform cantilever of 100 mm, half as soft again for taper, foot and plate.
		I := (math.Pow(.018, 4) - math.Pow(.0132, 4)) / 12
		C := 1.5 * .1 * .1 * .1 / (3 * m.E * 1e6 * I)
		v.Compliance = [3][3]float64{{C, 0, 0}, {0, C, 0}, {0, 0, 1e-6}}
		root := cantilever(strength.Section{Area: .018*.018 - .0132*.0132, Iy: I, Iz: I, Y: .009, Z: .009}, .11)
		root.Kt, root.Modulus, root.Elongation = 1.4, m.E*1e6, m.elongation
		root.Strength = strength.Spread{Low: m.low * 1e6, Typical: m.typical * 1e6, High: m.high * 1e6}
		root.Buckling = strength.Euler(m.E*1e6, I, .1, 2)
		falls, worst, err := strength.TipOver(v, func(way [3]float64) []strength.Link { return []strength.Link{root.Link(way)} }, strength.Rule{})
		if err != nil {
			t.Fatal(err)
		}
		return falls[worst].Ratio
	}
	pla := ratio(lying["PLA"]).Typical
	for _, name := range []string{"ABS", "ASA", "PC", "PETG"} {
		got := ratio(lying[name]).Typical
		t.Logf("%s %.2f", name, got)
		if !(pla < got && got < ratio(lying["CPE"]).Typical) {
			t.Errorf("lying %s: got %.2f, want between PLA's %.2f and CPE's %.2f", name, got, pla, ratio(lying["CPE"]).Typical)
		}
	}
	t.Logf("PLA %.2f CPE %.2f acetal %.2f", pla, ratio(lying["CPE"]).Typical, ratio(lying["acetal"]).Typical)
	if cpe, acetal := ratio(lying["CPE"]).Typical, ratio(lying["acetal"]).Typical; !(cpe < acetal) {
		t.Errorf("lying: CPE %.2f, acetal %.2f, want acetal above", cpe, acetal)
	}
	petg := ratio(upright["PETG"])
	t.Logf("upright PETG %.2f PLA %.2f CPE %.2f", petg, ratio(upright["PLA"]), ratio(upright["CPE"]))
	if petg.Typical < .9 || petg.Typical > 1.5 {
		t.Errorf("upright PETG: got %.2f times the topple speed, want .9 to 1.5", petg.Typical)
	}
	near(t, "upright CPE beside PETG", ratio(upright["CPE"]).Typical, petg.Typical, .15)
	if got := ratio(upright["PLA"]).Low; got >= .7 {
		t.Errorf("upright PLA at low strength: got %.2f, want below .7", got)
	}
}

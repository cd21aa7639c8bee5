package hardware_test

import (
	"math"
	"strings"
	"testing"

	"mastwright/design/units"
	"mastwright/materials/hardware"
)

// Dimensions in mm as the standards print them.
func TestDimensions(t *testing.T) {
	cases := []struct {
		standard string
		size     hardware.Size
		got      []units.Length
		want     []units.Length
	}{
		{"ISO 261 d, P", hardware.M2, thread(hardware.M2), mm(2, 0.4)},
		{"ISO 261 d, P", hardware.M2p5, thread(hardware.M2p5), mm(2.5, 0.45)},
		{"ISO 261 d, P", hardware.M3, thread(hardware.M3), mm(3, 0.5)},
		{"ISO 261 d, P", hardware.M4, thread(hardware.M4), mm(4, 0.7)},
		{"ISO 261 d, P", hardware.M5, thread(hardware.M5), mm(5, 0.8)},
		{"ISO 273 fine, medium, coarse", hardware.M2, holes(t, hardware.M2), mm(2.2, 2.4, 2.6)},
		{"ISO 273 fine, medium, coarse", hardware.M2p5, holes(t, hardware.M2p5), mm(2.7, 2.9, 3.1)},
		{"ISO 273 fine, medium, coarse", hardware.M3, holes(t, hardware.M3), mm(3.2, 3.4, 3.6)},
		{"ISO 273 fine, medium, coarse", hardware.M4, holes(t, hardware.M4), mm(4.3, 4.5, 4.8)},
		{"ISO 273 fine, medium, coarse", hardware.M5, holes(t, hardware.M5), mm(5.3, 5.5, 5.8)},
		{"ISO 4032 s, m max", hardware.M2, nut(hardware.M2), mm(4, 1.6)},
		{"ISO 4032 s, m max", hardware.M2p5, nut(hardware.M2p5), mm(5, 2)},
		{"ISO 4032 s, m max", hardware.M3, nut(hardware.M3), mm(5.5, 2.4)},
		{"ISO 4032 s, m max", hardware.M4, nut(hardware.M4), mm(7, 3.2)},
		{"ISO 4032 s, m max", hardware.M5, nut(hardware.M5), mm(8, 4.7)},
		{"ISO 4762 dk, k, s, t min", hardware.M2, head(t, hardware.M2, hardware.Socket), mm(3.8, 2, 1.5, 1)},
		{"ISO 4762 dk, k, s, t min", hardware.M2p5, head(t, hardware.M2p5, hardware.Socket), mm(4.5, 2.5, 2, 1.1)},
		{"ISO 4762 dk, k, s, t min", hardware.M3, head(t, hardware.M3, hardware.Socket), mm(5.5, 3, 2.5, 1.3)},
		{"ISO 4762 dk, k, s, t min", hardware.M4, head(t, hardware.M4, hardware.Socket), mm(7, 4, 3, 2)},
		{"ISO 4762 dk, k, s, t min", hardware.M5, head(t, hardware.M5, hardware.Socket), mm(8.5, 5, 4, 2.5)},
		{"ISO 7380-1 dk, k, s, t min", hardware.M3, head(t, hardware.M3, hardware.Button), mm(5.7, 1.65, 2, 1.04)},
		{"ISO 7380-1 dk, k, s, t min", hardware.M4, head(t, hardware.M4, hardware.Button), mm(7.6, 2.2, 2.5, 1.3)},
		{"ISO 7380-1 dk, k, s, t min", hardware.M5, head(t, hardware.M5, hardware.Button), mm(9.5, 2.75, 3, 1.56)},
		{"ISO 7089 d1, d2, h", hardware.M3, washer(hardware.M3), mm(3.2, 7, 0.5)},
		{"ISO 7089 d1, d2, h", hardware.M5, washer(hardware.M5), mm(5.3, 10, 1)},
	}
	for _, c := range cases {
		t.Run(c.standard+" "+c.size.String(), func(t *testing.T) {
			for i := range c.want {
				if c.got[i] != c.want[i] {
					t.Errorf("got %v, want %v", c.got, c.want)
				}
			}
		})
	}
}

// ISO 898-1: As = π/4 (d - 0.9382 P)², printed to three digits.
func TestStressArea(t *testing.T) {
	for _, s := range hardware.Sizes() {
		d := s.Diameter().Millimetres() - 0.9382*s.Pitch().Millimetres()
		if got, want := s.StressArea().SquareMillimetres(), math.Pi/4*d*d; math.Abs(got-want) > 0.002*want {
			t.Errorf("%s: got %v mm², want %v", s, got, want)
		}
	}
}

func TestNutAcrossCorners(t *testing.T) {
	// A regular hexagon's corners are its flats times 2/√3.
	for _, s := range hardware.Sizes() {
		nut := s.Nut()
		got, want := nut.AcrossCorners().Millimetres(), nut.AcrossFlats.Millimetres()*2/math.Sqrt(3)
		if math.Abs(got-want) > 1e-12 {
			t.Errorf("%s: got %v mm, want %v", s, got, want)
		}
	}
}

// What must fit into what, whatever the figures.
func TestPartsFit(t *testing.T) {
	for _, s := range hardware.Sizes() {
		hole := holes(t, s)
		insert := s.Insert()
		socket, err := s.Head(hardware.Socket)
		if err != nil {
			t.Fatal(err)
		}
		for name, fits := range map[string]bool{
			"the thread passes the holes":        s.Diameter() < hole[0] && hole[0] < hole[1] && hole[1] < hole[2],
			"the head covers the washer's hole":  socket.Diameter > s.Washer().Hole,
			"the nut covers the coarse hole":     s.Nut().AcrossFlats > hole[2],
			"the insert's bore takes the thread": insert.BoreLow > s.Diameter() && insert.BoreLow <= insert.BoreHigh,
			"the socket leaves a floor":          socket.Depth < socket.Height && socket.Key < socket.Diameter,
		} {
			if !fits {
				t.Errorf("%s: not true that %s", s, name)
			}
		}
	}
}

// Masses of steel parts in g from trade weight tables of DIN 912 (the
// dimensions of ISO 4762) and DIN 125 (those of ISO 7089 at M5). Tables round
// to 0.1 g from M3 on; sockets are deeper than their least depth and heads
// rounded, so real screws of the small sizes weigh less than our bound.
func TestMassAgainstTradeTables(t *testing.T) {
	steel := material(t, "steel")
	screw := func(s hardware.Size, length units.Length) units.Mass {
		m, err := hardware.Screw{Size: s, Head: hardware.Socket, Length: length}.Mass(steel)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	cases := []struct {
		name      string
		got       units.Mass
		want      float64
		tolerance float64
	}{
		{"M2 x 10", screw(hardware.M2, 10), 0.295, 0.20},
		{"M2.5 x 10", screw(hardware.M2p5, 10), 0.525, 0.12},
		{"M3 x 10", screw(hardware.M3, 10), 0.9, 0.12},
		{"M3 x 20", screw(hardware.M3, 20), 1.4, 0.12},
		{"M4 x 16", screw(hardware.M4, 16), 2.3, 0.12},
		{"M5 x 20", screw(hardware.M5, 20), 4.0, 0.12},
		{"M5 washer", hardware.WasherMass(hardware.M5, steel), 0.443, 0.002},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := c.got.Grams(); math.Abs(got-c.want) > c.tolerance*c.want {
				t.Errorf("got %v g, want %v within %v", got, c.want, c.tolerance)
			}
		})
	}
}

func TestMassOfOtherParts(t *testing.T) {
	// By hand: hexagon √3/2 s², bore π/4 (d - 0.6495 P)², brass 8.5 g/cm³,
	// M3: (26.19689 - 5.62091) mm² by 2.4 mm and by 20 mm.
	brass := material(t, "brass")
	if got, want := hardware.NutMass(hardware.M3, brass).Grams(), 0.41975; math.Abs(got-want) > 1e-4 {
		t.Errorf("M3 nut: got %v g, want %v", got, want)
	}
	if got, want := hardware.M3.Spacer(20).Mass(brass).Grams(), 3.49792; math.Abs(got-want) > 1e-3 {
		t.Errorf("M3 spacer of 20 mm: got %v g, want %v", got, want)
	}
	// A button head is lighter than the cylinder around it and heavier than the cone in it.
	screw := hardware.Screw{Size: hardware.M3, Head: hardware.Button, Length: 0}
	got, err := screw.Mass(brass)
	cylinder := math.Pi / 4 * 5.7 * 5.7 * 1.65 * 8.5e-3
	if err != nil || got.Grams() > 0.7*cylinder || got.Grams() < 0.2*cylinder {
		t.Errorf("M3 button head: got %v, %v, want 0.2 to 0.7 of %v g", got, err, cylinder)
	}
}

func TestLoads(t *testing.T) {
	cases := []struct {
		name      string
		got, want float64
		tolerance float64
	}{
		// ISO 898-1, class 8.8: minimum ultimate 4020 N at M3, 7020 N at M4; proof 2920 N (580 MPa) lies below yield.
		{"M3 steel breaks", hardware.M3.BreakingLoad(material(t, "steel")).Newtons(), 4020, 0.002},
		{"M4 steel breaks", hardware.M4.BreakingLoad(material(t, "steel")).Newtons(), 7020, 0.002},
		{"M3 steel stretches", hardware.M3.YieldLoad(material(t, "steel")).Newtons(), 3219.2, 1e-12},
		// A fastener catalogue, PA66.
		{"M3 nylon breaks", hardware.M3.BreakingLoad(material(t, "nylon")).Newtons(), 200, 0},
		{"M4 nylon breaks", hardware.M4.BreakingLoad(material(t, "nylon")).Newtons(), 400, 0},
		{"M5 nylon breaks", hardware.M5.BreakingLoad(material(t, "nylon")).Newtons(), 700, 0},
		{"M3 nylon stretches", hardware.M3.YieldLoad(material(t, "nylon")).Newtons(), 100, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if math.Abs(c.got-c.want) > c.tolerance*c.want {
				t.Errorf("got %v N, want %v", c.got, c.want)
			}
		})
	}
}

func TestFerrous(t *testing.T) {
	for id, want := range map[string]bool{
		"nylon": false, "brass": false, "titanium": false, "aluminium": false, "stainless": true, "steel": true,
	} {
		if got := material(t, id).Ferrous(); got != want {
			t.Errorf("%s: got %v, want %v", id, got, want)
		}
	}
	if got := material(t, "stainless").Magnetic; got != hardware.PerhapsMagnetic {
		t.Errorf("stainless: got %v, want perhaps magnetic", got)
	}
}

func TestStockLength(t *testing.T) {
	cases := []struct {
		grip, engagement, want units.Length
	}{
		{5, 2.9, 8},
		{5, 3, 8},
		{5.1, 2.9, 8}, // 8.000000000000002 in floating point, or thereabouts
		{5, 3.1, 10},
		{0, 4, 4},
		{0, 1, 4},
		{45, 5, 50},
	}
	for _, c := range cases {
		got, err := hardware.StockLength(c.grip, c.engagement)
		if err != nil || got != c.want {
			t.Errorf("grip %v, engagement %v: got %v, %v, want %v", c.grip, c.engagement, got, err, c.want)
		}
	}
	if got, err := hardware.SpacerLength(21); err != nil || got != 25 {
		t.Errorf("spacer of 21 mm: got %v, %v, want 25 mm", got, err)
	}
}

func TestEngagement(t *testing.T) {
	for end, want := range map[hardware.End]units.Length{
		hardware.InNut: 2.9, hardware.InInsert: 5.7, hardware.InPlastic: 6, hardware.InMetal: 3,
	} {
		if got, err := hardware.M3.Engagement(end); err != nil || math.Abs((got-want).Millimetres()) > 1e-12 {
			t.Errorf("%s: got %v, %v, want %v", end, got, err, want)
		}
	}
}

func TestParseSize(t *testing.T) {
	for text, want := range map[string]hardware.Size{"M3": hardware.M3, " m2,5 ": hardware.M2p5, "M2.5": hardware.M2p5, "m4": hardware.M4} {
		if got, err := hardware.ParseSize(text); err != nil || got != want {
			t.Errorf("%q: got %v, %v, want %v", text, got, err, want)
		}
	}
}

func TestRefusals(t *testing.T) {
	cases := []struct {
		name string
		err  error
		want string
	}{
		{"size", second(hardware.ParseSize("M7")), `no screw size "M7"; write one of M2, M2.5, M3, M4, M5`},
		{"fit", second(hardware.M3.ClearanceHole("tight")), `no fit "tight"; write fine, medium or coarse`},
		{"head", second(hardware.M3.Head("pan")), `no screw head "pan"; write socket or button`},
		{"no small button head", second(hardware.M2.Head(hardware.Button)), "no button head in M2, ISO 7380-1 begins at M3"},
		{"mass of that head", second(hardware.Screw{Size: hardware.M2p5, Head: hardware.Button, Length: 8}.Mass(hardware.Material{})), "no button head in M2.5"},
		{"end", second(hardware.M3.Engagement("glue")), `no screw end "glue"`},
		{"material", second(hardware.FindMaterial("wood")), `no fastener material "wood"; write one of nylon, brass`},
		{"too long", second(hardware.StockLength(48.123456, 5)), "no stock screw reaches 53.12 mm, the longest is 50 mm; make the stack thinner"},
		{"no engagement", second(hardware.StockLength(5, 0)), "hold nothing"},
		{"negative grip", second(hardware.StockLength(-5, 9)), "hold nothing"},
		{"not a length", second(hardware.StockLength(units.Length(math.NaN()), 5)), "hold nothing"},
		{"spacer", second(hardware.SpacerLength(51)), "no stock spacer reaches 51 mm"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if c.err == nil || !strings.Contains(c.err.Error(), c.want) {
				t.Errorf("got %v, want %s", c.err, c.want)
			}
		})
	}
}

func second[V any](_ V, err error) error { return err }

func mm(lengths ...units.Length) []units.Length { return lengths }

func thread(s hardware.Size) []units.Length { return mm(s.Diameter(), s.Pitch()) }

func nut(s hardware.Size) []units.Length { return mm(s.Nut().AcrossFlats, s.Nut().Height) }

func washer(s hardware.Size) []units.Length {
	return mm(s.Washer().Hole, s.Washer().Outside, s.Washer().Thickness)
}

func head(t *testing.T, s hardware.Size, form hardware.HeadForm) []units.Length {
	t.Helper()
	h, err := s.Head(form)
	if err != nil {
		t.Fatal(err)
	}
	return mm(h.Diameter, h.Height, h.Key, h.Depth)
}

func holes(t *testing.T, s hardware.Size) []units.Length {
	t.Helper()
	var diameters []units.Length
	for _, f := range []hardware.Fit{hardware.Fine, hardware.Medium, hardware.Coarse} {
		d, err := s.ClearanceHole(f)
		if err != nil {
			t.Fatal(err)
		}
		diameters = append(diameters, d)
	}
	return diameters
}

func material(t *testing.T, id string) hardware.Material {
	t.Helper()
	m, err := hardware.FindMaterial(id)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// ISO 898-2, from memory: a nut whose thread is 0.8 d high bears what its screw does. Insert: common practice, no source.
func TestThread(t *testing.T) {
	for _, s := range hardware.Sizes() {
		d := s.Diameter().Millimetres()
		for _, c := range []struct {
			end         hardware.End
			least, most float64 // in d
		}{{hardware.InNut, 0.8, 1}, {hardware.InInsert, 1.5, 2.2}, {hardware.InPlastic, 2, 2}, {hardware.InMetal, 1, 1}} {
			got, err := s.Thread(c.end)
			if r := got.Millimetres() / d; err != nil || r < c.least-1e-9 || r > c.most+1e-9 {
				t.Errorf("%s in %s: %.2f d, %v; want %g to %g", s, c.end, r, err, c.least, c.most)
			}
		}
	}
	if _, err := hardware.M3.Thread("glue"); err == nil {
		t.Error("glue holds no thread")
	}
}

// By hand: a tube of brass 5.7 mm long between M3's pitch diameter of 2.675 mm (ISO 724) and 4.2 mm.
func TestInsertMass(t *testing.T) {
	want := math.Pi / 4 * (4.2*4.2 - 2.67525*2.67525) * 5.7 * 8.5e-3
	if got := hardware.M3.Insert().Mass(hardware.M3).Grams(); math.Abs(got-want) > 1e-6 {
		t.Errorf("got %v g, want %v", got, want)
	}
}

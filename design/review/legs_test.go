package review_test

import (
	"math"
	"strings"
	"testing"

	"mastwright/design/parts"
)

// Four upright legs, 6 mm square, over the screws of a 30.5 mm pattern, between a frame's plate and a stiff tray. Sidesway stiffness of a
// portal with fixed bases and a rigid beam, 24 EI/h³ for two legs (any structural handbook); of a leg 13/35 of its mass swings (the
// deflected shape 3x² - 2x³, Rayleigh). h lies between the way from socket to socket and the way from pad to tray: the sockets hold
// neither end rigidly, nor do they yield as far as the plates. The frame's plate and the sockets themselves give another
// few per cent each, which is the room below.
func TestLegsAsPortal(t *testing.T) {
	doc := set(t, example(t, "river-survey"), "mast.build", "legs", "mast.height", "100 mm", "foot.head", "insert", "mast.legs.pad", "8 mm", "mast.legs.stand", "over the screws",
		"mast.legs.top.x", "30.5 mm", "mast.legs.top.y", "30.5 mm", "tray.size.x", "52 mm", "tray.size.y", "52 mm")
	a, problems := parts.Build(doc)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	const density, modulus, inertia = 1.23e-6, 1800.0, 6 * 6 * 6 * 6 / 12.0 // kg/mm³, MPa (maker's data of the copolyester), mm⁴
	tip := doc.Receiver.Mass.Kilograms()
	for _, p := range a.Parts {
		switch p.Kind() {
		case "tray":
			tip += p.Body.Plastic * density
		case "leg":
			tip += 4 * p.Body.Plastic * density * 13 / 35
		}
	}
	hertz := func(h float64) float64 {
		return math.Sqrt(2*24*modulus*inertia/(h*h*h)*1000/tip) / (2 * math.Pi)
	}
	high := a.Seat.Z - a.Tray.Thickness - 8
	free := high - 2*doc.Mast.Legs.Grip.Millimetres()
	first := judge(t, doc).Held[0]
	if low, most := hertz(high)*0.97, hertz(free); first.Hz < low || first.Hz > most {
		t.Errorf("first mode %.1f Hz (%s); want %.1f to %.1f", first.Hz, first.Shape, low, most)
	}
	for _, k := range a.Members {
		if k.Bears && math.Hypot(k.To.X-k.From.X, k.To.Y-k.From.Y) > 1e-9 {
			t.Errorf("%s leans", k.Name)
		}
	}
}

// Legs over their screws are softer than legs that stand outside them and lean.
func TestLegsOverScrewsAreSofter(t *testing.T) {
	base := []string{"mast.build", "legs", "foot.head", "insert", "mast.legs.pad", "8 mm"}
	beside := judge(t, set(t, example(t, "river-survey"), base...))
	over := judge(t, set(t, example(t, "river-survey"), append(base, "mast.legs.stand", "over the screws")...))
	if !(over.Flying[0].Hz < 0.95*beside.Flying[0].Hz) {
		t.Errorf("over the screws %.0f Hz, beside them %.0f", over.Flying[0].Hz, beside.Flying[0].Hz)
	}
	// A longer screw than an insert and its pad take comes up into the leg.
	low := judge(t, set(t, example(t, "river-survey"), "mast.build", "legs", "foot.head", "insert", "mast.legs.pad", "7.2 mm", "mast.legs.stand", "over the screws"))
	v, _ := low.Verdict("hardware")
	if v.State == 0 || !strings.Contains(v.Because, "into the part behind") {
		t.Errorf("a screw that meets its leg: %v, %s", v.State, v.Because)
	}
}

package build

import (
	"math"
	"testing"

	"mastwright/design"
)

// Source: ASTM B258, table of areas; resistances of annealed copper at 20 °C, any handbook of wire (ASTM B3).
func TestGauge(t *testing.T) {
	for _, c := range []struct {
		gauge int
		mm2   float64
		ohmKM float64
	}{
		{28, 0.0810, 213},
		{26, 0.129, 134},
		{24, 0.205, 84.2},
		{20, 0.518, 33.3},
	} {
		if got := area(c.gauge) * 1e6; math.Abs(got/c.mm2-1) > 0.005 { // the tables have three digits
			t.Errorf("%d AWG: got %g mm², want %g", c.gauge, got, c.mm2)
		}
		if got := drop(1000, c.gauge) / 2 / supplyCurrent; math.Abs(got/c.ohmKM-1) > 0.005 {
			t.Errorf("%d AWG: got %g Ω/km, want %g", c.gauge, got, c.ohmKM)
		}
	}
}

func TestWires(t *testing.T) {
	doc := design.New()
	for path, text := range map[string]string{"mast.height": "100 mm", "cable.slack": "30 mm"} {
		if err := doc.Set(path, text); err != nil {
			t.Fatal(err)
		}
	}
	w := wires(doc)
	if w.Length != 130 || w.LengthFrom != "height" {
		t.Errorf("without an answer: got %g mm from %s, want mast and slack, 130 mm from height", w.Length, w.LengthFrom)
	}
	crossed := map[string]string{"serial transmit": "serial receive", "serial receive": "serial transmit"}
	if len(w.Wires) != 6 {
		t.Fatalf("got %d wires, want 6", len(w.Wires))
	}
	for _, wire := range w.Wires {
		want := wire.Receiver
		if other, ok := crossed[wire.Receiver]; ok {
			want = other
		}
		if wire.Controller != want {
			t.Errorf("%s goes to %s, want %s", wire.Receiver, wire.Controller, want)
		}
		if wire.PinReceiver+wire.PinController+wire.ColourReceiver+wire.ColourController != "" {
			t.Errorf("%s: a pin or colour is assumed", wire.Receiver)
		}
	}
	if err := doc.Set("cable.length", "2 m"); err != nil {
		t.Fatal(err)
	}
	long := wires(doc)
	if long.Gauge >= w.Gauge || long.Drop > mostDrop*1e3 {
		t.Errorf("2 m: got %d AWG losing %g mV, want a thicker one than %d AWG losing at most %g mV", long.Gauge, long.Drop, w.Gauge, mostDrop*1e3)
	}
}

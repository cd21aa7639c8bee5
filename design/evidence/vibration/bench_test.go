package vibration_test

import (
	"testing"

	"mastwright/design/evidence/vibration"
)

func BenchmarkTap(b *testing.B) {
	for _, sound := range []bool{false, true} {
		s := vibration.InventedTap{Sound: sound}.Series()
		b.Run(s.Kind.String(), func(b *testing.B) {
			for b.Loop() {
				r, err := vibration.Tap(s, []vibration.Mode{{Name: "bending", Hz: 110}}, vibration.TapOptions{})
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(len(r.Taps)), "taps")
			}
		})
	}
}

func BenchmarkHover(b *testing.B) {
	for _, sound := range []bool{false, true} {
		s := vibration.InventedHover{Sound: sound}.Series()
		b.Run(s.Kind.String(), func(b *testing.B) {
			for b.Loop() {
				if _, err := vibration.Hover(s, 3, vibration.HoverOptions{Low: 60, High: 90}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

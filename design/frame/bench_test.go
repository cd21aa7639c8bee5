package frame_test

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"mastwright/design/frame"
)

func BenchmarkAssemble20(b *testing.B) {
	m := flying(b, 20)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := frame.Assemble(m); err != nil {
			b.Fatal(err)
		}
	}
}

func benchmarkModes(b *testing.B, m frame.Model) {
	b.ReportAllocs()
	for b.Loop() {
		s, err := frame.Assemble(m)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := s.Modes(frame.Options{Count: 6}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkModesHeld20(b *testing.B)   { benchmarkModes(b, mast(b, 20)) }
func BenchmarkModesFlying20(b *testing.B) { benchmarkModes(b, flying(b, 20)) }
func BenchmarkModesHeld40(b *testing.B)   { benchmarkModes(b, mast(b, 40)) }
func BenchmarkModesHeld100(b *testing.B)  { benchmarkModes(b, mast(b, 100)) }

func BenchmarkStatics20(b *testing.B) {
	m := mast(b, 20)
	s, err := frame.Assemble(m)
	if err != nil {
		b.Fatal(err)
	}
	cases := []frame.Case{{Loads: []frame.Load{{Node: 2, Force: r3.Vec{X: 20}}}}, {Field: r3.Vec{X: 29}}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Statics(cases); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPlate(b *testing.B) {
	a := 0.015
	p := frame.Plate{
		Outline: []frame.Loop{rounded(0.044, 0.044, 0.004, false)}, Hub: rounded(0.018, 0.018, 0.002, false), Thickness: 0.004, E: 2e9, Poisson: 0.35,
		Pins: []frame.Pin{{X: a, Y: a}, {X: -a, Y: a}, {X: -a, Y: -a}, {X: a, Y: -a}},
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := p.Compliance(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBox(b *testing.B) {
	for b.Loop() {
		if _, err := frame.Box(0.018, 0.018, 0.002, 0.0024, 0.38); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkIntegrateBox(b *testing.B) {
	loops := box(0.018, 0.018, 0.002, 0.0024)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := frame.Integrate(loops, frame.SectionOptions{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkStressFunction(b *testing.B) {
	loops := box(0.018, 0.018, 0.002, 0.0024)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := frame.Integrate(loops, frame.SectionOptions{Torsion: frame.TorsionStressFunction}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkForced(b *testing.B) {
	s, err := frame.Assemble(flying(b, 20))
	if err != nil {
		b.Fatal(err)
	}
	modes, err := s.Modes(frame.Options{})
	if err != nil {
		b.Fatal(err)
	}
	r, err := frame.NewResponse(s, modes, []float64{0.02, 0.02, 0.02, 0.02, 0.02, 0.02})
	if err != nil {
		b.Fatal(err)
	}
	loads := []frame.Harmonic{{Node: 0, Force: [3]complex128{1, -1i, 0}}}
	for b.Loop() {
		r.Forced(120, loads, 2)
	}
}

package plot_test

import (
	"bytes"
	"image/color"
	"math"
	"strings"
	"testing"

	"mastwright/app/desktop/plot"
	"mastwright/design/evidence/bench"
)

// spectrum is one with a single peak, of more lines than a screen has pixels.
func spectrum() bench.Plot {
	var trace bench.Trace
	trace.Name = "spectrum"
	for i := range 20000 {
		hz := float64(i) / 20
		trace.X, trace.Y = append(trace.X, hz), append(trace.Y, 1/(1+math.Pow((hz-103)/2, 2)))
	}
	return bench.Plot{X: "frequency (Hz)", Y: "amplitude", Points: []bench.Point{{X: 103, Y: 1, Used: true, Name: "peak"}},
		Lines: []bench.Trace{trace, {Name: "predicted", X: []float64{110, 110}, Y: []float64{0, 1}}}}
}

func TestRecordSaysWhatWasFoundAndPredicted(t *testing.T) {
	c := plot.Record("Spectrum", spectrum())
	for _, want := range []string{"found, 103 Hz", "predicted, 110 Hz"} {
		if !strings.Contains(c.Summary(), want) {
			t.Errorf("summary %q does not say %q", c.Summary(), want)
		}
	}
	var svg bytes.Buffer
	if err := c.SVG(&svg, 480, 300); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"found, 103 Hz", "predicted, 110 Hz", "frequency Hz"} {
		if !strings.Contains(svg.String(), want) {
			t.Errorf("the drawing does not say %q", want)
		}
	}
	if svg.Len() > 60000 { // 20,000 points at 12 bytes would be 240,000: the line is thinned
		t.Errorf("the drawing has %d bytes", svg.Len())
	}
	again := plot.Record("Spectrum", spectrum())
	var second bytes.Buffer
	if err := again.SVG(&second, 480, 300); err != nil || second.String() != svg.String() {
		t.Error("the same record is drawn differently a second time")
	}
}

func TestRecordsDrawWhateverTheyHold(t *testing.T) {
	rose := bench.Plot{Points: []bench.Point{{X: 0, Y: 90, Used: true}, {X: 0, Y: 90}, {X: 90, Y: -175, Used: true}, {X: 90, Y: 180}, {X: 0, Y: 93}, {X: 0, Y: 90}}}
	for name, c := range map[string]plot.Chart{
		"force": plot.Record("Force and movement", bench.Plot{X: "force (N)", Y: "movement (mm)",
			Points: []bench.Point{{X: 0, Y: 0, Used: true}, {X: 9.8, Y: .5, Used: true}}, Lines: []bench.Trace{{Name: "fit", X: []float64{0, 9.8}, Y: []float64{0, .5}}}}),
		"one point": plot.Record("Field", bench.Plot{Points: []bench.Point{{X: 1, Y: -2}}}),
		"rose":      plot.Rose("Compass rose", rose),
		"costs":     plot.Costs("Signal", bench.Plot{Points: []bench.Point{{X: 1, Y: 6.5, Used: true, Name: "camera"}, {X: 2, Y: -.2, Name: "card"}}}),
	} {
		if c.Empty() {
			t.Errorf("%s: empty", name)
		}
		for _, size := range [][2]int{{480, 360}, {160, 120}, {20, 20}} {
			img := c.Image(size[0], size[1], 1)
			ink := false
			for y := range size[1] {
				for x := range size[0] {
					ink = ink || img.At(x, y) != color.Color(color.RGBA{255, 255, 255, 255})
				}
			}
			if size[0] > 400 && !ink {
				t.Errorf("%s: nothing is drawn", name)
			}
		}
	}
	if c := plot.Record("Nothing", bench.Plot{}); !c.Empty() || c.Summary() == "" {
		t.Error("a record without points does not say so")
	}
	if got := plot.Rose("Compass rose", rose).Summary(); !strings.Contains(got, "nose 90° shows 185°, 180° expected") {
		t.Errorf("rose: %q", got)
	}
}

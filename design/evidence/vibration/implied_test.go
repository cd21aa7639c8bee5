package vibration_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"mastwright/design/evidence/vibration"
)

// springs is a mast of stiffness scale on a foot of stiffness foot, in series under a mass: f = f0 √(s k/(s+k)), with the
// inverse s = k x/(k−x), x = (f/f0)².
func springs(foot float64) func(float64) (float64, error) {
	return func(scale float64) (float64, error) { return 100 * math.Sqrt(scale*foot/(scale+foot)), nil }
}

func TestImplied(t *testing.T) {
	for _, foot := range []float64{.8, 3, 1e9} {
		start, _ := springs(foot)(1)
		for _, ratio := range []float64{.5, .9, 1, 1.05, 1.2} {
			hz := start * ratio
			exact := func(f float64) float64 { x := sq(f / 100); return foot * x / (foot - x) }
			want := exact(hz)
			if want < 0 || exact(hz*1.01) < 0 || exact(hz*1.01) > 64 {
				continue
			}
			got, err := vibration.Implied(hz, hz*.99, hz*1.01, springs(foot))
			if err != nil {
				t.Errorf("foot %g, %g Hz: %v", foot, hz, err)
				continue
			}
			for _, c := range [][2]float64{{got.Value, want}, {got.Low, exact(hz * .99)}, {got.High, exact(hz * 1.01)}} {
				// 1e-7 of the frequency, over the slope of the frequency: at the softest foot .13 of the logarithms.
				if math.Abs(c[0]/c[1]-1) > 2e-6 {
					t.Errorf("foot %g, %g Hz: factor %.9g, want %.9g", foot, hz, c[0], c[1])
				}
			}
			if got.Runs > 60 {
				t.Errorf("foot %g, %g Hz: the model was run %d times", foot, hz, got.Runs)
			}
		}
	}
}

func TestImpliedRefuses(t *testing.T) {
	broken := errors.New("no plate")
	for _, c := range []struct {
		name  string
		hz    float64
		model func(float64) (float64, error)
		want  string
	}{
		{"above the foot's ceiling", 99, springs(.8), "64 times stiffer"},
		{"below all plastics", 1, springs(.8), "64 times softer"},
		{"falls", 70, func(s float64) (float64, error) { return 60 / s, nil }, "falls from"},
		{"model fails", 70, func(float64) (float64, error) { return 0, broken }, "no plate"},
		{"no frequency", 70, func(float64) (float64, error) { return math.NaN(), nil }, "is no frequency"},
		{"bounds swapped", -70, springs(1), "rising values"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if _, err := vibration.Implied(c.hz, c.hz, c.hz, c.model); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want one with %q", err, c.want)
			}
		})
	}
	// A bound beyond the ceiling is given as the end of the range.
	got, err := vibration.Implied(80, 75, 95, springs(.8))
	if err != nil || got.High != 64 {
		t.Errorf("got %+v, %v; want a high end of 64", got, err)
	}
}

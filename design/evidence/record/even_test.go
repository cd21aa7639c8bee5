package record_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"mastwright/design/evidence/record"
)

func sampled(n int, at func(i int) float64, value func(t float64) float64) record.Record {
	r := record.Record{Columns: []record.Column{{Role: record.AccX, Values: make([]float64, n)}}}
	for i := range n {
		r.Time = append(r.Time, at(i))
		r.Lines = append(r.Lines, i+2)
		r.Columns[0].Values[i] = value(at(i))
	}
	return r
}

func TestEven(t *testing.T) {
	wave := func(t float64) float64 { return math.Sin(2 * math.Pi * 10 * t) }
	cases := []struct {
		name string
		at   func(i int) float64
		rate float64
		note string
		tol  float64
	}{
		{"even", func(i int) float64 { return float64(i) / 200 }, 200, "time: evenly spaced", 1e-12},
		{"stamps rounded to 1 ms", func(i int) float64 { return math.Round(float64(i)/.4) / 1000 }, 400, "time: evenly spaced", .07}, // half a ms of a 10 Hz wave is .03
		// A cubic through four points errs by (9/16)/24 h⁴ y'''' at most, h .0065 s at the widest: 6.5e-4 of the amplitude.
		{"uneven", func(i int) float64 { return (float64(i) + .3*math.Sin(1.7*float64(i))) / 200 }, 200, "resampled", 1.2e-3},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s, err := sampled(400, c.at, wave).Even([]record.Role{record.AccX}, record.EvenOptions{})
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(s.Rate/c.rate-1) > 2e-3 {
				t.Errorf("rate %v Hz, want %v", s.Rate, c.rate)
			}
			for i, got := range s.Axes[0] {
				if want := wave(float64(i) / s.Rate); math.Abs(got-want) > c.tol {
					t.Fatalf("sample %d is %v, want %v", i, got, want)
				}
			}
			if !strings.Contains(fmt.Sprint(s.Notes), c.note) {
				t.Errorf("notes %v lack %q", s.Notes, c.note)
			}
		})
	}
}

func TestEvenRefuses(t *testing.T) {
	gap := sampled(100, func(i int) float64 {
		if i >= 60 {
			return float64(i)/100 + .3
		}
		return float64(i) / 100
	}, math.Sin)
	_, err := gap.Even([]record.Role{record.AccX}, record.EvenOptions{})
	var p record.Problems
	if !errors.As(err, &p) || p[0].Line != 62 || !strings.Contains(p[0].Text, "the longest 0.31 s") {
		t.Errorf("error %v, want the gap of .31 s before line 62", err)
	}
	if _, err := gap.Even([]record.Role{record.AccX}, record.EvenOptions{Gap: 40}); err != nil {
		t.Errorf("a gap that is allowed is refused: %v", err)
	}
	if _, err := gap.Even([]record.Role{record.GyroX}, record.EvenOptions{Gap: 40}); err == nil {
		t.Error("a missing column is not refused")
	}
	gap.Time = nil
	if _, err := gap.Even([]record.Role{record.AccX}, record.EvenOptions{}); err == nil {
		t.Error("a record without times is not refused")
	}
}

func TestReadMotion(t *testing.T) {
	table := func(header string) string {
		var b strings.Builder
		b.WriteString(header + "\n")
		for i := range 20 {
			fmt.Fprintf(&b, "%.3f,1,2,%d\n", float64(i)/1000, i)
		}
		return b.String()
	}
	for _, c := range []struct {
		name, text string
		o          record.Options
		kind       record.Kind
		axes       []string
	}{
		{"acceleration before gyro", table("time,gyroX,accY,accZ"), record.Options{}, record.Acceleration, []string{"acc y", "acc z"}},
		{"gyro", table("time (s),gyro.x,gyro.y,gyro.z"), record.Options{}, record.Rotation, []string{"gyro x", "gyro y", "gyro z"}},
		{"gyro chosen", table("time,gyroX,accY,accZ"), record.Options{Columns: map[record.Role]string{record.GyroX: "gyroX"}}, record.Rotation, []string{"gyro x"}},
		{"sound", table("time,volts,temp,microphone"), record.Options{}, record.Audio, []string{"sound"}},
		{"x y z", table("t,x,y,z"), record.Options{}, record.Acceleration, []string{"acc x", "acc y", "acc z"}},
		{"no header", strings.TrimPrefix(table(""), "\n"), record.Options{}, record.Acceleration, []string{"acc x", "acc y", "acc z"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := record.ReadMotion(strings.NewReader(c.text), c.o)
			if err != nil {
				t.Fatal(err)
			}
			if s.Kind != c.kind || fmt.Sprint(s.Names) != fmt.Sprint(c.axes) || math.Abs(s.Rate-1000) > 1e-6 || s.Len() != 20 {
				t.Errorf("%v %v %v Hz, %d samples; want %v %v", s.Kind, s.Names, s.Rate, s.Len(), c.kind, c.axes)
			}
		})
	}
	if _, err := record.ReadMotion(strings.NewReader("time,volts\n1,2\n2,3\n"), record.Options{}); err == nil || !strings.Contains(err.Error(), "name the column") {
		t.Errorf("error %v, want one that asks for a column", err)
	}
}

package review_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"mastwright/design"
	"mastwright/design/review"
	"mastwright/design/units"
)

// A mount whose every modulus is scaled by k rings at √k of its frequencies (one degree of freedom: ω² = K/M), on whatever base.
func TestMeasuredStiffnessMovesEveryMode(t *testing.T) {
	doc := example(t, "river-survey")
	before, problems := review.Judge(doc)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	const k = 0.81
	if err := doc.Use(design.Measured{What: design.MeasuredStiffness, Factor: units.Fraction(k), Date: "2026-05-02", Method: "tap test, aircraft held down"}, ""); err != nil {
		t.Fatal(err)
	}
	after, _ := review.Judge(doc)
	got, want := after.Flying[0].Hz, before.Flying[0].Hz*math.Sqrt(k)
	if math.Abs(got-want) > 1e-3*want { // what does not bend is a little softer or stiffer than all else
		t.Errorf("first mode %.3f Hz, want %.3f", got, want)
	}
	spread := after.Flying[0].High - after.Flying[0].Low
	if was := before.Flying[0].High - before.Flying[0].Low; spread >= was {
		t.Errorf("band %.1f Hz wide, was %.1f: a measured stiffness narrows it", spread, was)
	}
	if !told(after, "modes", "measured 2026-05-02, tap test, aircraft held down") {
		t.Error("modes does not say that the stiffness was measured")
	}
	if told(after, "bus", "measured") {
		t.Error("bus says that something was measured")
	}
}

func TestMeasuredModulusSaysSo(t *testing.T) {
	doc := example(t, "river-survey")
	m, err := doc.Library().Find(doc.Materials.Mast)
	if err != nil {
		t.Fatal(err)
	}
	before, _ := review.Judge(doc)
	layers := map[string]string{"upright": "across", "lying": "along"}[doc.Print.Orientation]
	soft := m.ModulusAcross.Low
	if layers == "along" {
		soft = m.ModulusInLayer.Low
	}
	if err := doc.Use(design.Measured{What: design.MeasuredModulus, Of: m.ID, Layers: layers, Modulus: soft, Spread: units.Fraction(0.03)}, ""); err != nil {
		t.Fatal(err)
	}
	after, _ := review.Judge(doc)
	if after.Flying[0].Hz >= before.Flying[0].Hz || !told(after, "modes", "modulus of "+m.ID) {
		t.Errorf("first mode %.1f Hz, was %.1f with a stiffer plastic", after.Flying[0].Hz, before.Flying[0].Hz)
	}
}

// The field of every lead times a factor turns the compass by more, up to asin(k sin e) for one lead of a fixed direction.
func TestMeasuredLeadField(t *testing.T) {
	doc := example(t, "quarry-survey")
	swing := func() float64 {
		r, problems := review.Judge(doc)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		i := slices.IndexFunc(r.Verdicts, func(v review.Verdict) bool { return v.ID == "heading" })
		return r.Verdicts[i].Figure.Value * math.Pi / 180
	}
	one := func(k float64) float64 {
		if err := doc.Use(design.Measured{What: design.MeasuredLead, Factor: units.Fraction(k)}, ""); err != nil {
			t.Fatal(err)
		}
		return swing()
	}
	drawn := one(1)
	if got, want := one(0.5), math.Asin(0.5*math.Sin(drawn)); math.Abs(got-want) > 0.02*want { // the worst placement of the sensor may differ a little
		t.Errorf("half the field swings %.4g rad, want %.4g", got, want)
	}
	if r, _ := review.Judge(doc); !told(r, "heading", "field of every lead, 0.50 of the computed one: measured") {
		t.Error("heading does not say that the field was measured")
	}
}

func told(r review.Result, check, text string) bool {
	return slices.ContainsFunc(r.Verdicts, func(v review.Verdict) bool {
		return v.ID == check && slices.ContainsFunc(v.Notes, func(n string) bool { return strings.Contains(n, text) })
	})
}

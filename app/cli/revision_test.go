package cli

import (
	"bytes"
	"testing"

	"mastwright/design/review"
	"mastwright/design/revision"
	"mastwright/design/sizing/certainty"
)

func TestCertaintyGolden(t *testing.T) {
	var b bytes.Buffer
	of := func(pass, marginal, fail int) certainty.Chance {
		n := pass + marginal + fail
		return certainty.Chance{Known: true, Pass: certainty.ShareOf(pass, n), Marginal: certainty.ShareOf(marginal, n), Fail: certainty.ShareOf(fail, n)}
	}
	modes, shake, sway, bus := of(148, 52, 0), of(1, 54, 145), of(200, 0, 0), certainty.Chance{Title: "Bus"}
	modes.Title, shake.Title, sway.Title = "Modes", "Shake", "Sway"
	modes.Influences = []certainty.Influence{{Name: "thrust coefficient", Rank: 0.56}, {Name: "modulus, PETG", Rank: -0.3}}
	shake.Influences = []certainty.Influence{{Name: "modulus, a plastic of a spool with a name that is long", Rank: 0.7}}
	sway.Influences = []certainty.Influence{{Name: "modulus, PETG", Rank: -1}}
	printCertainty(&b, "Hedgerow scout", certainty.Result{
		Samples: 200, Chances: []certainty.Chance{sway, modes, shake, bus}, NoneFails: certainty.ShareOf(55, 200), AllPass: certainty.ShareOf(1, 200),
		Properties: []certainty.Property{
			{Name: "modulus, PETG", Law: certainty.Law{Low: 1230, Typical: 1700, High: 1899}, Unit: "MPa", Source: "manufacturers' technical data sheets"},
			{Name: "give of turf", Law: certainty.Law{Low: 0.04 / 3, Typical: 0.04, High: 0.12, Logarithmic: true}, Unit: "mm/N", Source: "a judgement within a factor of 3"},
		},
	})
	fits(t, b.String())
	golden(t, "certainty.txt", b.Bytes())
}

func TestDiffGolden(t *testing.T) {
	var b bytes.Buffer
	sway := func(tilt float64) review.Figure {
		return review.Figure{Name: "tilt of the tray", Value: tilt, Unit: "°"}
	}
	printDiff(&b, revision.Comparison{
		Changes: []revision.Change{
			{Path: "mast.height", Title: "Height", From: "100 mm", To: "130 mm"},
			{Path: "leads[1].name", Title: "camera lead: Lead", To: "camera lead"},
		},
		Moved: []revision.Move{
			{Check: "level", Title: "Level", From: review.Pass, To: review.Pass, Before: sway(0.01), After: sway(0.0100001)},
			{Check: "sway", Title: "Sway", From: review.Pass, To: review.Pass, Before: sway(0.2), After: sway(0.4)},
			{Check: "shake", Title: "Shake", From: review.Pass, To: review.Fail,
				Before: review.Figure{Name: "peak acceleration at the compass", Value: 2.17, Unit: "g"},
				After:  review.Figure{Name: "rate at the controller", Value: 1.9, Unit: "°/s"}},
			{Check: "bus", Title: "Bus", From: review.NoData, To: review.Pass, After: review.Figure{Name: "rise time over the limit", Value: 0.2}},
		},
		Mass: 32.2, Added: -1.5,
	})
	fits(t, b.String())
	golden(t, "diff.txt", b.Bytes())
}

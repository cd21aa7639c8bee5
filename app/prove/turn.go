package prove

import (
	"fmt"
	"io"

	"mastwright/design"
	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/compass"
	"mastwright/design/evidence/record"
)

// TurnInput is how a record of a compass turned by hand is read.
type TurnInput struct {
	Unit       string // of the axes, one of compass.Units; "" guesses
	Calibrated bool   // the flight controller's calibration is in the record already
	Record     record.Options
}

// Turn fits an ellipsoid to what the compass saw and says what disturbs it.
func Turn(doc *design.Document, r io.Reader, in TurnInput) (Result, error) {
	o := compass.TurnOptions{Unit: in.Unit, Calibrated: in.Calibrated}
	field, err := earth(doc)
	if err != nil && in.Unit == "" {
		return Result{}, err
	}
	o.Total, o.Horizontal = field.F, field.H
	in.Record.Thin = true
	rec, err := record.Read(r, record.Needs(record.MagX, record.MagY, record.MagZ), in.Record)
	if err != nil {
		return Result{}, refused(err)
	}
	turned, err := compass.Turn([3][]float64{rec.Values(record.MagX), rec.Values(record.MagY), rec.Values(record.MagZ)}, o)
	if err != nil {
		return Result{}, refused(err)
	}
	out := Result{Test: "turn", Invented: rec.Invented, Turned: &turned, Words: turned.Words, Notes: texts(rec.Notes)}
	out.Headline = fmt.Sprintf("The compass is %s: its offset is %.3g uT and its axes differ by %.2g %%, with %.0f %% of the sphere seen.", turned.Says, turned.Away*1e6,
		100*(turned.Axes[0].Scale.Value-turned.Axes[2].Scale.Value), 100*turned.Share)
	if field.F > 0 {
		c := Comparison{Name: "field of the earth", Unit: "uT", Measured: bench.Around(turned.Radius*1e6, turned.Residual*1e6), Predicted: bench.Around(field.F*1e6, field.F*1e6*.05),
			Off: turned.Radius/field.F - 1, Causes: turned.Causes}
		c.Agrees = c.Measured.Overlaps(c.Predicted)
		c.Words = fmt.Sprintf("the compass sees %.0f %% of the earth's field at the site", 100*turned.Radius/field.F)
		out.Compared = []Comparison{c}
	}
	return out.finish(doc)
}

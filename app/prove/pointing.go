package prove

import (
	"fmt"
	"io"
	"math"

	"mastwright/design"
	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/compass"
	"mastwright/design/evidence/record"
)

// PointingInput is what the headings were read with.
type PointingInput struct {
	About
	Readings      []compass.Reading
	NoseNorth     compass.North // what the nose was turned by
	ShownNorth    compass.North // what the shown headings count from
	SetTurn       float64       // rad, the turn that the flight controller was set to
	SetUpsideDown bool
	Tolerance     float64 // rad; 0 means 20 degrees
	Invented      bool    // the readings are from a record that was made up
	Notes         []string
}

// ReadReadings reads a table with the columns nose and heading, and down where a reading was taken with the nose down, all in
// degrees.
func (in *PointingInput) ReadReadings(r io.Reader, o record.Options) error {
	o.Least = max(o.Least, 1)
	rec, err := record.Read(r, []record.Want{{Role: "nose"}, {Role: record.Heading}, {Role: "down", Optional: true}}, o)
	if err != nil {
		return refused(err)
	}
	nose, shown, down := rec.Values("nose"), rec.Values(record.Heading), rec.Values("down")
	for i := range nose {
		reading := compass.Reading{Nose: radians(nose[i]), Shown: radians(shown[i])}
		if down != nil {
			reading.Down = radians(down[i])
		}
		in.Readings = append(in.Readings, reading)
	}
	in.Invented, in.Notes = rec.Invented, texts(rec.Notes)
	return nil
}

// arrows are the turns that receiver.arrow can say, in degrees clockwise seen from above.
var arrows = map[int]string{0: "forward", 90: "right", 180: "rear", -90: "left"}

// Point finds how the compass is mounted. Where that is upright and a quarter turn that the design does not say, the finding is
// the receiver's arrow.
func Point(doc *design.Document, in PointingInput) (Result, error) {
	o := compass.PointingOptions{NoseNorth: in.NoseNorth, ShownNorth: in.ShownNorth, SetTurn: in.SetTurn, SetUpsideDown: in.SetUpsideDown, Tolerance: in.Tolerance}
	field, err := earth(doc)
	switch {
	case err == nil:
		o.Declination, o.Dip = field.D, field.I
	case in.NoseNorth != in.ShownNorth:
		return Result{}, err
	}
	pointing, err := compass.Point(in.Readings, o)
	if err != nil {
		return Result{}, refused(err)
	}
	out := Result{Test: "pointing", Invented: in.Invented, Pointing: &pointing, Words: pointing.Words, Notes: in.Notes,
		Headline: "The compass is " + pointing.Mounting + "."}
	if err != nil {
		out.Notes = append(out.Notes, "the place on earth is not answered: the dip was not looked at")
	}
	rose := bench.Plot{X: "nose (°)", Y: "shown heading (°)"}
	for _, e := range pointing.Rose {
		rose.Points = append(rose.Points, bench.Point{X: e.Nose * degree, Y: e.Shown * degree, Used: e.Down == 0, Name: "shown"})
		rose.Points = append(rose.Points, bench.Point{X: e.Nose * degree, Y: e.Expected * degree, Name: "expected"})
	}
	out.Plots = []Plot{{"Compass rose", rose}}
	arrow, quarter := arrows[pointing.TurnDeg]
	said := doc.Receiver.Arrow
	if said == "" {
		said = "forward"
	}
	switch {
	case !pointing.RightWayUp:
		out.Notes = append(out.Notes, "a design draws its receiver right way up: nothing is entered")
	case !quarter:
		out.Notes = append(out.Notes, "a design's arrow points forward, left, rear or right: nothing is entered")
	case arrow != said:
		out.Notes = append(out.Notes, fmt.Sprintf("the design says that the receiver's arrow points %s; measured is %s", said, arrow))
		m := design.Measured{What: design.MeasuredAnswer, Of: "receiver.arrow"}
		out.Findings = append(out.Findings, design.Finding{Value: in.of(m, fmt.Sprintf("pointing test, %d headings", len(in.Readings))), Answer: arrow})
	default:
		out.Notes = append(out.Notes, "the design says so too")
	}
	out.Notes = append(out.Notes, fmt.Sprintf("exact turn %.0f° ± %.0f°", pointing.Angle.Value*degree, math.Max(1, pointing.Angle.Plus()*degree)))
	return out.finish(doc)
}

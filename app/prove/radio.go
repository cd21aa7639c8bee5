package prove

import (
	"io"

	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/record"
)

// RadioInput is what the receiver showed.
type RadioInput struct {
	Rows     []bench.Reception
	Invented bool // the rows are from a record that was made up
	Notes    []string
}

// ReadRows reads a table with the columns state ("all off", "camera on"), satellites and signal.
func (in *RadioInput) ReadRows(r io.Reader, o record.Options) error {
	o.Least = max(o.Least, 1)
	rec, err := record.Read(r, []record.Want{{Role: record.State, Words: true}, {Role: record.Satellites}, {Role: record.Signal}}, o)
	if err != nil {
		return refused(err)
	}
	states, _ := rec.Column(record.State)
	in.Rows, err = bench.ReadRadio(states.Words, rec.Values(record.Satellites), rec.Values(record.Signal))
	in.Invented, in.Notes = rec.Invented, texts(rec.Notes)
	return refused(err)
}

// Radio says what each device costs the receiver.
func Radio(in RadioInput) (Result, error) {
	radio, err := bench.Cost(in.Rows)
	if err != nil {
		return Result{}, refused(err)
	}
	out := Result{Test: "radio", Invented: in.Invented, Radio: &radio, Words: radio.Words, Notes: in.Notes, Headline: "No device costs more than 1 dB beyond doubt."}
	var bars bench.Plot
	bars.X, bars.Y = "device", "signal lost (dB)"
	for i, d := range radio.Devices {
		bars.Points = append(bars.Points, bench.Point{X: float64(i + 1), Y: d.Signal.Value, Used: d.Matters, Name: d.Name})
		if i == 0 && d.Matters {
			out.Headline = "Move " + d.Name + " first: " + d.Words + "."
		}
	}
	out.Plots = []Plot{{"Signal", bars}}
	return out.finish(nil)
}

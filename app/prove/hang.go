package prove

import (
	"fmt"
	"io"
	"strings"

	"mastwright/design"
	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/record"
	"mastwright/design/evidence/vibration"
	"mastwright/design/review"
)

// HangInput is what hung on the mount and how its movement was read.
type HangInput struct {
	About
	Support  vibration.Support // on a block, or on the aircraft held down
	Loads    []bench.Load
	Gauge    bench.Gauge
	Division float64 // m, of the scale; 0 means 0.01 mm for a dial, 1 mm else
	Distance float64 // m, from the tray to the pointer's wall
	Invented bool    // the loads are from a record that was made up
	Notes    []string
}

// ReadLoads reads masses (kg or g) or forces (N) and movements (mm, or m) from a table into an input.
func (in *HangInput) ReadLoads(r io.Reader, o record.Options) error {
	o.Least = max(o.Least, 1)
	rec, err := record.Read(r, append(record.Needs(record.Deflection), record.Maybe(record.Mass, record.Force)...), o)
	if err != nil {
		return refused(err)
	}
	moved, _ := rec.Column(record.Deflection)
	pulled, byMass := rec.Column(record.Mass)
	per := 1.0
	switch {
	case byMass && isGrams(pulled):
		per = 1e-3
	case !byMass:
		var ok bool
		if pulled, ok = rec.Column(record.Force); !ok {
			return refuse(fmt.Sprintf("%s has neither a column of masses nor of forces; name one mass (kg) or force (N).", o.Name))
		}
		per = 1 / gravity
	}
	if byMass && pulled.Unit == "" {
		rec.Notes = append(rec.Notes, record.Note{About: "mass", Text: map[bool]string{true: "no unit is written; taken as grams, since they are over 20", false: "no unit is written; taken as kilograms"}[per != 1]})
	}
	millimetre := 1e-3
	if strings.EqualFold(strings.TrimSpace(moved.Unit), "m") {
		millimetre = 1
	}
	for i, m := range pulled.Values {
		in.Loads = append(in.Loads, bench.Load{Mass: m * per, Reading: moved.Values[i] * millimetre})
	}
	in.Invented, in.Notes = rec.Invented, texts(rec.Notes)
	return nil
}

const gravity = 9.80665 // m/s², standard, ISO 80000-3

func isGrams(c record.Column) bool {
	switch strings.TrimSpace(strings.ToLower(c.Unit)) {
	case "g":
		return true
	case "":
		for _, m := range c.Values {
			if m > 20 {
				return true
			}
		}
	}
	return false
}

// Hang holds the stiffness of the mount under hung masses against the design's: the modulus of the mast's plastic where it
// stood on a block, the stiffness of the whole mount on its aircraft.
func Hang(doc *design.Document, in HangInput) (Result, error) {
	if in.Support.Flying() {
		return Result{}, refuse("A mount that hangs masses needs a foot that is held: choose a block, or the aircraft held down.")
	}
	stood, err := standing(doc, in.Support)
	if err != nil {
		return Result{}, err
	}
	design, err := judged(stood)
	if err != nil {
		return Result{}, err
	}
	predicted, err := stiffnessOf(design)
	if err != nil {
		return Result{}, err
	}
	o := bench.HangOptions{Gauge: in.Gauge, Division: in.Division, Distance: in.Distance, OnBlock: in.Support.Modulus(), Predicted: predicted}
	notes := in.Notes
	turn, err := rotation(stood, design.Tip)
	switch {
	case err == nil:
		o.Rotation = turn
	case in.Gauge == bench.Pointer:
		return Result{}, err
	}
	if in.Gauge == bench.Pointer {
		notes = append(notes, fmt.Sprintf("the tray is taken to turn by %.3g° for each millimetre that it moves, as under the design's manoeuvre", turn*degree/1e3))
	}
	for _, m := range design.Held {
		if strings.HasPrefix(m.Shape, "bending") {
			notes = append(notes, "held against the softer way, in which it also rings lowest: "+m.Shape)
			break
		}
	}
	hung, err := bench.Hang(in.Loads, o)
	if err != nil {
		return Result{}, refused(err)
	}
	out := Result{Test: "hang", Invented: in.Invented, Hung: &hung, Words: hung.Words, Notes: notes, Plots: []Plot{{"Force and movement", hung.Plot}}}
	if hung.Agreement.Of != "" {
		out.Compared = []Comparison{compared("stiffness", "N/mm", hung.Agreement, 1e-3)}
	}
	out.Headline = fmt.Sprintf("It gives way by 1 mm at %.3g N, %s; %.3g N is predicted.", hung.Stiffness.Value/1e3, in.Support, o.Predicted.Value/1e3)
	method := "hang test, " + in.Support.String()
	if !in.Support.Modulus() {
		out.stiffness(in.About, method, hung.Stiffness.Times(1/o.Predicted.Value), 0)
		return out.finish(doc)
	}
	p, err := mastPlastic(stood)
	if err != nil {
		return Result{}, err
	}
	scale, err := p.implied(stood, widened(hung.Stiffness, modelSpread), func(r review.Result) float64 {
		if r.Tip.Compliance <= 0 {
			return 0
		}
		return 1e3 / r.Tip.Compliance
	})
	if err != nil {
		return Result{}, refuse(fmt.Sprintf("No modulus of %s explains a stiffness of %.3g N/mm: look for a loose screw or a foot that gives way, and read the scale again.", p.material.ID, hung.Stiffness.Value/1e3))
	}
	out.enterModulus(doc, p, in.About, method, scale, 0)
	return out.finish(doc)
}

// rotation is by how many radians the tray turns for each metre that it moves, for a pointer. A cantilever turns by 2/L under a
// moment at its tip and by less under any force (Gere & Goodno, Mechanics of Materials, 9th edition, table H-1); a mount that
// turns by more does not move by bending alone, as one on legs, and its pointer tells no movement.
func rotation(doc *design.Document, tip review.Tip) (float64, error) {
	if tip.Deflection <= 0 || tip.Tilt <= 0 {
		return 0, refuse("The design does not say how far the tray turns: answer what mastwright missing asks of the sway, or read a dial.")
	}
	turn := radians(tip.Tilt) / (tip.Deflection / 1e3)
	if turn*doc.Mast.Height.Metres() > 2 {
		return 0, refuse("The tray of this mount turns and moves in different ways, so that a pointer does not tell how far it moves: read a dial.")
	}
	return turn, nil
}

package desktop

import (
	"fmt"

	"fyne.io/fyne/v2"

	"mastwright/app/desktop/look"
	"mastwright/app/session"
)

// prover is the stage Prove before there is a record: what will be measured, and what the design predicts for it.
type prover struct {
	left, right *look.Column
	predicted   *facts
	note        *look.Prose
}

// trials are the bench and field tests: what is done, in the order in which they are done, and what the record is compared with.
var trials = [...]struct{ name, how string }{
	{"Weigh", "Put mast, tray and screws on a scale. It tells how full the print is."},
	{"Tap", "Clamp the foot to the bench with the receiver on the tray, tap the tray and record the sound for two seconds. The lowest peak is the " +
		"first held mode."},
	{"Hang", "Clamp the foot with the mast level, hang a known mass from the tray and read how far it sinks. Force over way is the stiffness."},
	{"Throttle", "On the bench, propellers off, or in a quiet hover: record the compass against the current. It tells what the leads do."},
	{"Pointing", "On level ground away from steel and cars, point the aircraft at two known bearings. It tells how far the compass is turned."},
}

func newProver() *prover {
	p := &prover{predicted: newFacts("Predicted, to be measured")}
	pieces := []fyne.CanvasObject{look.NewLabel("Prove", look.Title, look.Ink), look.Space(8),
		look.NewProse("Nothing has been measured yet. These tests say whether the mount is what was computed.", look.Body, look.Ink), look.Space(8),
		look.NewProse("Propellers off for every step on the bench.", look.Strong, look.Ink)}
	for _, t := range trials {
		pieces = append(pieces, look.Space(12), look.NewLabel(t.name, look.Strong, look.Ink), look.Space(2), look.NewProse(t.how, look.Body, look.Second))
	}
	p.left = look.NewColumn(pieces...)
	p.note = look.NewProse("", look.Caption, look.Second)
	p.right = look.NewColumn(p.predicted, look.Space(12), p.note)
	return p
}

// show tells the figures that the tests will be compared with.
func (p *prover) show(n *session.Snapshot) {
	p.predicted.set(predictions(n))
	p.note.SetText("Held: the foot clamped, as on the bench. The range is the spread of the material and of the base; a measured figure narrows it. " + cautions)
	p.right.Reflow()
}

func predictions(n *session.Snapshot) []fact {
	if n.Review == nil {
		return []fact{{"Nothing to predict", "", "no data"}}
	}
	r := n.Review.Result
	list := []fact{{"Mass of parts and screws", fmt.Sprintf("%.1f g", r.Mass), "weigh"}}
	for i, mode := range r.Held {
		if i == 2 {
			break
		}
		name := "First held mode"
		if i == 1 {
			name = "Second held mode"
		}
		list = append(list, fact{name, fmt.Sprintf("%.0f Hz, %.0f to %.0f", mode.Hz, mode.Low, mode.High), "tap"})
	}
	if r.Tip.Compliance > 0 {
		list = append(list, fact{"Stiffness at the tip", fmt.Sprintf("%.2f N/mm", 1/r.Tip.Compliance), "hang"})
	}
	if r.Compass != nil {
		if v, known := r.Verdict("heading"); known && v.Figure.Name != "" {
			list = append(list, fact{"Heading, " + v.Figure.Name, fmt.Sprintf("%.1f°", v.Figure.Value), "throttle"})
		}
		list = append(list, fact{"Declination", fmt.Sprintf("%.1f° ± %.1f°", r.Compass.Declination, r.Compass.DeclinationUncertainty), "pointing"})
	}
	return list
}

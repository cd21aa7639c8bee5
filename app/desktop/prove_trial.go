package desktop

import (
	"context"
	"fmt"
	"io"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/app/prove"
	"mastwright/design"
	"mastwright/design/evidence/bench"
	"mastwright/design/evidence/compass"
	"mastwright/design/evidence/record"
	"mastwright/design/evidence/vibration"
	"mastwright/design/units"
)

// trial is a test with its form, and what was read last.
type trial struct {
	test    prove.Test
	options []fyne.CanvasObject // what is asked before a record is read
	typed   []*ask              // readings that can be typed instead of a record
	heads   string              // what stands over them
	more    func()              // one more row of them; nil where their number is given
	columns *ask                // which column is what; nil where there is nothing to tell
	support *ask

	gather func() (attempt, bool) // from the form; false when something cannot be read, which is said there

	from    origin
	tried   bool
	running bool
	slow    bool               // running, and long enough to say so
	share   float64            // of its file that is read
	cancel  context.CancelFunc // of what is running
	turn    int                // of attempts; a later one makes an earlier's answer void
	serial  uint64
	result  *prove.Result // nil when it was refused
	refused []string

	expected    []prove.Figure
	expectation []string // why there is none
	expectedOf  string   // the document and the support that they are of
	expecting   bool
	named       string // the parts or dimensions that the typed rows are of
}

// attempt does a test on a document, with a record and its name; without one it takes what was typed.
type attempt func(doc *design.Document, r io.Reader, name string) (prove.Result, error)

// recorded reports whether a test reads a record and nothing can be typed.
func (t *trial) recorded() bool {
	return t.typed == nil && t.test.Name != "weigh" && t.test.Name != "caliper"
}

// stands is what the mount stands on.
func (t *trial) stands() vibration.Support {
	if t.support == nil {
		return vibration.OnBlock
	}
	support, _ := vibration.ParseSupport(t.support.text())
	return support
}

// abandon gives up what is being read; its answer is void.
func (t *trial) abandon() {
	if t.cancel != nil {
		t.cancel()
	}
	t.turn++
	t.cancel, t.running, t.slow, t.share = nil, false, false, 0
}

func (p *prover) newTrial(test prove.Test) *trial {
	t := &trial{test: test}
	again := func() { p.again(t) }
	switch test.Name {
	case "weigh":
		division := askNumber("Scale reads to", "1 taken", units.MassKind, "g", again)
		t.options, t.heads = []fyne.CanvasObject{division}, "Masses"
		t.gather = func() (attempt, bool) {
			in := prove.WeighInput{About: p.about()}
			grams, ok := division.boxes[0].value()
			in.Division = grams / 1e3
			for i, f := range t.expected {
				v, read := t.typed[i].boxes[0].value()
				ok = ok && read
				if !t.typed[i].boxes[0].empty() {
					in.Weights = append(in.Weights, prove.Weight{Part: f.Name, Mass: v / 1e3})
				}
			}
			return func(doc *design.Document, r io.Reader, name string) (prove.Result, error) {
				if r != nil {
					in.Weights = nil
					if err := in.ReadWeights(r, record.Options{Name: name}); err != nil {
						return prove.Result{}, err
					}
				}
				return prove.Weigh(doc, in)
			}, ok
		}
	case "caliper":
		division := askNumber("Caliper reads to", "0.05 taken", units.LengthKind, "mm", again)
		t.options, t.heads = []fyne.CanvasObject{division}, "Dimensions, up to six of these"
		t.gather = func() (attempt, bool) {
			in := prove.CaliperInput{About: p.about()}
			mm, ok := division.boxes[0].value()
			in.Division = mm / 1e3
			for i, f := range t.expected {
				v, read := t.typed[i].boxes[0].value()
				ok = ok && read
				if !t.typed[i].boxes[0].empty() {
					in.Dimensions = append(in.Dimensions, bench.Dimension{Name: f.Name, Measured: v / 1e3})
				}
			}
			return func(doc *design.Document, r io.Reader, name string) (prove.Result, error) {
				if r != nil {
					in.Dimensions = nil
					if err := in.ReadDimensions(r, record.Options{Name: name}); err != nil {
						return prove.Result{}, err
					}
				}
				return prove.Caliper(doc, in)
			}, ok
		}
	case "tap":
		t.support = askChoice("Stands", worded(vibration.Supports()), again)
		t.askColumns("acc z = az", again)
		t.options = []fyne.CanvasObject{t.support, t.columns}
		t.gather = func() (attempt, bool) {
			o, ok := t.reading()
			in := prove.TapInput{About: p.about(), TapOptions: vibration.TapOptions{Support: t.stands()}, Record: o}
			return func(doc *design.Document, r io.Reader, name string) (prove.Result, error) {
				in.Record.Name = name
				return prove.Tap(doc, r, in)
			}, ok
		}
	case "hang":
		p.hanging(t, again)
	case "throttle":
		p.throttling(t, again)
	case "pointing":
		p.pointing(t, again)
	case "hover":
		elsewhere := widget.NewCheck("not the flight controller's own record", func(bool) { again() })
		t.askColumns("acc z = az", again)
		t.options = []fyne.CanvasObject{newTick(elsewhere), t.columns}
		t.gather = func() (attempt, bool) {
			o, ok := t.reading()
			in := prove.HoverInput{About: p.about(), Record: o, Elsewhere: elsewhere.Checked}
			return func(doc *design.Document, r io.Reader, name string) (prove.Result, error) {
				in.Record.Name = name
				return prove.Hover(doc, r, in)
			}, ok
		}
	case "turn":
		unit := askChoice("Axes in", axisUnits(), again)
		calibrated := widget.NewCheck("the record is calibrated already", func(bool) { again() })
		t.askColumns("mag x = bx", again)
		t.options = []fyne.CanvasObject{unit, newTick(calibrated), t.columns}
		t.gather = func() (attempt, bool) {
			o, ok := t.reading()
			in := prove.TurnInput{Unit: axisUnit(unit), Calibrated: calibrated.Checked, Record: o}
			return func(doc *design.Document, r io.Reader, name string) (prove.Result, error) {
				in.Record.Name = name
				return prove.Turn(doc, r, in)
			}, ok
		}
	case "radio":
		p.receiving(t)
	}
	for _, a := range t.asks() {
		p.seat(a)
	}
	return t
}

// hanging is the form of the hang test: pairs of mass and reading.
func (p *prover) hanging(t *trial, again func()) {
	t.support = askChoice("Stands", []string{vibration.OnBlock.String(), vibration.HeldDown.String()}, again)
	gauge := askChoice("Read with", worded([]bench.Gauge{bench.Dial, bench.Pointer, bench.Ruler}), again)
	division := askNumber("Scale reads to", "", units.LengthKind, "mm", again)
	distance := askNumber("Pointer to its wall", "", units.LengthKind, "m", again)
	t.options, t.heads = []fyne.CanvasObject{t.support, gauge, division, distance}, "Hung mass, and what was read with it"
	row := func() {
		a := newAsk(fmt.Sprint(len(t.typed)+1), "")
		a.add(units.MassKind, "g", "", nil)
		a.add(units.LengthKind, "mm", "", nil)
		t.typed = append(t.typed, a)
	}
	for range 6 {
		row()
	}
	t.more = func() { row(); p.seat(t.typed[len(t.typed)-1]) }
	t.gather = func() (attempt, bool) {
		in := prove.HangInput{About: p.about(), Support: t.stands(), Gauge: bench.Gauge(gauge.chosen())}
		mm, ok := division.boxes[0].value()
		metres, far := distance.boxes[0].value()
		in.Division, in.Distance, ok = mm/1e3, metres, ok && far
		for _, a := range t.typed {
			mass, one := a.boxes[0].value()
			moved, two := a.boxes[1].value()
			ok = ok && one && two
			if !a.boxes[0].empty() || !a.boxes[1].empty() {
				in.Loads = append(in.Loads, bench.Load{Mass: mass / 1e3, Reading: moved / 1e3})
			}
		}
		return func(doc *design.Document, r io.Reader, name string) (prove.Result, error) {
			if r != nil {
				in.Loads = nil
				if err := in.ReadLoads(r, record.Options{Name: name}); err != nil {
					return prove.Result{}, err
				}
			}
			return prove.Hang(doc, in)
		}, ok
	}
}

// throttling is the form of the throttle test.
func (p *prover) throttling(t *trial, again func()) {
	lead := askChoice("Corrects", append([]string{"every lead"}, p.leads...), again)
	unit := askChoice("Axes in", axisUnits(), again)
	upright := askChoice("Upright axis", []string{"z", "y", "x"}, again)
	hover := askNumber("Throttle in hover", "", 0, "", again)
	full := askNumber("Throttle at full", "", 0, "", again)
	t.askColumns("mag x = bx", again)
	t.options = []fyne.CanvasObject{lead, unit, upright, look.Space(4), look.NewProse("Without a current in the record, throttle in its own measure:", look.Caption, look.Second),
		hover, full, t.columns}
	t.gather = func() (attempt, bool) {
		o, ok := t.reading()
		in := prove.ThrottleInput{About: p.about(), Unit: axisUnit(unit), Vertical: 3 - upright.chosen(), Record: o}
		if lead.chosen() > 0 {
			in.Lead = lead.text()
		}
		var one, two bool
		in.ThrottleHover, one = hover.boxes[0].value()
		in.ThrottleFull, two = full.boxes[0].value()
		return func(doc *design.Document, r io.Reader, name string) (prove.Result, error) {
			in.Record.Name = name
			return prove.Throttle(doc, r, in)
		}, ok && one && two
	}
}

// pointing is the form of the pointing test: what is shown with the nose in each direction.
func (p *prover) pointing(t *trial, again func()) {
	by := askChoice("Nose turned by", []string{"a compass", "a map"}, again)
	shown := askChoice("Shown from", []string{compass.Magnetic.String(), compass.True.String()}, again)
	turn := askNumber("Turn set before", "0 taken", units.AngleKind, "deg", again)
	down := widget.NewCheck("it was set as upside down", func(bool) { again() })
	t.options, t.heads = []fyne.CanvasObject{by, shown, turn, newTick(down)}, "Heading shown"
	noses := []struct {
		name       string
		nose, down float64
	}{{"Nose at north", 0, 0}, {"Nose at east", 90, 0}, {"Nose at south", 180, 0}, {"Nose at west", 270, 0}, {"North, nose 45° down", 0, 45}}
	for _, n := range noses {
		t.typed = append(t.typed, askNumber(n.name, "", units.AngleKind, "deg", nil))
	}
	t.gather = func() (attempt, bool) {
		in := prove.PointingInput{About: p.about(), NoseNorth: compass.North(by.chosen()), ShownNorth: compass.North(shown.chosen()), SetUpsideDown: down.Checked}
		degrees, ok := turn.boxes[0].value()
		in.SetTurn = radians(degrees)
		for i, a := range t.typed {
			v, read := a.boxes[0].value()
			ok = ok && read
			if !a.boxes[0].empty() {
				in.Readings = append(in.Readings, compass.Reading{Nose: radians(noses[i].nose), Down: radians(noses[i].down), Shown: radians(v)})
			}
		}
		return func(doc *design.Document, r io.Reader, name string) (prove.Result, error) {
			if r != nil {
				in.Readings = nil
				if err := in.ReadReadings(r, record.Options{Name: name}); err != nil {
					return prove.Result{}, err
				}
			}
			return prove.Point(doc, in)
		}, ok
	}
}

// receiving is the form of the radio test: what is on, satellites and signal.
func (p *prover) receiving(t *trial) {
	t.heads = "What is on, satellites, signal in dB-Hz"
	row := func() {
		held := "camera on"
		if len(t.typed) == 0 {
			held = "all off"
		}
		a := newAsk(fmt.Sprint(len(t.typed)+1), "")
		a.add(0, "", held, nil)
		a.add(0, "", "", nil)
		a.add(0, "", "", nil)
		t.typed = append(t.typed, a)
	}
	for range 5 {
		row()
	}
	t.typed[0].boxes[0].Text = "all off"
	t.more = func() { row(); p.seat(t.typed[len(t.typed)-1]) }
	t.gather = func() (attempt, bool) {
		var states []string
		var satellites, signal []float64
		ok := true
		for _, a := range t.typed {
			s, one := a.boxes[1].value()
			db, two := a.boxes[2].value()
			ok = ok && one && two
			if !a.boxes[1].empty() || !a.boxes[2].empty() {
				states, satellites, signal = append(states, strings.TrimSpace(a.boxes[0].Text)), append(satellites, s), append(signal, db)
			}
		}
		return func(_ *design.Document, r io.Reader, name string) (result prove.Result, err error) {
			var in prove.RadioInput
			if r != nil {
				err = in.ReadRows(r, record.Options{Name: name})
			} else {
				in.Rows, err = bench.ReadRadio(states, satellites, signal)
			}
			if err != nil {
				return result, err
			}
			return prove.Radio(in)
		}, ok
	}
}

// askColumns asks which column of a record is what; left empty, they are guessed and that is said.
func (t *trial) askColumns(like string, again func()) {
	t.columns = askText("Columns", like, again)
}

// reading is how a record is to be read.
func (t *trial) reading() (record.Options, bool) {
	o := record.Options{Columns: map[record.Role]string{}}
	for part := range strings.SplitSeq(t.columns.text(), ",") {
		if strings.TrimSpace(part) == "" {
			continue
		}
		role, name, has := strings.Cut(part, "=")
		if !has {
			t.columns.say(fmt.Sprintf("%q names no column; write role = column, such as acc z = az, and commas between.", strings.TrimSpace(part)))
			return o, false
		}
		o.Columns[record.Role(strings.TrimSpace(role))] = strings.TrimSpace(name)
	}
	return o, true
}

// asks are all the questions of a form.
func (t *trial) asks() []*ask {
	var all []*ask
	for _, piece := range t.options {
		if a, is := piece.(*ask); is {
			all = append(all, a)
		}
	}
	return append(all, t.typed...)
}

// name makes the rows of a test that asks a reading of each part or dimension. It reports whether the rows are others.
func (t *trial) name(p *prover) bool {
	kind, unit := units.MassKind, "g"
	switch t.test.Name {
	case "weigh":
	case "caliper":
		kind, unit = units.LengthKind, "mm"
	default:
		return false
	}
	var names []string
	for _, f := range t.expected {
		names = append(names, f.Name)
	}
	if now := strings.Join(names, "\n"); now == t.named && len(t.typed) == len(names) {
		for i, f := range t.expected {
			t.typed[i].caption.SetText(figured(f.Value.Value, unit))
		}
		return false
	} else {
		t.named = now
	}
	old := map[string]string{}
	for _, a := range t.typed {
		old[a.label.Text] = a.boxes[0].Text
	}
	t.typed = nil
	for _, f := range t.expected {
		a := askNumber(capital(f.Name), figured(f.Value.Value, unit), kind, unit, nil)
		a.boxes[0].Text = old[a.label.Text]
		p.seat(a)
		t.typed = append(t.typed, a)
	}
	return true
}

// worded are the words of some choices.
func worded[T fmt.Stringer](all []T) []string {
	var words []string
	for _, one := range all {
		words = append(words, one.String())
	}
	return words
}

const guessed = "guess it"

func axisUnits() []string { return append([]string{guessed}, compass.Units()...) }

func axisUnit(a *ask) string {
	if a.chosen() == 0 {
		return ""
	}
	return a.text()
}

func radians(degrees float64) float64 { return degrees * math.Pi / 180 }

package desktop

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"

	"fyne.io/fyne/v2"

	"mastwright/app/prove"
	"mastwright/design"
)

// proving opens the stage and a test of it, and waits for what is predicted.
func (h *hand) proving(test string) *trial {
	h.t.Helper()
	h.Stage(Prove)
	for i, t := range h.prover.trials {
		if t.test.Name == test {
			h.prover.pick(i)
		}
	}
	t := h.prover.trial()
	if t.test.Name != test {
		h.t.Fatalf("there is no test %q", test)
	}
	h.until("the prediction stands", func() bool { return t.expectedOf != "" && !t.expecting })
	return t
}

// read waits for a test's answer.
func (h *hand) read(t *trial) {
	h.t.Helper()
	h.until("the record is read", func() bool { return t.tried && !t.running })
	if len(t.refused) > 0 {
		h.t.Fatalf("%s: refused: %s", t.test.Name, strings.Join(t.refused, " "))
	}
}

func TestEveryTestReadsItsMadeUpRecord(t *testing.T) {
	h := opened(t)
	for _, test := range prove.Tests() {
		tried := h.proving(test.Name)
		h.prover.act[1].Tapped(nil)
		h.read(tried)
		if tried.result.Headline == "" || !tried.result.Invented {
			t.Errorf("%s: headline %q, made up %v", test.Name, tried.result.Headline, tried.result.Invented)
		}
		for _, p := range tried.result.Plots {
			if chart := chartOf(test.Name, p); chart.Empty() || chart.Summary() == "" {
				t.Errorf("%s: nothing is drawn of %q", test.Name, p.Title)
			}
		}
		if drawn := h.prover.middle() == fyne.CanvasObject(h.prover.records); drawn != (len(tried.result.Plots) > 0) {
			t.Errorf("%s: %d plots, and the record is drawn: %v", test.Name, len(tried.result.Plots), drawn)
		}
	}
}

func TestEachTestShowsItsOwnRecord(t *testing.T) {
	h := opened(t)
	tap := h.proving("tap")
	h.prover.act[1].Tapped(nil)
	h.read(tap)
	hang := h.proving("hang")
	h.prover.act[1].Tapped(nil)
	h.read(hang)
	h.proving("tap")
	if got := h.prover.records.plots[0].Chart().Title(); !strings.HasPrefix(got, "Spectrum") {
		t.Errorf("the tap test shows %q", got)
	}
	if err := h.session.Remove("leads", 0); err != nil {
		t.Fatal(err)
	}
	h.settle()
	throttle := h.proving("throttle")
	for _, name := range h.prover.leads {
		if doc := h.shown.Document; !strings.Contains(strings.Join(leadsOf(doc), "\n"), name) {
			t.Errorf("the throttle test can correct %q, which is no lead any more", name)
		}
	}
	if list := throttle.options[0].(*ask).list.Options; len(list) != 1+len(h.shown.Document.Leads) {
		t.Errorf("leads to correct: %q", list)
	}
}

func TestMeasuredValueIsUsedUndoneAndWithdrawn(t *testing.T) {
	h := opened(t)
	tap := h.proving("tap")
	if len(tap.expected) == 0 || tap.expected[0].Value.Value <= 0 {
		t.Fatal("nothing is predicted before the record")
	}
	file := filepath.Join(t.TempDir(), "tap.csv")
	out, err := os.Create(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := prove.Example(out, h.shown.Document, "tap", prove.ExampleOptions{}); err != nil {
		t.Fatal(err)
	}
	out.Close()
	h.openRecordFile(file)
	h.read(tap)
	if tap.result == nil || len(tap.result.Findings) != 1 || tap.result.Findings[0].Value.What != design.MeasuredModulus {
		t.Fatalf("a tap on a block found %+v, want one modulus", tap.result)
	}
	h.prover.shown.use.Tapped(nil)
	h.settle()
	h.read(tap)
	if len(h.shown.Document.Measured) != 1 {
		t.Fatalf("%d measured values are in use, want 1", len(h.shown.Document.Measured))
	}
	if !h.prover.shown.use.Off {
		t.Error("what is in use can be used again")
	}
	if station := h.road.stations[Prove]; station.text != "1 value measured" {
		t.Errorf("the road says %q", station.text)
	}
	h.undo()
	h.settle()
	h.read(tap)
	if len(h.shown.Document.Measured) != 0 || h.prover.shown.use.Off {
		t.Errorf("after undo %d values are in use, and Use it is off: %v", len(h.shown.Document.Measured), h.prover.shown.use.Off)
	}
	h.redo()
	h.settle()
	if err := h.session.Withdraw(0); err != nil {
		t.Fatal(err)
	}
	h.settle()
	if len(h.shown.Document.Measured) != 0 {
		t.Error("the value is still in use after it was withdrawn")
	}
}

// openRecordFile answers the question for a record.
func (h *hand) openRecordFile(file string) {
	h.t.Helper()
	h.prover.act[0].Tapped(nil)
	line, is := h.window.Canvas().Focused().(*pathLine)
	if !is {
		h.t.Fatalf("the keyboard is at %T, not in the path", h.window.Canvas().Focused())
	}
	line.SetText(file)
	line.OnSubmitted(line.Text)
}

func TestTypedReadingsAreWorkedOut(t *testing.T) {
	h := opened(t)
	weigh := h.proving("weigh")
	if len(weigh.typed) == 0 || len(weigh.typed) != len(weigh.expected) {
		t.Fatalf("%d rows for %d parts", len(weigh.typed), len(weigh.expected))
	}
	box := weigh.typed[0].boxes[0]
	box.SetText("heavy")
	h.prover.act[2].Tapped(nil)
	if weigh.tried || weigh.typed[0].problem.Text == "" {
		t.Fatal("a word was taken for a mass")
	}
	grams := 0.9 * weigh.expected[0].Value.Value
	box.SetText(strings.Replace(fmt.Sprintf("%.1f g", grams), ".", ",", 1))
	h.prover.act[2].Tapped(nil)
	h.read(weigh)
	if got := weigh.result.Compared[0].Off; got < -0.13 || got > -0.07 { // a part that is a tenth lighter
		t.Errorf("off by %.3f, want about -0.1", got)
	}
	if len(weigh.result.Findings) != 1 {
		t.Errorf("%d findings, want the density", len(weigh.result.Findings))
	}
}

func TestRefusedRecordSaysWhy(t *testing.T) {
	h := opened(t)
	turn := h.proving("turn")
	file := filepath.Join(t.TempDir(), "log.csv")
	if err := os.WriteFile(file, []byte("time,a,b\n0,1,2\n1,2,3\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	h.openRecordFile(file)
	h.until("the record is refused", func() bool { return turn.tried && !turn.running })
	if len(turn.refused) == 0 || !strings.Contains(strings.Join(turn.refused, " "), "log.csv") {
		t.Errorf("refused with %q, want the reasons with the file's name", turn.refused)
	}
}

func TestPoweredTestsBeginWithTheirCautions(t *testing.T) {
	h := opened(t)
	for _, test := range prove.Tests() {
		h.proving(test.Name)
		if h.prover.built == "" {
			t.Fatal("the form is not built")
		}
		if test.Powered != (len(test.Cautions()) > 0) {
			t.Errorf("%s: powered %v, with %d cautions", test.Name, test.Powered, len(test.Cautions()))
		}
		if width := h.prover.left.MinSize().Width; width > leastLeft {
			t.Errorf("%s: the form needs %.0f px, more than the %d of the narrowest window", test.Name, width, leastLeft)
		}
		if width := h.prover.right.MinSize().Width; width > leastRight {
			t.Errorf("%s: the right column needs %.0f px, more than %d", test.Name, width, leastRight)
		}
	}
}

func TestMeasuredAnswerSaysSoInItsField(t *testing.T) {
	h := opened(t)
	hover := h.proving("hover")
	h.prover.act[1].Tapped(nil)
	h.read(hover)
	h.prover.shown.use.Tapped(nil)
	h.settle()
	h.Stage(Measure)
	h.lead("motors.hover_speed")
	for _, f := range knowledge(h.shown) {
		if strings.Contains(strings.ToLower(f.what), "hover") && f.origin == "measured" {
			return
		}
	}
	t.Errorf("no row of what is known says that the speed in hover was measured: %v", knowledge(h.shown))
}

func TestProveIsWorkedByKeyboard(t *testing.T) {
	h := opened(t)
	tap := h.proving("tap")
	h.window.Canvas().Focus(h.prover.chips[2])
	for range 40 {
		h.window.Canvas().FocusNext()
		if h.window.Canvas().Focused() == fyne.Focusable(h.prover.act[1]) {
			break
		}
	}
	if h.window.Canvas().Focused() != fyne.Focusable(h.prover.act[1]) {
		t.Fatalf("Tab does not come to the record's buttons; it is at %T", h.window.Canvas().Focused())
	}
	h.key(fyne.KeySpace)
	h.read(tap)
	if h.window.Canvas().Focused() != fyne.Focusable(h.prover.act[1]) {
		t.Fatalf("reading the record took the keyboard to %T", h.window.Canvas().Focused())
	}
	for range 60 {
		h.window.Canvas().FocusNext()
		if h.window.Canvas().Focused() == fyne.Focusable(h.prover.shown.use) {
			break
		}
	}
	h.key(fyne.KeyReturn)
	h.settle()
	if len(h.shown.Document.Measured) != 1 {
		t.Errorf("Enter on Use it left %d measured values", len(h.shown.Document.Measured))
	}
}

func TestAnotherDesignForgetsTheRecords(t *testing.T) {
	h := opened(t)
	tap := h.proving("tap")
	h.prover.act[1].Tapped(nil)
	h.read(tap)
	if err := h.session.Example("lake-soundings"); err != nil {
		t.Fatal(err)
	}
	h.settle()
	again := h.proving("tap")
	if again == tap || again.tried || again.result != nil || again.running {
		t.Errorf("the record of another design is still there: tried %v, running %v, result %v", again.tried, again.running, again.result)
	}
	if h.prover.middle() == fyne.CanvasObject(h.prover.records) {
		t.Error("the picture of another design's record is still there")
	}
}

func TestReadingARecordIsGivenUp(t *testing.T) {
	h := opened(t)
	tap := h.proving("tap")
	h.prover.act[1].Tapped(nil)
	if !tap.running {
		t.Fatal("nothing is read")
	}
	h.prover.shown.gauge.onCancel()
	other := h.proving("hang") // what was left of the tap is void whenever it comes
	h.prover.act[1].Tapped(nil)
	h.read(other)
	h.proving("tap")
	if tap.tried || tap.running || tap.result != nil {
		t.Errorf("after it was given up: tried %v, running %v, result %v", tap.tried, tap.running, tap.result)
	}
}

// A file that is read tells how far, by hundredths, and stops where it is when it is given up.
func TestWatchedFile(t *testing.T) {
	const size = 1000
	ctx, cancel := context.WithCancel(context.Background())
	var shares []float64
	w := &watched{ctx: ctx, file: iotest.OneByteReader(strings.NewReader(strings.Repeat("x", size))), size: size,
		progress: func(share float64) { shares = append(shares, share) }}
	if n, err := io.CopyN(io.Discard, w, size/2); n != size/2 || err != nil {
		t.Fatal(n, err)
	}
	if len(shares) != 50 || shares[49] != 0.5 {
		t.Errorf("half way it was told %d shares, want 50 up to a half: %v", len(shares), shares)
	}
	cancel()
	if _, err := w.Read(make([]byte, 1)); !errors.Is(err, context.Canceled) {
		t.Errorf("a file that was given up reads on: %v", err)
	}
}

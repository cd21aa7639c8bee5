package verdicts_test

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/verdicts"
	"mastwright/design/review"
	"mastwright/design/sizing/certainty"
)

func TestAccountTellsAll(t *testing.T) {
	dressed(t, look.Light)
	f := review.Figure{Name: "swing in cruise", Value: 16.1, Unit: "°", Low: 12, High: 18, Limit: &review.Limit{Pass: 5, Marginal: 15}}
	plain := review.Figure{Name: "field", Value: 5.4, Unit: "µT", Low: 5.4, High: 5.4}
	v := review.Verdict{ID: "heading", Title: "Heading", State: review.Fail, Figure: f, Figures: []review.Figure{f, plain}, Because: "the lead swings the compass",
		Formula: "asin(5.38 / 19.4) = 16.1°", Source: "Biot-Savart law", Notes: []string{"the route is drawn from words"}, Accepted: "no compass is used"}
	changes := []verdicts.Change{{Title: "Bind the leads", Detail: "3.6° instead of 16.1°", Edits: []verdicts.Edit{{Path: "leads[0].spacing", Text: "5 mm"}}}}
	a := verdicts.NewAccount()
	var tried []verdicts.Change
	var copied []string
	a.OnTry = func(c verdicts.Change) { tried = append(tried, c) }
	a.OnCopy = func(text string) { copied = append(copied, text) }
	a.Set(verdicts.Story{Verdict: v, Changes: changes})
	w := shown(t, look.NewColumn(a), 304, 900)
	all := strings.Join(texts(w), "\n")
	for _, want := range []string{"Heading", "How far does the compass swing under throttle?", "16.1°", "swing in cruise", "good to 5°, fails above 15°",
		"The lead swings the compass.", "12 to 18° over its spread, from marginal", "Smallest changes that repair it", "Bind the leads", "3.6° instead of 16.1°", "Try",
		"How it was computed", "asin(5.38 / 19.4) = 16.1°", "Biot-Savart law.", "All its figures", "Field", "5.4 µT", "Notes", "Accepted: No compass is used.", "The route is drawn from words."} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not written in\n%s", want, all)
		}
	}
	if strings.Contains(all, "What moves it") {
		t.Error("a heading without rows")
	}
	a.SetMoves(look.NewLabel("Height", look.Body, look.Ink))
	if written := texts(w); !slices.Contains(written, "What moves it") || !slices.Contains(written, "Height") {
		t.Error("the form's rows are not shown")
	}

	test.FocusNext(w.Canvas())
	press(w.Canvas().Focused(), fyne.KeyReturn)
	if len(tried) != 1 || tried[0].Edits[0] != (verdicts.Edit{Path: "leads[0].spacing", Text: "5 mm"}) {
		t.Errorf("tried %v", tried)
	}
	test.FocusNext(w.Canvas()) // how sure it is
	test.FocusNext(w.Canvas())
	press(w.Canvas().Focused(), fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn)
	if want := []string{"Heading, field: 5.4 µT. Source: Biot-Savart law."}; !slices.Equal(copied, want) {
		t.Errorf("copied %q, want %q", copied, want)
	}
	if got, want := a.Citation(), "Heading, swing in cruise: 16.1°, fail (good to 5°, fails above 15°). Source: Biot-Savart law."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}

	focused := w.Canvas().Focused()
	a.Set(verdicts.Story{Verdict: v, Changes: changes})
	if w.Canvas().Focused() != focused || !slices.Contains(texts(w), "Height") {
		t.Error("a new review of the same check takes the focus or the form's rows away")
	}
	a.SetStale(true)
	if got := headline(w).Color; got != look.Color(look.Third) {
		t.Errorf("an old figure is shown in %v", got)
	}
}

func headline(w fyne.Window) *canvas.Text {
	for _, o := range objects(w) {
		if x, is := o.(*canvas.Text); is && x.TextSize == look.Headline.Size() {
			return x
		}
	}
	return nil
}

// What takes seconds is told as far as it is known: repairs, other heights, how sure it is.
func TestAccountTellsWhatItWasTold(t *testing.T) {
	dressed(t, look.Light)
	f := review.Figure{Name: "drop", Value: 0.2, Unit: "m", Low: 0.2, High: 0.2, Limit: &review.Limit{Pass: 0.05, Marginal: 0.1}}
	v := review.Verdict{ID: "tipover", Title: "Tip-over", State: review.Fail, Figure: f}
	a := verdicts.NewAccount()
	var asked []bool
	a.OnDoubt = func(on bool) { asked = append(asked, on) }
	w := shown(t, look.NewColumn(a), 304, 900)
	share := func(x float64) certainty.Share { return certainty.Share{Value: x, Low: x - 0.05, High: x + 0.05} }
	chance := certainty.Chance{Known: true, Pass: share(0.87), Marginal: share(0.125), Fail: share(0.005), Influences: []certainty.Influence{{Name: "stiffness of the plastic"}}}
	for _, c := range []struct {
		name       string
		story      verdicts.Story
		want, lack []string
	}{
		{"looking", verdicts.Story{Verdict: v, Seeking: true}, []string{"Smallest changes that repair it", "looking for repairs", "Ask"}, []string{"Try"}},
		{"none", verdicts.Story{Verdict: v, Advice: "No single change and no pair of changes repairs Tip-over."}, []string{"No single change and no pair of changes"}, []string{"looking for repairs", "Try"}},
		{"past", verdicts.Story{Verdict: v, Changes: []verdicts.Change{{Title: "Wall 3.2 mm"}}, Past: true, Seeking: true}, []string{"Wall 3.2 mm", "Try", "looking for repairs"}, nil},
		{"first", verdicts.Story{Verdict: v, Changes: []verdicts.Change{{Title: "Wall 3.2 mm"}}, Seeking: true, Sought: 0.45}, []string{"Wall 3.2 mm", "Try", "looking for more, 45 %"}, nil},
		{"heights", verdicts.Story{Verdict: v, Heights: "It passes up to 92 mm."}, []string{"At other heights", "It passes up to 92 mm."}, []string{"Smallest changes that repair it"}},
		{"being drawn", verdicts.Story{Verdict: v, Doubt: verdicts.Doubt{Busy: true, Share: 0.4}}, []string{"40 %", "Stop"}, []string{"Ask", "At other heights"}},
		{"drawn", verdicts.Story{Verdict: v, Doubt: verdicts.Doubt{Chance: &chance, Samples: 200}},
			[]string{"Passes in 87 %, marginal in 12 %, fails in < 1 %", "82 to 92 % pass", "Hangs most on: stiffness of the", "200 designs"}, []string{"Ask", "Stop"}},
	} {
		a.Set(c.story)
		all := strings.Join(texts(w), " ")
		for _, want := range c.want {
			if !strings.Contains(all, want) {
				t.Errorf("%s: %q is not written in %s", c.name, want, all)
			}
		}
		for _, lack := range c.lack {
			if strings.Contains(all, lack) {
				t.Errorf("%s: %q is written", c.name, lack)
			}
		}
	}
	var tried int
	a.OnTry = func(verdicts.Change) { tried++ }
	for _, past := range []bool{true, false} {
		a.Set(verdicts.Story{Verdict: v, Changes: []verdicts.Change{{Title: "Wall 3.2 mm"}}, Past: past})
		w.Canvas().Unfocus()
		test.FocusNext(w.Canvas())
		press(w.Canvas().Focused(), fyne.KeyReturn)
	}
	if tried != 1 {
		t.Errorf("a change was tried %d times, want once: not while it is for an earlier design", tried)
	}
	w.Canvas().Unfocus()
	a.Set(verdicts.Story{Verdict: v})
	test.FocusNext(w.Canvas())
	press(w.Canvas().Focused(), fyne.KeyReturn)
	a.Set(verdicts.Story{Verdict: v, Doubt: verdicts.Doubt{Busy: true}})
	press(w.Canvas().Focused(), fyne.KeyReturn)
	if want := []bool{true, false}; !slices.Equal(asked, want) {
		t.Errorf("asked %v, want %v", asked, want)
	}
}

func TestAccountWithoutData(t *testing.T) {
	dressed(t, look.Light)
	doc := example(t, "greenhouse-patrol")
	doc.Clear("cable.length")
	doc.Clear("leads[0].spacing")
	v, _ := reviewed(t, doc).Verdict("bus")
	a := verdicts.NewAccount()
	var asked []string
	a.OnAnswer = func(path string) { asked = append(asked, path) }
	a.Set(verdicts.Story{Verdict: v, Answers: doc.Missing()})
	w := shown(t, look.NewColumn(a), 304, 598)
	written := texts(w)
	if !slices.Contains(written, "No data") || !slices.Contains(written, "Cable length") {
		t.Errorf("got %q", written)
	}
	if slices.Contains(written, "Wires apart") {
		t.Error("it asks for an answer of another check")
	}
	test.FocusNext(w.Canvas())
	press(w.Canvas().Focused(), fyne.KeyReturn)
	if !slices.Equal(asked, []string{"cable.length"}) {
		t.Errorf("asked for %v", asked)
	}
}

func TestLevers(t *testing.T) {
	compass := &review.Compass{Levers: []review.Lever{
		{Lead: "pack lead", State: "cruise", Path: "leads[0].spacing", To: "9 mm", Before: 16.1, After: 7},
		{Lead: "pack lead", State: "cruise", Path: "leads[0].pitch", To: "35 mm", Before: 16.1, After: 1.9, Meets: true},
	}}
	got := verdicts.Levers(review.Verdict{ID: "heading"}, compass)
	if len(got) != 2 {
		t.Fatalf("got %v", got)
	}
	for i, want := range []verdicts.Change{
		{Title: "Pack lead: wires twisted, a turn every 35 mm", Detail: "1.9° instead of 16.1° in cruise", Edits: []verdicts.Edit{{Path: "leads[0].run", Text: "twisted"}, {Path: "leads[0].pitch", Text: "35 mm"}}},
		{Title: "Pack lead: wires apart 9 mm", Detail: "7° instead of 16.1° in cruise, still over the limit", Edits: []verdicts.Edit{{Path: "leads[0].spacing", Text: "9 mm"}}},
	} {
		if got[i].Title != want.Title || got[i].Detail != want.Detail || !slices.Equal(got[i].Edits, want.Edits) {
			t.Errorf("got  %v\nwant %v", got[i], want)
		}
	}
	if got := verdicts.Levers(review.Verdict{ID: "shake"}, compass); got != nil {
		t.Errorf("a lead does not help against shaking: %v", got)
	}
}

func BenchmarkAccountFollows(b *testing.B) {
	test.NewTempApp(b).Settings().SetTheme(look.Theme{Choice: look.Light})
	a := verdicts.NewAccount()
	column := look.NewColumn(a)
	a.OnReflow = column.Reflow
	w := test.NewTempWindow(b, column)
	w.Resize(fyne.NewSize(304, 598))
	v := invented().Verdicts[1]
	v.Because = strings.Repeat("the battery lead swings the compass ", 4)
	for b.Loop() {
		v.Figure.Value += 0.01
		a.Set(verdicts.Story{Verdict: v})
	}
}

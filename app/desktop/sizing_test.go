package desktop

import (
	"context"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"mastwright/app/desktop/look"
	"mastwright/design"
	"mastwright/design/review"
	"mastwright/design/sizing"
)

func (h *hand) example(name string) {
	h.t.Helper()
	if err := h.session.Example(name); err != nil {
		h.t.Fatal(err)
	}
	h.settle()
}

// The bands beside the staff are those of the design: the verdicts at the present height are the staff's there.
func TestStaffShowsTheWindowAndKeepsItWhileTheHeightMoves(t *testing.T) {
	h := opened(t)
	h.until("the heights are known", func() bool { return h.shown.Heights != nil && h.shown.Heights.Current })
	r := reading(h.shown)
	if len(r.Bands) == 0 || r.Stale || r.Height != 100 {
		t.Fatalf("the staff shows %+v", r)
	}
	worst := review.Pass
	for _, row := range h.list.Rows() {
		worst = max(worst, row.State)
	}
	for _, b := range r.Bands {
		if b.From < 100 && 100 < b.To && b.State != worst {
			t.Errorf("at 100 mm the staff says %v, the verdicts %v", b.State, worst)
		}
	}
	if err := h.session.Set("mast.height", "110 mm"); err != nil {
		t.Fatal(err)
	}
	h.settle()
	if r := reading(h.shown); r.Stale || r.Height != 110 {
		t.Errorf("after a move of the mark: stale %t at %v mm", r.Stale, r.Height)
	}
	if err := h.session.Set("mast.wall", "3.2 mm"); err != nil {
		t.Fatal(err)
	}
	h.settle()
	if !reading(h.shown).Stale {
		t.Error("the bands of another wall look current")
	}
	if s := h.account.Story(); s.Heights != "" && !s.Gone {
		t.Error("the account tells the heights of another wall as its own")
	}
	h.Stage(Make)
	if h.session.Snapshot().Heights != nil {
		t.Error("heights are looked for where there is no staff")
	}
}

// A repair is tried with Enter, does what it says, and is taken back as one step.
func TestRepairIsTriedAndTakenBack(t *testing.T) {
	h := opened(t)
	h.example("hedgerow-scout")
	h.pick("shake")
	before := h.shown.Document
	h.until("it says that it is looking", func() bool { return h.account.Story().Seeking || h.shown.Advice != nil })
	h.until("there is advice", func() bool { return h.shown.Advice != nil })
	changes := h.account.Story().Changes
	if len(changes) == 0 || len(changes) > 3 {
		t.Fatalf("%d changes are offered", len(changes))
	}
	h.window.Canvas().Unfocus()
	for range 60 {
		if chip, is := h.window.Canvas().Focused().(*look.Chip); is && chip.Text == "Try" {
			break
		}
		test.FocusNext(h.window.Canvas())
	}
	h.key(fyne.KeyReturn)
	h.settle()
	if s := h.account.Story(); s.Verdict.State != review.Pass && len(s.Changes) > 0 && !s.Past {
		t.Error("the repairs of the design before look current")
	}
	for _, e := range changes[0].Edits {
		if got := h.shown.Document.Get(e.Path); got != e.Text {
			t.Errorf("%s is %q, want %q", e.Path, got, e.Text)
		}
	}
	if v, _ := h.shown.Review.Result.Verdict("shake"); v.State == review.Fail {
		t.Errorf("%s: it still fails", changes[0].Title)
	}
	if !strings.Contains(h.hint.help.Text, "becomes") {
		t.Errorf("at the foot: %q", h.hint.help.Text)
	}
	if h.window.Canvas().Focused() != fyne.Focusable(h.list) {
		t.Errorf("the keyboard is at %T", h.window.Canvas().Focused())
	}
	if h.shown.Undo != changes[0].Title {
		t.Errorf("undo takes back %q", h.shown.Undo)
	}
	h.undo()
	h.settle()
	for _, e := range changes[0].Edits {
		if h.shown.Document.Get(e.Path) != before.Get(e.Path) {
			t.Errorf("after undo %s is %q", e.Path, h.shown.Document.Get(e.Path))
		}
	}
}

func TestPairIsSaidToBeOne(t *testing.T) {
	said, changes := repairsOf(sizing.Advice{Title: "Tip-over", Pair: true, Words: "No single change repairs Tip-over. The best pair: wall 3.2 mm and print it lying: 0.2 m becomes 1 m. 5 g more, no other verdict changes.",
		Repairs: []sizing.Repair{{Words: "Wall 3.2 mm and print it lying: 0.2 m becomes 1 m. 5 g more, no other verdict changes.",
			Changes: []sizing.Change{{Path: "mast.wall", Value: "3.2 mm"}, {Path: "print.orientation", Value: "lying"}}}}})
	if want := "No single change repairs Tip-over. The best pair:"; said != want {
		t.Errorf("got %q, want %q", said, want)
	}
	if len(changes) != 1 || changes[0].Title != "Wall 3.2 mm and print it lying" || changes[0].Detail != "0.2 m becomes 1 m. 5 g more, no other verdict changes." || len(changes[0].Edits) != 2 {
		t.Errorf("got %+v", changes)
	}
}

func TestStretchesAreWords(t *testing.T) {
	at := func(from, to float64, s review.State) sizing.Band {
		return sizing.Band{Interval: sizing.Interval{From: from, To: to}, State: s}
	}
	for _, c := range []struct {
		want  string
		bands []sizing.Band
	}{
		{"It passes at every height from 30 to 180 mm.", []sizing.Band{at(30, 180, review.Pass)}},
		{"It passes from 90 mm, is marginal from 60 to 90 mm, fails up to 60 mm.", []sizing.Band{at(30, 60, review.Fail), at(60, 90, review.Marginal), at(90, 180, review.Pass)}},
		{"It passes from 60 to 90 mm, is marginal up to 60 mm and from 90 mm.", []sizing.Band{at(30, 60, review.Marginal), at(60, 90, review.Pass), at(90, 180, review.Marginal)}},
		{"It passes from 36 mm, cannot be built up to 36 mm.", []sizing.Band{{Interval: sizing.Interval{From: 30, To: 36}, Unbuildable: "the opening does not fit"}, at(36, 180, review.Pass)}},
	} {
		if got := stretches(c.bands); got != c.want {
			t.Errorf("got  %q\nwant %q", got, c.want)
		}
	}
}

func TestCertaintyIsAskedFor(t *testing.T) {
	h := opened(t)
	h.pick("modes")
	if h.account.Story().Doubt.Chance != nil {
		t.Fatal("it is told before it was asked for")
	}
	h.account.OnDoubt(true)
	h.until("the chance is known", func() bool { return h.account.Story().Doubt.Chance != nil })
	c := h.account.Story().Doubt.Chance
	if sum := c.Pass.Value + c.Marginal.Value + c.Fail.Value; c.Check != "modes" || !c.Known || sum < 0.999 || sum > 1.001 {
		t.Errorf("got %+v", c)
	}
	h.pick("heading")
	if c := h.account.Story().Doubt.Chance; c == nil || c.Check != "heading" {
		t.Error("the chance of another check is told, or none")
	}
	if err := h.session.Set("mast.height", "90 mm"); err != nil {
		t.Fatal(err)
	}
	h.settle()
	if h.account.Story().Doubt.Chance != nil {
		t.Error("the chance of an earlier design is told")
	}
}

func TestLightestIsLookedForAndGivenUp(t *testing.T) {
	h := opened(t)
	serial := h.shown.Serial
	h.lighten()
	if h.asked == nil || !h.asked.press("Cancel") {
		t.Fatal("it cannot be given up")
	}
	h.settle()
	if h.shown.Serial != serial || !strings.HasPrefix(h.hint.help.Text, "Given up") {
		t.Errorf("at the foot: %q", h.hint.help.Text)
	}
}

func TestLightestIsAppliedAsOneStep(t *testing.T) {
	h := opened(t)
	found := sizing.Sized{Passes: true, Words: []string{"25 g becomes 20 g, and everything passes."}, Changes: []sizing.Change{{Path: "mast.height", Value: "95 mm"}, {Path: "mast.wall", Value: "2 mm"}},
		Binds: []sizing.Bind{{Path: "mast.wall", Value: "1.6 mm", Check: "strength", State: review.Fail}}}
	h.lightened(h.shown.Serial, found, nil)
	if h.asked == nil || !h.asked.press("Leave it as it is") || h.session.Snapshot().Dirty {
		t.Fatal("it cannot be left as it is")
	}
	h.lightened(h.shown.Serial, found, nil)
	h.key(fyne.KeyReturn) // the first answer has the keyboard
	h.settle()
	if h.shown.Document.Get("mast.height") != "95 mm" || h.shown.Document.Get("mast.wall") != "2 mm" || h.shown.Undo != "Lightest design" {
		t.Errorf("height %q, wall %q, undo %q", h.shown.Document.Get("mast.height"), h.shown.Document.Get("mast.wall"), h.shown.Undo)
	}
	h.undo()
	h.settle()
	if h.shown.Dirty {
		t.Error("undo leaves something of it")
	}
	h.lightened(h.shown.Serial-1, found, nil)
	if h.asked != nil {
		t.Error("the lightest form of an earlier design is offered")
	}
	for _, c := range []struct {
		found sizing.Sized
		err   error
		want  string
	}{
		{sizing.Sized{Words: []string{"Heading and Sway exclude each other."}}, nil, "No design that passes was found"},
		{sizing.Sized{Passes: true, Words: []string{"It is the lightest."}}, nil, "Nothing lighter was found"},
		{sizing.Sized{}, design.Problem{Text: "no"}, "No lightest design"},
		{sizing.Sized{}, context.DeadlineExceeded, "No lightest design"},
	} {
		h.lightened(h.shown.Serial, c.found, c.err)
		if h.asked == nil || h.asked.title.Text != c.want {
			t.Fatalf("want %q", c.want)
		}
		h.asked.press("Close")
	}
}

// Where no height passes the staff says which checks exclude each other; what opens a window is looked for, given up or applied as one step.
func TestShutWindowIsOpenedByOneChange(t *testing.T) {
	h := opened(t)
	h.until("the heights are known", func() bool { return h.shown.Heights != nil && h.shown.Heights.Current })
	if h.stand.shut {
		t.Fatalf("some heights pass, and the staff says %q", h.stand.said.Text)
	}
	h.example("quarry-survey")
	h.until("the heights are known", func() bool { return h.shown.Heights != nil && h.shown.Heights.Current })
	if want := "Heading and Modes exclude each other"; !h.stand.shut || h.stand.said.Text != want {
		t.Fatalf("the staff says %q, want %q", h.stand.said.Text, want)
	}
	serial := h.shown.Serial
	h.stand.open.Tapped(nil)
	if h.asked == nil || !h.asked.press("Cancel") || h.session.Snapshot().Serial != serial {
		t.Fatal("it cannot be given up")
	}
	h.stand.open.Tapped(nil)
	h.until("something is offered", func() bool { return h.asked != nil && h.asked.title.Text == "What opens a height" })
	h.key(fyne.KeyReturn) // the first answer has the keyboard
	h.settle()
	h.until("the heights are known again", func() bool { return h.shown.Heights.Current })
	if h.stand.shut || h.shown.Undo != "Window opened" {
		t.Errorf("after it was applied the staff says %q; undo takes back %q", h.stand.said.Text, h.shown.Undo)
	}
	h.undo()
	h.settle()
	h.until("the heights are known again", func() bool { return h.shown.Heights.Current })
	if !h.stand.shut || h.shown.Dirty {
		t.Error("undo leaves something of it")
	}
}

func TestWhatOpensNothingLeadsOn(t *testing.T) {
	h := opened(t)
	h.unshutBy(h.shown.Serial, sizing.Window{}, nil)
	if h.asked == nil || h.asked.title.Text != "No single change opens a height" || !h.asked.press("Find the lightest that passes") {
		t.Fatal("nothing is said, or nothing leads on")
	}
	if h.asked == nil || !h.asked.press("Cancel") {
		t.Fatal("the lightest design is not looked for")
	}
	h.unshutBy(h.shown.Serial-1, sizing.Window{Opening: &sizing.Repair{}}, nil)
	if h.asked != nil {
		t.Error("what opens a window of an earlier design is offered")
	}
	h.unshutBy(h.shown.Serial, sizing.Window{}, context.DeadlineExceeded)
	if h.asked == nil || !h.asked.press("Close") {
		t.Error("an error is not told")
	}
}

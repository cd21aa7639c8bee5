package sizing

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"mastwright/design"
	"mastwright/design/review"
)

// HeightOptions are what Heights is asked.
type HeightOptions struct {
	Options
	From, To float64 // mm, range to look at; both 0: 30 to 180, stretched to the present height
	Opening  bool    // where no height passes, look for the smallest other change that opens a window: some thousand reviews
}

// Interval is a range of heights in mm; both ends belong to it.
type Interval struct{ From, To float64 }

// Band is a range of heights over which a check says the same. Where two bands touch, the height belongs to the better one.
type Band struct {
	Interval
	State       review.State
	Unbuildable string // why it cannot be built there; then there is no state
}

// CheckBands is a check over height, from below and without gaps.
type CheckBands struct {
	Check, Title string
	Bands        []Band
}

// StaffBand is a range of heights with the worst verdict there and the check that gives it.
type StaffBand struct {
	Interval
	State review.State
	Check string // id; "" where everything passes, or where it cannot be built, which counts as a failure
	Label string // the check's title in lower case; "cannot be built"
}

// Window is what a design's checks say about its height.
type Window struct {
	From, To float64 // mm, the range looked at
	Height   float64 // mm, the present one

	Checks   []CheckBands // those with data, in the order of review.Checks; one that the design accepts is shown and binds nothing
	Staff    []StaffBand
	Pass     []Interval // every check passes
	Marginal []Interval // no check fails, and at least one is marginal

	Open         bool // there is a window
	Main         Interval
	MainState    review.State // Pass, or Marginal where no height passes
	Below, Above string       // ids of the checks that bind at its two ends; "" where the range looked at ends, or nothing can be built

	Exclude []string // where no height passes: ids of a smallest set of checks that no height keeps together
	Opening *Repair  // the smallest other change, with the height that goes with it, after which a height passes; nil: none, or not asked for

	Missing []string // ids of the checks without data
	Reviews int      // designs reviewed
}

// scanStep is the distance in mm of the heights looked at before crossings are closed in on: a window that is narrower may be missed.
const scanStep = 2

// Heights finds for every check the heights where it passes and where it is marginal, and what they have in common. Crossings are
// found on the lattice of the height's values, 0.5 mm.
func Heights(ctx context.Context, doc *design.Document, o HeightOptions) (Window, error) {
	b, err := newBench(ctx, doc, o.Options)
	if err != nil {
		return Window{}, err
	}
	height, ok := newLever(doc, "mast.height")
	if !ok {
		return Window{}, fmt.Errorf("mast.height: this design has no height that can be moved")
	}
	s := survey{bench: b, height: height, at: map[int]outcome{}}
	if err := s.scan(ctx, o); err != nil {
		return Window{}, err
	}
	w := s.window()
	if o.Opening && len(w.Pass) == 0 {
		if w.Opening, err = s.opening(ctx, w.Exclude, o); err != nil {
			return Window{}, err
		}
	}
	w.Reviews = b.reviews()
	return w, nil
}

// survey is a design looked at over its height.
type survey struct {
	*bench
	height lever
	low    int // lattice values looked at, the first and the last
	high   int
	at     map[int]outcome
	known  []int // those reviewed, in order
}

// scan reviews the heights of the scan and then halves every interval over which a check changes its state.
func (s *survey) scan(ctx context.Context, o HeightOptions) error {
	from, to := o.From, o.To
	if from == 0 && to == 0 {
		from, to = min(30, s.height.now), max(180, s.height.now)
	}
	index := func(mm float64) int { return int(mm/s.height.step+0.5) - s.height.first }
	s.low, s.high = max(0, index(from)), min(s.height.count-1, index(to))
	if s.low >= s.high {
		return fmt.Errorf("heights from %g to %g mm: there are none to look at; give a lower and a higher one between %g and %g mm",
			from, to, s.height.field.Low, s.height.field.High)
	}
	var wanted []int
	for i := s.low; i < s.high; i += int(scanStep / s.height.step) {
		wanted = append(wanted, i)
	}
	wanted = append(wanted, s.high)
	for done := 0; len(wanted) > 0; {
		outcomes := make([]outcome, len(wanted))
		err := s.each(len(wanted), func(i int) (err error) {
			outcomes[i], err = s.try(ctx, s.height.change(wanted[i]))
			return err
		})
		if err != nil {
			return err
		}
		for i, h := range wanted {
			s.at[h] = outcomes[i]
		}
		s.known = append(s.known, wanted...)
		slices.Sort(s.known)
		done += len(wanted)
		wanted = s.between()
		if o.Progress != nil {
			o.Progress(done, done+len(wanted))
		}
	}
	return nil
}

// between are the middles of the intervals that still hold a change and a height that was not looked at.
func (s *survey) between() []int {
	var list []int
	for i := 1; i < len(s.known); i++ {
		a, c := s.known[i-1], s.known[i]
		if c-a > 1 && !same(s.at[a], s.at[c]) {
			list = append(list, (a+c)/2)
		}
	}
	return list
}

// same reports whether two outcomes say the same of every check.
func same(a, b outcome) bool {
	if (a.problem == "") != (b.problem == "") {
		return false
	}
	return slices.EqualFunc(a.verdicts, b.verdicts, func(x, y finding) bool { return x.state == y.state })
}

func (s *survey) window() Window {
	w := Window{From: s.height.value(s.low), To: s.height.value(s.high), Height: s.height.now}
	for i, id := range s.ids {
		bands := s.bands(func(o outcome) review.State { return o.verdicts[i].state })
		if !slices.ContainsFunc(bands, func(b Band) bool { return b.Unbuildable == "" && b.State != review.NoData }) {
			w.Missing = append(w.Missing, id)
			continue
		}
		w.Checks = append(w.Checks, CheckBands{Check: id, Title: s.title(id), Bands: bands})
	}
	for _, band := range s.bands(func(o outcome) review.State { state, _ := o.worst(); return state }) {
		switch {
		case band.Unbuildable != "":
		case band.State == review.Pass:
			w.Pass = append(w.Pass, band.Interval)
		case band.State == review.Marginal:
			w.Marginal = append(w.Marginal, band.Interval)
		}
	}
	w.Staff = s.staff()
	w.MainState = review.Pass
	choice := w.Pass
	if len(choice) == 0 {
		choice, w.MainState = w.Marginal, review.Marginal
		w.Exclude = s.exclude()
	}
	if w.Open = len(choice) > 0; !w.Open {
		return w
	}
	w.Main = choice[0]
	for _, i := range choice[1:] {
		if holds := w.Main.holds(w.Height); !holds && (i.holds(w.Height) || i.To-i.From > w.Main.To-w.Main.From) {
			w.Main = i
		}
	}
	w.Below, w.Above = s.binding(w.Main, -1), s.binding(w.Main, +1)
	return w
}

func (i Interval) holds(mm float64) bool { return i.From <= mm && mm <= i.To }

// worst is the worst state of the checks that count, and the number of the one that gives it; -1 where everything passes.
func (o outcome) worst() (state review.State, check int) {
	check = -1
	highest := 1.0
	for i, f := range o.verdicts {
		if f.counts() && f.place > highest {
			state, check, highest = f.state, i, f.place
		}
	}
	return state, check
}

// bands joins heights that say the same. Known neighbours that differ are one lattice step apart, and the better one's height is where
// they touch.
func (s *survey) bands(state func(outcome) review.State) []Band {
	var list []Band
	for _, i := range s.known {
		o := s.at[i]
		next := Band{Interval: Interval{s.height.value(i), s.height.value(i)}, Unbuildable: o.problem}
		if o.problem == "" {
			next.State = state(o)
		}
		list = joined(list, next, func(a, b Band) bool {
			return (a.Unbuildable == "") == (b.Unbuildable == "") && a.State == b.State
		}, Band.better)
		if len(list) == 1 {
			list[0].Unbuildable = o.problem // what still stands in the way next to where it can be built
		}
	}
	return list
}

// better orders bands by what is said of them.
func (b Band) better(other Band) bool {
	if b.Unbuildable != "" || other.Unbuildable != "" {
		return b.Unbuildable == ""
	}
	return b.State < other.State
}

// staff joins heights with the same worst state, and those that fail or are marginal by the check that is worst.
func (s *survey) staff() []StaffBand {
	var list []StaffBand
	for _, i := range s.known {
		o := s.at[i]
		next := StaffBand{Interval: Interval{s.height.value(i), s.height.value(i)}, State: review.Fail, Label: "cannot be built"}
		if o.problem == "" {
			state, check := o.worst()
			next.State, next.Label = state, ""
			if check >= 0 {
				next.Check, next.Label = s.ids[check], strings.ToLower(s.title(s.ids[check]))
			}
		}
		list = joined(list, next, func(a, b StaffBand) bool { return a.State == b.State && a.Label == b.Label },
			func(a, b StaffBand) bool { return a.State < b.State })
	}
	return list
}

func (b *Band) interval() *Interval      { return &b.Interval }
func (b *StaffBand) interval() *Interval { return &b.Interval }

// joined appends a height to bands: to the last one where it says the same, otherwise as a new band that touches it at the height of the
// better of the two.
func joined[B any, P interface {
	*B
	interval() *Interval
}](list []B, next B, alike, better func(a, b B) bool) []B {
	if len(list) == 0 {
		return append(list, next)
	}
	last := &list[len(list)-1]
	from, to := P(&next).interval(), P(last).interval()
	switch {
	case alike(*last, next):
		to.To = from.To
		return list
	case better(*last, next):
		from.From = to.To
	default:
		to.To = from.From
	}
	return append(list, next)
}

// binding is the check that is worst one lattice step beyond an end of an interval.
func (s *survey) binding(i Interval, direction int) string {
	for k, h := range s.known {
		mm := s.height.value(h)
		if direction < 0 && mm == i.From && k > 0 {
			return s.worstAt(s.known[k-1])
		}
		if direction > 0 && mm == i.To && k+1 < len(s.known) {
			return s.worstAt(s.known[k+1])
		}
	}
	return ""
}

func (s *survey) worstAt(h int) string {
	if _, check := s.at[h].worst(); check >= 0 {
		return s.ids[check]
	}
	return ""
}

// exclude finds a smallest set of checks that no height keeps together, by taking out one after the other whatever is not needed for
// that: first those that pass most often.
func (s *survey) exclude() []string {
	var outcomes []outcome
	for _, h := range s.known {
		outcomes = append(outcomes, s.at[h])
	}
	return s.conflict(outcomes, review.Pass)
}

// conflict is the smallest set of checks, by deletion, that none of some outcomes keeps at a state or better together; nil when one does.
// It is minimal, not the least of all: without any one of its checks some outcome would do.
func (b *bench) conflict(outcomes []outcome, state review.State) []string {
	kept := make([]bool, len(b.ids))
	broken := make([]int, len(b.ids)) // how often a check is worse
	for i := range b.ids {
		for _, o := range outcomes {
			if o.problem == "" && o.verdicts[i].counts() && o.verdicts[i].state > state {
				broken[i]++
			}
		}
		kept[i] = broken[i] > 0
	}
	excluded := func() bool {
		return !slices.ContainsFunc(outcomes, func(o outcome) bool {
			if o.problem != "" {
				return false
			}
			for i, f := range o.verdicts {
				if kept[i] && f.counts() && f.state > state {
					return false
				}
			}
			return true
		})
	}
	if !excluded() {
		return nil
	}
	order := make([]int, len(b.ids))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, k int) int { return broken[i] - broken[k] })
	for _, i := range order {
		if kept[i] {
			kept[i] = false
			kept[i] = !excluded()
		}
	}
	var ids []string
	for i, k := range kept {
		if k {
			ids = append(ids, b.ids[i])
		}
	}
	return ids
}

package sizing

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"mastwright/design"
	"mastwright/design/review"
)

// RepairOptions are what Repairs is asked.
type RepairOptions struct {
	Options
	Checks []string // ids; empty: every check that fails or is marginal and is not accepted
	Single bool     // no pairs are looked for: they cost most

	// Partly is told while the repairs of a check are looked for: the best so far, and how much was tried of what is to be tried, of which
	// there is more once pairs are looked for. It is told from one goroutine at a time, in no certain order; nil for nobody.
	Partly func(check string, found []Repair, done, total int)
}

// Advice is what would repair a verdict.
type Advice struct {
	Check, Title string
	State        review.State // now
	Repairs      []Repair     // the best three at most; where no single change does it, the best pair alone
	Pair         bool         // no single change does it
	Words        string       // what is to be said before the repairs; "" when they speak for themselves
}

// Repair is a change after which a verdict is better and no other is worse.
type Repair struct {
	Check         string // id
	Changes       []Change
	From, To      review.State
	Before, After review.Figure // the figure that decides now, then and now
	Mass          float64       // g that it adds; negative: it gets lighter
	Size          float64       // of the change, for ranking: the logarithm of a number's ratio, 1 for a choice
	Better        []string      // ids of the other checks whose verdict gets better
	Words         string        // what to do and what comes of it, in two sentences
}

// most is how many repairs of a check are offered.
const most = 3

// massStep is a difference of mass in g that no builder weighs: repairs that differ by less are ranked by their size.
const massStep = 0.05

// Apply makes a copy of a design with the repair's changes.
func (r Repair) Apply(doc *design.Document) (*design.Document, error) { return apply(doc, r.Changes) }

// Repairs finds for each check that does not pass the nearest value of every field at which it does, or at which its verdict is at
// least better, and no other check's verdict is worse. Every value was reviewed as it is reported.
func Repairs(ctx context.Context, doc *design.Document, o RepairOptions) ([]Advice, error) {
	for _, id := range o.Checks {
		if _, ok := review.Find(id); !ok {
			return nil, fmt.Errorf("%q is no check; the checks are %s", id, strings.Join(design.Checks(), ", "))
		}
	}
	b, err := newBench(ctx, doc, o.Options)
	if err != nil {
		return nil, err
	}
	var wanted []int
	for i, f := range b.present.verdicts {
		if f.counts() && f.state != review.Pass && len(o.Checks) == 0 || slices.Contains(o.Checks, b.ids[i]) {
			wanted = append(wanted, i)
		}
	}
	list := levers(doc)
	var all []Advice
	for n, i := range wanted {
		a, err := b.advise(ctx, list, i, o)
		if err != nil {
			return nil, err
		}
		all = append(all, a)
		if o.Progress != nil {
			o.Progress(n+1, len(wanted))
		}
	}
	return all, nil
}

// advise looks for the repairs of one check, for pairs of changes only where they are wanted.
func (b *bench) advise(ctx context.Context, list []lever, check int, o RepairOptions) (Advice, error) {
	now := b.present.verdicts[check].state
	a := Advice{Check: b.ids[check], Title: b.titles[check], State: now}
	switch now {
	case review.NoData:
		a.Words = a.Title + " has no data: answer what it lacks before anything is changed."
		return a, nil
	case review.Pass:
		a.Words = a.Title + " passes: there is nothing to repair."
		return a, nil
	}
	c := course{check: a.Check, tell: o.Partly, total: 2 * len(list)}
	probes, err := b.probed(ctx, list, stageOf(a.Check), &c)
	if err != nil {
		return a, err
	}
	found, err := b.singles(ctx, probes, check, &c)
	if err == nil && len(found) == 0 && !o.Single {
		a.Pair = true
		c.total += len(list)
		if probes, err = b.probed(ctx, list, stages-1, &c); err == nil {
			found, err = b.pairs(ctx, probes, check, &c)
		}
	}
	if err != nil {
		return a, err
	}
	slices.SortStableFunc(found, Repair.rank)
	a.Repairs = found[:min(most, len(found))]
	switch {
	case a.Pair && len(found) > 0:
		a.Repairs = found[:1]
		a.Words = "No single change repairs " + a.Title + ". The best pair: " + lowered(a.Repairs[0].Words)
	case len(found) == 0 && o.Single:
		a.Words = "No single change repairs " + a.Title + "."
	case a.Pair:
		a.Words = "No single change and no pair of changes repairs " + a.Title + " without making another verdict worse."
	}
	return a, nil
}

// course is how far the search for the repairs of a check is.
type course struct {
	sync.Mutex
	check       string
	tell        func(check string, found []Repair, done, total int) // nil for nobody
	found       []Repair
	done, total int
}

// step counts something that was tried and the repairs that it gave; the course may be nil.
func (c *course) step(found ...Repair) {
	if c == nil || c.tell == nil {
		return
	}
	c.Lock()
	defer c.Unlock()
	c.done++
	c.found = append(c.found, found...)
	slices.SortStableFunc(c.found, Repair.rank)
	c.tell(c.check, slices.Clone(c.found[:min(most, len(c.found))]), c.done, c.total)
}

// more counts what is to be tried besides.
func (c *course) more(n int) {
	if c != nil {
		c.Lock()
		c.total += n
		c.Unlock()
	}
}

// rank orders repairs: by the verdict they reach, by the mass they add, by their size.
func (r Repair) rank(other Repair) int {
	grams := func(x float64) float64 { return math.Round(x / massStep) }
	return cmp.Or(cmp.Compare(r.To, other.To), cmp.Compare(grams(r.Mass), grams(other.Mass)), cmp.Compare(r.Size, other.Size))
}

// singles are the repairs of a check by one field each: the best of each field, and where those are few, more of the choices.
func (b *bench) singles(ctx context.Context, list []probe, check int, c *course) ([]Repair, error) {
	found := make([][]Repair, len(list))
	err := b.each(len(list), func(i int) (err error) {
		if !list[i].moves[check] {
			c.step()
			return nil
		}
		for goal := review.Pass; goal < b.present.verdicts[check].state && len(found[i]) == 0; goal++ {
			var steps []trial
			if steps, err = b.nearest(ctx, nil, list[i].lever, func(o outcome) bool { return b.repaired(o, check, goal) }); err != nil {
				return err
			}
			for _, s := range steps {
				found[i] = append(found[i], b.repair(check, s))
			}
		}
		slices.SortStableFunc(found[i], Repair.rank)
		c.step(found[i][:min(1, len(found[i]))]...)
		return nil
	})
	var all, more []Repair
	for _, f := range found {
		if len(f) > 0 {
			all, more = append(all, f[0]), append(more, f[1:]...)
		}
	}
	slices.SortStableFunc(more, Repair.rank)
	return append(all, more[:min(len(more), max(0, most-len(all)))]...), err
}

// repaired reports whether a check has reached a state and no other check's verdict is worse than it is now.
func (b *bench) repaired(o outcome, check int, goal review.State) bool {
	if o.problem != "" || o.verdicts[check].state > goal {
		return false
	}
	for i, f := range o.verdicts {
		if i != check && f.state > b.present.verdicts[i].state {
			return false
		}
	}
	return true
}

// trial is a value of a lever that was reviewed, on top of other changes.
type trial struct {
	lever   lever
	at      int
	changes []Change
	outcome outcome
	size    float64
}

// nearest finds the value of a lever nearest to the present one at which something holds: for numbers one in each direction, bracketed
// by the first of the values tried outwards at which it holds and closed in on by halving; for choices all at which it holds.
func (b *bench) nearest(ctx context.Context, base []Change, l lever, holds func(outcome) bool) ([]trial, error) {
	at := func(i int) (trial, bool, error) {
		s := trial{lever: l, at: i, changes: slices.Concat(base, l.change(i)), size: l.size(i)}
		var ok bool
		var err error
		s.outcome, ok, err = b.when(ctx, s.changes, holds)
		return s, ok, err
	}
	var found []trial
	if !l.ordered {
		for i := range l.count {
			if i == l.at {
				continue
			}
			s, ok, err := at(i)
			if err != nil {
				return nil, err
			}
			if ok {
				found = append(found, s)
			}
		}
		return found, nil
	}
	down, up := l.outwards()
	for _, way := range [][]int{down, up} {
		last := l.at
		for _, i := range way {
			s, ok, err := at(i)
			if err != nil {
				return nil, err
			}
			if !ok {
				last = i
				continue
			}
			for d := i - last; d > 1 || d < -1; d = s.at - last {
				middle, ok, err := at(last + d/2)
				if err != nil {
					return nil, err
				}
				if ok {
					s = middle
				} else {
					last = middle.at
				}
			}
			found = append(found, s)
			break
		}
	}
	return found, nil
}

// repair describes a step as a repair of a check.
func (b *bench) repair(check int, s trial) Repair {
	before, after := b.present.verdicts[check], s.outcome.verdicts[check]
	r := Repair{
		Check: b.ids[check], Changes: s.changes, From: before.state, To: after.state, Before: before.figure, After: after.figure,
		Mass: s.outcome.mass - b.present.mass, Size: s.size,
	}
	for i, f := range s.outcome.verdicts {
		if i != check && f.state < b.present.verdicts[i].state {
			r.Better = append(r.Better, b.ids[i])
		}
	}
	r.Words = b.words(r)
	return r
}

// probe is a lever and what it does to each check, read at a few values over its whole way.
type probe struct {
	lever
	moves []bool    // the check's figure changes at all
	gains []float64 // most by which its place gets better, whatever else breaks
	best  []int     // value where it does
}

// probed tries every lever at a few values, up to a stage of the review: of the checks beyond it it says nothing.
func (b *bench) probed(ctx context.Context, list []lever, last int, c *course) ([]probe, error) {
	probes := make([]probe, len(list))
	err := b.each(len(list), func(n int) error {
		p := probe{list[n], make([]bool, len(b.ids)), make([]float64, len(b.ids)), make([]int, len(b.ids))}
		for _, i := range p.probes() {
			o, err := b.until(ctx, p.change(i), last)
			if err != nil {
				return err
			}
			if o.problem != "" {
				continue
			}
			for k, f := range o.verdicts {
				if stageOf(b.ids[k]) > last {
					continue
				}
				gain := b.present.verdicts[k].place - f.place
				p.moves[k] = p.moves[k] || math.Abs(gain) > 1e-9 || f.state != b.present.verdicts[k].state
				if f.state != review.NoData && gain > p.gains[k] {
					p.gains[k], p.best[k] = gain, i
				}
			}
		}
		probes[n] = p
		c.step()
		return nil
	})
	return probes, err
}

// helps reports whether a lever can better any of some checks by more than a trifle.
func (p probe) helps(checks []int) bool {
	return slices.ContainsFunc(checks, func(k int) bool { return p.gains[k] > 0.01 })
}

// leaders is how many fields lead a pair.
const leaders = 4

// pairs are repairs by two fields: one of those that better the check most, at the value where it does and half way there, and any other
// that helps what is then still worse, at the nearest value that does. Both are then drawn back as far as it still holds.
func (b *bench) pairs(ctx context.Context, list []probe, check int, c *course) ([]Repair, error) {
	leading := slices.DeleteFunc(slices.Clone(list), func(p probe) bool { return !p.helps([]int{check}) })
	slices.SortStableFunc(leading, func(x, y probe) int { return cmp.Compare(y.gains[check], x.gains[check]) })
	leading = leading[:min(leaders, len(leading))]
	for goal := review.Pass; goal < b.present.verdicts[check].state; goal++ {
		good := func(o outcome) bool { return b.repaired(o, check, goal) }
		found := make([][]Repair, len(leading)*len(list))
		c.more(len(found))
		err := b.each(len(found), func(n int) error {
			defer func() { c.step(found[n]...) }()
			first, other := leading[n/len(list)], list[n%len(list)]
			if first.path == other.path {
				return nil
			}
			values := []int{first.best[check]}
			if half := (first.best[check] + first.at) / 2; first.ordered && half != first.at {
				values = append(values, half)
			}
			for _, i := range values {
				alone, err := b.try(ctx, first.change(i))
				if err != nil {
					return err
				}
				if !other.helps(b.worse(alone, check, goal)) {
					continue
				}
				steps, err := b.nearest(ctx, first.change(i), other.lever, good)
				if err != nil {
					return err
				}
				for _, s := range steps {
					if s, err = b.drawn(ctx, first.lever, i, s, good); err != nil {
						return err
					}
					found[n] = append(found[n], b.repair(check, s))
				}
			}
			return nil
		})
		if all := slices.Concat(found...); err != nil || len(all) > 0 {
			return all, err
		}
	}
	return nil, nil
}

// worse are the checks that keep an outcome from being a repair of one.
func (b *bench) worse(o outcome, check int, goal review.State) []int {
	var list []int
	for i, f := range o.verdicts {
		if i == check && f.state > goal || i != check && f.state > b.present.verdicts[i].state {
			list = append(list, i)
		}
	}
	return list
}

// drawn draws the leading lever of a pair back towards its present value as far as the pair still holds, all the way where it can, then
// the other.
func (b *bench) drawn(ctx context.Context, leading lever, at int, pair trial, good func(outcome) bool) (trial, error) {
	other := pair.lever
	alone := trial{lever: other, at: pair.at, changes: other.change(pair.at), size: other.size(pair.at)}
	var ok bool
	var err error
	if alone.outcome, ok, err = b.when(ctx, alone.changes, good); ok || err != nil {
		return alone, err
	}
	pair.size += leading.size(at)
	near, far := at, leading.at
	for leading.ordered && (near-far > 1 || far-near > 1) {
		middle := (near + far) / 2
		changes := slices.Concat(leading.change(middle), other.change(pair.at))
		o, ok, err := b.when(ctx, changes, good)
		if err != nil {
			return pair, err
		}
		if !ok {
			far = middle
			continue
		}
		near = middle
		pair.changes, pair.outcome, pair.size = changes, o, leading.size(middle)+other.size(pair.at)
	}
	steps, err := b.nearest(ctx, leading.change(near), other, good)
	if err != nil {
		return pair, err
	}
	for _, s := range steps {
		s.size += leading.size(near)
		if s.size < pair.size {
			pair = s
		}
	}
	return pair, nil
}

// opening looks for the smallest change of another field after which some height passes everything. At each height only what helps the
// checks that do not pass there is tried.
func (s *survey) opening(ctx context.Context, excluded []string, o HeightOptions) (*Repair, error) {
	all := slices.DeleteFunc(levers(s.doc), func(l lever) bool { return l.path == s.height.path })
	others, err := s.probed(ctx, all, stages-1, nil)
	if err != nil {
		return nil, err
	}
	good := func(o outcome) bool {
		_, check := o.worst()
		return o.problem == "" && check < 0
	}
	check := slices.Index(s.ids, excluded[0])
	found := make([][]Repair, len(others))
	done := 0
	err = s.each(len(others), func(n int) error {
		for _, h := range s.promising(others[n]) {
			steps, err := s.nearest(ctx, s.height.change(h), others[n].lever, good)
			if err != nil {
				return err
			}
			for _, p := range steps {
				if p, err = s.drawn(ctx, s.height, h, p, good); err != nil {
					return err
				}
				found[n] = append(found[n], s.repair(check, p))
			}
		}
		s.Lock()
		defer s.Unlock()
		if done++; o.Progress != nil {
			o.Progress(done, len(others))
		}
		return nil
	})
	repairs := slices.Concat(found...)
	if err != nil || len(repairs) == 0 {
		return nil, err
	}
	best := slices.MinFunc(repairs, Repair.rank)
	return &best, nil
}

// promising are a few heights at which a lever helps every check that does not pass.
func (s *survey) promising(p probe) []int {
	var heights []int
	for _, h := range s.known {
		o := s.at[h]
		if o.problem != "" {
			continue
		}
		helped := true
		for k, f := range o.verdicts {
			helped = helped && (!f.counts() || f.state == review.Pass || p.gains[k] > 0.01)
		}
		if helped {
			heights = append(heights, h)
		}
	}
	const few = 3
	if len(heights) <= few {
		return heights
	}
	var list []int
	for i := range few {
		list = append(list, heights[i*(len(heights)-1)/(few-1)])
	}
	return list
}

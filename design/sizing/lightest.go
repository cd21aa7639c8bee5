package sizing

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"math/bits"
	"slices"
	"strings"

	"mastwright/design"
	"mastwright/design/review"
)

// LightestOptions are what Lightest is asked.
type LightestOptions struct {
	Options
	Free      []string // paths that may change, of Movable; empty: the usual ones, which are height, sections, stock, thickness, fillets, plastic and orientation
	Keep      []string // paths that may not
	Styles    []string // ways to build that may be chosen; empty: the present one, or all where mast.build is in Free
	Materials []string // plastics that may be chosen; empty: all
}

// Sized is the lightest design that was found.
type Sized struct {
	Document      *design.Document // the design itself where nothing better was found
	Passes        bool             // no check fails but those that the design accepts
	Changes       []Change
	Before, After review.Result // of every check: verdicts and mass
	Binds         []Bind
	Conflict      []string // where it does not pass: ids of a smallest set of checks that no design looked at keeps from failing together
	Loosen        []Repair // where it does not pass: single changes of the best found after which a check in conflict no longer fails
	Impossible    []string // styles and materials with which nothing could be built, each with the reason
	Reviews       int      // designs reviewed
	Words         []string // what was found, a sentence each
}

// Bind is what keeps a field from going on towards less mass.
type Bind struct {
	Path    string
	Value   string       // the next value, which is not taken
	Check   string       // id of the check that it would cost; "" when it could not be built
	State   review.State // what that check would say
	Problem string       // why it could not be built
}

// usual are the fields that are free where nothing is said.
var usual = []string{"mast.height", "mast.root.x", "mast.root.y", "mast.tip.x", "mast.tip.y", "mast.wall", "mast.root_fillet", "mast.tip_fillet",
	"foot.thickness", "tray.thickness", "mast.tube.outside", "mast.tube.clamp.grip", "mast.tube.clamp.wall", "mast.plates.thickness",
	"mast.plates.root", "mast.plates.tip", "mast.plates.gap", "mast.plates.grip", "mast.legs.section.x", "mast.legs.section.y",
	"mast.legs.grip", "mast.legs.pad", "print.orientation", "materials.mast", "materials.foot"}

// branching are the choices of which every combination is a start of its own, in the order in which they are set.
var branching = []string{"mast.build", "mast.section", "print.orientation", "materials.mast", "materials.foot"}

// The stages of a search. Starts are compared as they are, the best of each style after a coarse search, and the best of those after
// a full one.
const (
	entrants  = 3 // starts of a style that are searched coarsely
	coarse    = 2 // halvings of the first steps in it
	finalists = 2 // starts of a style that are searched to the end
	heirs     = 2 // starts of a style that are searched on from where the best of it ended
	halvings  = 12
	gain      = 0.003 // share of the mass that an exchange of two fields must save
)

// Lightest looks for the lightest design that passes: no check fails, the fewest are marginal, and then the least mass. A check that the
// design accepts does not count. How it looks is in the package's comment.
func Lightest(ctx context.Context, doc *design.Document, o LightestOptions) (Sized, error) {
	b, err := newBench(ctx, doc, o.Options)
	if err != nil {
		return Sized{}, err
	}
	free, err := o.free(doc)
	if err != nil {
		return Sized{}, err
	}
	z := sizer{bench: b, free: free, o: o}
	starts, err := z.starts(ctx)
	if err != nil {
		return Sized{}, err
	}
	found, err := z.race(ctx, starts)
	if err != nil {
		return Sized{}, err
	}
	return z.sized(ctx, found)
}

// free are the paths that may change.
func (o LightestOptions) free(doc *design.Document) ([]string, error) {
	movable := Movable(doc)
	free := slices.Clone(o.Free)
	for _, list := range [][]string{o.Free, o.Keep} {
		for _, path := range list {
			_, known := design.FieldOf(path)
			switch {
			case !known:
				return nil, fmt.Errorf("%s: there is no such field; those that can be freed are %s", path, strings.Join(movable, ", "))
			case !slices.Contains(movable, path) && !slices.Contains(usual, path):
				return nil, fmt.Errorf("%s is measured, not chosen; those that can be freed are %s", path, strings.Join(movable, ", "))
			}
		}
	}
	if len(free) == 0 {
		free = slices.Clone(usual)
	}
	if len(o.Styles) > 0 {
		free = append(free, "mast.build")
	}
	if len(o.Materials) > 0 {
		free = append(free, "materials.mast", "materials.foot")
	}
	free = slices.DeleteFunc(free, func(path string) bool { return slices.Contains(o.Keep, path) })
	if !slices.ContainsFunc(free, func(path string) bool { return slices.Contains(movable, path) }) {
		return nil, fmt.Errorf("nothing is free: every field that may change is kept; free one of %s", strings.Join(movable, ", "))
	}
	for _, list := range []struct {
		path    string
		allowed []string
	}{{"mast.build", o.Styles}, {spool(doc), o.Materials}} {
		for _, text := range list.allowed {
			l, ok := newLever(doc, list.path)
			if !ok || !slices.ContainsFunc(l.choices, func(c choice) bool { return c.text == text }) {
				return nil, fmt.Errorf("%s: %q is no choice; write %s", list.path, text, strings.Join(l.texts(), ", "))
			}
		}
	}
	return free, nil
}

// texts are the choices of a lever.
func (l lever) texts() []string {
	var texts []string
	for _, c := range l.choices {
		texts = append(texts, c.text)
	}
	return texts
}

// sizer is a search for the lightest design.
type sizer struct {
	*bench
	free []string
	o    LightestOptions
}

// start is a combination of choices with the fields that are free in it.
type start struct {
	name    string
	base    []Change
	style   string
	levers  []lever
	axes    []axis
	at      []int
	score   score
	promise float64
	problem string // why nothing is built here
}

// begins are the start sections of the styles that are not the design's own.
func (z *sizer) begins(ctx context.Context) (map[string][]Change, error) {
	sections := map[string][]Change{}
	if !slices.Contains(z.free, "mast.build") {
		return sections, nil
	}
	styles, err := review.CompareStyles(ctx, z.doc)
	for _, s := range styles {
		for _, c := range s.Start {
			if z.doc.Get(c[0]) == c[1] {
				continue
			}
			sections[s.Name] = append(sections[s.Name], Change{c[0], c[1]})
		}
	}
	return sections, err
}

// starts are every combination of the branching choices.
func (z *sizer) starts(ctx context.Context) ([]start, error) {
	sections, err := z.begins(ctx)
	if err != nil {
		return nil, err
	}
	list := []start{{}}
	for _, path := range branching {
		var next []start
		for _, s := range list {
			doc, err := apply(z.doc, s.base)
			if err != nil {
				return nil, err
			}
			l, ok := newLever(doc, path)
			if !ok || !slices.Contains(z.free, path) || path == "materials.foot" && spool(doc) != path {
				next = append(next, s)
				continue
			}
			for i, c := range l.choices {
				if !z.allows(path, c.text) {
					continue
				}
				n := start{name: strings.TrimPrefix(s.name+", "+c.text, ", "), base: s.base}
				switch {
				case i == l.at:
				case path == "mast.build" && sections[c.text] != nil:
					n.base = slices.Concat(s.base, sections[c.text])
				default:
					n.base = slices.Concat(s.base, c.changes)
				}
				next = append(next, n)
			}
		}
		list = next
	}
	for i := range list {
		if err := z.lay(&list[i]); err != nil {
			return nil, err
		}
	}
	return list, nil
}

func (z *sizer) allows(path, text string) bool {
	allowed := z.o.Styles
	switch path {
	case "materials.mast", "materials.foot":
		allowed = z.o.Materials
	case "mast.build":
	default:
		allowed = nil
	}
	return len(allowed) == 0 || slices.Contains(allowed, text)
}

// lay finds the levers that are free in a start's combination and their lattice.
func (z *sizer) lay(s *start) error {
	doc, err := apply(z.doc, s.base)
	if err != nil {
		return err
	}
	s.style = doc.Mast.Build
	for _, l := range levers(doc) {
		if !slices.Contains(z.free, l.path) || slices.Contains(branching, l.path) {
			continue
		}
		size := l.high - l.low + 1
		a := axis{size: size, first: 1 << max(0, bits.Len(uint(size/6))-1), choices: !l.ordered}
		s.levers, s.axes, s.at = append(s.levers, l), append(s.axes, a), append(s.at, min(max(l.at, l.low), l.high)-l.low)
	}
	return nil
}

// changes are what a point of a start's lattice answers. A value that is the present one is not answered anew.
func (s start) changes(point []int) []Change {
	changes := slices.Clone(s.base)
	for i, l := range s.levers {
		if at := l.low + point[i]; at != l.at || l.ordered && l.value(at) != l.now {
			changes = append(changes, l.change(at)...)
		}
	}
	return changes
}

// aim scores an outcome on the way to a passing design: by how far every check is from passing, failures ten times. It leads from
// anywhere to where everything passes.
func (z *sizer) aim(o outcome, minds func(check int) bool) score {
	if o.problem != "" {
		return score{excess: math.Inf(1)}
	}
	s := score{cost: o.mass}
	for i, f := range o.verdicts {
		switch {
		case !minds(i):
		case f.state == review.NoData && z.present.verdicts[i].state != review.NoData:
			s.excess += 10
		case f.counts():
			s.excess += max(0, f.place-1) + 10*max(0, f.place-2)
		}
	}
	return s
}

// judge scores an outcome by what is wanted: no failures, fewest marginals, least mass.
func (z *sizer) judge(o outcome) score {
	s := z.aim(o, func(i int) bool { return o.verdicts[i].state != review.Marginal })
	for _, f := range o.verdicts {
		if f.counts() && f.state == review.Marginal {
			s.count++
		}
	}
	return s
}

func everyCheck(int) bool { return true }

// race compares the starts as they are, searches the best of each style coarsely and the best of those to the end. It returns all of
// them, the best first.
func (z *sizer) race(ctx context.Context, starts []start) ([]start, error) {
	err := z.each(len(starts), func(i int) error {
		s := &starts[i]
		o, err := z.try(ctx, s.changes(s.at))
		s.score, s.problem, s.promise = z.aim(o, everyCheck), o.problem, z.promise(o)
		return err
	})
	if err != nil {
		return nil, err
	}
	slices.SortStableFunc(starts, start.rank)
	entered := map[string]int{}
	var first, rest []start
	for _, s := range starts {
		if entered[s.style] < entrants && s.problem == "" {
			entered[s.style]++
			first = append(first, s)
		} else {
			rest = append(rest, s)
		}
	}
	done, total := 0, len(first)+len(entered)*(finalists+heirs)
	search := func(s *start, p pattern) error {
		if err := z.search(ctx, s, p); err != nil {
			return err
		}
		z.Lock()
		defer z.Unlock()
		if done++; z.o.Progress != nil {
			z.o.Progress(done, total)
		}
		return nil
	}
	if err := z.each(len(first), func(i int) error { return search(&first[i], pattern{halvings: coarse}) }); err != nil {
		return nil, err
	}
	slices.SortStableFunc(first, start.order)
	all := slices.Concat(first, rest)
	finish := func(list []start, halved int) error {
		return z.each(len(list), func(i int) error {
			fine(&list[i], halved)
			return search(&list[i], pattern{halvings: halvings, pairs: true, gain: gain})
		})
	}
	best := leading(first, finalists)
	if err := finish(best, coarse); err != nil {
		return nil, err
	}
	slices.SortStableFunc(best, start.order)
	var next []start
	for _, s := range leading(best, 1) {
		list, err := z.heirs(ctx, s, all)
		if err != nil {
			return nil, err
		}
		next = append(next, list...)
	}
	if err := finish(next, 2*coarse); err != nil {
		return nil, err
	}
	best = append(best, next...)
	slices.SortStableFunc(best, start.order)
	return append(best, all...), nil
}

// leading are the first few starts of each style.
func leading(list []start, most int) []start {
	var few []start
	count := map[string]int{}
	for _, s := range list {
		if count[s.style]++; count[s.style] <= most {
			few = append(few, s)
		}
	}
	return few
}

// fine halves a start's first steps.
func fine(s *start, halved int) {
	s.axes = slices.Clone(s.axes)
	for k := range s.axes {
		s.axes[k].first = max(1, s.axes[k].first>>halved)
	}
}

// search walks from a start to what passes, then to what is light. Exchanges are for what is light; where something fails still, they
// are tried for that too.
func (z *sizer) search(ctx context.Context, s *start, p pattern) error {
	p.axes = s.axes
	run := func(by func(outcome) score, p pattern) (err error) {
		s.at, s.score, err = p.search(s.at, func(point []int, best score) (score, error) {
			o, _, err := z.when(ctx, s.changes(point), func(o outcome) bool { return by(o).better(best) })
			return by(o), err
		})
		return err
	}
	aim := func(o outcome) score { return z.aim(o, everyCheck) }
	single := p
	single.pairs = false
	if err := run(aim, single); err != nil {
		return err
	}
	if p.pairs && s.score.excess >= 10 {
		if err := run(aim, pattern{axes: p.axes, halvings: coarse, pairs: true, gain: gain}); err != nil {
			return err
		}
	}
	p.effect = func(point []int) (effect, error) {
		o, err := z.try(ctx, s.changes(point))
		if err != nil || o.problem != "" {
			return effect{}, err
		}
		e := effect{cost: o.mass, places: make([]float64, len(o.verdicts))}
		for i, f := range o.verdicts {
			if f.counts() {
				e.places[i] = f.place
			}
		}
		return e, nil
	}
	return run(z.judge, p)
}

// promise is a mass that may be come down to: the present one by the part that the hardest of the structure's checks uses of its room.
func (z *sizer) promise(o outcome) float64 {
	hardest := 0.0
	for i, f := range o.verdicts {
		if f.counts() && stageOf(z.ids[i]) == 2 {
			hardest = max(hardest, f.place)
		}
	}
	return o.mass * hardest
}

// rank puts the start that promises more first, among those that are as near to passing.
func (s start) rank(other start) int {
	return cmp.Or(cmp.Compare(s.score.excess, other.score.excess), cmp.Compare(s.promise, other.promise))
}

// heirs are the other starts of a style that are worth a search from where one of them ended: near to passing there, and promising
// more; the best few.
func (z *sizer) heirs(ctx context.Context, ended start, all []start) ([]start, error) {
	present, err := z.try(ctx, ended.changes(ended.at))
	if err != nil {
		return nil, err
	}
	var list []start
	for _, s := range all {
		if s.style != ended.style || s.name == ended.name {
			continue
		}
		s.at = slices.Clone(s.at)
		for i, l := range s.levers {
			if k := slices.IndexFunc(ended.levers, func(e lever) bool { return e.path == l.path }); k >= 0 {
				s.at[i] = min(max(ended.levers[k].low+ended.at[k]-l.low, 0), s.axes[i].size-1)
			}
		}
		o, err := z.try(ctx, s.changes(s.at))
		if err != nil {
			return nil, err
		}
		s.score, s.promise = z.aim(o, everyCheck), z.promise(o)
		if own := z.promise(present); s.score.excess <= ended.score.excess+1 && s.promise < own {
			list = append(list, s)
		}
	}
	slices.SortStableFunc(list, func(a, b start) int { return cmp.Compare(a.promise, b.promise) })
	return list[:min(len(list), heirs)], nil
}

// order puts the better start first.
func (s start) order(other start) int {
	switch {
	case s.score.better(other.score):
		return -1
	case other.score.better(s.score):
		return 1
	}
	return 0
}

// sized describes what was found.
func (z *sizer) sized(ctx context.Context, found []start) (Sized, error) {
	best := found[0]
	changes := best.changes(best.at)
	end, err := z.try(ctx, changes)
	if err != nil {
		return Sized{}, err
	}
	out := Sized{Impossible: impossible(found)}
	unbuilt := end.problem != ""
	if z.allowsPresent() && (unbuilt || !z.judge(end).better(z.judge(z.present))) || unbuilt {
		changes, end = nil, z.present
	}
	if out.Document, err = apply(z.doc, changes); err != nil {
		return Sized{}, err
	}
	out.Changes = changes
	for _, r := range []struct {
		doc  *design.Document
		into *review.Result
	}{{z.doc, &out.Before}, {out.Document, &out.After}} {
		result, wrong, err := z.shop.Judge(ctx, r.doc, z.ids...)
		if err != nil {
			return Sized{}, err
		}
		if len(wrong) > 0 {
			return Sized{}, Unbuildable(wrong)
		}
		*r.into = result
	}
	if unbuilt && !z.allowsPresent() {
		out.Reviews = z.reviews()
		out.Words = []string{"None of the ways to build that were asked for can be built."}
		return out, nil
	}
	out.Passes = !slices.ContainsFunc(end.verdicts, func(f finding) bool { return f.counts() && f.state == review.Fail })
	if !out.Passes {
		if out.Conflict, err = z.contradiction(ctx, found); err != nil {
			return Sized{}, err
		}
		if out.Loosen, err = z.loosen(ctx, out); err != nil {
			return Sized{}, err
		}
	} else if len(changes) > 0 {
		if out.Binds, err = z.binds(ctx, best, end); err != nil {
			return Sized{}, err
		}
	}
	out.Reviews = z.reviews()
	out.Words = z.story(out)
	return out, nil
}

// allowsPresent reports whether the design as it is is made in a way that was asked for.
func (z *sizer) allowsPresent() bool {
	path := spool(z.doc)
	return z.allows("mast.build", z.doc.Mast.Build) && z.allows(path, z.doc.Get(path))
}

// impossible groups the starts in which nothing can be built by the reason.
func impossible(found []start) []string {
	var reasons []string
	names, starts := map[string][]string{}, map[string]int{}
	for _, s := range found {
		starts[s.style]++
		if !math.IsInf(s.score.excess, 1) {
			continue
		}
		reason := s.style + "\x00" + s.problem
		if names[reason] == nil {
			reasons = append(reasons, reason)
		}
		if !slices.Contains(names[reason], s.name) {
			names[reason] = append(names[reason], s.name)
		}
	}
	var said []string
	for _, reason := range reasons {
		style, problem, _ := strings.Cut(reason, "\x00")
		of := names[reason]
		switch {
		case len(of) == starts[style]:
			said = append(said, style+": "+problem)
		case len(of) > 3:
			said = append(said, fmt.Sprintf("%s and %d more: %s", strings.Join(of[:2], "; "), len(of)-2, problem))
		default:
			said = append(said, strings.Join(of, "; ")+": "+problem)
		}
	}
	return said
}

// loosen looks for single changes of the best design found, of any field, that keep a check in conflict from failing: two of each at most.
func (z *sizer) loosen(ctx context.Context, out Sized) ([]Repair, error) {
	advice, err := Repairs(ctx, out.Document, RepairOptions{Options: Options{Workshop: z.shop, Workers: z.workers}, Checks: out.Conflict, Single: true})
	if err != nil {
		return nil, err
	}
	var list []Repair
	for _, a := range advice {
		repairs := slices.DeleteFunc(a.Repairs, func(r Repair) bool { return r.To == review.Fail })
		list = append(list, repairs[:min(2, len(repairs))]...)
	}
	return list, nil
}

// binds asks of every number one step further towards less mass what would stop it.
func (z *sizer) binds(ctx context.Context, s start, end outcome) ([]Bind, error) {
	var list []Bind
	for i, l := range s.levers {
		if !l.ordered {
			continue
		}
		for _, step := range []int{-1, 1} {
			point := slices.Clone(s.at)
			if point[i] += step; point[i] < 0 || point[i] >= s.axes[i].size {
				continue
			}
			o, err := z.try(ctx, s.changes(point))
			if err != nil {
				return nil, err
			}
			b := Bind{Path: l.path, Value: l.text(l.low + point[i])}
			if o.problem != "" {
				b.Problem = o.problem
				list = append(list, b)
				continue
			}
			if o.mass >= end.mass {
				continue
			}
			worst := 0.0
			for k, f := range o.verdicts {
				if f.counts() && f.state > end.verdicts[k].state && f.place > worst {
					worst, b.Check, b.State = f.place, z.ids[k], f.state
				}
			}
			if b.Check != "" {
				list = append(list, b)
			}
		}
	}
	return list, nil
}

// contradiction finds a smallest set of checks that cannot be kept from failing together. A set is believed only after a search that
// minds nothing else has not met it either.
func (z *sizer) contradiction(ctx context.Context, found []start) ([]string, error) {
	for {
		ids := z.bench.conflict(z.whole(), review.Marginal)
		met := make([]bool, min(finalists, len(found)))
		before := z.reviews()
		err := z.each(len(met), func(n int) error {
			s := found[n]
			_, best, err := pattern{axes: s.axes, halvings: 3, pairs: true}.search(s.at, func(point []int, best score) (score, error) {
				failing := func(o outcome) score {
					return z.aim(o, func(i int) bool { return slices.Contains(ids, z.ids[i]) && o.verdicts[i].state != review.Marginal })
				}
				o, _, err := z.when(ctx, s.changes(point), func(o outcome) bool { return failing(o).better(best) })
				return failing(o), err
			})
			met[n] = best.excess == 0
			return err
		})
		if err != nil || len(ids) == 0 || !slices.Contains(met, true) || z.reviews() == before {
			return ids, err
		}
	}
}

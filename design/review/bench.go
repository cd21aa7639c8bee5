package review

import (
	"maps"

	"mastwright/design"
	"mastwright/design/units"
	"mastwright/materials"
)

// Lot is one drawing from the spread of what a design is made of: how the plastic turned out, and how the plates are held. Zero is typical.
type Lot struct {
	Modulus  float64 // of every printed part over its typical modulus; 0 means 1
	Strength float64 // of every printed part over its typical strength; 0 means 1
	Loss     float64 // of every loss factor over its typical; 0 means 1
	// Yield is the share of their compliance that the plates under the mast give: 1 where the screws are pins, towards 0 where they
	// clamp; 0 means the middle, 0.5.
	Yield float64
}

func (l Lot) filled() Lot {
	for _, f := range []*float64{&l.Modulus, &l.Strength, &l.Loss} {
		if *f == 0 {
			*f = 1
		}
	}
	if l.Yield == 0 {
		l.Yield = middleYield
	}
	return l
}

// Bench is a design made ready to be tried in many lots: its geometry is worked out once, and a lot costs one set of modes and one
// of load cases. It may be used from several goroutines.
type Bench struct {
	shop    *Workshop
	subject *subject // never changed
}

// Bench makes a design ready. The problems are those of a design that cannot be built.
func (w *Workshop) Bench(doc *design.Document) (*Bench, []design.Problem) {
	s, problems := w.subject(doc)
	if len(problems) > 0 {
		return nil, problems
	}
	for i := range s.spine.spans {
		s.places(i)
	}
	s.cases()
	for f, missing := range [][]string{held: s.lacksMount(), flying: s.lacksStructure()} {
		if missing == nil {
			_, _ = s.kinOf(freedom(f)) // an error comes up again in every lot
		}
	}
	first := s.in(Lot{}.filled())
	for _, c := range checks {
		first.verdict(c)
	}
	s.missing = first.missing // every check has asked what it lacks
	w.count(first)
	w.count(s)
	return &Bench{w, s}, nil
}

// Try runs checks, all of them where no id is given, as if every property were the lot's: what a verdict takes at an end of a spread it
// takes at the lot's value. Ids that are no check's are an error.
func (b *Bench) Try(lot Lot, ids ...string) ([]Verdict, error) {
	asked, err := chosen(ids)
	if err != nil {
		return nil, err
	}
	s := b.subject.in(lot.filled())
	defer b.shop.count(s)
	verdicts := make([]Verdict, len(asked))
	for i, c := range asked {
		verdicts[i] = s.verdict(c)
	}
	return verdicts, nil
}

// Try is Bench.Try for a design that is tried in one lot alone: what a bench prepares for the lots to come is left out. The figures are the
// bench's within 1e-5 of themselves.
// The problems are those of a design that cannot be built.
func (w *Workshop) Try(doc *design.Document, lot Lot, ids ...string) ([]Verdict, []design.Problem, error) {
	asked, err := chosen(ids)
	if err != nil {
		return nil, nil, err
	}
	s, problems := w.prepared(doc, rigid(asked))
	if len(problems) > 0 {
		return nil, problems, nil
	}
	t := s.in(lot.filled())
	t.work = s.work
	defer w.count(t)
	verdicts := make([]Verdict, len(asked))
	for i, c := range asked {
		verdicts[i] = t.verdict(c)
	}
	return verdicts, nil, nil
}

// in returns the design in a lot: what it is made of has no spread any more.
func (s *subject) in(lot Lot) *subject {
	t := *s
	t.lot = &lot
	t.answers, t.work = newAnswers(), Work{}
	t.kin, t.missing, t.loads, t.placed = s.kin, maps.Clone(s.missing), s.loads, s.placed
	t.mastMaterial, t.footMaterial, t.trayMaterial = lot.of(s.mastMaterial), lot.of(s.footMaterial), lot.of(s.trayMaterial)
	t.plateMaterial.LossFactor = s.plateMaterial.LossFactor.Times(fraction(lot.Loss))
	t.spine.spans = append([]span(nil), s.spine.spans...)
	for i := range t.spine.spans {
		t.spine.spans[i].material = lot.of(s.spine.spans[i].material)
	}
	t.spine.joints = append([]spineJoint(nil), s.spine.joints...)
	for i := range t.spine.joints {
		t.spine.joints[i].material = lot.of(s.spine.joints[i].material)
	}
	return &t
}

// of returns a material as it turned out in the lot.
func (l Lot) of(m materials.Material) materials.Material {
	if m.Form != materials.Print {
		return m
	}
	modulus, strength := fraction(l.Modulus), fraction(l.Strength)
	m.ModulusInLayer, m.ModulusAcross = drawn(m.ModulusInLayer, modulus), drawn(m.ModulusAcross, modulus)
	m.ShearModulus = drawn(m.ShearModulus, modulus)
	m.StrengthInLayer, m.StrengthAcross, m.ClampStrength = drawn(m.StrengthInLayer, strength), drawn(m.StrengthAcross, strength), drawn(m.ClampStrength, strength)
	m.LossFactor = drawn(m.LossFactor, fraction(l.Loss))
	return m
}

// drawn returns a range as the one figure that its typical one turned out to be.
func drawn[Q units.Quantity](r materials.Range[Q], factor units.Ratio) materials.Range[Q] {
	r.Low, r.High = r.Typical, r.Typical
	return r.Times(factor)
}

// of returns the variant that stands for another: in a lot there is only one.
func (s *subject) of(v variant) variant {
	if s.lot == nil {
		return v
	}
	return variant{middle, typical}
}

package review

// Work counts what reviews cost.
type Work struct {
	Factors   int // models assembled, their stiffness factored
	Condensed int // models condensed from one that was assembled
	Modal     int // sets of modes computed
	Statics   int // models answering the unit load cases
	Cases     int // unit load cases laid out
	Buckling  int // buckling loads
	Sections  int // outlines integrated into sections
	Torsions  int // of those, torsion and shear solved by finite elements
	Plates    int // plates solved
	Fields    int // heading errors computed over all placements
}

func (w *Work) add(o Work) {
	w.Factors += o.Factors
	w.Condensed += o.Condensed
	w.Modal += o.Modal
	w.Statics += o.Statics
	w.Cases += o.Cases
	w.Buckling += o.Buckling
	w.Sections += o.Sections
	w.Torsions += o.Torsions
	w.Plates += o.Plates
	w.Fields += o.Fields
}

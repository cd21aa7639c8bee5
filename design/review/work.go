package review

// Work counts what reviews cost.
type Work struct {
	Factors  int // stiffness matrices assembled and factored
	Modal    int // sets of modes computed
	Cases    int // static load cases
	Buckling int // buckling loads
	Sections int // outlines integrated into sections
	Plates   int // plates solved
	Fields   int // heading errors computed over all placements
}

func (w *Work) add(o Work) {
	w.Factors += o.Factors
	w.Modal += o.Modal
	w.Cases += o.Cases
	w.Buckling += o.Buckling
	w.Sections += o.Sections
	w.Plates += o.Plates
	w.Fields += o.Fields
}

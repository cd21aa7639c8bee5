package view

import "mastwright/design/review"

// Overlay is something that a check says, drawn where it is.
type Overlay int

// The overlays.
const (
	Heading Overlay = iota // swing of the compass against height, beside the mast
	Shape                  // the lowest mode, swinging
	Stress                 // along the mast, in the lanes' colours
	TipOver                // the blow on the mast's top
	overlayCount
)

func (o Overlay) String() string {
	return [...]string{"heading", "mode shape", "stress", "tip-over"}[o]
}

// short is the name where there is little room.
func (o Overlay) short() string {
	return [...]string{"heading", "mode", "stress", "tip"}[o]
}

// overlays are those that are on.
type overlays [overlayCount]bool

// overlayOf returns what is drawn of a check.
func overlayOf(check string) (Overlay, bool) {
	switch check {
	case "heading":
		return Heading, true
	case "modes", "shake", "sway":
		return Shape, true
	case "strength":
		return Stress, true
	case "tipover":
		return TipOver, true
	}
	return 0, false
}

// offers reports whether the model has what an overlay draws.
func (m *Model) offers(o Overlay) bool {
	if m == nil || !m.built() {
		return false
	}
	switch o {
	case Heading:
		v, ok := m.result.Verdict("heading")
		return ok && v.State != review.NoData && m.result.Compass != nil && len(m.result.Compass.Field) > 1
	case Shape:
		return len(m.result.Flying) > 0 && len(m.result.Flying[0].Path) > 0
	case Stress:
		return len(m.result.Stress) > 0
	case TipOver:
		return m.result.TipOver != nil
	}
	return false
}

package build

import "mastwright/design/review"

// place returns where a verdict stands on the scale and where the two ends of its spread do, the better first; false without
// data. A verdict that no figure decides stands in the middle of its state's lane.
func place(v review.Verdict) (low, at, high float64, ok bool) {
	if v.State == review.NoData {
		return 0, 0, 0, false
	}
	if v.Figure.Limit == nil {
		at = float64(v.State) + 0.5
		return at, at, at, true
	}
	at = v.Figure.Place()
	low, high = v.Figure.PlaceRange()
	return min(low, at), at, max(high, at), true
}

// stateAt is the state of a place.
func stateAt(place float64) review.State {
	switch {
	case place <= 1:
		return review.Pass
	case place <= 2:
		return review.Marginal
	}
	return review.Fail
}

package verdicts

import (
	"mastwright/app/desktop/look"
	"mastwright/design/review"
)

// The three lanes share the width of the zone.
const (
	passShare     = 0.52
	marginalShare = 0.28
	failShare     = 1 - passShare - marginalShare
)

// Measures of a bar, in pixels. Lane and bar are both odd, so that bar and whisker sit in the lane's middle on whole pixels.
const (
	laneHeight    = 13
	barHeight     = 7
	whiskerThick  = 1.4
	whiskerHalo   = 3.6
	whiskerHeight = 9
	zoneMargin    = 4 // left and right of the zone, for halo and bob
)

// beyond is the place from which a bar cannot be told from one that never ends.
const beyond = 2.95

// across returns how far along the zone a place from 0 to 3 stands, as a share of the zone's width.
func across(place float64) float32 {
	p := float32(min(max(place, 0), 3))
	switch {
	case p <= 1:
		return p * passShare
	case p <= 2:
		return passShare + (p-1)*marginalShare
	}
	return passShare + marginalShare + (p-2)*failShare
}

// bar is what is drawn of a verdict: shares of the zone's width.
type bar struct {
	state             review.State
	middle, low, high float32
	arrow             bool // it goes on beyond the zone
}

func newBar(v review.Verdict) bar {
	if v.State == review.NoData {
		return bar{state: review.NoData}
	}
	low, high := v.Figure.PlaceRange()
	middle := v.Figure.Place()
	return bar{state: v.State, middle: across(middle), low: across(low), high: across(high), arrow: max(middle, high) >= beyond}
}

// between is the bar on its way from another one, at a part of the way from 0 to 1.
func (b bar) between(from bar, part float32) bar {
	if from.state == review.NoData || b.state == review.NoData {
		return b
	}
	on := func(a, b float32) float32 { return a + (b-a)*part }
	b.middle, b.low, b.high = on(from.middle, b.middle), on(from.low, b.low), on(from.high, b.high)
	return b
}

// drawBar draws a bar in a zone whose middle line is at y. Ground is the colour of the row.
func (k *ink) drawBar(b bar, x, y, width float32, ground look.Role) {
	top := k.whole(y - laneHeight/2.0)
	good, limit, end := k.whole(x+passShare*width), k.whole(x+(passShare+marginalShare)*width), k.whole(x+width)
	if b.state == review.NoData {
		edge := look.Color(look.Edge)
		k.outline(edge, x, top, end-x, laneHeight, 1)
		return
	}
	k.box(look.Color(look.PassLane), x, top, good-x, laneHeight)
	k.box(look.Color(look.MarginalLane), good, top, limit-good, laneHeight)
	k.box(look.Color(look.FailLane), limit, top, end-limit, laneHeight)

	middle := top + laneHeight/2.0
	k.box(look.Color(look.BarRole(b.state)), x, middle-barHeight/2.0, max(b.middle*width, 1), barHeight)
	k.drawWhisker(b, x, middle, width, ground)
}

// drawWhisker draws the spread from its better to its worse end with a halo of the ground's colour; a stroke at the bar's end where
// there is no spread to see.
func (k *ink) drawWhisker(b bar, x, y, width float32, ground look.Role) {
	low, high := x+b.low*width, x+b.high*width
	stroke := func(colour look.Role, around float32) {
		c, half := look.Color(colour), whiskerThick/2+around
		for _, at := range []float32{low, high} {
			k.box(c, at-half, y-whiskerHeight/2.0-around, 2*half, whiskerHeight+2*around)
		}
		k.box(c, low, y-half, high-low, 2*half)
		if b.arrow {
			tip, back, rise := x+width+around, x+width-6-around, 5+around*1.5
			k.fill(c, point{back, y - rise}, point{tip, y}, point{back, y + rise})
		}
	}
	if high-low < 2 {
		low, high = x+b.middle*width, x+b.middle*width
	}
	if b.arrow {
		high = min(high, x+width-4)
		low = min(low, high)
	}
	stroke(ground, (whiskerHalo-whiskerThick)/2)
	stroke(look.Ink, 0)
}

// drawPlumb hangs the thin line that is good and the heavy plumb line with its bob that is the limit, from top to bottom.
func (k *ink) drawPlumb(x, width, top, bottom, bob float32) {
	k.box(look.Color(look.Third), k.whole(x+passShare*width), top, max(k.whole(1), 1/k.scale), bottom-top)
	limit, c := k.whole(x+(passShare+marginalShare)*width), look.Color(look.Ink)
	k.box(c, limit-1, top, 2, bottom-top+bob)
	k.fill(c, point{limit - 5.5, bottom + bob}, point{limit + 5.5, bottom + bob}, point{limit, bottom + bob + bobHeight})
}

const bobHeight = 9

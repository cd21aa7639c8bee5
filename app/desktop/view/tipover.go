package view

import (
	"fmt"
	"image/color"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot/pen"
	"mastwright/design/review"
)

// arrowReach in mm is how long the arrow of a blow is in the picture.
const arrowReach = 42

// drawTipOver draws the ground's blow on the mast's top, and the arms that the aircraft turns over.
func (f *frame) drawTipOver() {
	t := f.model.result.TipOver
	if t == nil {
		return
	}
	state := review.Pass
	if v, ok := f.model.result.Verdict("tipover"); ok {
		state = v.State
	}
	c := f.colours.of(look.BarRole(state))
	if t.Arms[0] != t.Arms[1] {
		f.pen.Line([]pen.Spot{f.spot(t.Arms[0]), f.spot(t.Arms[1])}, pen.Stroke{Width: 1.4, Colour: f.colours.of(look.Second), Dash: 6})
	}
	tip := f.spot(t.At)
	tail := f.spot(r3.Sub(t.At, r3.Scale(arrowReach, t.Direction)))
	tail = f.inside(tip, tail)
	f.blow(tail, tip, f.colours.of(look.Panel), 7, 21, 21)
	f.blow(tail, tip, c, 4, 17, 16)
	letters := pen.Letters{Font: look.Strong, Colour: f.colours.of(look.WordRole(state)), Align: pen.Right}
	middle := pen.Spot{X: (tip.X + tail.X) / 2, Y: (tip.Y + tail.Y) / 2}
	width, _ := f.size()
	if middle.X < width/2 {
		letters.Align, middle.X = pen.Left, max(tip.X, tail.X)+14
	} else {
		middle.X = min(tip.X, tail.X) - 14
	}
	f.label(middle.Plus(0, -11), fmt.Sprintf("strikes at %.2g m/s", t.Required), letters)
	letters.Font, letters.Colour = look.Caption, f.colours.of(look.Ink)
	f.label(middle.Plus(0, 11), fmt.Sprintf("breaks at %.2g m/s", t.Break), letters)
}

// inside shortens an arrow whose tail would lie outside the picture or under the chips at its top.
func (f *frame) inside(tip, tail pen.Spot) pen.Spot {
	width, height := f.size()
	share := 1.0
	cut := func(from, to, limit float64) {
		if (to-limit)*(from-limit) < 0 {
			share = min(share, (limit-from)/(to-from))
		}
	}
	cut(tip.Y, tail.Y, 44)
	cut(tip.Y, tail.Y, height-44)
	cut(tip.X, tail.X, 12)
	cut(tip.X, tail.X, width-12)
	return tip.Plus(share*(tail.X-tip.X), share*(tail.Y-tip.Y))
}

// blow draws a heavy arrow.
func (f *frame) blow(tail, tip pen.Spot, c color.NRGBA, width, long, wide float64) {
	d, far := unit(tail, tip)
	if far < 1 {
		return
	}
	neck := tip.Plus(-long*d.X, -long*d.Y)
	f.pen.Line([]pen.Spot{tail, neck}, inked(width, c))
	f.pen.Area([]pen.Spot{tip, neck.Plus(-wide/2*d.Y, wide/2*d.X), neck.Plus(wide/2*d.Y, -wide/2*d.X)}, c)
}

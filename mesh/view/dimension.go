package view

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Spot is a point of the picture in pixels.
type Spot struct{ X, Y float64 }

// Dimension is a dimension line as it lies in the picture, in pixels; the
// caller draws it: Line and Extensions as strokes, Arrows filled, and the
// figure centred on Text.
type Dimension struct {
	Line       [2]Spot    // from arrow tip to arrow tip, or beyond them where Outside
	Extensions [2][2]Spot // from beside the measured points to just past the line
	Arrows     [2][3]Spot // tip first
	Text       Spot       // the middle of the line, or beside it where Outside
	Outside    bool       // the arrows point inwards from outside: there is no room between
	Angle      float64    // rad, of the line in the picture, positive clockwise from the right
}

// DimensionOptions says how a dimension is laid out. Lengths are in pixels at
// scale 1; 0 means the figure given.
type DimensionOptions struct {
	Scale       float64 // pixels a line of width 1 takes, 1
	ArrowLength float64 // 10
	ArrowWidth  float64 // 6
	Gap         float64 // from the measured point to its extension line, 3
	Overshoot   float64 // of the extension line past the dimension line, 4
}

// Dimension lays out the dimension line of the distance from a to b, moved
// away from them by an offset in mm. It is false where a and b fall on one
// pixel, seen end on, or anything is not a number.
func (c Camera) Dimension(a, b, offset r3.Vec, o DimensionOptions) (Dimension, bool) {
	o = o.filled()
	if !c.sound() || !finite(a) || !finite(b) || !finite(offset) {
		return Dimension{}, false
	}
	foot := [2]Spot{c.spot(a), c.spot(b)}
	tip := [2]Spot{c.spot(r3.Add(a, offset)), c.spot(r3.Add(b, offset))}
	along := Spot{tip[1].X - tip[0].X, tip[1].Y - tip[0].Y}
	long := math.Hypot(along.X, along.Y)
	if !(long >= 1) || math.IsInf(long, 0) {
		return Dimension{}, false
	}
	along = Spot{along.X / long, along.Y / long}
	d := Dimension{Line: tip, Outside: long < 3*o.ArrowLength*o.Scale, Angle: math.Atan2(along.Y, along.X)}
	for i := range 2 {
		d.Extensions[i] = extension(foot[i], tip[i], o)
		back := o.ArrowLength * o.Scale // from the tip to the arrow's base, along the line
		if (i == 0) == d.Outside {
			back = -back
		}
		base := tip[i].plus(back, along)
		across, half := Spot{-along.Y, along.X}, o.ArrowWidth*o.Scale/2
		d.Arrows[i] = [3]Spot{tip[i], base.plus(half, across), base.plus(-half, across)}
	}
	d.Text = Spot{(tip[0].X + tip[1].X) / 2, (tip[0].Y + tip[1].Y) / 2}
	if d.Outside {
		tail := 2 * o.ArrowLength * o.Scale
		d.Line = [2]Spot{tip[0].plus(-tail, along), tip[1].plus(tail, along)}
		d.Text = d.Line[1].plus(tail, along)
	}
	return d, true
}

// extension returns the extension line from a measured point past the tip of
// its arrow, without length where there is no offset to be seen.
func extension(foot, tip Spot, o DimensionOptions) [2]Spot {
	d := Spot{tip.X - foot.X, tip.Y - foot.Y}
	long := math.Hypot(d.X, d.Y)
	if long < o.Gap*o.Scale || long == 0 {
		return [2]Spot{tip, tip}
	}
	d = Spot{d.X / long, d.Y / long}
	return [2]Spot{foot.plus(o.Gap*o.Scale, d), tip.plus(o.Overshoot*o.Scale, d)}
}

func (c Camera) spot(p r3.Vec) Spot {
	q := c.Project(p)
	return Spot{q.X, q.Y}
}

// plus returns the spot moved by k along a direction.
func (s Spot) plus(k float64, along Spot) Spot { return Spot{s.X + k*along.X, s.Y + k*along.Y} }

func (o DimensionOptions) filled() DimensionOptions {
	for _, f := range []struct {
		v    *float64
		none float64
	}{{&o.Scale, 1}, {&o.ArrowLength, 10}, {&o.ArrowWidth, 6}, {&o.Gap, 3}, {&o.Overshoot, 4}} {
		if !(*f.v > 0) || math.IsInf(*f.v, 0) {
			*f.v = f.none
		}
	}
	return o
}

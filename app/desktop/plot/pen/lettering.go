package pen

import (
	"image"
	"image/color"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"mastwright/app/desktop/look"
)

// Lettering is a text as outlines, to be laid on a slanting surface. It is one em high; the baseline starts at the origin and runs along
// x, y grows downwards.
type Lettering struct {
	Width float64 // em
	steps []step
}

type step struct {
	op   sfnt.SegmentOp
	args [3]Spot
}

// NewLettering returns the outlines of a text.
func NewLettering(text string, use look.Font) Lettering {
	const em = 1024
	file, err := sfnt.Parse(use.TTF())
	if err != nil {
		panic(err) // embedded: it is sound
	}
	var out Lettering
	var buffer sfnt.Buffer
	for _, letter := range text {
		glyph, err := file.GlyphIndex(&buffer, letter)
		if err != nil {
			continue
		}
		segments, err := file.LoadGlyph(&buffer, glyph, fixed.I(em), nil)
		if err != nil {
			continue
		}
		for _, s := range segments {
			one := step{op: s.Op}
			for i, a := range s.Args {
				one.args[i] = Spot{out.Width + float64(a.X)/64/em, float64(a.Y) / 64 / em}
			}
			out.steps = append(out.steps, one)
		}
		if advance, err := file.GlyphAdvance(&buffer, glyph, fixed.I(em), font.HintingNone); err == nil {
			out.Width += float64(advance) / 64 / em
		}
	}
	return out
}

// Slant is a surface in the drawing: where the origin lies, and what a step of one em along and down the letters is.
type Slant struct{ At, Along, Down Spot }

// Spot returns where a point of the lettering lies.
func (s Slant) Spot(p Spot) Spot {
	return Spot{s.At.X + p.X*s.Along.X + p.Y*s.Down.X, s.At.Y + p.X*s.Along.Y + p.Y*s.Down.Y}
}

// Letter draws outlines on a slanting surface.
func (r *Raster) Letter(l Lettering, on Slant, c color.NRGBA) {
	if len(l.steps) == 0 {
		return
	}
	k := r.scale()
	r.path = r.path[:0]
	for _, corner := range [4]Spot{{0, -1}, {l.Width, -1}, {l.Width, 0.35}, {0, 0.35}} {
		p := on.Spot(corner)
		r.path = append(r.path, Spot{p.X * k, p.Y * k})
	}
	x, y, box, ok := r.begin(r.path, 1)
	if !ok {
		return
	}
	at := func(p Spot) (float32, float32) {
		p = on.Spot(p)
		return float32(p.X*k - x), float32(p.Y*k - y)
	}
	for _, s := range l.steps {
		ax, ay := at(s.args[0])
		switch s.op {
		case sfnt.SegmentOpMoveTo:
			r.shape.ClosePath()
			r.shape.MoveTo(ax, ay)
		case sfnt.SegmentOpLineTo:
			r.shape.LineTo(ax, ay)
		case sfnt.SegmentOpQuadTo:
			bx, by := at(s.args[1])
			r.shape.QuadTo(ax, ay, bx, by)
		case sfnt.SegmentOpCubeTo:
			bx, by := at(s.args[1])
			cx, cy := at(s.args[2])
			r.shape.CubeTo(ax, ay, bx, by, cx, cy)
		}
	}
	r.shape.ClosePath()
	r.shape.Draw(r.Image, box, r.dip(c), image.Point{})
}

package outline

import (
	"errors"
	"fmt"
	"math"
	"unicode/utf8"

	"gonum.org/v1/gonum/spatial/r2"
)

// Layers of a drawing, as files name them.
const (
	InnerCut = "inner-cut"
	OuterCut = "outer-cut"
	Engraved = "engrave"
	Noted    = "notes"
)

// Drawing is what is cut out of a sheet.
type Drawing struct {
	Cut     []Outline // pieces
	Engrave []Outline // marks on them
	Notes   []Note
}

// Note is a line of text for who cuts, not cut itself.
type Note struct {
	At     r2.Vec  // left end of its foot, mm
	Height float64 // of its letters, mm
	Text   string
}

// Layer is a drawing's loops of one kind.
type Layer struct {
	Name  string
	Loops []Loop
}

// Layers returns the layers of loops in the order in which they are to be cut:
// marks first, then holes, and last what sets a piece free. A layer may be
// empty.
func (d Drawing) Layers() []Layer {
	marks, inner, outer := Layer{Name: Engraved}, Layer{Name: InnerCut}, Layer{Name: OuterCut}
	for _, o := range d.Engrave {
		marks.Loops = append(append(marks.Loops, o.Outer), o.Holes...)
	}
	for _, o := range d.Cut {
		inner.Loops = append(inner.Loops, o.Holes...)
		outer.Loops = append(outer.Loops, o.Outer)
	}
	return []Layer{marks, inner, outer}
}

// Box returns the smallest box in mm around the drawing. A note's letters are
// taken to be as wide as high, since each reader has a font of its own.
func (d Drawing) Box() r2.Box {
	box := r2.Box{Min: r2.Vec{X: math.Inf(1), Y: math.Inf(1)}, Max: r2.Vec{X: math.Inf(-1), Y: math.Inf(-1)}}
	grow := func(b r2.Box) {
		box.Min = r2.Vec{X: min(box.Min.X, b.Min.X), Y: min(box.Min.Y, b.Min.Y)}
		box.Max = r2.Vec{X: max(box.Max.X, b.Max.X), Y: max(box.Max.Y, b.Max.Y)}
	}
	for _, layer := range d.Layers() {
		for _, l := range layer.Loops {
			grow(l.Box())
		}
	}
	for _, n := range d.Notes {
		width := n.Height * float64(utf8.RuneCountInString(n.Text))
		grow(r2.Box{Min: n.At, Max: r2.Add(n.At, r2.Vec{X: width, Y: n.Height})})
	}
	if box.Min.X > box.Max.X {
		return r2.Box{}
	}
	return box
}

// Check returns every fault of the drawing as one joined error: outlines that
// are not sound (see Outline.Check), pieces that meet or lie on one another,
// so that a line would be cut twice, and notes that are no line of printable
// ASCII. A drawing without pieces is a fault.
func (d Drawing) Check() error {
	var faults []error
	note := func(format string, args ...any) { faults = append(faults, fmt.Errorf(format, args...)) }
	if len(d.Cut) == 0 {
		note("nothing is to be cut")
	}
	sound := make([]bool, len(d.Cut))
	for i, o := range d.Cut {
		if err := o.Check(); err != nil {
			note("piece %d: %w", i, err)
			continue
		}
		sound[i] = true
		for j, p := range d.Cut[:i] {
			if sound[j] && o.meets(p) {
				note("pieces %d and %d meet at %s; move them apart", j, i, spot(o.Outer[0].point()))
			}
		}
	}
	for i, o := range d.Engrave {
		if err := o.Check(); err != nil {
			note("mark %d: %w", i, err)
		}
	}
	for i, n := range d.Notes {
		if !(n.Height > 0 && n.Height <= Reach && math.Abs(n.At.X) <= Reach && math.Abs(n.At.Y) <= Reach) {
			note("note %d, %g mm high at %s, has no size or place", i, n.Height, spot(n.At))
		}
		for _, r := range n.Text {
			if r < ' ' || r > '~' {
				note("note %d holds %q; use plain letters", i, r)
				break
			}
		}
	}
	return errors.Join(faults...)
}

// meets is whether two regions have a point in common.
func (o Outline) meets(p Outline) bool {
	for _, a := range append([]Loop{o.Outer}, o.Holes...) {
		for _, b := range append([]Loop{p.Outer}, p.Holes...) {
			if _, hit := a.crosses(b); hit {
				return true
			}
		}
	}
	return o.Contains(p.Outer[0].point()) || p.Contains(o.Outer[0].point())
}

// Flatten flattens every loop of the drawing (see Loop.Flatten).
func (d Drawing) Flatten(tolerance float64) Drawing {
	out := Drawing{Notes: d.Notes}
	for _, o := range d.Cut {
		out.Cut = append(out.Cut, o.Flatten(tolerance))
	}
	for _, o := range d.Engrave {
		out.Engrave = append(out.Engrave, o.Flatten(tolerance))
	}
	return out
}

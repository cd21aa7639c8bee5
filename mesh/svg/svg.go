// Package svg writes drawings of sheets to be cut as SVG files (W3C, Scalable
// Vector Graphics 1.1), for cutters that take those.
//
// Width and height are in millimetres and the view box has the same numbers, so
// that a unit is 1 mm whatever resolution a program assumes. In a drawing y
// goes up, in the file down: coordinates are turned over once, without a
// transform. Every group has the id of its layer, hairlines of 0.05 mm in
// black, and no fill.
package svg

import (
	"bufio"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"mastwright/mesh/outline"
)

// margin around the drawing in mm, so that no line lies on the edge.
const margin = 1

// Encode writes a drawing. Arcs stay arcs. A drawing that is not sound (see
// outline.Drawing.Check) is refused before anything is written. Equal drawings
// give equal bytes.
func Encode(w io.Writer, d outline.Drawing) error {
	if err := d.Check(); err != nil {
		return fmt.Errorf("write svg: %w", err)
	}
	box := d.Box()
	f := file{bufio.NewWriter(w), r2.Vec{X: box.Min.X - margin, Y: box.Max.Y + margin}}
	width, height := number(box.Max.X-box.Min.X+2*margin), number(box.Max.Y-box.Min.Y+2*margin)
	fmt.Fprintf(f, `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="%smm" height="%smm" viewBox="0 0 %s %s">
`, width, height, width, height)
	for _, l := range d.Layers() {
		f.open(l.Name)
		for _, loop := range l.Loops {
			fmt.Fprintf(f, "  <path d=\"%s\"/>\n", f.path(loop))
		}
		f.close()
	}
	f.open(outline.Noted)
	for _, n := range d.Notes {
		at := f.place(n.At)
		var text bytes.Buffer
		xml.EscapeText(&text, []byte(n.Text)) // a buffer takes all
		fmt.Fprintf(f, "  <text x=\"%s\" y=\"%s\" font-family=\"monospace\" font-size=\"%s\">%s</text>\n", number(at.X), number(at.Y), number(n.Height), &text)
	}
	f.close()
	fmt.Fprint(f, "</svg>\n")
	if err := f.Flush(); err != nil { // of any of the writes
		return fmt.Errorf("write svg: %w", err)
	}
	return nil
}

type file struct {
	*bufio.Writer
	corner r2.Vec // of the page, top left, in the drawing
}

func (f file) open(layer string) {
	fmt.Fprintf(f, " <g id=%q fill=\"none\" stroke=\"#000000\" stroke-width=\"0.05\">\n", layer)
}

func (f file) close() { fmt.Fprint(f, " </g>\n") }

// place is a point of the drawing on the page.
func (f file) place(p r2.Vec) r2.Vec { return r2.Vec{X: p.X - f.corner.X, Y: f.corner.Y - p.Y} }

// path is a loop as path data. What turns left in the drawing has sweep flag 0
// on the page.
func (f file) path(l outline.Loop) string {
	at := func(i int) r2.Vec { return f.place(r2.Vec{X: l[i].X, Y: l[i].Y}) }
	data := "M" + pair(at(0))
	for i, v := range l {
		from, to := at(i), at((i+1)%len(l))
		switch {
		case v.Bulge != 0:
			// r = c / 2 sin(a/2) with the bulge b = tan(a/4)
			radius := r2.Norm(r2.Sub(to, from)) * (1 + v.Bulge*v.Bulge) / (4 * math.Abs(v.Bulge))
			data += " A" + number(radius) + "," + number(radius) + " 0 " + flag(math.Abs(v.Bulge) > 1) + " " + flag(v.Bulge < 0) + " " + pair(to)
		case i < len(l)-1: // Z draws the last
			data += " L" + pair(to)
		}
	}
	return data + " Z"
}

func flag(set bool) string {
	if set {
		return "1"
	}
	return "0"
}

func pair(p r2.Vec) string { return number(p.X) + "," + number(p.Y) }

// number writes a length in mm to a millionth.
func number(x float64) string {
	return strconv.FormatFloat(math.Round(x*1e6)/1e6+0, 'f', -1, 64)
}

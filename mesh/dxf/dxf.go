// Package dxf writes drawings of sheets to be cut as DXF files of release 12
// (AC1009), which every cutter's program reads.
//
// One unit is 1 mm; release 12 has no field for that, so a comment and a note
// say so. Axes are x to the right and y up. Everything is black on a layer
// named for what is done along it: no colour means anything. A loop is a
// closed POLYLINE whose bulges are exact arcs, or a CIRCLE. Source: the
// drawing interchange format's reference for release 12, from memory.
package dxf

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"mastwright/mesh/outline"
)

// Options steers Encode.
type Options struct {
	// Flatten writes arcs and circles as chords that stray from them by no
	// more than 0.01 mm, for a program that reads straight lines only.
	Flatten bool
}

// tolerance of flattened arcs, mm.
const tolerance = 0.01

// Encode writes a drawing. A drawing that is not sound (see
// outline.Drawing.Check) is refused before anything is written. Equal drawings
// give equal bytes.
func Encode(w io.Writer, d outline.Drawing, o Options) error {
	if err := d.Check(); err != nil {
		return fmt.Errorf("write dxf: %w", err)
	}
	if o.Flatten {
		d = d.Flatten(tolerance)
	}
	f := file{bufio.NewWriter(w)}
	f.text(999, "1 unit = 1 mm")
	f.header(d.Box())
	f.tables()
	f.entities(d)
	f.text(0, "EOF")
	if err := f.Flush(); err != nil { // of any of the writes
		return fmt.Errorf("write dxf: %w", err)
	}
	return nil
}

// file is a file of groups: a code, and on the next line its value.
type file struct{ *bufio.Writer }

func (f file) text(code int, value string) { fmt.Fprintf(f, "%3d\n%s\n", code, value) }

func (f file) whole(code, value int) { f.text(code, strconv.Itoa(value)) }

// real writes a length in mm to a millionth, or a bulge to a billionth.
func (f file) real(code int, value float64) {
	places := 6
	if code == bulge {
		places = 9
	}
	text := strings.TrimRight(strconv.FormatFloat(value, 'f', places, 64), "0")
	if strings.HasSuffix(text, ".") {
		text += "0"
	}
	if text == "-0.0" {
		text = "0.0"
	}
	f.text(code, text)
}

func (f file) point(p r2.Vec) {
	f.real(10, p.X)
	f.real(20, p.Y)
	f.real(30, 0)
}

// Codes of groups.
const (
	name   = 2
	layer  = 8
	radius = 40
	bulge  = 42
	flags  = 70
)

func (f file) header(box r2.Box) {
	f.text(0, "SECTION")
	f.text(name, "HEADER")
	f.text(9, "$ACADVER")
	f.text(1, "AC1009")
	f.text(9, "$EXTMIN")
	f.point(box.Min)
	f.text(9, "$EXTMAX")
	f.point(box.Max)
	f.text(9, "$LUNITS") // decimal
	f.whole(flags, 2)
	f.text(0, "ENDSEC")
}

func (f file) tables() {
	layers := []string{"0"}
	for _, l := range (outline.Drawing{}).Layers() {
		layers = append(layers, l.Name)
	}
	layers = append(layers, outline.Noted)

	f.text(0, "SECTION")
	f.text(name, "TABLES")
	f.text(0, "TABLE")
	f.text(name, "LTYPE")
	f.whole(flags, 1)
	f.text(0, "LTYPE")
	f.text(name, "CONTINUOUS")
	f.whole(flags, 0)
	f.text(3, "Solid line")
	f.whole(72, 65) // alignment A
	f.whole(73, 0)  // dashes
	f.real(40, 0)   // length of the pattern
	f.text(0, "ENDTAB")
	f.text(0, "TABLE")
	f.text(name, "LAYER")
	f.whole(flags, len(layers))
	for _, l := range layers {
		f.text(0, "LAYER")
		f.text(name, l)
		f.whole(flags, 0)
		f.whole(62, 7) // black on white
		f.text(6, "CONTINUOUS")
	}
	f.text(0, "ENDTAB")
	f.text(0, "ENDSEC")
}

func (f file) entities(d outline.Drawing) {
	f.text(0, "SECTION")
	f.text(name, "ENTITIES")
	for _, l := range d.Layers() {
		for _, loop := range l.Loops {
			f.loop(l.Name, loop)
		}
	}
	for _, n := range d.Notes {
		f.text(0, "TEXT")
		f.text(layer, outline.Noted)
		f.point(n.At)
		f.real(40, n.Height)
		f.text(1, n.Text)
	}
	f.text(0, "ENDSEC")
}

func (f file) loop(on string, l outline.Loop) {
	if centre, r, ok := l.Round(); ok {
		f.text(0, "CIRCLE")
		f.text(layer, on)
		f.point(centre)
		f.real(radius, r)
		return
	}
	f.text(0, "POLYLINE")
	f.text(layer, on)
	f.whole(66, 1) // vertices follow
	f.point(r2.Vec{})
	f.whole(flags, 1) // closed
	for _, v := range l {
		f.text(0, "VERTEX")
		f.text(layer, on)
		f.point(r2.Vec{X: v.X, Y: v.Y})
		if v.Bulge != 0 {
			f.real(bulge, v.Bulge)
		}
	}
	f.text(0, "SEQEND")
	f.text(layer, on)
}

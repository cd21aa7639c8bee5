package parts

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"mastwright/design"
	"mastwright/design/units"
	"mastwright/mesh/solid"
)

type section = solid.Section

// mount is what a mount of any style has, in millimetres, worked out from a document: the foot, the tray and what they see of what
// is between them. Levels are above the middle of the mounting face.
type mount struct {
	doc      *design.Document // while it is being worked out
	problems []design.Problem

	base, tip, seat       float64 // levels: top of the foot, underside and top of the tray's floor
	rootFillet, tipFillet float64
	flare                 float64
	foot                  foot
	tray                  tray
	under, over           stem   // what stands on the foot, at its top; what carries the tray's floor, at its underside
	trayScrews            string // material
	shell                 Shell  // of what is printed flat
	plates                Shell  // of foot and tray as they are printed
	bed                   [3]float64
	layer                 float64
}

// stem is what joins a foot or a tray to the rest.
type stem struct {
	section
	name    string     // in an error: "the mast"
	what    string     // what is to change about it: "a root"
	paths   [2]string  // of the fields that set its widths along x and y
	widths  [2]float64 // their values in mm
	through section    // opening in the foot for it; zero for none
	opening r2.Vec     // of the tray: what an opening in its floor must stay within by 0.8 mm a side
}

// mountOf begins a mount with what the printer's settings say.
func mountOf(doc *design.Document) mount {
	p := doc.Print
	edge, face := float64(p.Walls)*p.LineWidth.Millimetres(), float64(p.Skins)*p.Layer.Millimetres()
	c := mount{doc: doc, shell: Shell{Face: face, Edge: edge, Infill: p.Infill.Fraction()}, trayScrews: doc.Tray.Screws}
	c.plates = c.shell
	c.layer = p.Layer.Millimetres()
	c.bed = [3]float64{p.Bed.X.Millimetres(), p.Bed.Y.Millimetres(), p.Bed.Z.Millimetres()}
	return c
}

// refuse notes a problem; the text begins with the value and ends with the remedy.
func (c *mount) refuse(path, format string, args ...any) {
	c.problems = append(c.problems, design.Problem{Path: path, Value: c.doc.Get(path), Text: fmt.Sprintf(format, args...)})
}

// below is a level under every point of the foot.
func (c *mount) below() float64 {
	e := c.foot.pose
	return -1 - max(e.X.Z, -e.X.Z)*c.foot.outside.X/2 - max(e.Y.Z, -e.Y.Z)*c.foot.outside.Y/2
}

// A mount is worked out for lengths in mm between these; a radius or a chamfer below the shortest counts as none.
const (
	shortest = 0.1
	longest  = 1000
)

// some is a radius or chamfer, or none where it is too small to be made.
func some(x float64) float64 {
	if x >= 0 && x < shortest {
		return 0
	}
	return x
}

// grown is the section all round d larger.
func grown(s section, d float64) section {
	return section{X: s.X + 2*d, Y: s.Y + 2*d, Radius: s.Radius + d}
}

// loose is the section all round d larger, sharp corners staying sharp.
func loose(s section, d float64) section {
	g := grown(s, d)
	if s.Radius == 0 {
		g.Radius = 0
	}
	return g
}

// mm writes a length for an error text, to a hundredth.
func mm(x float64) string { return units.Millimetres(math.Round(x*100) / 100).String() }

func finite(all ...float64) bool {
	for _, x := range all {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}

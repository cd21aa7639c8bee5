package draft

import (
	"math"

	"mastwright/app/sheet/paper"
)

// Dimension is a measured distance with its line.
type Dimension struct {
	From, To paper.Point // what is measured
	Away     paper.Point // where the line lies: moved by this from what is measured
	Text     string
	Along    bool // only the part of the distance square to Away is measured
}

// The parts of a dimension in mm.
const (
	gap       = 0.8 // from the body to the extension line
	overshoot = 1.2
	letter    = 0.52 // width of a digit, as a share of its size
)

// Dimension draws a dimension line after ISO 129-1: extension lines, arrows, and the figure on a plate in the middle, turned with the
// line. Where the figure has no room between the arrows it stands beside the line.
func (p *Pen) Dimension(d Dimension) {
	ink := paper.Act
	a := paper.Point{X: d.From.X + d.Away.X, Y: d.From.Y + d.Away.Y}
	b := paper.Point{X: d.To.X + d.Away.X, Y: d.To.Y + d.Away.Y}
	reach := math.Hypot(d.Away.X, d.Away.Y)
	nx, ny := 0.0, 0.0
	if reach > 0 {
		nx, ny = d.Away.X/reach, d.Away.Y/reach
		if d.Along { // bring both ends to the same distance
			along := func(p paper.Point) float64 { return p.X*nx + p.Y*ny }
			far := max(along(a), along(b))
			shift := far - along(a)
			a = paper.Point{X: a.X + shift*nx, Y: a.Y + shift*ny}
			shift = far - along(b)
			b = paper.Point{X: b.X + shift*nx, Y: b.Y + shift*ny}
		}
		for _, e := range [2][2]paper.Point{{d.From, a}, {d.To, b}} {
			p.Line(Thin, ink, paper.Point{X: e[0].X + gap*nx, Y: e[0].Y + gap*ny}, paper.Point{X: e[1].X + overshoot*nx, Y: e[1].Y + overshoot*ny})
		}
	}
	dx, dy, ok := direction(a, b)
	if !ok {
		return
	}
	long := math.Hypot(b.X-a.X, b.Y-a.Y)
	wide := letter*Small*float64(len([]rune(d.Text))) + 1
	turn := math.Atan2(-dy, dx) * 180 / math.Pi
	if turn > 90.001 || turn <= -89.999 {
		turn -= math.Copysign(180, turn)
	}
	tx, ty := math.Cos(turn*math.Pi/180), -math.Sin(turn*math.Pi/180) // along the words
	ux, uy := ty, -tx                                                 // up from them
	middle := paper.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
	if long >= 6 {
		p.Line(Thin, ink, a, b)
		p.head(ink, b, a)
		p.head(ink, a, b)
	} else {
		const tail = 4.5
		p.Line(Thin, ink, paper.Point{X: a.X - tail*dx, Y: a.Y - tail*dy}, paper.Point{X: b.X + tail*dx, Y: b.Y + tail*dy})
		p.head(ink, paper.Point{X: a.X - tail*dx, Y: a.Y - tail*dy}, a)
		p.head(ink, paper.Point{X: b.X + tail*dx, Y: b.Y + tail*dy}, b)
	}
	if long >= wide+5 {
		p.plate(middle, tx, ty, wide, Small+0.6)
	} else if nx != 0 || ny != 0 { // beyond the line
		middle = paper.Point{X: middle.X + 2.4*nx, Y: middle.Y + 2.4*ny}
		if math.Abs(nx) > math.Abs(ny) == (math.Abs(tx) > math.Abs(ty)) { // the words run away from the line
			middle = paper.Point{X: middle.X + (wide/2-0.6)*nx, Y: middle.Y + (wide/2-0.6)*ny}
		}
	}
	const drop = 0.36 // from the middle of a digit to its baseline, as a share of its size
	p.Add(paper.Label{
		At:   paper.Point{X: middle.X - drop*Small*ux, Y: middle.Y - drop*Small*uy},
		Text: d.Text, Size: Small, Weight: paper.Medium, Anchor: paper.Middle, Turn: turn, Ink: ink,
	})
}

// plate clears the ground behind words.
func (p *Pen) plate(middle paper.Point, tx, ty, wide, high float64) {
	var points []paper.Point
	for _, s := range [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		points = append(points, paper.Point{
			X: middle.X + s[0]*wide/2*tx - s[1]*high/2*ty,
			Y: middle.Y + s[0]*wide/2*ty + s[1]*high/2*tx,
		})
	}
	p.Add(paper.Stroke{Points: points, Closed: true, Filled: true, Fill: paper.White})
}

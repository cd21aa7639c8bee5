package sheet

import (
	"mastwright/app/sheet/draft"
	"mastwright/app/sheet/paper"
)

// measures are the boxes of the card.
func measures() []measure {
	const place, lead, near = "airframe.places[].", "leads[].", "airframe.neighbours[]."
	xyz := []string{"x", "y", "z"}
	return []measure{
		{title: "Holes where the mount may stand", group: place + "holes.", how: place + "holes.read", sketch: sketchHoles,
			rows: []reading{{path: "read"}, {path: "along"}, {path: "across"}}},
		{title: "One hole, and the plate", group: place, how: place + "holes.diameter", sketch: sketchPlate,
			rows: []reading{{path: "holes.diameter"}, {path: "plate.thickness"}, {path: "plate.size.", parts: []string{"x", "y"}, name: "Free plate"}}},
		{title: "Middle of the holes", group: place, how: place + "at.x", sketch: sketchPlace,
			rows: []reading{{path: "at.", parts: xyz, name: "Middle"}, {path: "slope_forward"}, {path: "slope_left"}}},
		{title: "Aircraft", group: "airframe.", how: "airframe.mass", sketch: sketchAircraft,
			rows: []reading{{path: "mass"}, {path: "motor_diagonal"}, {path: "arm_height"}}},
		{title: "Balance, and place on earth", how: "airframe.centre_of_gravity.x", sketch: sketchBalance,
			rows: []reading{{path: "airframe.centre_of_gravity.", parts: xyz, name: "Balances at"}, {path: "site.latitude"}, {path: "site.longitude"}}},
		{title: "Receiver", group: "receiver.", how: "receiver.size.x", sketch: sketchReceiver,
			rows: []reading{{path: "size.", parts: xyz, name: "Body"}, {path: "mass"}, {path: "arrow"}}},
		{title: "Compass in the receiver", group: "receiver.", how: "receiver.compass.x", also: "Write half the body's size beside it: that is its spread.", sketch: sketchCompass,
			rows: []reading{{path: "compass.", parts: xyz, name: "Compass"}}},
		{title: "Thick leads: wires apart", group: lead, how: lead + "spacing", also: "Read at three points: at the pack, midway, at the controller.", sketch: sketchSpacing,
			rows: []reading{{path: "spacing", times: 3}, {path: "conductor"}}},
		{title: "Thick leads: where they run", group: lead, how: lead + "offset", sketch: sketchLead,
			rows: []reading{{path: "side"}, {path: "offset"}, {path: "height"}}},
		{title: "Neighbours: a card for each", group: near, how: "airframe.neighbours", sketch: sketchNeighbour,
			rows: []reading{{path: "name"}, {path: "at.", parts: xyz, name: "Middle"}, {path: "size.", parts: xyz, name: "Its box"}}},
		{title: "Motors and propellers", group: "motors.", how: "motors.propeller", sketch: sketchPropeller,
			rows: []reading{{path: "kv"}, {path: "cells"}, {path: "propeller"}, {path: "propeller_height"}}},
		{title: "Cable, and currents from a log", how: "cable.length", sketch: sketchCable,
			rows: []reading{{path: "cable.length"}, {path: lead + "currents.idle"}, {path: lead + "currents.hover"}, {path: lead + "currents.cruise"}, {path: lead + "currents.full"}}},
	}
}

// The sketches are drawn in a box of 54 by 18 mm from its top left corner.

func at(x, y, dx, dy float64) paper.Point { return paper.Point{X: x + dx, Y: y + dy} }

func level(p *draft.Pen, x, y, from, to, at0, line float64, text string) {
	p.Dimension(draft.Dimension{From: paper.Point{X: x + from, Y: y + at0}, To: paper.Point{X: x + to, Y: y + at0}, Away: paper.Point{Y: line - at0}, Text: text})
}

func upright(p *draft.Pen, x, y, from, to, at0, line float64, text string) {
	p.Dimension(draft.Dimension{From: paper.Point{X: x + at0, Y: y + from}, To: paper.Point{X: x + at0, Y: y + to}, Away: paper.Point{X: line - at0}, Text: text})
}

func sketchHoles(p *draft.Pen, x, y float64) {
	for _, dx := range []float64{9, 37} {
		p.Circle(draft.Thick, paper.Ink, at(x, y, dx, 9), 3.2)
		p.Cross(0.12, paper.Third, at(x, y, dx, 9), 1)
	}
	level(p, x, y, 12.2, 33.8, 9, 9, "near edges")
	level(p, x, y, 9, 37, 7, 2.6, "centres")
	level(p, x, y, 5.8, 40.2, 11, 15.6, "far edges")
	p.Text(at(x, y, 42, 8), paper.Start, 2.3, paper.Second, "left edge to")
	p.Text(at(x, y, 42, 11), paper.Start, 2.3, paper.Second, "left edge =")
	p.Text(at(x, y, 42, 14), paper.Start, 2.3, paper.Second, "centres")
}

func sketchPlate(p *draft.Pen, x, y float64) {
	p.Circle(draft.Thick, paper.Ink, at(x, y, 9, 8), 5)
	level(p, x, y, 4, 14, 8, 15.5, "Ø")
	p.Box(draft.Thick, paper.Ink, x+24, y+6, 22, 3)
	upright(p, x, y, 6, 9, 46, 50, "t")
	level(p, x, y, 24, 46, 9, 14.5, "free part")
}

func sketchPlace(p *draft.Pen, x, y float64) {
	frame(p, x, y, 15.5, 8, 0.9)
	p.Cross(draft.Thin, paper.Third, at(x, y, 15.5, 8), 2)
	for _, d := range [][2]float64{{14, 11.5}, {17, 11.5}, {14, 14.5}, {17, 14.5}} {
		p.Circle(draft.Thin, paper.Ink, at(x, y, d[0], d[1]), 0.6)
	}
	upright(p, x, y, 8, 13, 15.5, 28, "x")
	p.Arrow(draft.Thin, paper.Ink, at(x, y, 1.5, 11), at(x, y, 1.5, 5))
	p.Text(at(x, y, -0.6, 3.6), paper.Start, 2.3, paper.Ink, "nose")
	p.Line(draft.Thick, paper.Ink, at(x, y, 34, 14), at(x, y, 52, 14))
	p.Line(draft.Thick, paper.Ink, at(x, y, 36, 7), at(x, y, 46, 8))
	p.Line(draft.Thin, paper.Ink, at(x, y, 37, 7), at(x, y, 37, 14))
	p.Line(draft.Thin, paper.Ink, at(x, y, 45, 8), at(x, y, 45, 14))
	upright(p, x, y, 7.5, 14, 46, 50, "z")
	p.Text(at(x, y, 34, 17), paper.Start, 2.3, paper.Second, "from the side")
}

// frame draws an aircraft from above: two arms crossed and the motors at their ends.
func frame(p *draft.Pen, x, y, dx, dy, scale float64) {
	for _, s := range []float64{1, -1} {
		p.Line(0.5, paper.Seam, at(x, y, dx-9*scale, dy-6.5*s*scale), at(x, y, dx+9*scale, dy+6.5*s*scale))
	}
	for _, sx := range []float64{1, -1} {
		for _, sy := range []float64{1, -1} {
			p.Add(paper.Stroke{Points: paper.Round(at(x, y, dx+9*sx*scale, dy+6.5*sy*scale), 1.6*scale), Closed: true, Filled: true, Fill: paper.White, Width: draft.Thick, Line: paper.Ink})
		}
	}
}

func sketchAircraft(p *draft.Pen, x, y float64) {
	frame(p, x, y, 14, 9, 1)
	p.Dimension(draft.Dimension{From: at(x, y, 5, 15.5), To: at(x, y, 23, 2.5), Text: "diagonal"})
	p.Line(0.6, paper.Ink, at(x, y, 38, 14), at(x, y, 48, 14))
	p.Line(draft.Thick, paper.Ink, at(x, y, 32, 8), at(x, y, 54, 8))
	p.Line(draft.Thin, paper.Third, at(x, y, 33, 8), at(x, y, 39, 14))
	p.Line(draft.Thin, paper.Third, at(x, y, 53, 8), at(x, y, 47, 14))
	upright(p, x, y, 8, 14, 43, 43, "")
	p.Text(at(x, y, 34, 6.6), paper.Start, 2.3, paper.Second, "rule on two arm ends")
	p.Text(at(x, y, 38, 17.3), paper.Start, 2.3, paper.Second, "main plate")
}

func sketchBalance(p *draft.Pen, x, y float64) {
	p.Box(draft.Thick, paper.Ink, x+8, y+6, 36, 3)
	p.Box(draft.Thin, paper.Ink, x+18, y+1, 18, 5)
	p.Text(at(x, y, 27, 4.4), paper.Middle, 2.3, paper.Second, "pack in")
	p.Add(paper.Stroke{Points: []paper.Point{at(x, y, 28, 9.2), at(x, y, 25.5, 15), at(x, y, 30.5, 15)}, Closed: true, Width: draft.Thick, Line: paper.Ink})
	p.Dashed(draft.Thin, 1, paper.Third, at(x, y, 26, 1), at(x, y, 26, 17))
	p.Text(at(x, y, 22, 14), paper.End, 2.3, paper.Second, "middle of motors")
	level(p, x, y, 26, 28, 15, 17, "x")
}

func sketchReceiver(p *draft.Pen, x, y float64) {
	p.Box(draft.Thick, paper.Ink, x+6, y+2, 14, 12)
	p.Arrow(draft.Thin, paper.Ink, at(x, y, 13, 11.5), at(x, y, 13, 4))
	level(p, x, y, 6, 20, 14, 17, "y")
	upright(p, x, y, 2, 14, 20, 25, "x")
	p.Box(draft.Thick, paper.Ink, x+34, y+7, 14, 4.5)
	upright(p, x, y, 7, 11.5, 48, 52, "z")
	p.Text(at(x, y, 33, 15.5), paper.Start, 2.3, paper.Second, "plug left out")
}

func sketchCompass(p *draft.Pen, x, y float64) {
	p.Box(draft.Thick, paper.Ink, x+6, y+1.5, 15, 13)
	p.Cross(draft.Thin, paper.Third, at(x, y, 13.5, 8), 1.6)
	p.Add(paper.Stroke{Points: []paper.Point{at(x, y, 15.4, 3.8), at(x, y, 17.4, 3.8), at(x, y, 17.4, 5.8), at(x, y, 15.4, 5.8)}, Closed: true, Filled: true, Fill: paper.Ink})
	upright(p, x, y, 4.8, 8, 17.5, 25, "x")
	level(p, x, y, 13.5, 16.4, 8, 17, "y")
	p.Box(draft.Thick, paper.Ink, x+34, y+6, 14, 5)
	p.Area(paper.Ink, x+42, y+7.4, 2, 1)
	upright(p, x, y, 7.9, 11, 44, 51, "z")
	p.Text(at(x, y, 34, 15.5), paper.Start, 2.3, paper.Second, "underside")
}

func sketchSpacing(p *draft.Pen, x, y float64) {
	upper := []paper.Point{at(x, y, 2, 5), at(x, y, 12, 5.5), at(x, y, 26, 2.5), at(x, y, 40, 5), at(x, y, 52, 5)}
	lower := []paper.Point{at(x, y, 2, 10), at(x, y, 12, 10), at(x, y, 26, 13), at(x, y, 40, 10), at(x, y, 52, 9.5)}
	p.Line(1.3, paper.Bad.Bar(), upper...)
	p.Line(1.3, paper.Ink, lower...)
	for _, d := range [][3]float64{{7, 5.2, 10}, {26, 2.5, 13}, {47, 5, 9.7}} {
		p.Dimension(draft.Dimension{From: at(x, y, d[0], d[1]), To: at(x, y, d[0], d[2]), Text: ""})
	}
	for i, dx := range []float64{7, 26, 47} {
		p.Strong(at(x, y, dx+1.6, 8.5), paper.Start, 2.3, paper.Act, []string{"1", "2", "3"}[i])
	}
	p.Text(at(x, y, 1, 16.8), paper.Start, 2.3, paper.Second, "pack")
	p.Text(at(x, y, 53, 16.8), paper.End, 2.3, paper.Second, "controller")
}

func sketchLead(p *draft.Pen, x, y float64) {
	p.Line(draft.Thick, paper.Ink, at(x, y, 4, 15), at(x, y, 50, 15))
	p.Box(draft.Thick, paper.Ink, x+12, y+1, 4, 14)
	for _, d := range [][2]float64{{30, 7}, {33, 7}} {
		p.Add(paper.Stroke{Points: paper.Round(at(x, y, d[0], d[1]), 1.3), Closed: true, Filled: true, Fill: paper.White, Width: draft.Thick, Line: paper.Ink})
	}
	level(p, x, y, 14, 31.5, 7, 3, "beside")
	upright(p, x, y, 7, 15, 31.5, 42, "above")
	p.Text(at(x, y, 4, 18), paper.Start, 2.3, paper.Second, "main plate, from behind; a pair of wires end on")
}

func sketchNeighbour(p *draft.Pen, x, y float64) {
	p.Box(draft.Thick, paper.Ink, x+24, y+5, 20, 8)
	p.Cross(draft.Thin, paper.Act, at(x, y, 34, 9), 1.2)
	p.Cross(draft.Thin, paper.Third, at(x, y, 8, 10), 2)
	level(p, x, y, 8, 34, 10, 16, "at")
	level(p, x, y, 24, 44, 5, 1.4, "size")
	p.Text(at(x, y, 1, 5.5), paper.Start, 2.3, paper.Second, "middle of motors")
}

func sketchPropeller(p *draft.Pen, x, y float64) {
	p.Add(paper.Stroke{Points: []paper.Point{at(x, y, 6, 4), at(x, y, 40, 4.9), at(x, y, 40, 4.1), at(x, y, 6, 4.9)}, Closed: true, Filled: true, Fill: paper.Second})
	p.Box(draft.Thick, paper.Ink, x+20, y+5, 6, 3)
	p.Line(draft.Thick, paper.Ink, at(x, y, 8, 9.6), at(x, y, 38, 9.6))
	level(p, x, y, 23, 40, 4.4, 1, "half")
	upright(p, x, y, 4.5, 9.6, 40, 45, "")
	p.Text(at(x, y, 46.6, 7.8), paper.Start, 2.3, paper.Second, "height")
}

func sketchCable(p *draft.Pen, x, y float64) {
	y += 2.8
	p.Line(draft.Thick, paper.Ink, at(x, y, 12, 9), at(x, y, 50, 9))
	p.Box(draft.Thick, paper.Ink, x+18, y-1, 3, 10)
	p.Box(draft.Thick, paper.Ink, x+16, y-3.6, 7, 2.4)
	p.Box(draft.Thick, paper.Ink, x+38, y+6.4, 9, 2.6)
	p.Line(0.5, paper.Act, at(x, y, 16, -2.2), at(x, y, 12.5, 0), at(x, y, 15, 5), at(x, y, 24, 7.6), at(x, y, 38, 7.6))
	p.Text(at(x, y, 25, 5.6), paper.Start, 2.3, paper.Second, "thread")
	p.Text(at(x, y, 50, 5.2), paper.End, 2.3, paper.Second, "controller")
}

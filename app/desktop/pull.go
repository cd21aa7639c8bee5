package desktop

import (
	"fmt"
	"math"

	"mastwright/design"
)

// pull is a lead or a neighbour that is being moved along the frame with the pointer.
type pull struct {
	path string // "leads[0]" or "airframe.neighbours[2]"; "" while nothing is pulled
	doc  *design.Document
}

// pulled moves what is pulled by a way since the pointer took it, mm forward and left. All of a pull is one step of undo.
func (w *Window) pulled(path string, x, y float64, done bool) {
	if w.pull.path != path {
		w.pull = pull{path: path, doc: w.shown.Document}
		w.session.Begin("Move " + w.pull.doc.Get(path+".name"))
	}
	for _, c := range w.pull.moved(x, y) {
		_ = w.session.Set(c[0], c[1]) // an error stands in the snapshot
	}
	if done {
		w.session.End()
		w.pull = pull{}
	}
}

// moved returns the fields of what is pulled with their texts after a way in mm. A lead in words only goes sideways: its ends are other parts'.
func (p pull) moved(x, y float64) [][2]string {
	var list [][2]string
	shift := func(field string, from, by float64) {
		list = append(list, [2]string{field, fmt.Sprintf("%.4g mm", math.Round(from+by))})
	}
	var i int
	if n, _ := fmt.Sscanf(p.path, "airframe.neighbours[%d]", &i); n == 1 && i < len(p.doc.Airframe.Neighbours) {
		at := p.doc.Airframe.Neighbours[i].At
		shift(p.path+".at.x", at.X.Millimetres(), x)
		shift(p.path+".at.y", at.Y.Millimetres(), y)
	}
	if n, _ := fmt.Sscanf(p.path, "leads[%d]", &i); n == 1 && i < len(p.doc.Leads) {
		lead := p.doc.Leads[i]
		switch lead.Given {
		case "words":
			offset := lead.Offset.Millimetres()
			if lead.Side == "right" {
				offset = -offset
			} else if lead.Side == "under" {
				offset = 0
			}
			side := "left"
			if offset += y; offset < 0 {
				side = "right"
			}
			list = append(list, [2]string{p.path + ".side", side})
			shift(p.path+".offset", math.Abs(offset), 0)
		case "route", "loop":
			for k, at := range lead.Points {
				shift(fmt.Sprintf("%s.points[%d].x", p.path, k), at.X.Millimetres(), x)
				shift(fmt.Sprintf("%s.points[%d].y", p.path, k), at.Y.Millimetres(), y)
			}
		}
	}
	return list
}

package view

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/units"
	raster "mastwright/mesh/view"
)

// distance is a length of the document where it lies in space.
type distance struct {
	a, b   r3.Vec
	away   []r3.Vec  // shifts to choose from: the dimension line stands clear of the thing
	edge   [2]r3.Vec // half of what is wide at a and at b: an extension line begins at its edge
	figure string
}

// shift returns the way to the dimension line that lies to the right or below in the picture, clear of what is measured.
func (d distance) shift(c raster.Camera) r3.Vec {
	var best r3.Vec
	score := math.Inf(-1)
	from, end := c.Project(d.a), c.Project(d.b)
	alongX, alongY := end.X-from.X, end.Y-from.Y
	long := math.Hypot(alongX, alongY)
	for _, away := range d.away {
		to := c.Project(r3.Add(d.a, away))
		dx, dy := to.X-from.X, to.Y-from.Y
		s := dx + 0.8*dy
		if long > 1 { // only what leads off the measured line clears it
			s *= 0.3 + math.Abs(dx*alongY-dy*alongX)/long/max(math.Hypot(dx, dy), 1)
		}
		if s > score {
			best, score = away, s
		}
	}
	return best
}

// around returns the corners of what is drawn of the distance.
func (d distance) around(c raster.Camera) []r3.Vec {
	away := d.shift(c)
	return []r3.Vec{d.a, d.b, r3.Add(d.a, away), r3.Add(d.b, away)}
}

var (
	forward = r3.Vec{X: 1}
	left    = r3.Vec{Y: 1}
	up      = r3.Vec{Z: 1}
)

// distance returns what a field measures; false for a field that is not a length in the picture, or not known.
func (m *Model) distance(path string) (distance, bool) {
	list, rest := path, ""
	index := -1
	if open := strings.IndexByte(path, '['); open >= 0 {
		end := strings.IndexByte(path, ']')
		n, err := strconv.Atoi(path[open+1 : max(end, open+1)])
		if err != nil || n < 0 {
			return distance{}, false
		}
		list, rest, index = path[:open], strings.TrimPrefix(path[end+1:], "."), n
	}
	var d distance
	var ok bool
	switch {
	case list == "airframe.places" && index < len(m.doc.Airframe.Places):
		d, ok = m.ofPlace(m.doc.Airframe.Places[index], rest)
	case list == "airframe.neighbours" && index < len(m.doc.Airframe.Neighbours):
		d, ok = m.ofNeighbour(m.doc.Airframe.Neighbours[index], rest)
	case list == "leads" && index < len(m.doc.Leads):
		d, ok = m.ofLead(m.doc.Leads[index], rest)
	case index < 0 && strings.HasPrefix(path, "airframe."), index < 0 && strings.HasPrefix(path, "motors."):
		d, ok = m.ofAircraft(path)
	case index < 0 && m.built():
		d, ok = m.ofMount(path)
	}
	return d, ok && r3.Norm(r3.Sub(d.b, d.a)) > 1e-6
}

func millimetres(l units.Length) string {
	return strings.Replace(fmt.Sprintf("%.1f mm", l.Millimetres()), "-", "−", 1)
}

// level lays a distance along x or y about a middle, to be shifted clear of something as wide as reach the other way.
func level(middle r3.Vec, along r3.Vec, length units.Length, reach float64) distance {
	half := r3.Scale(length.Millimetres()/2, along)
	across := r3.Cross(up, along)
	d := distance{a: r3.Sub(middle, half), b: r3.Add(middle, half), figure: millimetres(length)}
	d.edge[0] = r3.Vec{X: reach, Y: reach}
	d.edge[1] = d.edge[0]
	for _, sign := range [2]float64{1, -1} {
		d.away = append(d.away, r3.Scale(sign*(reach+gap), across))
	}
	return d
}

// upright lays a distance along z beside something that reaches so far each way.
func upright(foot r3.Vec, from, to float64, reachX, reachY float64, figure string) distance {
	d := distance{a: r3.Add(foot, r3.Scale(from, up)), b: r3.Add(foot, r3.Scale(to, up)), figure: figure}
	d.away = []r3.Vec{{X: reachX + gap}, {X: -reachX - gap}, {Y: reachY + gap}, {Y: -reachY - gap}}
	d.edge[0] = r3.Vec{X: reachX, Y: reachY}
	d.edge[1] = d.edge[0]
	return d
}

// gap in mm is how far a dimension line stands from what it measures.
const gap = 9

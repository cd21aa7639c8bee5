package design

import (
	"math"

	"mastwright/design/units"
)

// PlaceChosen returns the place the mast stands on: the one it names, or the only one there is.
func (d *Document) PlaceChosen() (Place, bool) {
	i := d.placeIndex()
	if i < 0 {
		return Place{}, false
	}
	return d.Airframe.Places[i], true
}

// placeIndex is the index of the chosen place, -1 for none.
func (d *Document) placeIndex() int {
	if d.Mast.Place == "" && len(d.Airframe.Places) == 1 {
		return 0
	}
	for i, p := range d.Airframe.Places {
		if p.Name == d.Mast.Place && p.Name != "" {
			return i
		}
	}
	return -1
}

// MotorSpots returns the shafts in aircraft axes: as given, or evenly on the motor diagonal, the first at 180 degrees over the
// count from forward, counter-clockwise from above. There are none while the diagonal is not known.
func (d *Document) MotorSpots() []Spot {
	if len(d.Motors.At) > 0 {
		return append([]Spot(nil), d.Motors.At...)
	}
	if d.Airframe.MotorDiagonal == 0 || d.Motors.Count < 1 {
		return nil
	}
	spots := make([]Spot, d.Motors.Count)
	for i := range spots {
		sin, cos := math.Sincos(math.Pi * float64(2*i+1) / float64(d.Motors.Count))
		spots[i] = Spot{d.Airframe.MotorDiagonal / 2 * units.Length(cos), d.Airframe.MotorDiagonal / 2 * units.Length(sin)}
	}
	return spots
}

// Square is the rectangle with its y as its x where y was not given.
func (r Rectangle) Square() Rectangle {
	if r.Y == 0 {
		r.Y = r.X
	}
	return r
}

// Outline is the mast's root or tip as it is made: a round one is as wide as it is deep.
func (m Mast) Outline(end Rectangle) Rectangle {
	if m.Section == "round" {
		end.Y = end.X
	}
	return end.Square()
}

// Outline is the receiver's extent: a round one is as wide as it is deep.
func (r Receiver) Outline() Rectangle {
	if r.Shape == "round" {
		return Rectangle{r.Size.X, r.Size.X}
	}
	return Rectangle{r.Size.X, r.Size.Y}
}

// PlateSupports is what holds the frame's plate, in the axes of the place: as given, or, where nothing was said, the corners
// of the hole pattern half as far out again (a judgement). There are none while the holes are not known.
func (p Place) PlateSupports() []Spot {
	if len(p.Plate.Supports) > 0 {
		return append([]Spot(nil), p.Plate.Supports...)
	}
	spots, _, err := p.Holes.Centres()
	if err != nil {
		return nil
	}
	low, high := bounds(spots)
	x0, x1, y0, y1 := 1.5*low.X, 1.5*high.X, 1.5*low.Y, 1.5*high.Y
	return []Spot{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

// PlateSize is the frame plate's free part: as given, or its supports with 6 mm around them (a judgement).
func (p Place) PlateSize() Rectangle {
	size := p.Plate.Size
	low, high := bounds(p.PlateSupports())
	if size.X == 0 {
		size.X = 2*max(-low.X, high.X) + 12
	}
	if size.Y == 0 {
		size.Y = 2*max(-low.Y, high.Y) + 12
	}
	return size
}

// bounds are the least and the greatest coordinates of spots.
func bounds(spots []Spot) (low, high Spot) {
	for i, s := range spots {
		if i == 0 {
			low, high = s, s
		}
		low = Spot{min(low.X, s.X), min(low.Y, s.Y)}
		high = Spot{max(high.X, s.X), max(high.Y, s.Y)}
	}
	return low, high
}

// headDiameter is that of cylinder-head screws, ISO 4762.
func headDiameter(screw string) units.Length {
	return map[string]units.Length{"M2": 3.8, "M2.5": 4.5, "M3": 5.5, "M4": 7}[screw]
}

// washerDiameter is that of plain washers, ISO 7089.
func washerDiameter(screw string) units.Length {
	return map[string]units.Length{"M2": 5, "M2.5": 6, "M3": 7, "M4": 9}[screw]
}

// thread is a screw's nominal diameter.
func thread(screw string) units.Length {
	return map[string]units.Length{"M2": 2, "M2.5": 2.5, "M3": 3, "M4": 4}[screw]
}

// FootSize is the foot's outside: as given, or 2 mm around the screw heads and at least what stands on it with its fillet. It is
// false while the holes are not known.
func (d *Document) FootSize() (Rectangle, bool) {
	size := d.Foot.Size
	if size.X != 0 && size.Y != 0 {
		return size, true
	}
	place, ok := d.PlaceChosen()
	spots, _, err := place.Holes.Centres()
	if !ok || err != nil {
		return Rectangle{}, false
	}
	low, high := bounds(spots)
	edge := max(headDiameter(place.Screw), place.Holes.Diameter, 5.5)/2 + 2
	if d.Foot.Washers == "under heads" && d.Foot.Head != "nut pocket" && d.Foot.Head != "insert" {
		edge = max(edge, washerDiameter(place.Screw)/2+2)
	}
	root := d.Root()
	if size.X == 0 {
		size.X = max(2*(max(-low.X, high.X)+edge), root.X+2*d.Mast.RootFillet)
	}
	if size.Y == 0 {
		size.Y = max(2*(max(-low.Y, high.Y)+edge), root.Y+2*d.Mast.RootFillet)
	}
	return size, true
}

// TraySize is the tray's outside: as given, or the receiver with its play and rim, or with 2 mm around its screws' heads, and
// at least what carries it with its fillet or flare. It is false while the receiver's size is not known.
func (d *Document) TraySize() (Rectangle, bool) {
	size := d.Tray.Size
	if size.X != 0 && size.Y != 0 {
		return size, true
	}
	least, ok := d.trayLeast()
	if !ok {
		return Rectangle{}, false
	}
	tip := d.Tip()
	spread := d.tipSpread()
	if d.Mast.Build == "legs" {
		spread = 0
	}
	need := Rectangle{max(least.X, tip.X+2*spread), max(least.Y, tip.Y+2*spread)}
	if d.Mast.Build != "column" && need != least { // no sliver of floor beside the rim, or at the fillet's edge
		need = Rectangle{need.X + 1, need.Y + 1}
	}
	if size.X == 0 {
		size.X = need.X
	}
	if size.Y == 0 {
		size.Y = need.Y
	}
	return size, true
}

// trayLeast is the least tray that takes the receiver as it is held.
func (d *Document) trayLeast() (Rectangle, bool) {
	body := d.Receiver.Outline()
	if body.X == 0 || body.Y == 0 {
		return Rectangle{}, false
	}
	around := 2 * d.Tray.Clearance
	switch d.Receiver.Fixing {
	case "rim":
		around += 2 * d.Tray.RimWall
	case "screws":
		edge := headDiameter(d.Receiver.Screw) + 4
		return Rectangle{max(body.X, d.Receiver.Holes.X+edge), max(body.Y, d.Receiver.Holes.Y+edge)}, true
	}
	return Rectangle{body.X + around, body.Y + around}, true
}

// tipSpread is how far the mast widens under the tray: its flare, or its fillet where there is none.
func (d *Document) tipSpread() units.Length {
	if d.Tray.Flare > 0 {
		return d.Tray.Flare
	}
	return d.Mast.TipFillet
}

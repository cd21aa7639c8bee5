package design

import "mastwright/design/units"

// Mast is what lifts the tray.
type Mast struct {
	Build      string       `yaml:"build"`   // column, tube, twin-plate, legs
	Place      string       `yaml:"place"`   // name of one of the airframe's places
	Height     units.Length `yaml:"height"`  // from the frame's mounting face to the tray's seat
	Section    string       `yaml:"section"` // rectangular, round
	Root       Rectangle    `yaml:"root"`    // outside at the foot; y as x when not given; round: x is the diameter
	Tip        Rectangle    `yaml:"tip"`     // outside at the tray
	Corner     units.Length `yaml:"corner"`  // radius of the upright edges
	Wall       units.Length `yaml:"wall"`
	RootFillet units.Length `yaml:"root_fillet"`
	TipFillet  units.Length `yaml:"tip_fillet"`
	CableWay   CableWay     `yaml:"cable_way"`
	Split      string       `yaml:"split"` // one piece, three pieces
	Tube       Tube         `yaml:"tube"`
	Plates     Plates       `yaml:"plates"`
	Legs       Legs         `yaml:"legs"`
	Fuse       Fuse         `yaml:"fuse"`
}

// CableWay is the opening low in the mast's side through which the cable leaves its bore.
type CableWay struct {
	Side   string       `yaml:"side"` // front, left, rear, right, none
	Width  units.Length `yaml:"width"`
	Length units.Length `yaml:"length"` // along the mast
	Bottom units.Length `yaml:"bottom"` // its lower edge above the mounting face
}

// Foot is the plate that the frame's screws hold.
type Foot struct {
	Size      Rectangle    `yaml:"size"` // from the hole pattern when not given
	Thickness units.Length `yaml:"thickness"`
	Corner    units.Length `yaml:"corner"`
	Head      string       `yaml:"head"`    // counterbore, plain, nut pocket, insert
	Fit       string       `yaml:"fit"`     // fine, medium, coarse clearance holes, ISO 273
	Wedge     string       `yaml:"wedge"`   // none, level: the foot's underside takes up the face's slope
	Screws    string       `yaml:"screws"`  // material of the screws: nylon, brass, titanium, aluminium, stainless, steel
	Washers   string       `yaml:"washers"` // none, under heads
	Relief    units.Length `yaml:"relief"`  // chamfer around the lowest edge against the first layers' spread
	Mark      string       `yaml:"mark"`    // none, number: the revision and the design's short number cut into the underside
}

// Tray is the seat of the receiver.
type Tray struct {
	Size      Rectangle    `yaml:"size"` // from the receiver when not given
	Thickness units.Length `yaml:"thickness"`
	Corner    units.Length `yaml:"corner"`
	RimHeight units.Length `yaml:"rim_height"`
	RimWall   units.Length `yaml:"rim_wall"`
	Clearance units.Length `yaml:"clearance"` // around the receiver, each side
	Opening   Rectangle    `yaml:"opening"`   // through the floor, for cable and drain
	Flare     units.Length `yaml:"flare"`     // height of a 45-degree flare under the floor in place of the tip fillet; 0 for none
	Screws    string       `yaml:"screws"`    // material
	Held      string       `yaml:"held"`      // what holds the receiver's screws: nuts, nut pocket, insert
	Washers   string       `yaml:"washers"`   // none, under heads

	OpeningCorner units.Length `yaml:"opening_corner"` // radius of the opening's corners
	Letters       string       `yaml:"letters"`        // none, sides: letters of the sides cut into the floor
}

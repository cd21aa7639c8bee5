package design

import "mastwright/design/units"

// Print is how the parts are printed.
type Print struct {
	From        string       `yaml:"from"`
	Orientation string       `yaml:"orientation"` // upright: layers across the mast; lying: layers along it
	LineWidth   units.Length `yaml:"line_width"`
	Layer       units.Length `yaml:"layer"`
	Walls       int          `yaml:"walls"` // lines around foot and tray
	Skins       int          `yaml:"skins"` // solid layers under and over foot and tray
	Infill      units.Ratio  `yaml:"infill"`
	Bed         Size         `yaml:"bed"`
	HoleAdd     units.Length `yaml:"hole_add"` // added to every hole's diameter against shrinkage
	Speed       units.Speed  `yaml:"speed"`    // of the nozzle along its lines
	Copies      []Copies     `yaml:"copies"`
}

// Materials names the material of each part.
type Materials struct {
	From   string `yaml:"from"` // file of own materials, relative to the design
	Foot   string `yaml:"foot"`
	Mast   string `yaml:"mast"` // of a column
	Tray   string `yaml:"tray"`
	Tube   string `yaml:"tube"`
	Sheet  string `yaml:"sheet"` // of the plates
	Spacer string `yaml:"spacer"`
	Legs   string `yaml:"legs"`
}

package review

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/materials"
)

// footWord is what the frame's screws hold.
func (s *subject) footWord() string {
	if len(s.assembly.Pads) > 0 {
		return "pads"
	}
	return "foot plate"
}

// directionOf says how a member's axis lies to the layers of its part: stock and sheet run along their fibres; of a print it is across
// where the axis stands up on the bed.
func directionOf(m parts.Member, p parts.Part) materials.Direction {
	if p.Making != parts.Printed || p.Orientation == "lying" {
		return materials.InLayer
	}
	way := p.Turn.Apply(m.To).Z - p.Turn.Apply(m.From).Z
	if math.Abs(way) < 0.5*m.Length() {
		return materials.InLayer
	}
	return materials.Across
}

// pivots is a note on spacers that do not stiffen, "" for none.
func (s *subject) pivots() string {
	p := s.doc.Mast.Plates
	if s.doc.Mast.Build != "twin-plate" || p.Spacer != "single screw" || p.Spacers == 0 {
		return ""
	}
	return fmt.Sprintf("%d spacers held by a single screw are pivots: they carry no moment and do not stiffen the plates sideways; two screws in line with the plate, or tabs, would", p.Spacers)
}

// inClamp says whether a member is held in a clamp.
func (s *subject) inClamp(member string) bool {
	for _, j := range s.assembly.Joints {
		if j.Kind == parts.Clamp && j.B == member {
			return true
		}
	}
	return false
}

// groupOfMember is under which name a member's share of the compliance is shown.
func (s *subject) groupOfMember(p span) string {
	switch {
	case p.bears || s.doc.Mast.Build == "column":
		return s.doc.Bearer()
	case s.doc.Mast.Build == "twin-plate":
		return "blocks and spacers"
	case s.doc.Mast.Build == "legs":
		return "sockets"
	}
	return p.name
}

// groupOfSpring is under which name a spring's is.
func (s *subject) groupOfSpring(name string) string {
	for _, j := range s.spine.joints {
		if j.name == name && j.kind == parts.Pin {
			return "plates' screws"
		}
		if j.name == name && len(s.assembly.Pads) > 0 {
			return "sockets"
		}
	}
	return name
}

// MovesOf returns the paths of the fields that move a check's figures most in a design's own style.
func (c Check) MovesOf(doc *design.Document) []string {
	var paths []string
	for _, path := range c.Moves {
		if strings.Contains(path, "[]") || doc.Asked(path) {
			paths = append(paths, path)
		} else if _, leaf := design.FieldOf(path); !leaf { // a point
			paths = append(paths, path)
		}
	}
	moved := map[string]map[string][]string{
		"tube": {
			"sway": {"mast.tube.outside", "mast.tube.clamp.grip", "materials.tube"}, "modes": {"mast.tube.outside", "mast.tube.clamp.grip", "materials.foot"},
			"shake": {"mast.tube.outside", "mast.tube.clamp.grip"}, "strength": {"mast.tube.outside", "mast.tube.clamp.wall", "materials.foot"},
			"tipover": {"mast.tube.clamp.wall", "mast.root_fillet", "materials.foot", "mast.fuse.fitted"}, "printing": {"mast.tube.clamp.wall"},
			"balance": {"mast.tube.outside", "mast.tube.clamp.wall"}, "heat": {"materials.foot"},
		},
		"twin-plate": {
			"sway":  {"mast.plates.spacers", "mast.plates.spacer", "mast.plates.thickness", "mast.plates.gap"},
			"modes": {"mast.plates.spacers", "mast.plates.spacer", "mast.plates.thickness", "mast.plates.gap"}, "shake": {"mast.plates.spacers", "mast.plates.thickness"},
			"strength": {"mast.plates.thickness", "mast.plates.screw", "foot.screws", "tray.screws"}, "tipover": {"mast.plates.screw", "foot.screws", "tray.screws", "mast.plates.thickness"},
			"printing": {"mast.plates.gap"}, "balance": {"mast.plates.lightening.count", "mast.plates.root", "mast.plates.grip"}, "heat": {"materials.spacer"},
		},
		"legs": {
			"sway": {"mast.legs.section.x", "mast.legs.spread.x", "mast.legs.ring"}, "modes": {"mast.legs.section.x", "mast.legs.spread.x", "mast.legs.ring", "materials.legs"},
			"shake": {"mast.legs.section.x"}, "strength": {"mast.legs.section.x", "mast.legs.pad", "materials.legs"},
			"tipover": {"foot.screws", "mast.legs.pad", "mast.legs.section.x", "materials.legs"}, "printing": {"mast.legs.socket"},
			"balance": {"mast.legs.section.x", "mast.legs.grip"}, "heat": {"materials.legs"},
		},
	}
	for _, path := range moved[doc.Mast.Build][c.ID] {
		if doc.Asked(path) && !slices.Contains(paths, path) {
			paths = append(paths, path)
		}
	}
	return paths
}

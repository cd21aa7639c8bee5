// Package hardware knows the fasteners of a mount by standard and size: screws,
// nuts, washers, clearance holes, inserts, spacers, and what they are made of.
//
// Dimensions are the standards' maxima where a part must have room (heads,
// nuts) and nominal otherwise. Each type names its standard.
package hardware

import (
	"fmt"
	"strings"

	"mastwright/design/units"
)

// Size is a metric coarse thread. The zero Size is none; every method of it panics.
type Size int

// The sizes.
const (
	M2 Size = iota + 1
	M2p5
	M3
	M4
	M5
)

// Sizes lists the sizes, the smallest first.
func Sizes() []Size { return []Size{M2, M2p5, M3, M4, M5} }

// String is the size as a design file holds it: "M2.5".
func (s Size) String() string { return s.row().name }

// ParseSize reads a size as a person types it: "M3", "m2,5".
func ParseSize(text string) (Size, error) {
	name := strings.ToUpper(strings.ReplaceAll(strings.TrimSpace(text), ",", "."))
	var names []string
	for _, s := range Sizes() {
		if s.String() == name {
			return s, nil
		}
		names = append(names, s.String())
	}
	return 0, fmt.Errorf("no screw size %q; write one of %s", text, strings.Join(names, ", "))
}

// Diameter is the nominal diameter, ISO 261.
func (s Size) Diameter() units.Length { return s.row().diameter }

// Pitch is the coarse pitch, ISO 261.
func (s Size) Pitch() units.Length { return s.row().pitch }

// StressArea is the nominal stress area, ISO 898-1 (M2 and M2.5: its formula).
func (s Size) StressArea() units.Area { return s.row().stressArea }

// PitchDiameter is d - 0.6495 P, ISO 724; a thread fills as much as a rod of this size.
func (s Size) PitchDiameter() units.Length { return s.Diameter() - 0.6495*s.Pitch() }

// Fit is how loose a clearance hole is.
type Fit string

// The fits of ISO 273.
const (
	Fine   Fit = "fine"
	Medium Fit = "medium"
	Coarse Fit = "coarse"
)

// ClearanceHole is the diameter of a through hole, ISO 273.
func (s Size) ClearanceHole(f Fit) (units.Length, error) {
	switch f {
	case Fine:
		return s.row().fine, nil
	case Medium:
		return s.row().medium, nil
	case Coarse:
		return s.row().coarse, nil
	}
	return 0, fmt.Errorf("no fit %q; write fine, medium or coarse", string(f))
}

type sizeRow struct {
	name                 string
	diameter, pitch      units.Length
	stressArea           units.Area
	fine, medium, coarse units.Length
	socket, button       Head
	nut                  Nut
	washer               Washer
	insert               Insert
	spacerFlats          units.Length
	nylon                units.Force
}

func (s Size) row() sizeRow {
	if s < M2 || s > M5 {
		panic(fmt.Sprintf("hardware: size %d is none", int(s)))
	}
	return sizes[s]
}

// sizes is indexed by Size, in mm, mm² and N. The sources stand at the types
// and methods that give the figures out.
var sizes = [...]sizeRow{
	M2: {"M2", 2, 0.4, 2.07, 2.2, 2.4, 2.6,
		Head{3.8, 2, 1.5, 1}, Head{}, Nut{4, 1.6}, Washer{2.2, 5, 0.3}, Insert{3.1, 3.3, 4, 1.3}, 4, 80},
	M2p5: {"M2.5", 2.5, 0.45, 3.39, 2.7, 2.9, 3.1,
		Head{4.5, 2.5, 2, 1.1}, Head{}, Nut{5, 2}, Washer{2.7, 6, 0.5}, Insert{3.5, 3.7, 5, 1.6}, 5, 130},
	M3: {"M3", 3, 0.5, 5.03, 3.2, 3.4, 3.6,
		Head{5.5, 3, 2.5, 1.3}, Head{5.7, 1.65, 2, 1.04}, Nut{5.5, 2.4}, Washer{3.2, 7, 0.5}, Insert{4, 4.2, 5.7, 1.6}, 5.5, 200},
	M4: {"M4", 4, 0.7, 8.78, 4.3, 4.5, 4.8,
		Head{7, 4, 3, 2}, Head{7.6, 2.2, 2.5, 1.3}, Nut{7, 3.2}, Washer{4.3, 9, 0.8}, Insert{5.6, 5.7, 8.1, 2.1}, 7, 400},
	M5: {"M5", 5, 0.8, 14.2, 5.3, 5.5, 5.8,
		Head{8.5, 5, 4, 2.5}, Head{9.5, 2.75, 3, 1.56}, Nut{8, 4.7}, Washer{5.3, 10, 1}, Insert{6.4, 6.5, 9.5, 2.6}, 8, 700},
}

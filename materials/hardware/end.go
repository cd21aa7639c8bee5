package hardware

import (
	"fmt"

	"mastwright/design/units"
)

// Insert is a heat-set brass insert: the bore's range, the insert's length, and
// the least wall around the bore. The bore of M3 is common practice; the other
// figures are from memory.
type Insert struct {
	BoreLow  units.Length
	BoreHigh units.Length
	Length   units.Length
	Wall     units.Length
}

// Insert is the heat-set insert of a size.
func (s Size) Insert() Insert { return s.row().insert }

// Bore is the middle of the bore's range.
func (i Insert) Bore() units.Length { return (i.BoreLow + i.BoreHigh) / 2 }

// Mass is the insert's mass of brass in a size: a tube from the thread's bore to the bore it goes into, the knurl's ridges for its grooves.
func (i Insert) Mass(s Size) units.Mass {
	const brass = 8.5 // g/cm³
	return mass(circleArea(i.BoreHigh)-circleArea(s.PitchDiameter()), i.Length, Material{Density: brass})
}

// End is what a screw is held by.
type End string

// The ends.
const (
	InNut     End = "nut"
	InInsert  End = "insert"
	InPlastic End = "plastic" // thread cut or formed in the part
	InMetal   End = "metal"   // thread tapped in aluminium, brass or a spacer
)

// Thread is the least thread that must be in an end for the end to bear what the screw does: all of a nut, whose 0.8 d of height make
// it as strong as the screw (ISO 898-2, from memory), all of an insert (common practice), 1 d in aluminium and brass (common practice;
// handbooks after VDI 2230 ask 0.9 to 1.4 d, the more the stronger the screw, from memory) and 2 d in plastic (common practice of screws that
// cut their thread).
func (s Size) Thread(e End) (units.Length, error) {
	switch e {
	case InNut:
		return s.Nut().Height, nil
	case InInsert:
		return s.Insert().Length, nil
	}
	return s.Engagement(e)
}

// Engagement is the thread length an end needs: the nut and one pitch that
// stands out of it, the insert, 2 d in plastic, 1 d in metal. Common practice.
func (s Size) Engagement(e End) (units.Length, error) {
	switch e {
	case InNut:
		return s.Nut().Height + s.Pitch(), nil
	case InInsert:
		return s.Insert().Length, nil
	case InPlastic:
		return 2 * s.Diameter(), nil
	case InMetal:
		return s.Diameter(), nil
	}
	return 0, fmt.Errorf("no screw end %q; write nut, insert, plastic or metal", string(e))
}

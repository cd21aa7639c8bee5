package hardware

import (
	"fmt"
	"strings"

	"mastwright/design/units"
)

// Material is what a fastener is made of.
type Material struct {
	ID       string
	Title    string
	Density  units.Density
	Strength units.Stress // tensile, at least
	Yield    units.Stress // proof or 0.2 % strength, at least
	Magnetic Magnetism
	Source   string // of the strengths
}

// Magnetism is whether a fastener disturbs a compass.
type Magnetism int

// The magnetisms.
const (
	NotMagnetic     Magnetism = iota
	PerhapsMagnetic           // some stainless has been seen to be magnetic
	Magnetic
)

// Ferrous is whether a fastener has to be treated as steel beside a compass.
func (m Material) Ferrous() bool { return m.Magnetic != NotMagnetic }

// Materials lists the fastener materials, those to be had beside a compass first.
func Materials() []Material {
	return []Material{
		{"nylon", "nylon PA66", 1.14, 40, 20, NotMagnetic, "stress at a fastener catalogue's breaking load of M3; yield is judgement"},
		{"brass", "brass", 8.5, 370, 250, NotMagnetic, "grade CU2/CU3, from memory"},
		{"titanium", "titanium grade 5", 4.43, 895, 828, NotMagnetic, "ASTM B348 grade 5, from memory"},
		{"aluminium", "aluminium 7075", 2.81, 510, 430, NotMagnetic, "temper T6, from memory"},
		{"stainless", "stainless A2-70", 7.9, 700, 450, PerhapsMagnetic, "ISO 3506-1 class 70"},
		{"steel", "steel 8.8", 7.85, 800, 640, Magnetic, "ISO 898-1 class 8.8"},
	}
}

// FindMaterial returns the fastener material with an ID.
func FindMaterial(id string) (Material, error) {
	var ids []string
	for _, m := range Materials() {
		if m.ID == id {
			return m, nil
		}
		ids = append(ids, m.ID)
	}
	return Material{}, fmt.Errorf("no fastener material %q; write one of %s", id, strings.Join(ids, ", "))
}

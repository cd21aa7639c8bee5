package strength

// Clamp is a split sleeve that screws close on a round tube, with or without a cross screw as a key.
type Clamp struct {
	Preload  float64 // pull in each of its screws, N
	Screws   int
	Radius   float64 // of the tube, m
	Friction float64 // between sleeve and tube; 0 means .2, common practice
	Key      float64 // shear strength of the cross screw, N; 0 for none
}

// Torque returns the twist about the tube in N·m at which it turns in the clamp: 2 μ F r for each screw, and the cross screw's shear
// strength at the tube's wall. Source: common practice; the screw's pull presses on both halves of the sleeve.
func (c Clamp) Torque() float64 {
	return ClampSlip(c.Preload, c.Radius, c.Friction, c.Screws) + c.Key*c.Radius
}

// Pull returns the force along the tube in N at which it slides out of the clamp: 2 μ F for each screw, and the cross screw's shear
// strength. Source: as for Torque.
func (c Clamp) Pull() float64 {
	return ClampSlip(c.Preload, 1, c.Friction, c.Screws) + c.Key
}

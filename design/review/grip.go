package review

import (
	"fmt"
	"math"
	"strings"

	"mastwright/design/parts"
	"mastwright/materials"
	hw "mastwright/materials/hardware"
)

// Grip is a group of screws of the mount: how it holds, and how hard it may be tightened.
type Grip struct {
	parts.Hold
	Pull     float64 // N in each screw, tightened as assumed and no harder than what it presses on bears
	Torque   float64 // N·m that gives the pull, 0.2 F d; 0 for a pin
	Pressure float64 // MPa under its head, washer or nut at the full assumed pull; 0 where nothing of the mount is pressed
	Bears    float64 // MPa, low strength of what is pressed; 0 where nothing is
}

// nutFactor is K of the torque K F d that tightens a dry screw. Source: Shigley, Mechanical Engineering Design, table of torque factors.
const nutFactor = 0.2

// grips returns every group of screws of the mount.
func (s *subject) grips() []Grip {
	if s.gripped == nil {
		s.gripped = []Grip{}
		for _, h := range s.assembly.Holds() {
			s.gripped = append(s.gripped, s.grip(h))
		}
	}
	return s.gripped
}

func (s *subject) grip(h parts.Hold) Grip {
	g := Grip{Hold: h}
	u := h.Use
	material, err := hw.FindMaterial(u.Material)
	if err != nil || h.Across {
		return g
	}
	full := s.doc.Assume.Preload.Fraction() * u.Size.BreakingLoad(material).Newtons()
	g.Pull = full
	if area := pressedArea(u); area > 0 {
		if m, err := s.library.Find(s.pressed(u)); err == nil {
			g.Pressure, g.Bears = full/area, spreadOf(m, materials.InLayer).Low/1e6
			g.Pull = math.Min(full, g.Bears*area)
		}
	}
	g.Torque = nutFactor * g.Pull * u.Size.Diameter().Metres()
	return g
}

// pull is the pull in each screw of a purpose; 0 for none.
func (s *subject) pull(purpose string) float64 {
	for _, u := range s.assembly.Screws {
		if u.For == purpose {
			return s.grip(parts.Hold{Use: u}).Pull
		}
	}
	return 0
}

// pressedArea is the ring in mm² that a screw presses on the mount with: the lesser of head and nut, or of their washers; none where an
// insert holds it, which hangs in the plastic around it.
func pressedArea(u parts.ScrewUse) float64 {
	head, err := u.Size.Head(u.Head)
	if err != nil || u.Insert {
		return 0
	}
	across := head.Diameter.Millimetres()
	switch {
	case u.Pocket:
		across = u.Size.Nut().AcrossFlats.Millimetres()
	case u.Washers > 0:
		across = u.Size.Washer().Outside.Millimetres()
	case u.Nut && u.For != "foot" && u.For != "receiver":
		across = math.Min(across, u.Size.Nut().AcrossFlats.Millimetres())
	}
	return math.Pi / 4 * (across*across - u.Hole*u.Hole)
}

// pressed is the material that a screw's head or nut presses on.
func (s *subject) pressed(u parts.ScrewUse) string {
	switch {
	case u.For == "spacers", strings.HasSuffix(u.For, " block"):
		return s.doc.Materials.Sheet
	case strings.HasPrefix(u.For, "foot"):
		return s.assembly.Foot.Material
	}
	return s.assembly.Tray.Material
}

// threads are the figures of the screws' threads and tips, and what is to be said about their tightening. They are judged only where
// one is short or runs into a part: otherwise stock lengths leave what they leave.
func (s *subject) threads() ([]Figure, []string) {
	ratio, ahead := math.Inf(1), math.Inf(1)
	var notes []string
	for _, g := range s.grips() {
		u := g.Use
		name := fmt.Sprintf("the %s screws", u.For)
		if u.Count == 1 {
			name = fmt.Sprintf("the %s screw", u.For)
		}
		if g.Least > 0 {
			ratio = math.Min(ratio, g.Thread/g.Least)
			if g.Thread < g.Least-1e-9 {
				notes = append(notes, fmt.Sprintf("%s have %.2f mm of thread in the %s, which needs %.2f mm: longer ones, or less between", name, g.Thread, g.End, g.Least))
			}
		}
		if !g.Unseen {
			ahead = math.Min(ahead, g.Ahead)
			if g.Ahead < 0 {
				notes = append(notes, fmt.Sprintf("%s, %v long, run %.2f mm into the part behind: cut them shorter", name, u.Length, -g.Ahead))
			}
		}
		if g.Pressure > g.Bears && g.Bears > 0 {
			notes = append(notes, fmt.Sprintf("%s of %s at full pull would press with %.0f MPa where %.0f are borne: tighten to %.2g N·m at most%s",
				name, u.Material, g.Pressure, g.Bears, g.Torque, washerHint(u)))
		}
	}
	var figures []Figure
	if !math.IsInf(ratio, 1) {
		f := fixed("least thread over what its nut, insert or block needs", ratio, "×", nil)
		if ratio < 1-1e-9 {
			f.Limit = &Limit{AtLeast, 1, 0.75} // three quarters: judgement
		}
		figures = append(figures, f)
	}
	if ahead < parts.AheadSought {
		f := fixed("least room before a screw's tip", ahead, "mm", nil)
		if ahead < 0 {
			f.Limit = &Limit{AtLeast, 0, -0.5} // what a file takes off: judgement
		}
		figures = append(figures, f)
	}
	return figures, notes
}

// washerHint names the field that puts washers under a group's heads.
func washerHint(u parts.ScrewUse) string {
	if u.Washers > 0 || u.Pocket {
		return ""
	}
	switch {
	case u.For == "foot":
		return ", or put washers under them (foot.washers)"
	case u.For == "receiver":
		return ", or put washers under them (tray.washers)"
	case u.For == "spacers", strings.HasSuffix(u.For, " block"):
		return ", or put washers under them (mast.plates.washers)"
	case strings.HasSuffix(u.For, " clamp"):
		return ", or put washers under head and nut (mast.tube.clamp.washers)"
	}
	return ""
}

// thread is the reckoning of the least held group of screws.
func (s *subject) thread() string {
	var worst *Grip
	for i, g := range s.grips() {
		if g.Least > 0 && (worst == nil || g.Thread/g.Least < worst.Thread/worst.Least) {
			worst = &s.gripped[i]
		}
	}
	if worst == nil {
		return ""
	}
	u := worst.Use
	return fmt.Sprintf("%s %s × %v: %.2f mm past a grip of %.2f mm, %.2f mm of thread in the %s = %.2f d, it needs %.2f mm", u.For, u.Size, u.Length,
		u.Length.Millimetres()-worst.Hold.Grip, worst.Hold.Grip, worst.Thread, worst.End, worst.Thread/u.Size.Diameter().Millimetres(), worst.Least)
}

package review

import "slices"

// Check is one question about a design.
type Check struct {
	ID       string
	Title    string
	Question string
	Formula  string
	Source   string
	Limits   []string // paths of its limits in the document
	Moves    []string // paths of the fields that move its figures most

	rigid bool // nothing that bends moves it
	run   func(*subject) Verdict
}

// Checks returns every check in the order it is shown.
func Checks() []Check { return slices.Clone(checks) }

// Find returns the check of an id.
func Find(id string) (Check, bool) {
	i := slices.IndexFunc(checks, func(c Check) bool { return c.ID == id })
	if i < 0 {
		return Check{}, false
	}
	return checks[i], true
}

var checks = []Check{
	{
		ID: "clearance", Title: "Clearance", Question: "is every noisy neighbour far enough?",
		Formula: "distance / (100 mm × √(I_full / 120 A), at least 40 mm); transmitters, USB 3, cameras 50 mm; propeller discs 10 mm",
		Source:  "common practice (100 mm from current-carrying parts), scaled with current by own choice",
		Limits:  []string{"limits.clearance", "limits.propeller"},
		Moves:   []string{"mast.height", "mast.place", "airframe.neighbours", "leads[].height"},
		run:     (*subject).clearance,
	},
	{
		ID: "heading", Title: "Heading", Question: "how far does the compass swing under throttle?",
		Formula: "swing = asin(min(1, ΔB / H)), ΔB by Biot-Savart over closed leads, from armed idle to hover, cruise and full",
		Source:  "Biot-Savart law; earth's field from the World Magnetic Model 2025; limits: common practice and simulation of a position loop",
		Limits:  []string{"limits.heading_hold", "limits.heading_full"},
		Moves:   []string{"mast.height", "leads[].spacing", "leads[].run", "leads[].pitch", "leads[].offset", "leads[].currents.cruise"},
		rigid:   true,
		run:     (*subject).heading,
	},
	{
		ID: "level", Title: "Level", Question: "is the receiver flat in hover?",
		Formula: "error = asin(min(1, tan dip × tan tilt)), tilt = face slope not taken up by the foot, and the mast's lean at rest",
		Source:  "geometry of a tilted two-axis compass; limits: common practice",
		Limits:  []string{"limits.level", "limits.tilt"},
		Moves:   []string{"airframe.places[].slope_forward", "airframe.places[].slope_left", "foot.wedge"},
		run:     (*subject).level,
	},
	{
		ID: "sway", Title: "Sway", Question: "how far does it lean?",
		Formula: "K u = f; f = mass × sideways acceleration + ½ ρ v² C_d A",
		Source:  "space frame of Timoshenko beams on the foot's and the frame plate's springs (Przemieniecki 1968); limits: own choice",
		Limits:  []string{"limits.sway"},
		Moves:   []string{"mast.root.x", "mast.tip.x", "mast.wall", "mast.height", "materials.mast", "foot.thickness"},
		run:     (*subject).sway,
	},
	{
		ID: "modes", Title: "Modes", Question: "does it ring where the motors turn?",
		Formula: "K φ = ω² M φ, flying; lowest mode / attitude-control bandwidth; crossings of once-per-rev with each mode's band",
		Source:  "space frame (Przemieniecki 1968; Friedman & Kosmatka 1993); rotor speed from thrust; limits: own choice",
		Limits:  []string{"limits.modes"},
		Moves:   []string{"mast.root.x", "mast.wall", "mast.height", "materials.mast", "foot.thickness", "receiver.mass"},
		run:     (*subject).modes,
	},
	{
		ID: "shake", Title: "Shake", Question: "what does the receiver feel?",
		Formula: "modal superposition; unbalance U Ω² at each motor (e Ω = G) and thrust ripple, power sum; worst in the working band over every mode's band",
		Source:  "ISO 21940-11 balance grades; limits: receiver makers' own vibration tests, otherwise judgement",
		Limits:  []string{"limits.shake", "limits.rate"},
		Moves:   []string{"motors.balance", "mast.root.x", "mast.wall", "mast.height", "receiver.fixing", "materials.mast"},
		run:     (*subject).shake,
	},
	{
		ID: "strength", Title: "Strength", Question: "does anything yield in flight or in the hand?",
		Formula: "σ = Kt √((N/A + M/W)² + 3 τ²) against the strength in the loaded direction",
		Source:  "Roark's Formulas, table 17.1 (shoulder fillet); Shigley (screws); loads: common practice",
		Limits:  []string{"limits.strength"},
		Moves:   []string{"mast.root.x", "mast.wall", "mast.root_fillet", "print.orientation", "materials.mast", "loads.hand"},
		run:     (*subject).strength,
	},
	{
		ID: "tipover", Title: "Tip-over", Question: "what does an inverted landing damage, what does it break, at what speed?",
		Formula: "v_req = R_t √(2 M g R_c (1 − sin φ_end) / I_p); ½ m v² = F² C / 2 + hinge energy",
		Source:  "energy of a rigid body about a fixed axis; Roark and Shigley (impact); hinge rule and contact: judgement",
		Limits:  []string{"limits.tipover"},
		Moves:   []string{"materials.mast", "print.orientation", "mast.root.x", "mast.wall", "mast.height", "mast.root_fillet"},
		run:     (*subject).tipover,
	},
	{
		ID: "heat", Title: "Heat", Question: "will it soften?",
		Formula: "softening temperature (ISO 75, 0.45 MPa) − service temperature",
		Source:  "material's data; service temperature: a closed car, common practice",
		Limits:  []string{"limits.heat"},
		Moves:   []string{"materials.mast", "materials.foot", "materials.tray", "site.service"},
		rigid:   true,
		run:     (*subject).heat,
	},
	{
		ID: "hardware", Title: "Hardware", Question: "is there steel too near the compass, and do the screws fit?",
		Formula: "m = V Br / µ0 or 3 V B0 / µ0; B = µ0 2 m / (4π r³); error = asin(B / H); thread = min(length − grip, what its end offers); torque = 0.2 F d, F at most what the head's ring bears",
		Source: "dipole of a magnetised or magnetisable body (Jackson); remanence: common practice; ISO 4762, 7380-1, 4032, 7089; thread: a whole nut (ISO 898-2), a whole insert " +
			"and 1 d in metal (common practice); torque: Shigley",
		Limits: []string{"limits.remanent", "limits.steel_free"},
		Moves:  []string{"tray.screws", "foot.screws", "mast.height"},
		rigid:  true,
		run:    (*subject).hardware,
	},
	{
		ID: "sky", Title: "Sky", Question: "what is above the antenna's horizon?",
		Formula: "share lost = ∫ blocked cos(elevation) / ∫ cos(elevation), above the mask angle",
		Source:  "geometry; mask angle: common practice",
		Limits:  []string{"limits.sky"},
		Moves:   []string{"mast.height", "mast.place", "airframe.neighbours"},
		rigid:   true,
		run:     (*subject).sky,
	},
	{
		ID: "bus", Title: "Bus", Question: "will the compass bus still work with this cable?",
		Formula: "t_r = 0.8473 R_p C_b, C_b = cable + devices",
		Source:  "I2C-bus specification UM10204: rise time 1000 ns at 100 kHz, 300 ns at 400 kHz, 400 pF",
		Limits:  []string{"limits.bus"},
		Moves:   []string{"cable.length", "cable.pull_up", "cable.clock", "cable.devices"},
		rigid:   true,
		run:     (*subject).bus,
	},
	{
		ID: "printing", Title: "Printing", Question: "can it be printed as asked?",
		Formula: "bed, wall against line width, overhang, slenderness, time of a layer",
		Source:  "common practice of printing in layers",
		Limits:  []string{"limits.mast_wall"},
		Moves:   []string{"print.orientation", "print.bed", "print.line_width", "mast.wall", "mast.split"},
		rigid:   true,
		run:     (*subject).printing,
	},
	{
		ID: "balance", Title: "Balance", Question: "what does it cost the aircraft?",
		Formula: "added mass / take-off mass; shift of the centre of gravity; added inertia",
		Source:  "mass balance; limits: own choice",
		Limits:  []string{"limits.balance"},
		Moves:   []string{"mast.root.x", "mast.wall", "mast.height", "print.infill", "foot.thickness", "receiver.mass"},
		rigid:   true,
		run:     (*subject).balance,
	},
}

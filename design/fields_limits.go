package design

import "mastwright/design/units"

// gravity is standard gravity in the file unit of accelerations.
var gravity = float64(units.StandardGravities(1))

// limitFields are the rows of the limits. Their bases: common practice where nothing else is said.
func limitFields() []Field {
	pair := func(f Field, pass, marginal string) []Field {
		p, m := f, f
		p.Stage, m.Stage = "check", "check"
		p.Group, m.Group = f.Title, f.Title
		p.Path, p.Title, p.Default = f.Path+".pass", f.Title+", pass", pass
		m.Path, m.Title, m.Default = f.Path+".marginal", f.Title+", marginal", marginal
		p.Help, m.Help = f.Help+"; to here it passes.", f.Help+"; to here it is marginal, beyond it fails."
		return []Field{p, m}
	}
	return rows(
		pair(Field{Path: "limits.clearance", Title: "Clearance limit", Low: 0.05, High: 10,
			Help: "Distance to a neighbour over the distance it needs, at least"}, "1", "0.5"),
		pair(Field{Path: "limits.propeller", Title: "Propeller limit", Low: 1, High: 100,
			Help: "Distance from the mount to a propeller disc, at least (a judgement)"}, "10 mm", "5 mm"),
		pair(Field{Path: "limits.heading_hold", Title: "Heading limit in hover", Low: 0.1, High: 180,
			Help: "Swing of the compass in hover and cruise, at most (simulation of a position loop)"}, "5 deg", "15 deg"),
		pair(Field{Path: "limits.heading_full", Title: "Heading limit at full throttle", Low: 0.1, High: 180,
			Help: "Swing of the compass in bursts of full throttle, at most"}, "15 deg", "45 deg"),
		pair(Field{Path: "limits.level", Title: "Level limit", Low: 0.1, High: 180,
			Help: "Heading error from the receiver's tilt, at most"}, "5 deg", "10 deg"),
		pair(Field{Path: "limits.tilt", Title: "Tilt limit", Low: 0.1, High: 90,
			Help: "Tilt of the receiver in hover, at most"}, "6 deg", "10 deg"),
		pair(Field{Path: "limits.sway", Title: "Sway limit", Low: 0.01, High: 45,
			Help: "Tilt of the tray under manoeuvre and drag, at most"}, "0.5 deg", "1.5 deg"),
		pair(Field{Path: "limits.modes", Title: "Modes limit", Low: 1, High: 20,
			Help: "Lowest natural frequency over the control bandwidth, at least"}, "3", "1.5"),
		pair(Field{Path: "limits.shake", Title: "Shake limit", Unit: "g", Low: 0.05 * gravity, High: 100 * gravity,
			Help: "Peak acceleration at the compass, at most (receiver makers' tests and judgement)"}, "3 g", "6 g"),
		Field{Path: "limits.rate.pass", Title: "Rate limit", Low: 0.1, High: 500, Default: "10 deg/s", Stage: "check",
			Help: "Rate of turn the mast causes at the flight controller; beyond it is marginal."},
		pair(Field{Path: "limits.strength", Title: "Strength limit", Low: 0.5, High: 20,
			Help: "Low strength over stress, at least"}, "2", "1.25"),
		pair(Field{Path: "limits.tipover", Title: "Tip-over limit", Low: 0.1, High: 20,
			Help: "Speed that breaks it over the speed of toppling, at least"}, "1.3", "0.8"),
		pair(Field{Path: "limits.heat", Title: "Heat limit", Low: -20, High: 100,
			Help: "Softening temperature less the hottest it gets, at least"}, "10 K", "0 K"),
		pair(Field{Path: "limits.remanent", Title: "Magnetised screws limit", Low: 0.1, High: 180,
			Help: "Heading offset of a magnetised fastener, at most"}, "0.5 deg", "5 deg"),
		Field{Path: "limits.steel_free", Title: "Free of steel", Low: 0, High: 300, Default: "50 mm", Stage: "check",
			Help: "Distance around the compass within which no fastener may be of steel."},
		pair(Field{Path: "limits.sky", Title: "Sky limit", Low: 0.0001, High: 1,
			Help: "Share of the sky above the mask that is lost, at most"}, "0.02", "0.1"),
		pair(Field{Path: "limits.bus", Title: "Bus limit", Low: 0.05, High: 2,
			Help: "Rise time over what the bus specification allows, at most"}, "0.8", "1"),
		pair(Field{Path: "limits.balance", Title: "Balance limit", Low: 0.001, High: 1,
			Help: "Added mass over take-off mass, at most"}, "0.05", "0.1"),
		pair(Field{Path: "limits.mast_wall", Title: "Mast wall limit", Low: 0.2, High: 10,
			Help: "Printed wall of the mast, at least"}, "1.6 mm", "1.2 mm"),
	)
}

package strength

// Links returns the links of the load path for a blow along a unit direction on the mast top.
type Links func(direction [3]float64) []Link

// Fall is a topple and what the mast takes of it.
type Fall struct {
	Topple
	Compliance float64 // of mast and ground along the blow, m/N
	Force      float64 // peak, were everything elastic, N
	Outcome    Outcome
	Ratio      Spread // break speed over Topple.Speed at low, typical and high strength; 0 when the mast does not strike
}

// TipOver judges every topple of a vehicle on a load path and names the worst, by its
// typical ratio: the index into the falls, -1 when the mast top strikes in none.
func TipOver(v Vehicle, links Links, rule Rule) (falls []Fall, worst int, err error) {
	topples, err := Topples(v)
	if err != nil {
		return nil, -1, err
	}
	worst = -1
	for i, t := range topples {
		f := Fall{Topple: t, Compliance: v.Along(t.Direction)}
		blow := Blow{Speed: t.Speed, Mass: t.Mass, Compliance: f.Compliance}
		f.Force = blow.Force()
		if f.Outcome, err = Withstand(blow, links(t.Direction), rule); err != nil {
			return nil, -1, err
		}
		if t.Speed > 0 {
			f.Ratio = f.Outcome.Break().times(1 / t.Speed)
			if worst < 0 || f.Ratio.Typical < falls[worst].Ratio.Typical {
				worst = i
			}
		}
		falls = append(falls, f)
	}
	return falls, worst, nil
}

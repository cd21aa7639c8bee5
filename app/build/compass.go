package build

import "mastwright/design/review"

// compassRecord is what the leads do to the heading: data for plots against the mast's height, the heights that are needed, and
// what changing a lead would do.
type compassRecord struct {
	Declination            *float64       `json:"declination_deg"`
	DeclinationUncertainty *float64       `json:"declination_uncertainty_deg"`
	Dip                    *float64       `json:"dip_deg"`
	Horizontal             *float64       `json:"horizontal_ut"`
	Total                  *float64       `json:"total_ut"`
	Field                  []fieldRecord  `json:"field"`
	Heights                []heightRecord `json:"heights"`
	Levers                 []leverRecord  `json:"levers"`
}

type fieldRecord struct {
	Height      *float64 `json:"height_mm"`
	Hover       *float64 `json:"hover_deg"`
	Cruise      *float64 `json:"cruise_deg"`
	Full        *float64 `json:"full_deg"`
	HoverChange *float64 `json:"hover_change_ut"`
	FullChange  *float64 `json:"full_change_ut"`
}

type heightRecord struct {
	State  string     `json:"state"`
	Limit  *float64   `json:"limit_deg"`
	Always bool       `json:"always"`
	Never  bool       `json:"never"`
	At     []*float64 `json:"at_mm"`
}

type leverRecord struct {
	Lead   string        `json:"lead"`
	State  string        `json:"state"` // of flight, in which it swings by before_deg
	Path   string        `json:"path"`
	To     string        `json:"to"`
	Before *float64      `json:"before_deg"`
	After  *float64      `json:"after_deg"`
	Meets  bool          `json:"meets"`
	Field  []fieldRecord `json:"field"` // with the lever pulled; of the best three only
}

func fieldRecords(points []review.FieldPoint) []fieldRecord {
	list := []fieldRecord{}
	for _, p := range points {
		list = append(list, fieldRecord{Number(p.Height), Number(p.Hover), Number(p.Cruise), Number(p.Full), Number(p.HoverChange), Number(p.FullChange)})
	}
	return list
}

func newCompassRecord(c *review.Compass) *compassRecord {
	if c == nil {
		return nil
	}
	out := &compassRecord{
		Declination: Number(c.Declination), DeclinationUncertainty: Number(c.DeclinationUncertainty), Dip: Number(c.Dip),
		Horizontal: Number(c.Horizontal), Total: Number(c.Total),
		Field: []fieldRecord{}, Heights: []heightRecord{}, Levers: []leverRecord{},
	}
	out.Field = fieldRecords(c.Field)
	for _, h := range c.Heights {
		at := []*float64{}
		for _, x := range h.At {
			at = append(at, Number(x))
		}
		out.Heights = append(out.Heights, heightRecord{h.State, Number(h.Limit), h.Always, h.Never, at})
	}
	for _, l := range c.Levers {
		out.Levers = append(out.Levers, leverRecord{l.Lead, l.State, l.Path, l.To, Number(l.Before), Number(l.After), l.Meets, fieldRecords(l.Field)})
	}
	return out
}

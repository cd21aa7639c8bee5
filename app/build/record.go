package build

import (
	"math"

	"mastwright/design/review"
)

// recordSchema is the version of the object that check --json prints and results.json holds. A key that is there now stays and
// keeps its meaning under the same number; new keys may come.
const recordSchema = 1

// Record is that object. Units are in the names of the keys; a figure's own unit stands beside it. Numbers have six digits. null
// stands where there is no number: a verdict without data, a figure that is shown and not judged, a limit beyond which nothing
// fails, compass and tipover without the answers they need. Lists are never null and keep the order of the checks. A place is 0
// to 1 for pass, to 2 for marginal, to 3 for fail; place_low and place_high are its ends over the spread, the better first.
// margin is the room to the pass limit in the figure's unit, negative beyond it. shares are parts of the tip's compliance. tip_room_mm is looked
// for up to 5 mm, head_room_mm and nut_room_mm up to 1 mm.
type Record struct {
	Schema   int             `json:"schema"`
	Design   string          `json:"design"`
	Mass     *float64        `json:"mass_g"`
	Verdicts []verdictRecord `json:"verdicts"`
	Modes    modesRecord     `json:"modes"`
	Bands    []bandRecord    `json:"bands"`
	Tip      tipRecord       `json:"tip"`
	TipOver  *tipOverRecord  `json:"tipover"`
	Compass  *compassRecord  `json:"compass"`
	Shares   []shareRecord   `json:"shares"`
	Screws   []screwRecord   `json:"screws"`
	Notes    []string        `json:"notes"`
}

type verdictRecord struct {
	ID            string         `json:"id"`
	State         string         `json:"state"`
	Title         string         `json:"title"`
	Value         *float64       `json:"value"`
	Unit          string         `json:"unit"`
	PassLimit     *float64       `json:"pass_limit"`
	MarginalLimit *float64       `json:"marginal_limit"`
	Margin        *float64       `json:"margin"`
	Low           *float64       `json:"low"`
	High          *float64       `json:"high"`
	Place         *float64       `json:"place"`
	PlaceLow      *float64       `json:"place_low"`
	PlaceHigh     *float64       `json:"place_high"`
	Accepted      string         `json:"accepted"`
	Because       string         `json:"because"`
	Formula       string         `json:"formula"`
	Source        string         `json:"source"`
	Missing       []string       `json:"missing"`
	Notes         []string       `json:"notes"`
	Figures       []figureRecord `json:"figures"`
}

type figureRecord struct {
	Name          string   `json:"name"`
	Value         *float64 `json:"value"`
	Unit          string   `json:"unit"`
	Low           *float64 `json:"low"`
	High          *float64 `json:"high"`
	PassLimit     *float64 `json:"pass_limit"`
	MarginalLimit *float64 `json:"marginal_limit"`
	Place         *float64 `json:"place"`
}

type modesRecord struct {
	Held   []modeRecord `json:"held"`
	Flying []modeRecord `json:"flying"`
}

type modeRecord struct {
	Hz     *float64 `json:"hz"`
	LowHz  *float64 `json:"low_hz"`
	HighHz *float64 `json:"high_hz"`
	Shape  string   `json:"shape"`
}

type bandRecord struct {
	Name string   `json:"name"`
	From *float64 `json:"from_hz"`
	To   *float64 `json:"to_hz"`
}

type tipRecord struct {
	Compliance *float64 `json:"compliance_mm_per_n"`
	Deflection *float64 `json:"deflection_mm"`
	Tilt       *float64 `json:"tilt_deg"`
}

type tipOverRecord struct {
	Required   *float64 `json:"required_speed_m_s"`
	Damage     *float64 `json:"damage_speed_m_s"`
	Break      *float64 `json:"break_speed_m_s"`
	BreakLow   *float64 `json:"break_speed_low_m_s"`
	DropHeight *float64 `json:"drop_height_m"`
	Weakest    string   `json:"weakest"`
}

type shareRecord struct {
	Name  string   `json:"name"`
	Share *float64 `json:"share"`
}

// screwRecord is how a group of screws holds; null where there is no such room, or only the builder can see it.
type screwRecord struct {
	For       string   `json:"for"`
	Count     int      `json:"count"`
	Size      string   `json:"size"`
	Standard  string   `json:"standard"`
	Material  string   `json:"material"`
	Length    *float64 `json:"length_mm"`
	Grip      *float64 `json:"grip_mm"`
	HeldBy    string   `json:"held_by"`
	Pin       bool     `json:"pin"`
	Thread    *float64 `json:"thread_mm"`
	Diameters *float64 `json:"thread_diameters"`
	Least     *float64 `json:"thread_least_mm"`
	Beyond    *float64 `json:"tip_beyond_mm"`
	Ahead     *float64 `json:"tip_room_mm"`
	HeadRoom  *float64 `json:"head_room_mm"`
	NutRoom   *float64 `json:"nut_room_mm"`
	Washers   int      `json:"washers_each"`
	Pull      *float64 `json:"pull_n"`
	Torque    *float64 `json:"torque_n_m"`
	Pressure  *float64 `json:"pressure_mpa"`
	Bears     *float64 `json:"bears_mpa"`
}

func newScrewRecord(g review.Grip) screwRecord {
	u := g.Use
	out := screwRecord{
		For: u.For, Count: u.Count, Size: u.Size.String(), Standard: g.Standard, Material: u.Material, Length: Number(u.Length.Millimetres()),
		Grip: Number(g.Grip), HeldBy: string(g.End), Pin: g.Across, Thread: Number(g.Thread), Diameters: Number(g.Thread / u.Size.Diameter().Millimetres()),
		Least: Number(g.Least), Beyond: Number(g.Beyond), Washers: u.Washers,
		Pull: Number(g.Pull), Torque: Number(g.Torque), Pressure: Number(g.Pressure), Bears: Number(g.Bears),
	}
	if !g.Unseen {
		out.Ahead = Number(g.Ahead)
	}
	for _, r := range g.Rooms {
		if r.Nut {
			out.NutRoom = Number(r.Clear)
		} else {
			out.HeadRoom = Number(r.Clear)
		}
	}
	return out
}

// NewRecord makes it of a review.
func NewRecord(r review.Result) Record {
	out := Record{
		Schema: recordSchema, Design: r.Design, Mass: Number(r.Mass),
		Verdicts: []verdictRecord{}, Bands: []bandRecord{}, Shares: []shareRecord{}, Screws: []screwRecord{}, Notes: list(r.Notes),
		Modes:   modesRecord{Held: modeRecords(r.Held), Flying: modeRecords(r.Flying)},
		Tip:     tipRecord{Number(r.Tip.Compliance), Number(r.Tip.Deflection), Number(r.Tip.Tilt)},
		Compass: newCompassRecord(r.Compass),
	}
	for _, v := range r.Verdicts {
		out.Verdicts = append(out.Verdicts, newVerdictRecord(v))
	}
	for _, b := range r.Bands {
		out.Bands = append(out.Bands, bandRecord{b.Name, Number(b.From), Number(b.To)})
	}
	for _, g := range r.Screws {
		out.Screws = append(out.Screws, newScrewRecord(g))
	}
	for _, s := range r.Shares {
		out.Shares = append(out.Shares, shareRecord{s.Name, Number(s.Share)})
	}
	if t := r.TipOver; t != nil {
		out.TipOver = &tipOverRecord{Number(t.Required), Number(t.Damage), Number(t.Break), Number(t.BreakLow), Number(t.DropHeight), t.Weakest}
	}
	return out
}

func newVerdictRecord(v review.Verdict) verdictRecord {
	out := verdictRecord{
		ID: v.ID, State: v.State.String(), Title: v.Title,
		Accepted: v.Accepted, Because: v.Because, Formula: v.Formula, Source: v.Source,
		Missing: list(v.Missing), Notes: list(v.Notes), Figures: []figureRecord{},
	}
	for _, f := range v.Figures {
		out.Figures = append(out.Figures, newFigureRecord(f))
	}
	if low, at, high, ok := place(v); ok {
		out.Place, out.PlaceLow, out.PlaceHigh = Number(at), Number(low), Number(high)
	}
	if f := v.Figure; v.State != review.NoData && f.Name != "" {
		decides := newFigureRecord(f)
		out.Value, out.Unit, out.Low, out.High = decides.Value, f.Unit, decides.Low, decides.High
		out.PassLimit, out.MarginalLimit = decides.PassLimit, decides.MarginalLimit
		if f.Limit != nil {
			out.Margin = Number(f.Limit.Margin(f.Value))
		}
	}
	return out
}

func newFigureRecord(f review.Figure) figureRecord {
	out := figureRecord{Name: f.Name, Value: Number(f.Value), Unit: f.Unit, Low: Number(f.Low), High: Number(f.High)}
	if f.Limit != nil {
		out.PassLimit, out.MarginalLimit, out.Place = Number(f.Limit.Pass), Number(f.Limit.Marginal), Number(f.Place())
	}
	return out
}

func modeRecords(modes []review.Mode) []modeRecord {
	out := []modeRecord{}
	for _, m := range modes {
		out = append(out, modeRecord{Number(m.Hz), Number(m.Low), Number(m.High), m.Shape})
	}
	return out
}

// Number is a value as JSON holds it, or null when it is not finite.
func Number(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	x = Rounded(x, 6)
	return &x
}

// list is never null.
func list(texts []string) []string {
	return append([]string{}, texts...)
}

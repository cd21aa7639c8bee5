package sweep

import (
	"encoding/csv"
	"io"
	"math"
	"slices"
	"strconv"

	"mastwright/design/review"
)

// EncodeCSV writes a line for each point, comma-separated as RFC 4180 has it: the fields' values, the mass, the worst place and the
// check that gives it, whether the point is on the front; for each check its state and place; for each figure its value, the ends
// of its spread and its limits, where it has any; the ends of the rotors' bands; and why a point cannot be built. What is not known
// is empty.
func (r Result) EncodeCSV(w io.Writer) error {
	bands := r.bands()
	var header []string
	for _, a := range r.Axes {
		header = append(header, bracketed(a.Path, a.Unit))
	}
	header = append(header, "mass [g]", "worst place", "binds", "front")
	for _, id := range r.Checks {
		header = append(header, id+" state", id+" place")
	}
	for _, c := range r.Curves[1:] {
		name := c.Check + ": " + c.Name
		header = append(header, bracketed(name, c.Unit))
		if c.Spreads() {
			header = append(header, bracketed(name+", low", c.Unit), bracketed(name+", high", c.Unit))
		}
		if c.Judged() {
			header = append(header, bracketed(name+", pass limit", c.Unit), bracketed(name+", marginal limit", c.Unit))
		}
	}
	for _, name := range bands {
		header = append(header, bracketed(name+", from", "Hz"), bracketed(name+", to", "Hz"))
	}
	header = append(header, "problem")

	out := csv.NewWriter(w)
	out.UseCRLF = true
	if err := out.Write(header); err != nil {
		return err
	}
	for i, p := range r.Points {
		if err := out.Write(r.line(i, p, bands)); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func (r Result) line(i int, p Point, bands []string) []string {
	var line []string
	for k, a := range r.Axes {
		if a.Numbers != nil {
			line = append(line, strconv.FormatFloat(a.Numbers[p.At[k]], 'f', -1, 64))
		} else {
			line = append(line, a.Texts[p.At[k]])
		}
	}
	built := len(p.Problems) == 0
	line = append(line, number(p.Mass, built), number(p.Worst, p.Binds != ""), p.Binds, strconv.FormatBool(slices.Contains(r.Front, i)))
	for _, id := range r.Checks {
		state, place := "", ""
		for _, v := range p.Verdicts {
			if v.ID == id {
				state, place = v.State.String(), number(Place(v), v.State != review.NoData)
			}
		}
		line = append(line, state, place)
	}
	for _, c := range r.Curves[1:] {
		v := c.Values[i]
		line = append(line, number(v.Value, v.Known))
		if c.Spreads() {
			line = append(line, number(v.Low, v.Known), number(v.High, v.Known))
		}
		if c.Judged() {
			limit := review.Limit{}
			if v.Limit != nil {
				limit = *v.Limit
			}
			line = append(line, number(limit.Pass, v.Limit != nil), number(limit.Marginal, v.Limit != nil))
		}
	}
	for _, name := range bands {
		k := slices.IndexFunc(p.Bands, func(b review.Band) bool { return b.Name == name })
		if k < 0 {
			line = append(line, "", "")
			continue
		}
		line = append(line, number(p.Bands[k].From, true), number(p.Bands[k].To, true))
	}
	problem := ""
	if !built {
		problem = p.Problems[0].String()
	}
	return append(line, problem)
}

// bands are the names of the rotors' bands that any point has.
func (r Result) bands() []string {
	var names []string
	for _, p := range r.Points {
		for _, b := range p.Bands {
			if !slices.Contains(names, b.Name) {
				names = append(names, b.Name)
			}
		}
	}
	return names
}

// number writes a value in six digits.
func number(value float64, known bool) string {
	if !known || math.IsInf(value, 0) {
		return ""
	}
	near, err := strconv.ParseFloat(strconv.FormatFloat(value, 'e', 5, 64), 64)
	if err != nil {
		return ""
	}
	return strconv.FormatFloat(near+0, 'f', -1, 64)
}

// bracketed puts a unit after a name.
func bracketed(name, unit string) string {
	if unit == "" {
		return name
	}
	return name + " [" + unit + "]"
}

package sheet

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"mastwright/app/sheet/paper"
	"mastwright/design"
	"mastwright/design/review"
)

// number writes a value in three digits, without an exponent and without noughts at the end: "84.2", "1250", "< 0.001". One that is
// not finite is a dash.
func number(value float64) string {
	switch {
	case math.IsNaN(value) || math.IsInf(value, 0):
		return "–"
	case value != 0 && math.Abs(value) < 0.001:
		return "< 0.001"
	}
	near, err := strconv.ParseFloat(strconv.FormatFloat(value, 'e', 2, 64), 64)
	if err != nil {
		return "–"
	}
	return strconv.FormatFloat(near+0, 'f', -1, 64)
}

// quantity writes a value with its unit: "84.2 mm", "16.1°".
func quantity(value float64, unit string) string {
	switch {
	case unit == "":
		return number(value)
	case strings.HasPrefix(unit, "°"):
		return number(value) + unit
	}
	return number(value) + " " + unit
}

// millimetres writes a length to a tenth, as a caliper reads it.
func millimetres(value float64) string {
	return strconv.FormatFloat(math.Round(value*10)/10+0, 'f', -1, 64)
}

// value writes a figure's value: a ratio without a unit is so many times its measure, a count that should be nought is "none".
func value(f review.Figure, x float64) string {
	switch {
	case f.Unit != "" || f.Limit == nil:
		return quantity(x, f.Unit)
	case f.Limit.Pass == 0 && x == 0:
		return "none"
	case f.Limit.Pass == 0:
		return number(x)
	}
	return quantity(x, "×")
}

// spread writes the two ends of a figure; "" where they are written alike.
func spread(f review.Figure) string {
	low, high := value(f, f.Low), value(f, f.High)
	if low == high {
		return ""
	}
	return number(f.Low) + " to " + high
}

// passes and fails say where a figure's limits lie; "" where it is not judged.
func passes(f review.Figure) string {
	if f.Limit == nil {
		return ""
	}
	if f.Limit.Sense == review.AtLeast {
		return "≥ " + value(f, f.Limit.Pass)
	}
	if f.Unit == "" && f.Limit.Pass == 0 {
		return "none"
	}
	return "≤ " + value(f, f.Limit.Pass)
}

func fails(f review.Figure) string {
	switch {
	case f.Limit == nil:
		return ""
	case math.IsInf(f.Limit.Marginal, 0):
		return "never"
	case f.Unit == "" && f.Limit.Sense == review.AtMost && f.Limit.Marginal == 0:
		return "any"
	case f.Limit.Sense == review.AtLeast:
		return "< " + value(f, f.Limit.Marginal)
	}
	return "> " + value(f, f.Limit.Marginal)
}

// margin is the room to the pass limit, negative beyond it.
func margin(f review.Figure) string {
	if f.Limit == nil {
		return ""
	}
	unit := f.Unit
	if unit == "" && f.Limit.Pass != 0 {
		unit = "×"
	}
	m := f.Limit.Margin(f.Value)
	if m > 0 && !math.IsInf(m, 0) {
		return "+" + strings.TrimPrefix(quantity(m, unit), "+")
	}
	return strings.Replace(quantity(m, unit), "-", "−", 1)
}

// tone is what a state looks like.
func tone(s review.State) paper.Tone {
	return [...]paper.Tone{review.Pass: paper.Good, review.Marginal: paper.Marginal, review.Fail: paper.Bad, review.NoData: paper.Unknown}[s]
}

// sentence begins a text with a capital and ends it with a stop.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	text = capital(text)
	if last := text[len(text)-1]; last != '.' && last != '?' && last != '!' && last != ':' {
		text += "."
	}
	return text
}

func capital(text string) string {
	if text != "" && text[0] >= 'a' && text[0] <= 'z' {
		return string(text[0]-'a'+'A') + text[1:]
	}
	return text
}

// asked names missing answers by their titles, each once and not more than a handful.
func asked(paths []string) string {
	const most = 8
	var names []string
	paths = slices.Compact(slices.Sorted(slices.Values(paths)))
	for i, path := range paths {
		if i == most {
			return strings.Join(names, ", ") + fmt.Sprintf(" and %d more", len(paths)-most)
		}
		if f, ok := design.FieldOf(path); ok {
			path = f.Title + " (" + path + ")"
		}
		names = append(names, path)
	}
	return strings.Join(names, ", ")
}

// counted is "1 screw", "4 screws".
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// fieldsOf are the document's fields under some groups.
func fieldsOf(groups ...string) []design.Field {
	var out []design.Field
	for _, f := range design.Fields() {
		for _, g := range groups {
			if strings.HasPrefix(f.Path, g) {
				out = append(out, f)
			}
		}
	}
	return out
}

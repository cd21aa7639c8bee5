package verdicts

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"mastwright/design/review"
)

// Number writes a value with its unit in three digits and no finer than a hundredth: "84.2 mm", "16.1°", "1250 N", "< 0.01°".
func Number(value float64, unit string) string {
	text := digits(value)
	switch {
	case unit == "":
		return text
	case strings.HasPrefix(unit, "°"):
		return text + unit
	}
	return text + " " + unit
}

func digits(value float64) string {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return "–"
	}
	if value != 0 && math.Abs(value) < 0.005 {
		return "< 0.01"
	}
	near, err := strconv.ParseFloat(strconv.FormatFloat(value, 'e', 2, 64), 64)
	if err != nil {
		return "–"
	}
	return strconv.FormatFloat(math.Round(near*100)/100+0, 'f', -1, 64)
}

// Value writes a figure's value. A ratio without unit is so many times its measure, a count that should be nought is "none" when it is.
func Value(f review.Figure) string { return valueOf(f, f.Value) }

func valueOf(f review.Figure, value float64) string {
	switch {
	case f.Unit != "" || f.Limit == nil:
		return Number(value, f.Unit)
	case counted(f) && value == 0:
		return "none"
	case counted(f):
		return Number(value, "")
	}
	return Number(value, "×")
}

// counted reports whether a figure is a number of things of which there should be none.
func counted(f review.Figure) bool { return f.Unit == "" && f.Limit != nil && f.Limit.Pass == 0 }

// Limits says in words where a figure passes and where it fails: "good to 5°, fails above 15°".
func Limits(f review.Figure) string {
	if f.Limit == nil {
		return ""
	}
	l := *f.Limit
	good, bad := "good to ", "above"
	if l.Sense == review.AtLeast {
		good, bad = "good from ", "below"
	}
	worst := "fails"
	switch {
	case math.IsInf(l.Marginal, 0):
		worst = "marginal"
		fallthrough
	case l.Marginal == l.Pass:
		if counted(f) {
			return "good at none, " + worst + " with any"
		}
		return good + valueOf(f, l.Pass) + ", " + worst + " " + bad
	}
	return good + valueOf(f, l.Pass) + ", " + worst + " " + bad + " " + valueOf(f, l.Marginal)
}

// Spread says what a figure is at the two ends of its spread: "1.9 to 6.6 g over its spread, from pass to fail". It is empty where the
// ends are written alike.
func Spread(f review.Figure) string {
	low, high := valueOf(f, f.Low), valueOf(f, f.High)
	if f.Limit == nil || low == high {
		return ""
	}
	text := strings.TrimSuffix(low, unitOf(high)) + " to " + high + " over its spread"
	a, b := f.Limit.State(f.Low), f.Limit.State(f.High)
	if better, worse := min(a, b), max(a, b); better != worse {
		text += fmt.Sprintf(", from %s to %s", better, worse)
	}
	return text
}

// unitOf is the unit at the end of a written value.
func unitOf(value string) string {
	return strings.TrimLeft(value, "-0123456789.")
}

// Citation is a figure as it is copied: with its check, what it means, its limits and where it comes from.
func Citation(v review.Verdict, f review.Figure) string {
	var b strings.Builder
	if v.State == review.NoData {
		return v.Title + ": no data. " + Sentence(v.Because)
	}
	fmt.Fprintf(&b, "%s, %s: %s", v.Title, f.Name, Value(f))
	if f.Limit != nil {
		fmt.Fprintf(&b, ", %s (%s)", f.Limit.State(f.Value), Limits(f))
	}
	fmt.Fprintf(&b, ". %s", Sentence("source: "+v.Source))
	return b.String()
}

// Sentence begins a text with a capital and ends it with a stop.
func Sentence(text string) string {
	if text == "" {
		return ""
	}
	text = capital(text)
	if last := text[len(text)-1]; last != '.' && last != '?' && last != '!' {
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

// lower makes a title part of a sentence.
func lower(title string) string {
	if len(title) > 1 && title[0] >= 'A' && title[0] <= 'Z' && title[1] >= 'a' {
		return string(title[0]-'A'+'a') + title[1:]
	}
	return title
}

// Tally writes how many verdicts are in each state: "10 pass, 2 marginal, 1 fail, 1 no data"; a state that is nowhere is left out.
func Tally(r review.Result) string {
	var parts []string
	for s := review.Pass; s <= review.NoData; s++ {
		if n := r.Count(s); n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, s))
		}
	}
	return strings.Join(parts, ", ")
}

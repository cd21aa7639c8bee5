package record

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

var timeUnits = []struct {
	name    string
	seconds float64
}{{"s", 1}, {"ms", 1e-3}, {"us", 1e-6}, {"ns", 1e-9}}

// unitOfTime returns the unit of a time column and how it is known: chosen, from the header, or guessed from the spacing.
func unitOfTime(raw []float64, header, chosen string) (seconds float64, note string, err error) {
	word := strings.ToLower(strings.ReplaceAll(strings.TrimSpace(chosen), "µ", "u"))
	how := ""
	if word == "" {
		word = strings.ToLower(strings.ReplaceAll(header, "µ", "u"))
		how = "as its header says"
	}
	if word == "sec" || word == "seconds" || word == "second" {
		word = "s"
	}
	for _, u := range timeUnits {
		if u.name == word {
			if how != "" {
				how = "in " + u.name + ", " + how
			}
			return u.seconds, how, nil
		}
	}
	if chosen != "" {
		return 0, "", fmt.Errorf("%s is no unit of time; use s, ms, us or ns", chosen)
	}
	step, span := medianStep(raw), raw[len(raw)-1]-raw[0]
	for i, u := range timeUnits {
		if plausible(1/(step*u.seconds), span*u.seconds, i == 0) {
			return u.seconds, fmt.Sprintf("in %s, guessed from a spacing of %.4g", u.name, step), nil
		}
	}
	return 0, "", fmt.Errorf("a spacing of %.4g reads as no unit of time; give it: s, ms, us or ns", step)
}

// plausible says whether rows at a rate in Hz over a span in s may be a test. Where the next smaller unit would do as well, a
// slow record has to be short and a record in ms, us or ns at most 20 minutes long.
func plausible(rate, span float64, seconds bool) bool {
	smaller := span >= 2000
	switch {
	case rate > 2e5 || rate > 2e4 && span < .2:
		return false
	case seconds:
		return rate >= 2 || rate >= .05 && !smaller
	}
	return rate >= 2 && (span <= 1200 || span < 2000 && rate > 40) || rate >= .05 && span < 60
}

// clock reads a time of day, with or without a date before it, in seconds, to .1 µs where there is a date.
func clock(text string) (float64, bool) {
	text = strings.Replace(strings.TrimSuffix(text, "Z"), "T", " ", 1)
	for _, form := range []string{"15:04:05", "2006-01-02 15:04:05", "2006/01/02 15:04:05", "02.01.2006 15:04:05"} {
		if t, err := time.Parse(form, text); err == nil {
			start := time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)
			if t.Year() == 0 {
				start = time.Date(0, 1, 1, 0, 0, 0, 0, time.UTC)
			}
			return t.Sub(start).Seconds(), true
		}
	}
	return 0, false
}

// medianStep is the median difference of rising values; there must be two at least.
func medianStep(t []float64) float64 {
	d := make([]float64, len(t)-1)
	for i := range d {
		d[i] = t[i+1] - t[i]
	}
	slices.Sort(d)
	return d[len(d)/2]
}

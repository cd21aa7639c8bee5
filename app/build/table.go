package build

import (
	"fmt"
	"io"
	"math"
	"strings"

	"mastwright/design"
	"mastwright/design/review"
)

// The widths of the columns left and right of the lanes.
const (
	titleWidth  = 11
	figureWidth = 13
)

// PrintTable prints every verdict as a row on the same lanes.
func PrintTable(w io.Writer, r review.Result) {
	fmt.Fprintf(w, "%s, %s printed and screwed\n\n", r.Design, Figure(r.Mass, "g"))
	fmt.Fprintln(w, strings.TrimRight(strings.Repeat(" ", titleWidth)+laneNames(), " "))
	for _, v := range r.Verdicts {
		lane, value := noBar(), ""
		if low, at, high, ok := place(v); ok {
			lane = bar(low, at, high)
			if v.Figure.Name != "" {
				value = Figure(v.Figure.Value, v.Figure.Unit)
			}
		}
		fmt.Fprintf(w, "%s%s %s  %s\n", Pad(v.Title, titleWidth), lane, PadLeft(value, figureWidth), v.State)
	}
	fmt.Fprint(w, "\nThe bar ends at the figure, = and - are its spread; what crosses | fails.\n")
}

// PrintAccounts prints a paragraph for every verdict that is not a plain pass, and what the review assumed.
func PrintAccounts(w io.Writer, r review.Result, notes []design.Problem) {
	first := true
	for _, v := range r.Verdicts {
		if text := account(v); text != "" {
			if first {
				fmt.Fprintln(w)
				first = false
			}
			fmt.Fprint(w, Wrap("", 2, text)[2:])
		}
	}
	if len(notes)+len(r.Notes) == 0 {
		return
	}
	fmt.Fprintln(w)
	for _, n := range notes {
		fmt.Fprint(w, Wrap("Note:", 6, Sentence(n.String())))
	}
	for _, n := range r.Notes {
		fmt.Fprint(w, Wrap("Note:", 6, Sentence(n)))
	}
}

// PrintCount prints the line that ends every check: "10 pass, 2 marginal, 1 fails, 1 no data".
func PrintCount(w io.Writer, r review.Result) {
	fmt.Fprintf(w, "\n%d pass, %d marginal, %d fails, %d no data\n",
		r.Count(review.Pass), r.Count(review.Marginal), r.Count(review.Fail), r.Count(review.NoData))
}

// account says why a verdict is what it is and what it would take; "" for one that passes over all of its spread.
func account(v review.Verdict) string {
	said := []string{v.Title + ":"}
	add := func(text string) {
		if text != "" {
			said = append(said, Sentence(text))
		}
	}
	_, _, high, judged := place(v)
	switch {
	case v.State == review.NoData:
		add("no data; " + v.Because)
		add(asked(v.Missing))
	case v.State == review.Pass && v.Accepted != "":
		add("it passes, so it need not be accepted any more; take it out of the accepted ones")
	case v.State == review.Pass && judged && stateAt(high) == review.Pass:
		return ""
	default:
		add(v.Because)
		add(limits(v.Figure))
		add(spread(v.Figure))
	}
	if v.State != review.Pass && v.Accepted != "" {
		add("Accepted: " + v.Accepted)
	}
	return strings.Join(said, " ")
}

// asked names missing answers by their titles.
func asked(paths []string) string {
	if len(paths) == 0 {
		return ""
	}
	var names []string
	for _, path := range paths {
		if f, ok := design.FieldOf(path); ok {
			path = f.Title + " (" + path + ")"
		}
		names = append(names, path)
	}
	return "Missing: " + strings.Join(names, ", ")
}

// limits says where a figure passes and where it fails.
func limits(f review.Figure) string {
	if f.Limit == nil {
		return ""
	}
	value := func(x float64) string { return Figure(x, f.Unit) }
	name := f.Name + " " + value(f.Value)
	to, beyond := "to", "above"
	if f.Limit.Sense == review.AtLeast {
		to, beyond = "from", "below"
	}
	if math.IsInf(f.Limit.Marginal, 0) {
		return fmt.Sprintf("%s: %s %s it passes, %s that it is marginal", capital(name), to, value(f.Limit.Pass), beyond)
	}
	return fmt.Sprintf("%s: %s %s it passes, %s %s it fails", capital(name), to, value(f.Limit.Pass), beyond, value(f.Limit.Marginal))
}

// spread says what a figure is at the ends of its spread; "" when it has none to speak of.
func spread(f review.Figure) string {
	low, high := Figure(f.Low, f.Unit), Figure(f.High, f.Unit)
	if f.Limit == nil || low == high {
		return ""
	}
	text := fmt.Sprintf("Over its spread it is %s to %s", low, high)
	better, worse := f.PlaceRange()
	if a, b := stateAt(better), stateAt(worse); a != b {
		text += fmt.Sprintf(", from %s to %s", a, b)
	}
	return text
}

func capital(text string) string {
	if text == "" || text[0] < 'a' || text[0] > 'z' {
		return text
	}
	return string(text[0]-'a'+'A') + text[1:]
}

package build

import (
	"fmt"
	"io"
	"math"
	"strings"

	"mastwright/design/parts"
	"mastwright/design/review"
)

// PrintVerdict prints all that a check found: its state and why, every figure with its limits, the formula with its numbers, and notes.
func PrintVerdict(w io.Writer, v review.Verdict) {
	if v.State == review.NoData {
		fmt.Fprint(w, Wrap("", 0, account(v)))
		return
	}
	fmt.Fprint(w, Wrap("", 0, fmt.Sprintf("%s: %s. %s", v.Title, v.State, Sentence(capital(v.Because)))))
	fmt.Fprintln(w)
	for _, f := range v.Figures {
		text := fmt.Sprintf("%s: %s", capital(f.Name), Figure(f.Value, f.Unit))
		if low, high := Figure(f.Low, f.Unit), Figure(f.High, f.Unit); low != high {
			text += fmt.Sprintf(" (%s to %s)", low, high)
		}
		if f.Limit == nil {
			text += ", not judged"
		} else {
			text += ", " + f.Limit.State(f.Value).String() + "; " + bounds(f)
		}
		fmt.Fprint(w, Wrap("", 2, text))
	}
	if v.Formula != "" {
		fmt.Fprint(w, "\n", Wrap("", 2, v.Formula))
	}
	for _, n := range v.Notes {
		fmt.Fprint(w, Wrap("  -", 4, Sentence(capital(n))))
	}
}

// bounds says to where a figure passes and from where it fails.
func bounds(f review.Figure) string {
	to, beyond := "to", "above"
	if f.Limit.Sense == review.AtLeast {
		to, beyond = "from", "below"
	}
	text := fmt.Sprintf("passes %s %s", to, Figure(f.Limit.Pass, f.Unit))
	if !math.IsInf(f.Limit.Marginal, 0) {
		text += fmt.Sprintf(", fails %s %s", beyond, Figure(f.Limit.Marginal, f.Unit))
	}
	return text
}

// PrintShares prints which part of the tip's give each link has, in the worse direction; nothing where none is known.
func PrintShares(w io.Writer, shares []review.Share) {
	if len(shares) == 0 {
		return
	}
	fmt.Fprint(w, "\nShares of the give at the tip, first bending, held\n")
	for _, s := range shares {
		percent := 100 * s.Share
		fmt.Fprintf(w, "  %s%s %%  %s\n", Pad(s.Name, 22), PadLeft(fmt.Sprintf("%.1f", percent), 6), strings.Repeat("#", int(math.Round(percent/2))))
	}
}

// PrintScrews prints how every group of screws holds; nothing where there is none.
func PrintScrews(w io.Writer, screws []review.Grip) {
	if len(screws) == 0 {
		return
	}
	const row = "  %s%s%s%5s%7s%6s%6s%7s%6s%5s%4s\n"
	fmt.Fprintf(w, "\nHow the screws hold, mm\n"+row, Pad("for", 11), Pad("screws", 12), Pad("held by", 8), "grip", "thread", "in d", "needs", "beyond", "ahead", "head", "nut")
	for _, g := range screws {
		u := g.Use
		needs := Digits(g.Least, 3)
		if g.Across {
			needs = "pin"
		}
		fmt.Fprintf(w, row, Pad(u.For, 11), Pad(fmt.Sprintf("%d %s×%s", u.Count, u.Size, Digits(u.Length.Millimetres(), 3)), 12), Pad(string(g.End), 8),
			fmt.Sprintf("%.2f", g.Grip), fmt.Sprintf("%.2f", g.Thread), fmt.Sprintf("%.2f", g.Thread/u.Size.Diameter().Millimetres()), needs,
			fmt.Sprintf("%.2f", g.Beyond), ahead(g), around(g, false), around(g, true))
		text := fmt.Sprintf("%s, %s", u.Material, g.Standard)
		if g.Torque > 0 {
			text += fmt.Sprintf("; %s at %s", Figure(g.Pull, "N"), Figure(g.Torque, "N·m"))
		}
		if g.Bears > 0 {
			text += fmt.Sprintf("; its full pull would press with %s, %s are borne", Figure(g.Pressure, "MPa"), Figure(g.Bears, "MPa"))
		}
		fmt.Fprint(w, Wrap("", 4, text))
	}
	fmt.Fprint(w, Wrap("", 2, "Beyond: what the tip stands out of nut, insert or wall. Ahead: free before the tip, looked for up to 5 mm; - where only you can look, "+
		"under the frame's plate or in its thread. Head and nut: free around them, looked for up to 1 mm. A pin works across its thread."))
}

// ahead is the room before a tip, "-" where it cannot be seen.
func ahead(g review.Grip) string {
	switch {
	case g.Unseen:
		return "-"
	case g.Ahead >= parts.AheadSought:
		return "5+"
	}
	return fmt.Sprintf("%.2f", g.Ahead)
}

// around is the room around a head or a nut, "-" where there is none or it has its pocket.
func around(g review.Grip, nut bool) string {
	for _, r := range g.Rooms {
		if r.Nut == nut {
			if r.Clear >= 1 {
				return "1+"
			}
			return fmt.Sprintf("%.2f", r.Clear)
		}
	}
	return "-"
}

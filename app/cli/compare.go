package cli

import (
	"fmt"
	"io"

	"mastwright/app/build"
	"mastwright/design/review"
)

type compareCommand struct {
	File   string `arg:"" help:"Design file."`
	Places bool   `help:"Compare the places of the airframe instead of the materials."`
}

func (c compareCommand) Run(s *session) error {
	design, err := readDesign(c.File)
	if err != nil {
		return err
	}
	compare, head := review.Compare, "material"
	if c.Places {
		compare, head = review.ComparePlaces, "place"
	}
	list, wrong, err := compare(s, design.doc)
	if err != nil {
		return err
	}
	if err := design.located(wrong); err != nil {
		return err
	}
	printCandidates(s.out, head, list)
	return nil
}

// printCandidates prints candidates in their order, each with its figures on one line and why on the next; "-" where there is no
// Figure. Room is what is left to the softening temperature.
func printCandidates(w io.Writer, head string, list []review.Candidate) {
	const row = "%2s  %s%8s%11s%9s%10s%8s%6s%9s\n"
	const name = 15
	fmt.Fprintf(w, row, "", build.Pad(head, name), "mass", "first mode", "tilt", "breaks at", "room", "fails", "marginal")
	for i, c := range list {
		fmt.Fprintf(w, row, fmt.Sprint(i+1), build.Pad(c.Name, name), some(c.Mass, "g", c.Mass > 0), some(c.First, "Hz", c.First > 0),
			some(c.Tilt, "°", c.First > 0), some(c.Break, "m/s", c.Break > 0), some(c.Room, "K", c.Softens), fmt.Sprint(c.Fails), fmt.Sprint(c.Marginals))
		why := build.Sentence(c.Because)
		if c.Band != "" {
			why += " First mode " + build.Sentence(c.Band)
		}
		fmt.Fprint(w, build.Wrap("", 4, why))
	}
}

// some is a figure, or "-" when there is none.
func some(value float64, unit string, known bool) string {
	if !known {
		return "-"
	}
	return build.Figure(value, unit)
}

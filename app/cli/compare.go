package cli

import (
	"fmt"
	"io"
	"strings"

	"mastwright/app/build"
	"mastwright/design/review"
)

type compareCommand struct {
	File   string `arg:"" help:"Design file."`
	Places bool   `help:"Compare the places of the airframe instead of the materials." xor:"what"`
	Styles bool   `help:"Compare the build styles instead: the design's own as it is, the others with a start section." xor:"what"`
}

func (c compareCommand) Run(s *session) error {
	design, err := readDesign(c.File)
	if err != nil {
		return err
	}
	if c.Styles {
		list, err := review.CompareStyles(s, design.doc)
		if err != nil {
			return err
		}
		printStyles(s.out, list)
		return nil
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

// printCandidates prints candidates in their order.
func printCandidates(w io.Writer, head string, list []review.Candidate) {
	candidateHead(w, head)
	for i, c := range list {
		printCandidate(w, i+1, c)
	}
}

// printStyles prints styles in their order, each with what it is made of; the figures are those of a start section unless said otherwise.
func printStyles(w io.Writer, list []review.Styled) {
	candidateHead(w, "style")
	for i, o := range list {
		printCandidate(w, i+1, o.Candidate)
		for _, l := range []struct {
			what  string
			items []string
		}{{"print: ", o.Make}, {"cut: ", o.Cut}, {"buy: ", o.Buy}} {
			if len(l.items) > 0 {
				fmt.Fprint(w, build.Wrap("", 4, l.what+strings.Join(l.items, "; ")+"."))
			}
		}
		switch {
		case o.Own:
			fmt.Fprint(w, build.Wrap("", 4, "As the design has it."))
		case o.Pieces > 0:
			fmt.Fprint(w, build.Wrap("", 4, "A start section; to go on from it: "+answers(o.Start)+"."))
		}
	}
}

// answers writes what is set as a file has it.
func answers(list [][2]string) string {
	var all []string
	for _, a := range list {
		all = append(all, a[0]+" "+a[1])
	}
	return strings.Join(all, ", ")
}

const (
	candidateRow  = "%2s  %s%8s%11s%9s%10s%8s%6s%9s\n"
	candidateName = 15
)

func candidateHead(w io.Writer, head string) {
	fmt.Fprintf(w, candidateRow, "", build.Pad(head, candidateName), "mass", "first mode", "tilt", "breaks at", "room", "fails", "marginal")
}

// printCandidate prints a candidate with its figures on one line and why on the next; "-" where there is no figure. Room is what is left
// to the softening temperature.
func printCandidate(w io.Writer, rank int, c review.Candidate) {
	fmt.Fprintf(w, candidateRow, fmt.Sprint(rank), build.Pad(c.Name, candidateName), some(c.Mass, "g", c.Mass > 0), some(c.First, "Hz", c.First > 0),
		some(c.Tilt, "°", c.First > 0), some(c.Break, "m/s", c.Break > 0), some(c.Room, "K", c.Softens), counted(c.Fails, c.Mass > 0), counted(c.Marginals, c.Mass > 0))
	why := build.Sentence(c.Because)
	if c.Band != "" {
		why += " First mode " + build.Sentence(c.Band)
	}
	fmt.Fprint(w, build.Wrap("", 4, why))
}

// some is a figure, or "-" when there is none.
func some(value float64, unit string, known bool) string {
	if !known {
		return "-"
	}
	return build.Figure(value, unit)
}

// counted is a number, or "-" when there is none.
func counted(n int, known bool) string {
	if !known {
		return "-"
	}
	return fmt.Sprint(n)
}

package build

import (
	"bytes"
	"fmt"
	"io"
	"slices"

	"mastwright/design"
	"mastwright/design/review"
)

// SummaryName is the plain text in an output folder.
const SummaryName = "summary.txt"

// cautions are said wherever something is made.
var cautions = []string{
	"Take the propellers off for every bench step that powers the aircraft.",
	"Fly only as your local rules allow.",
	"The figures are estimates for mounts of model aircraft, not evidence of airworthiness.",
}

// summary is the plain text that lies beside the parts: the table, the pieces, what to cut and to buy, the wires, and how each figure was computed.
func summary(r review.Result, doc *design.Document, made Made) []byte {
	var b bytes.Buffer
	PrintTable(&b, r)
	PrintAccounts(&b, r, doc.Notes())
	made.Print(&b, "Parts")
	printWires(&b, wires(doc))
	fmt.Fprint(&b, "\nHow it was computed\n")
	for _, v := range r.Verdicts {
		fmt.Fprintf(&b, "\n%s: %s\n", v.Title, v.State)
		for _, f := range v.Figures {
			text := f.Name + " " + Figure(f.Value, f.Unit)
			if low, high := Figure(f.Low, f.Unit), Figure(f.High, f.Unit); low != high {
				text += ", " + low + " to " + high + " over its spread"
			}
			fmt.Fprint(&b, Wrap("", 4, text))
		}
		for _, line := range append([]string{v.Formula, v.Source}, v.Notes...) {
			if line != "" {
				fmt.Fprint(&b, Wrap("", 4, Sentence(line)))
			}
		}
	}
	fmt.Fprint(&b, "\nCautions\n")
	PrintCautions(&b)
	PrintCount(&b, r)
	return b.Bytes()
}

// Print lists what was made under a title: printed parts and how they lie on the bed, what is cut, and what is bought.
func (m Made) Print(w io.Writer, title string) {
	printPieces(w, title, m.Parts)
	printPieces(w, "Fit pieces, to print first", m.Fits)
	printBeds(w, m.beds, slices.Concat(m.Parts, m.Fits))
	printCuts(w, m.cut)
	printBought(w, m.buy)
}

// PrintCautions prints what is said wherever something is made.
func PrintCautions(w io.Writer) {
	for _, c := range cautions {
		fmt.Fprint(w, Wrap("  -", 4, c))
	}
}

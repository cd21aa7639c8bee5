package build

import (
	"bytes"
	"fmt"
	"io"

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

// summary is the plain text that lies beside the parts: the table, the pieces, the wires, and how each figure was computed.
func summary(r review.Result, doc *design.Document, pieces, fits []Piece) []byte {
	var b bytes.Buffer
	PrintTable(&b, r)
	PrintAccounts(&b, r, doc.Notes())
	PrintPieces(&b, "Parts", pieces)
	PrintPieces(&b, "Fit pieces, to print first", fits)
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

// PrintCautions prints what is said wherever something is made.
func PrintCautions(w io.Writer) {
	for _, c := range cautions {
		fmt.Fprint(w, Wrap("  -", 4, c))
	}
}

package cli

import (
	"bytes"
	"fmt"
	"io"

	"mastwright/design"
	"mastwright/design/review"
)

// summaryName is the plain text in an output folder.
const summaryName = "summary.txt"

// cautions are said wherever something is made.
var cautions = []string{
	"Take the propellers off for every bench step that powers the aircraft.",
	"Fly only as your local rules allow.",
	"The figures are estimates for mounts of model aircraft, not evidence of airworthiness.",
}

// summary is the plain text that lies beside the parts: the table, the pieces, the wires, and how each figure was computed.
func summary(r review.Result, doc *design.Document, pieces, fits []piece) []byte {
	var b bytes.Buffer
	printTable(&b, r)
	printAccounts(&b, r, doc.Notes())
	printPieces(&b, "Parts", pieces)
	printPieces(&b, "Fit pieces, to print first", fits)
	printWires(&b, wires(doc))
	fmt.Fprint(&b, "\nHow it was computed\n")
	for _, v := range r.Verdicts {
		fmt.Fprintf(&b, "\n%s: %s\n", v.Title, v.State)
		for _, f := range v.Figures {
			text := f.Name + " " + figure(f.Value, f.Unit)
			if low, high := figure(f.Low, f.Unit), figure(f.High, f.Unit); low != high {
				text += ", " + low + " to " + high + " over its spread"
			}
			fmt.Fprint(&b, wrap("", 4, text))
		}
		for _, line := range append([]string{v.Formula, v.Source}, v.Notes...) {
			if line != "" {
				fmt.Fprint(&b, wrap("", 4, sentence(line)))
			}
		}
	}
	fmt.Fprint(&b, "\nCautions\n")
	printCautions(&b)
	printCount(&b, r)
	return b.Bytes()
}

func printCautions(w io.Writer) {
	for _, c := range cautions {
		fmt.Fprint(w, wrap("  -", 4, c))
	}
}

package markdown_test

import (
	"errors"
	"fmt"
	"os"
	"testing"

	"mastwright/app/sheet/markdown"
	"mastwright/app/sheet/paper"
)

func ExampleEncode() {
	s := paper.Sheet{Kind: "Build sheet", Title: "Mast_1 | *one*", Revision: "A", Foot: "Propellers off.", Sections: []paper.Section{{Title: "Parts", Blocks: []paper.Block{
		paper.Table{Columns: []paper.Column{{Title: "Part"}, {Title: "Mass", Right: true}}, Rows: []paper.Row{{Cells: paper.Words("foot", "10.7 g")}}},
		paper.Checks{{Do: "Weigh it", Expect: "10 g", Blanks: []paper.Blank{{Name: "foot", Unit: "g"}}, IfNot: "print again"}},
		paper.Notice{Title: "1 check fails", Lines: []string{"Strength"}},
		paper.Figure{Caption: "Front, 1:1.", Words: "Height 100 mm."},
		paper.Prose{Mono: true, Text: "a * b"},
	}}}}
	if err := markdown.Encode(os.Stdout, s); err != nil {
		fmt.Println(err)
	}
	// Output:
	// # Build sheet: Mast\_1 \| \*one\*
	//
	// Revision A
	//
	// ## Parts
	//
	// | Part | Mass |
	// | --- | --: |
	// | foot | 10.7 g |
	//
	// - [ ] **Weigh it**
	//   10 g
	//   foot ........ g
	//   If not: print again
	//
	// > **1 check fails**
	// >
	// > Strength
	//
	// *Drawing: Front, 1:1. Height 100 mm.*
	//
	//     a * b
	//
	// ---
	//
	// Propellers off.
}

type full struct{}

var errFull = errors.New("no room left")

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestWriteErrorIsReported(t *testing.T) {
	if err := markdown.Encode(full{}, paper.Sheet{Title: "x"}); !errors.Is(err, errFull) {
		t.Errorf("got %v, want %v", err, errFull)
	}
}

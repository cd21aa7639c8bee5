package html_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"mastwright/app/sheet/html"
	"mastwright/app/sheet/paper"
)

// What is exact keeps its size in mm; markup in words stays words; blanks and boxes can be filled in.
func TestEncode(t *testing.T) {
	s := paper.Sheet{Kind: "Build sheet", Title: "A & B <c>", Alarm: "1 CHECK FAILS", Sections: []paper.Section{{Title: "One", Blocks: []paper.Block{
		paper.Figure{Words: "a square", Drawing: paper.Drawing{Width: 50, Height: 20.5, Exact: true, Marks: []paper.Mark{
			paper.Stroke{Points: []paper.Point{{X: 1, Y: 2}, {X: 3.25, Y: 2}}, Width: 0.18, Line: paper.Ink, Dash: 2},
			paper.Label{At: paper.Point{X: 4, Y: 5}, Text: "Ø 3 < 4", Size: 2.5, Turn: 90, Anchor: paper.Middle, Ink: paper.Act},
		}}},
		paper.Checks{{Do: "Do it", Expect: "it works", IfNot: "stop", Blanks: []paper.Blank{{Name: "north", Unit: "°"}}}},
		paper.Heading{Text: "Strength: fail", Tone: paper.Bad},
	}}}}
	var b bytes.Buffer
	if err := html.Encode(&b, s); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`<h1>A &amp; B &lt;c&gt;</h1>`,
		`<svg xmlns="http://www.w3.org/2000/svg" width="50mm" height="20.5mm" viewBox="0 0 50 20.5" class="exact" role="img" aria-label="a square">`,
		`<path d="M1 2L3.25 2" fill="none" stroke="#1b2322" stroke-width="0.18" stroke-dasharray="2"/>`,
		`text-anchor="middle" transform="rotate(-90 4 5)">Ø 3 &lt; 4</text>`,
		`<input type="checkbox" aria-label="Do it"/>`, `north <input type="text"/> °`, `If not: stop`,
		`<h3 class="marked bad">`, `<div class="alarm">1 CHECK FAILS</div>`,
	} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("the page does not hold %s", want)
		}
	}
}

type full struct{}

var errFull = errors.New("no room left")

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestWriteErrorIsReported(t *testing.T) {
	if err := html.Encode(full{}, paper.Sheet{Title: "x"}); !errors.Is(err, errFull) {
		t.Errorf("got %v, want %v", err, errFull)
	}
}

package sheet_test

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"

	"mastwright/app/build"
	"mastwright/app/sheet/paper"
	"mastwright/design/review"
)

// reported is what check --json prints of the verdicts, read back from its text.
type reported struct {
	Verdicts []struct {
		Title, State, Formula, Source, Because string
		Missing                                []string
		Figures                                []struct {
			Name, Unit string
			Value      float64
			Low, High  *float64
			Pass       *float64 `json:"pass_limit"`
			Marginal   *float64 `json:"marginal_limit"`
		}
	}
}

func report(t *testing.T, r review.Result) reported {
	t.Helper()
	data, err := json.Marshal(build.NewRecord(r))
	if err != nil {
		t.Fatal(err)
	}
	var out reported
	if err := json.Unmarshal(data, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// blocksUnder are the blocks from a heading to the next one.
func blocksUnder(s paper.Sheet, heading string) []paper.Block {
	for _, section := range s.Sections {
		for i, b := range section.Blocks {
			if h, ok := b.(paper.Heading); ok && h.Text == heading {
				end := i + 1
				for end < len(section.Blocks) {
					if _, next := section.Blocks[end].(paper.Heading); next {
						break
					}
					end++
				}
				return section.Blocks[i+1 : end]
			}
		}
	}
	return nil
}

// agrees reports whether a figure as it is printed is a value to three digits: half a unit of the third digit is at most 0.5 % of it.
func agrees(text string, value float64) bool {
	text = strings.NewReplacer("≥ ", "", "≤ ", "", "−", "-", "+", "").Replace(text)
	switch {
	case text == "none" || text == "any": // more than none of them
		return value == 0
	case strings.HasPrefix(text, "< 0.001"):
		return math.Abs(value) < 0.001
	}
	text = strings.TrimPrefix(strings.TrimPrefix(text, "< "), "> ")
	end := strings.IndexFunc(text, func(c rune) bool { return !strings.ContainsRune("-0123456789.", c) })
	if end < 0 {
		end = len(text)
	}
	got, err := strconv.ParseFloat(text[:end], 64)
	return err == nil && math.Abs(got-value) <= 0.00501*math.Abs(value)+1e-9
}

// Every figure, limit, margin and state in the verdicts of the sheet is that of check --json.
func TestFiguresAreThoseOfCheck(t *testing.T) {
	for _, c := range []struct {
		name string
		made func(testing.TB) (paper.Sheet, review.Result)
	}{{"all pass", passing}, {"three fail", failing}, {"marginal", marginal}, {"little answered", unanswered}} {
		t.Run(c.name, func(t *testing.T) {
			s, r := c.made(t)
			compared := 0
			for _, v := range report(t, r).Verdicts {
				blocks := blocksUnder(s, v.Title+": "+v.State)
				if blocks == nil {
					t.Errorf("there is no heading %q", v.Title+": "+v.State)
					continue
				}
				words := said(blocks)
				for _, want := range []string{v.Formula, v.Source} {
					if want != "" && !strings.Contains(strings.ToLower(words), strings.ToLower(want)) {
						t.Errorf("%s does not say %q", v.Title, want)
					}
				}
				var rows []paper.Row
				for _, b := range blocks {
					if table, ok := b.(paper.Table); ok {
						rows = table.Rows
					}
				}
				if len(rows) != len(v.Figures) {
					t.Errorf("%s has %d figures, want %d", v.Title, len(rows), len(v.Figures))
					continue
				}
				for i, f := range v.Figures {
					cells := rows[i].Cells
					compared++
					if !strings.EqualFold(cells[0].Text, f.Name) || !agrees(cells[1].Text, f.Value) {
						t.Errorf("%s: %q is %q, want %q %g", v.Title, cells[0].Text, cells[1].Text, f.Name, f.Value)
					}
					if f.Unit != "" && !strings.HasSuffix(cells[1].Text, f.Unit) {
						t.Errorf("%s: %q is %q, want the unit %q", v.Title, f.Name, cells[1].Text, f.Unit)
					}
					if low, high, ok := strings.Cut(cells[2].Text, " to "); ok && (!agrees(low, *f.Low) || !agrees(high, *f.High)) {
						t.Errorf("%s: the spread of %q is %q, want %g to %g", v.Title, f.Name, cells[2].Text, *f.Low, *f.High)
					}
					if f.Pass == nil {
						if cells[3].Text+cells[4].Text+cells[5].Text != "" || cells[6].Text != "not judged" {
							t.Errorf("%s: %q has limits %v, want none", v.Title, f.Name, cells[3:])
						}
						continue
					}
					if !agrees(cells[3].Text, *f.Pass) {
						t.Errorf("%s: %q is good at %q, want %g", v.Title, f.Name, cells[3].Text, *f.Pass)
					}
					if f.Marginal == nil && cells[4].Text != "never" || f.Marginal != nil && !agrees(cells[4].Text, *f.Marginal) {
						t.Errorf("%s: %q fails at %q, want %v", v.Title, f.Name, cells[4].Text, f.Marginal)
					}
					room := *f.Pass - f.Value
					if strings.HasPrefix(cells[3].Text, "≥") {
						room = -room
					}
					if !agrees(cells[5].Text, room) && math.Abs(room) > 1e-5 { // JSON has six digits: a difference of two may lose most of them
						t.Errorf("%s: the margin of %q is %q, want %g", v.Title, f.Name, cells[5].Text, room)
					}
					state := "pass"
					if room < 0 {
						state = "marginal"
						if f.Marginal != nil && (f.Value-*f.Marginal)*(*f.Marginal-*f.Pass) > 0 {
							state = "fail"
						}
					}
					if cells[6].Text != state {
						t.Errorf("%s: %q is %q, want %q", v.Title, f.Name, cells[6].Text, state)
					}
				}
			}
			if compared < 5 {
				t.Errorf("only %d figures were compared", compared)
			}
		})
	}
}

// What the tests at the bench should find is the review's.
func TestPredictions(t *testing.T) {
	s, r := passing(t)
	words := ""
	for _, section := range s.Sections {
		words += said(section.Blocks)
	}
	for _, want := range []string{
		"Predicted: " + r.Held[0].Shape + " " + strconv.FormatFloat(math.Round(r.Held[0].Hz), 'f', 0, 64) + " Hz", // three digits below 1000
		"Predicted to go first: " + r.TipOver.Weakest,
		"the needle points " + strconv.FormatFloat(math.Round(r.Compass.Declination*100)/100, 'f', -1, 64) + "° east", // three digits from 1 to 10
	} {
		if !strings.Contains(words, want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
	// a newton times the compliance, 1 kgf = 9.80665 N (CGPM 1901)
	_, text, _ := strings.Cut(words, " mm under 500 g, ")
	if shown, _, _ := strings.Cut(text, " mm under 1000 g"); !agrees(shown, r.Tip.Compliance*9.80665) {
		t.Errorf("1000 g move the tray by %q mm, want %g", shown, r.Tip.Compliance*9.80665)
	}
}

// said is everything that blocks say in words.
func said(blocks []paper.Block) string {
	var b strings.Builder
	say := func(texts ...string) {
		for _, text := range texts {
			b.WriteString(text + "\n")
		}
	}
	for _, block := range blocks {
		switch block := block.(type) {
		case paper.Heading:
			say(block.Text)
		case paper.Prose:
			say(block.Text)
		case paper.List:
			say(block.Items...)
		case paper.Notice:
			say(block.Title)
			say(block.Lines...)
		case paper.Figure:
			say(block.Caption)
		case paper.Beside:
			for _, f := range block {
				say(f.Caption)
			}
		case paper.Table:
			for _, c := range block.Columns {
				say(c.Title)
			}
			for _, row := range block.Rows {
				for _, cell := range row.Cells {
					say(cell.Text)
				}
			}
		case paper.Checks:
			for _, c := range block {
				say(c.Do, c.Expect, c.Enter, c.IfNot)
				for _, blank := range c.Blanks {
					say(blank.Name + " " + blank.Unit)
				}
			}
		}
	}
	return b.String()
}

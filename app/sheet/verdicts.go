package sheet

import (
	"fmt"
	"strings"

	"mastwright/app/sheet/paper"
	"mastwright/design"
	"mastwright/design/review"
)

// verdicts is every check with all it found, those that fail first.
func (b *builder) verdicts() paper.Section {
	blocks := []paper.Block{
		paper.Prose{Text: "What crosses the plumb line fails. A whisker is the spread of the plastic and of what was assumed; where it crosses, a test settles it."},
		lanes(byUrgency(b.Result.Verdicts), paper.RoomWidth),
	}
	blocks = append(blocks, b.window()...)
	blocks = append(blocks, b.plots()...)
	for _, v := range byUrgency(b.Result.Verdicts) {
		blocks = append(blocks, verdict(v)...)
		if v.ID == "sway" {
			blocks = append(blocks, b.shares()...)
		}
		repairs := b.repairs(v.ID)
		if len(repairs) == 0 && v.ID == "heading" && v.State != review.Pass {
			repairs = b.levers()
		}
		blocks = append(blocks, repairs...)
	}
	return paper.Section{Title: "Verdicts", Fresh: true, Blocks: blocks}
}

// verdict is one check: its figures with limits, margin and state, the formula with its numbers, the source, and the notes.
func verdict(v review.Verdict) []paper.Block {
	title := v.Title + ": " + v.State.String()
	if v.Accepted != "" && v.State != review.Pass {
		title += ", accepted"
	}
	blocks := []paper.Block{paper.Heading{Text: title, Tone: tone(v.State)}}
	if v.State == review.NoData {
		blocks = append(blocks, paper.Prose{Text: account(v)})
	} else if v.Because != "" {
		blocks = append(blocks, paper.Prose{Text: sentence(v.Because)})
	}
	if v.Accepted != "" && v.State != review.Pass {
		blocks = append(blocks, paper.Prose{Text: "Accepted, because: " + sentence(v.Accepted)})
	}
	if len(v.Figures) > 0 {
		blocks = append(blocks, figures(v))
	}
	if v.Formula != "" {
		blocks = append(blocks, paper.Prose{Mono: true, Text: v.Formula})
	}
	source := "Source: " + sentence(v.Source)
	for _, n := range v.Notes {
		source += " " + sentence(n)
	}
	return append(blocks, paper.Prose{Quiet: true, Text: source})
}

// levers are the changes of the leads that lower the swing, where nobody looked for repairs.
func (b *builder) levers() []paper.Block {
	if b.Result.Compass == nil || len(b.Result.Compass.Levers) == 0 {
		return nil
	}
	var items []string
	for _, l := range b.Result.Compass.Levers {
		name := l.Path
		if f, ok := design.FieldOf(l.Path); ok {
			name = f.Title
		}
		text := fmt.Sprintf("%s: %s %s (%s): %s becomes %s %s", capital(l.Lead), strings.ToLower(name), l.To, l.Path, quantity(l.Before, "°"), quantity(l.After, "°"), l.State)
		if !l.Meets {
			text += ", which is not yet enough"
		}
		items = append(items, sentence(text))
	}
	return []paper.Block{paper.Prose{Text: "What would lower it, without any weight:"}, paper.List{Items: items}}
}

// figures is the table of a check's figures.
func figures(v review.Verdict) paper.Table {
	t := paper.Table{Columns: []paper.Column{
		{Title: "Figure", Share: 58}, {Title: "Value", Share: 20, Right: true}, {Title: "Over its spread", Share: 28, Right: true}, {Title: "Good", Share: 20, Right: true},
		{Title: "Fails", Share: 20, Right: true}, {Title: "Margin", Share: 20, Right: true}, {Title: "State", Share: 17},
	}}
	for _, f := range v.Figures {
		row := paper.Row{Cells: paper.Words(capital(f.Name), value(f, f.Value), spread(f), passes(f), fails(f), margin(f), "")}
		if f.Limit != nil {
			s := f.Limit.State(f.Value)
			row.Cells[6] = paper.Cell{Text: s.String(), Strong: true}
			if s != review.Pass {
				row.Tone = tone(s)
			}
		} else {
			row.Cells[6].Text = "not judged"
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// assumptions are what the figures rest on that nobody measured.
func (b *builder) assumptions() paper.Section {
	var items []string
	for _, n := range b.Result.Notes {
		items = append(items, sentence(n))
	}
	for _, n := range b.Doc.Notes() {
		items = append(items, n.Sentence())
	}
	blocks := []paper.Block{}
	if len(items) > 0 {
		blocks = append(blocks, paper.List{Items: items})
	}
	t := paper.Table{Columns: []paper.Column{{Title: "Judgement or load", Share: 50}, {Title: "Value", Share: 22, Right: true}, {Title: "From", Share: 22}, {Title: "Field", Share: 40}}}
	for _, f := range b.assumed() {
		t.Rows = append(t.Rows, paper.Row{Cells: paper.Words(f.title, f.value, f.from, f.path)})
	}
	if len(t.Rows) > 0 {
		blocks = append(blocks, paper.Prose{Text: "Values that the checks used. \"default\" was not answered in the design; change it there where you know better."}, t)
	}
	if missing := b.Doc.Missing(); len(missing) > 0 {
		blocks = append(blocks, paper.Heading{Text: "Still to be answered"})
		var rows []string
		for _, a := range missing {
			rows = append(rows, fmt.Sprintf("%s (%s): %s", a.Title, a.Path, sentence(a.Measure)))
		}
		blocks = append(blocks, paper.List{Items: rows})
	}
	return paper.Section{Title: "What was assumed", Blocks: blocks}
}

type assumption struct{ title, value, from, path string }

// assumed lists the document's judgements and loads.
func (b *builder) assumed() []assumption {
	var out []assumption
	for _, f := range fieldsOf("assume.", "loads.") {
		v := b.Doc.Get(f.Path)
		if v == "" {
			continue
		}
		from := map[bool]string{true: "the design", false: "default"}[b.Doc.Has(f.Path)]
		if _, ok := b.Doc.AnswerMeasured(f.Path); ok {
			from = "measured"
		}
		out = append(out, assumption{f.Title, v, from, f.Path})
	}
	return out
}

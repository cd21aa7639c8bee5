package sheet

import (
	"fmt"
	"slices"
	"strings"

	"mastwright/app/sheet/draft"
	"mastwright/app/sheet/paper"
	"mastwright/design/review"
	"mastwright/design/sizing"
)

// window is at which heights the checks pass; nothing where the caller did not look.
func (b *builder) window() []paper.Block {
	w := b.Window
	if len(w.Checks) == 0 {
		return nil
	}
	blocks := []paper.Block{paper.Heading{Text: "Height window"}, paper.Prose{Text: strings.Join(w.Words(), " ")}, staff(w)}
	if len(w.Missing) > 0 {
		var titles []string
		for _, id := range w.Missing {
			title := id
			if c, ok := review.Find(id); ok {
				title = c.Title
			}
			titles = append(titles, title)
		}
		blocks = append(blocks, paper.Prose{Quiet: true, Text: "Without data and left out: " + strings.Join(titles, ", ") + "."})
	}
	return blocks
}

// staff draws over the heights what every check says that does not pass at all of them, and the worst of all. The window has checks.
func staff(w sizing.Window) paper.Figure {
	const (
		name  = 24.0
		right = 4.0
		pitch = 4.6
		thick = 3.0
		top   = 7.0
	)
	type row struct {
		title string
		bands []sizing.Band
	}
	var rows []row
	for _, c := range w.Checks {
		if slices.ContainsFunc(c.Bands, func(s sizing.Band) bool { return s.State != review.Pass && s.Unbuildable == "" }) {
			rows = append(rows, row{c.Title, c.Bands})
		}
	}
	all := row{title: "All checks"}
	for _, s := range w.Staff {
		all.bands = append(all.bands, sizing.Band{Interval: s.Interval, State: s.State})
	}
	for _, s := range w.Checks[0].Bands { // what cannot be built is the same for all of them
		if s.Unbuildable != "" {
			all.bands = append(all.bands, s)
		}
	}
	rows = append(rows, all)
	p := draft.New(paper.RoomWidth, top+float64(len(rows))*pitch+9)
	at := func(mm float64) float64 {
		return name + (min(max(mm, w.From), w.To)-w.From)/(w.To-w.From)*(paper.RoomWidth-name-right)
	}
	words := ""
	for i, r := range rows {
		y := top + float64(i)*pitch
		weight := paper.Regular
		if i == len(rows)-1 {
			weight = paper.Medium
		}
		p.Add(paper.Label{At: paper.Point{X: 0, Y: y + thick - 0.5}, Text: r.title, Size: draft.Small, Weight: weight, Ink: paper.Ink})
		words += " " + r.title + ":"
		for _, s := range r.bands {
			from, to := at(s.From), at(s.To)
			if s.Unbuildable != "" {
				p.Area(paper.White, from, y, to-from, thick)
				p.Box(draft.Thin, paper.Third, from, y, to-from, thick)
				words += fmt.Sprintf(" cannot be built from %s to %s mm,", millimetres(s.From), millimetres(s.To))
				continue
			}
			t := tone(s.State)
			high := map[review.State]float64{review.Pass: 0.34, review.Marginal: 0.67, review.Fail: 1}[s.State] // told apart without colour
			p.Area(paper.PassLane, from, y, to-from, thick)
			p.Area(t.Bar(), from, y+thick*(1-high), to-from, thick*high)
			words += fmt.Sprintf(" %s from %s to %s mm,", s.State, millimetres(s.From), millimetres(s.To))
		}
		words = strings.TrimSuffix(words, ",") + "."
	}
	low := top + float64(len(rows))*pitch
	step := tick(w.To-w.From, 6)
	for mm := step * float64(int(w.From/step)); mm <= w.To+1e-6; mm += step {
		if mm < w.From-1e-6 {
			continue
		}
		p.Line(draft.Thin, paper.Second, paper.Point{X: at(mm), Y: low}, paper.Point{X: at(mm), Y: low + 1.2})
		p.Text(paper.Point{X: at(mm), Y: low + 4}, paper.Middle, draft.Small, paper.Second, number(mm))
	}
	p.Text(paper.Point{X: name, Y: low + 7.6}, paper.Start, draft.Small, paper.Second, "height, mm; a low bar passes, a middle one is marginal, a full one fails, an empty frame cannot be built")
	p.Dashed(0.3, 1, paper.Act, paper.Point{X: at(w.Height), Y: top - 1.6}, paper.Point{X: at(w.Height), Y: low})
	p.Text(paper.Point{X: at(w.Height), Y: top - 2.4}, paper.Middle, draft.Small, paper.Act, "here, "+millimetres(w.Height))
	return paper.Figure{Drawing: p.Drawing, Words: strings.TrimSpace(words)}
}

// repairs are the smallest changes after which a check is better and no other worse; nothing where nobody looked for them.
func (b *builder) repairs(check string) []paper.Block {
	i := slices.IndexFunc(b.Advice, func(a sizing.Advice) bool { return a.Check == check })
	if i < 0 {
		return nil
	}
	a := b.Advice[i]
	var blocks []paper.Block
	if a.Words != "" && (len(a.Repairs) == 0 || !a.Pair) {
		blocks = append(blocks, paper.Prose{Text: a.Words})
	}
	if len(a.Repairs) == 0 {
		return blocks
	}
	title := "The smallest changes that make it better and nothing else worse, the best first:"
	switch {
	case a.Pair:
		title = "No single change makes it better without making something else worse. The smallest pair that does:"
	case len(a.Repairs) == 1:
		title = "The smallest change that makes it better and nothing else worse:"
	}
	var items []string
	for _, r := range a.Repairs {
		var set []string
		for _, c := range r.Changes {
			set = append(set, c.Path+": "+c.Value)
		}
		text := r.Words
		if r.To != review.Pass {
			text += " It is then still " + r.To.String() + "."
		}
		items = append(items, text+" ("+strings.Join(set, ", ")+")")
	}
	return append(blocks, paper.Prose{Text: title}, paper.List{Items: items, Numbered: len(items) > 1})
}

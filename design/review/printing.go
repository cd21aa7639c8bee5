package review

import (
	"fmt"
	"math"

	"mastwright/design/parts"
)

// Rules of printing in layers, common practice; the last two from memory.
const (
	slender   = 6.0 // height over the narrower side of the footprint
	shortTime = 8.0 // s for a layer at the tip
)

// printing asks of every part whether it can be made as asked.
func (s *subject) printing() Verdict {
	limits := s.doc.Limits.MastWall
	wall := &Limit{AtLeast, limits.Pass.Millimetres(), limits.Marginal.Millimetres()}
	refused := &Limit{AtMost, 0, 0}
	var figures []Figure
	var notes []string
	line := s.doc.Print.LineWidth.Millimetres()
	thin, walled := s.doc.Mast.Wall.Millimetres(), "mast"
	if s.doc.Mast.Build != "column" {
		thin, walled = s.thinnest()
	}
	figures = append(figures, fixed(walled+" wall", thin, "mm", wall))
	lines := thin / line
	if off := math.Abs(lines - math.Round(lines)); off > 0.1 {
		notes = append(notes, fmt.Sprintf("the %s's wall is %.1f lines of %.2g mm: a whole number of lines leaves no gap in it, %.2f or %.2f mm", walled, lines, line,
			math.Floor(lines)*line, math.Ceil(lines)*line))
	}
	outside, hanging, advice := 0, 0.0, 0
	because := ""
	for _, p := range s.assembly.Parts {
		if p.Making != parts.Printed {
			continue
		}
		g := p.Printing
		if !g.Fits {
			outside++
			because = fmt.Sprintf("%s needs a bed of %.0f × %.0f mm and %.0f mm of height, %s", p.Name, g.Bed.X, g.Bed.Y, g.Bed.Z, p.Orientation)
		}
		if g.Overhang > 0 && g.Supports {
			notes = append(notes, fmt.Sprintf("%s: supports where it hangs over by up to %.1f mm beyond 45°", p.Name, g.Overhang))
		}
		if !g.Supports {
			hanging = math.Max(hanging, g.Overhang)
		}
		if g.Slenderness > slender {
			advice++
			notes = append(notes, fmt.Sprintf("%s stands %.1f times as tall as its footprint: print it lying, or with a brim", p.Name, g.Slenderness))
		}
		area := g.TipArea
		perLayer := area / line / s.doc.Print.Speed.MetresPerSecond() / 1e3
		if p.Orientation == "upright" && g.Height > 40 && perLayer < shortTime {
			advice++
			notes = append(notes, fmt.Sprintf("%s: a layer at its tip takes %.0f s and stays soft: print two at once, or slower", p.Name, perLayer))
		}
		notes = append(notes, p.Notes...)
	}
	figures = append(figures,
		fixed("parts that do not fit the bed", float64(outside), "", refused),
		fixed("overhang without supports", hanging, "mm", refused),
		fixed("advice", float64(advice), "", nil),
	)
	v := judged(figures...)
	v.Notes = notes
	v.Because = fmt.Sprintf("the %s's wall is %.3g mm, %.1f lines", walled, thin, lines)
	if because != "" {
		v.Because = because
	}
	v.Formula = fmt.Sprintf("wall %.3g mm; %d %s outside the bed; %d %s", thin, outside, plural(outside, "part", "parts"), advice, plural(advice, "hint", "hints"))
	return v
}

// thinnest returns the thinnest wall of the printed parts in mm, and the part it is of.
func (s *subject) thinnest() (wall float64, part string) {
	wall = math.Inf(1)
	for _, p := range s.assembly.Parts {
		if p.Making == parts.Printed && p.Printing.Wall < wall {
			wall, part = p.Printing.Wall, p.Name
		}
	}
	return wall, part
}

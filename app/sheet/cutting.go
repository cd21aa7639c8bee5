package sheet

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"mastwright/app/sheet/draft"
	"mastwright/app/sheet/paper"
	"mastwright/design/parts"
	"mastwright/mesh/outline"
)

// cutting is how the parts that are not printed come about: the plates at their true size with their holes, the tube to its length.
// Nothing when everything is printed.
func (b *builder) cutting() []paper.Section {
	cut := b.making(parts.Cut, parts.Stock)
	if len(cut) == 0 {
		return nil
	}
	var blocks []paper.Block
	if dust := b.dust(cut); len(dust) > 0 {
		blocks = append(blocks, paper.Notice{Tone: paper.Caution, Title: "Before you cut", Lines: dust})
	}
	for _, i := range cut {
		p := b.assembly.Parts[i]
		blocks = append(blocks, paper.Heading{Text: fmt.Sprintf("%d %s: make %d from %s", b.numberOf(i), worded(p.Name), max(p.Copies, 1), b.from(p))})
		if p.Making == parts.Stock {
			blocks = append(blocks, b.stock(p))
		} else {
			blocks = append(blocks, b.plate(p)...)
		}
	}
	return []paper.Section{{Title: "Cutting", Fresh: true, Blocks: blocks}}
}

// from is what a part is cut from.
func (b *builder) from(p parts.Part) string {
	if p.Making == parts.Stock {
		return b.materialOf(p.Material).Title + ", " + p.Size
	}
	return b.materialOf(p.Material).Title + ", " + millimetres2(p.Thickness) + " mm"
}

// dust are the cautions of the materials of some parts, each once.
func (b *builder) dust(list []int) []string {
	var out []string
	seen := map[string]bool{}
	for _, i := range list {
		m := b.materialOf(b.assembly.Parts[i].Material)
		if m.Dust != "" && !seen[m.Dust] {
			seen[m.Dust] = true
			out = append(out, sentence(m.Dust))
		}
	}
	return out
}

// uncautioned are a part's notes without the cautions, which stand over the drawings.
func (b *builder) uncautioned(p parts.Part) string {
	p.Notes = slices.DeleteFunc(slices.Clone(p.Notes), func(n string) bool { return strings.HasPrefix(n, "Caution") })
	return b.notes(p)
}

// stock draws a tube with its length and where it is gripped and drilled, and repeats what is to be done to it.
func (b *builder) stock(p parts.Part) paper.Figure {
	const left, high, most = 12.0, 37.0, 150.0
	d := draft.New(paper.RoomWidth, high)
	grip := b.Doc.Mast.Tube.Clamp.Grip.Millimetres()
	across := b.Doc.Mast.Tube.Outside.Millimetres()
	scale, name := scaleFor(p.Length, across, most, 12)
	long, thick := p.Length*scale, across*scale
	y := 14.0
	d.Area(paper.Seam, left, y-thick/2, grip*scale, thick)
	d.Area(paper.Seam, left+long-grip*scale, y-thick/2, grip*scale, thick)
	d.Box(draft.Thick, paper.Ink, left, y-thick/2, long, thick)
	d.Line(draft.Thin, paper.Third, paper.Point{X: left - 3, Y: y}, paper.Point{X: left + long + 3, Y: y})
	at := func(x float64) paper.Point { return paper.Point{X: left + x*scale, Y: y + thick/2} }
	d.Dimension(draft.Dimension{From: at(0), To: at(p.Length), Along: true, Away: paper.Point{Y: 13}, Text: millimetres(p.Length)})
	lower, upper := grip, grip
	for _, u := range b.assembly.Screws {
		if u.For != "foot key" && u.For != "tray key" || len(u.At) == 0 {
			continue
		}
		from := u.At[0].Z - b.assembly.Members[0].From.Z
		where := at(from)
		where.Y = y
		d.Circle(draft.Thick, paper.Ink, where, max(u.Size.Diameter().Millimetres()*scale/2, 0.6))
		if u.For == "foot key" {
			lower = from
			d.Dimension(draft.Dimension{From: at(0), To: at(from), Along: true, Away: paper.Point{Y: 6}, Text: millimetres(from)})
		} else {
			upper = p.Length - from
			d.Dimension(draft.Dimension{From: at(from), To: at(p.Length), Along: true, Away: paper.Point{Y: 6}, Text: millimetres(upper)})
		}
	}
	d.Text(paper.Point{X: left, Y: 4}, paper.Start, draft.Small, paper.Second, "foot, gripped over "+millimetres(grip))
	d.Text(paper.Point{X: left + long, Y: 4}, paper.End, draft.Small, paper.Second, "tray, gripped over "+millimetres(grip))
	caption := fmt.Sprintf("The tube, %s, the grey ends in the clamps.", name)
	return paper.Figure{Drawing: d.Drawing, Caption: caption + " " + b.uncautioned(p), Words: fmt.Sprintf("%s mm long, marked %s mm from the foot's end and %s mm from the tray's.", millimetres(p.Length), millimetres(lower), millimetres(upper))}
}

// plate draws a part that is cut from sheet at its true size, with its holes numbered, and lists them.
func (b *builder) plate(p parts.Part) []paper.Block {
	const left, above, below = 24.0, 12.0, 24.0
	box := p.Outline.Outer.Box()
	size := r2.Sub(box.Max, box.Min)
	text := paper.Prose{Quiet: true, Text: "The lines are the part as it comes out. The DXF and SVG files have the cutter's kerf in them where one is entered. " + b.uncautioned(p)}
	holes := holesTable(p)
	if size.X+left+40 > paper.RoomWidth || size.Y+above+below > paper.RoomHeight-20 {
		return []paper.Block{text, paper.Notice{Tone: paper.Unknown, Title: "It does not fit on this paper at its true size", Lines: []string{
			fmt.Sprintf("It is %s × %s mm. Cut it from the DXF or SVG file, or mark the holes from the list below.", millimetres2(size.X), millimetres2(size.Y))}}, holes}
	}
	d := draft.New(paper.RoomWidth, size.Y+above+below)
	d.Exact = true
	x := (paper.RoomWidth - size.X) / 2
	v := draft.View{Scale: 1, Origin: paper.Point{X: x - box.Min.X, Y: above + box.Max.Y}}
	d.Outline(v, draft.Thick, paper.Ink, p.Outline)
	caption := "True size, 1:1. Stick it on the sheet, or cut from the files."
	if middle := r2.Scale(0.5, r2.Add(box.Min, box.Max)); size.X > size.Y {
		d.Dashed(draft.Thin, 2, paper.Third, v.At(box.Min.X-3, middle.Y), v.At(box.Max.X+3, middle.Y))
	} else {
		caption += " The foot's end is below."
		d.Dashed(draft.Thin, 2, paper.Third, v.At(middle.X, box.Max.Y+3), v.At(middle.X, box.Min.Y-3))
	}
	for i, h := range sheetHoles(p) {
		c, radius, round := h.Round()
		if !round {
			hole := h.Box()
			c, radius = r2.Scale(0.5, r2.Add(hole.Min, hole.Max)), (hole.Max.X-hole.Min.X)/2
		}
		at := v.At(c.X, c.Y)
		d.Cross(draft.Thin, paper.Ink, at, min(radius+1.2, 4))
		d.Text(paper.Point{X: at.X + radius + 0.5, Y: at.Y - radius + 0.4}, paper.Start, 2.2, paper.Act, fmt.Sprint(i+1))
	}
	d.Dimension(draft.Dimension{From: v.At(box.Max.X, box.Min.Y), To: v.At(box.Max.X, box.Max.Y), Along: true, Away: paper.Point{X: 10}, Text: millimetres2(size.Y)})
	d.Dimension(draft.Dimension{From: v.At(box.Min.X, box.Max.Y), To: v.At(box.Max.X, box.Max.Y), Along: true, Away: paper.Point{Y: -6}, Text: millimetres2(size.X)})
	corner := v.At(box.Min.X, box.Min.Y)
	d.Add(paper.Stroke{Points: paper.Round(corner, 0.8), Closed: true, Filled: true, Fill: paper.Act})
	d.Text(paper.Point{X: corner.X - 2, Y: corner.Y + 1}, paper.End, draft.Small, paper.Act, "corner 0, 0")
	d.CheckBar((paper.RoomWidth-50)/2, size.Y+above+12)
	return []paper.Block{text, paper.Figure{Drawing: d.Drawing, Caption: caption,
		Words: fmt.Sprintf("A plate of %s × %s mm with %s, and a bar of 50 mm.", millimetres2(size.X), millimetres2(size.Y), counted(len(p.Outline.Holes), "hole", "holes"))}, holes}
}

// sheetHoles are the holes of a plate, from below and from the left.
func sheetHoles(p parts.Part) []outline.Loop {
	holes := slices.Clone(p.Outline.Holes)
	slices.SortStableFunc(holes, func(a, b outline.Loop) int {
		x, y := a.Box(), b.Box()
		return cmp.Or(cmp.Compare(math.Round(100*(x.Min.Y+x.Max.Y)), math.Round(100*(y.Min.Y+y.Max.Y))), cmp.Compare(x.Min.X+x.Max.X, y.Min.X+y.Max.X))
	})
	return holes
}

// holesTable lists the holes of a plate from its lower left corner.
func holesTable(p parts.Part) paper.Block {
	if len(p.Outline.Holes) == 0 {
		return paper.Prose{Text: "It has no holes."}
	}
	t := paper.Table{Columns: []paper.Column{{Title: "Hole", Share: 8}, {Title: "From the left edge, mm", Share: 26, Right: true}, {Title: "From the lower edge, mm", Share: 26, Right: true}, {Title: "Size, mm", Share: 26, Right: true}}}
	low := p.Outline.Outer.Box().Min
	for i, h := range sheetHoles(p) {
		c, radius, round := h.Round()
		size := "Ø " + hundredths(2*radius)
		if !round {
			box := h.Box()
			c, size = r2.Scale(0.5, r2.Add(box.Min, box.Max)), hundredths(box.Max.X-box.Min.X)+" × "+hundredths(box.Max.Y-box.Min.Y)
		}
		t.Rows = append(t.Rows, paper.Row{Cells: paper.Words(fmt.Sprint(i+1), hundredths(c.X-low.X), hundredths(c.Y-low.Y), size)})
	}
	return t
}

func hundredths(x float64) string { return fmt.Sprintf("%.2f", math.Round(x*100)/100+0) }

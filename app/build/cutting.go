package build

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/mesh/dxf"
	"mastwright/mesh/layout"
	"mastwright/mesh/outline"
	"mastwright/mesh/svg"
)

// CutListName is the list of what is cut from sheets and to length, in an output folder that has such parts.
const CutListName = "cut_list.csv"

// cutRecord is a part in results.json that is cut from a sheet, or from stock to length.
type cutRecord struct {
	Name     string   `json:"name"`
	Making   string   `json:"making"` // "cut", "stock"
	Material string   `json:"material"`
	From     string   `json:"from"` // "2 mm sheet", "10/8 mm tube"
	Length   float64  `json:"length_mm"`
	Width    *float64 `json:"width_mm"` // null for what is cut to length
	Copies   int      `json:"copies"`
	Mass     float64  `json:"mass_g"` // of one
	Files    []string `json:"files"`
	Notes    []string `json:"notes"`
}

// blank is the parts that are cut from one sheet: of one material and thickness.
type blank struct {
	material  string
	thickness float64 // mm
	parts     []parts.Part
}

// blanks are the sheets that parts are cut from.
func blanks(list []parts.Part) []blank {
	var out []blank
next:
	for _, p := range list {
		if p.Making != parts.Cut {
			continue
		}
		for i := range out {
			if out[i].material == p.Material && out[i].thickness == p.Thickness {
				out[i].parts = append(out[i].parts, p)
				continue next
			}
		}
		out = append(out, blank{p.Material, p.Thickness, []parts.Part{p}})
	}
	return out
}

// stem is the name of the drawing's files without their ends.
func (b blank) stem() string {
	return "sheet_" + strings.ReplaceAll(b.material, " ", "-") + "_" + Digits(b.thickness, 4) + "mm"
}

func (b blank) names() []string { return []string{b.stem() + ".dxf", b.stem() + ".svg"} }

// Of drawings, mm: the room between parts and the height of the letters in it, and the width of a sheet before parts go into a
// second row. Judgement.
const (
	cutGap     = 6
	letter     = 3
	sheetWidth = 300
)

// drawing is what is cut from the sheet: every copy of its parts, as they lie in the sheet, with their names below.
func (b blank) drawing(doc *design.Document) (outline.Drawing, error) {
	var out outline.Drawing
	var list []layout.Footprint
	for _, p := range b.parts {
		size := extent(p.Drawing)
		list = append(list, layout.Footprint{Name: p.Name, X: size.X, Y: size.Y, Copies: max(1, p.Copies)})
	}
	places, _, err := layout.Sheet(list, sheetWidth, layout.Options{Gap: cutGap, Fixed: true}) // fixed: fibres run along the part
	if err != nil {
		return out, fmt.Errorf("lay the parts out on the sheet: %w", err)
	}
	for _, place := range places {
		p := b.parts[place.Footprint]
		corner := p.Drawing.Outer.Box().Min
		out.Cut = append(out.Cut, p.Drawing.Translate(place.At.X-corner.X, place.At.Y-corner.Y))
		out.Notes = append(out.Notes, outline.Note{At: r2.Vec{X: place.At.X, Y: place.At.Y - letter - 1}, Height: letter, Text: ascii(p.Name)})
	}
	kerf := "no kerf is in the lines"
	if k := b.kerf(); k > 0 {
		kerf = "a kerf of " + Digits(k, 4) + " mm is in the lines"
	}
	for i, line := range []string{title(doc) + ", " + doc.Number(), Digits(b.thickness, 4) + " mm " + b.material, "1 unit = 1 mm; " + kerf} {
		out.Notes = append(out.Notes, outline.Note{At: r2.Vec{Y: -3*cutGap - float64(i)*2*letter}, Height: letter, Text: ascii(line)})
	}
	return out, nil
}

func extent(o outline.Outline) r2.Vec {
	box := o.Outer.Box()
	return r2.Sub(box.Max, box.Min)
}

// kerf is what the lines are wider than the parts, mm.
func (b blank) kerf() float64 {
	p := b.parts[0]
	return Rounded(extent(p.Drawing).X-extent(p.Outline).X, 4)
}

// ascii is a text in letters that every cutter's program knows.
func ascii(text string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r > '~' {
			return '?'
		}
		return r
	}, text)
}

// outputs are the drawing's files.
func (b blank) outputs(doc *design.Document, o Options) ([]output, error) {
	drawing, err := b.drawing(doc)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", b.stem(), err)
	}
	var lines, picture bytes.Buffer
	if err := dxf.Encode(&lines, drawing, dxf.Options{Flatten: o.Flatten}); err != nil {
		return nil, fmt.Errorf("%s: %w", b.stem(), err)
	}
	if err := svg.Encode(&picture, drawing); err != nil {
		return nil, fmt.Errorf("%s: %w", b.stem(), err)
	}
	names := b.names()
	return []output{{names[0], lines.Bytes()}, {names[1], picture.Bytes()}}, nil
}

// cutRecords are the rows of the cut list: parts from sheets, then parts cut to length.
func cutRecords(doc *design.Document, list []parts.Part) ([]cutRecord, error) {
	out := []cutRecord{}
	library := doc.Library()
	add := func(p parts.Part, from string, length float64, width *float64, files []string) error {
		material, err := library.Find(p.Material)
		if err != nil {
			return fmt.Errorf("part %q: %w", p.Name, err)
		}
		out = append(out, cutRecord{p.Name, string(p.Making), p.Material, from, Rounded(length, 6), width, max(1, p.Copies),
			Rounded(p.Mass(material.Density.Typical).Grams(), 6), files, append([]string{}, p.Notes...)})
		return nil
	}
	for _, b := range blanks(list) {
		for _, p := range b.parts {
			size := extent(p.Outline)
			if err := add(p, Digits(b.thickness, 4)+" mm sheet", max(size.X, size.Y), Number(min(size.X, size.Y)), b.names()); err != nil {
				return nil, err
			}
		}
	}
	for _, p := range list {
		if p.Making != parts.Stock {
			continue
		}
		if err := add(p, p.Size, p.Length, nil, []string{}); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// cutList is the cut list as a table of a spreadsheet.
func cutList(list []cutRecord) ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.Write([]string{"part", "copies", "material", "from", "length_mm", "width_mm", "mass_g", "files"})
	for _, c := range list {
		width := ""
		if c.Width != nil {
			width = Digits(*c.Width, 6)
		}
		w.Write([]string{c.Name, strconv.Itoa(c.Copies), c.Material, c.From, Digits(c.Length, 6), width, Digits(c.Mass, 4), strings.Join(c.Files, " ")})
	}
	w.Flush() // of all the writes
	return b.Bytes(), w.Error()
}

// printCuts lists what is cut, with its notes; nothing when there is nothing.
func printCuts(w io.Writer, list []cutRecord) {
	if len(list) == 0 {
		return
	}
	fmt.Fprint(w, "\nTo cut, also in "+CutListName+"\n")
	for _, c := range list {
		size := Digits(c.Length, 5) + " mm long"
		if c.Width != nil {
			size = Digits(c.Length, 5) + " x " + Digits(*c.Width, 5) + " mm"
		}
		text := fmt.Sprintf("%d of %s, %s, %s, %s each", c.Copies, c.Material, c.From, size, Figure(c.Mass, "g"))
		if len(c.Files) > 0 {
			text += ", in " + strings.Join(c.Files, " and ")
		}
		fmt.Fprint(w, Wrap("  "+Pad(c.Name, 20)+" ", 4, text))
		for _, n := range c.Notes {
			fmt.Fprint(w, Wrap("", 4, Sentence(n)))
		}
	}
}

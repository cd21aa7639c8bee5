package cli

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/mesh"
	"mastwright/mesh/solid"
	"mastwright/mesh/stl"
)

// piece is a part as it is written: its mesh in the print orientation, and what results.json says of it.
type piece struct {
	part   parts.Part
	output output
	record partRecord
}

// partRecord is a part in results.json: the volume of the solid shape, the mass as printed, and the box as it lies on the bed.
type partRecord struct {
	Name        string     `json:"name"`
	File        string     `json:"file"`
	SHA256      string     `json:"sha256"`
	Triangles   int        `json:"triangles"`
	Volume      *float64   `json:"volume_mm3"`
	Mass        *float64   `json:"mass_g"`
	Box         []*float64 `json:"box_mm"`
	Material    string     `json:"material"`
	Copies      int        `json:"copies"`
	Orientation string     `json:"orientation"`
}

// pieces meshes parts. A part that does not come out as a closed solid is an error; it is never written.
func (s *session) pieces(doc *design.Document, list []parts.Part) ([]piece, error) {
	defer s.progress.clear()
	library := doc.Library()
	out := []piece{}
	for _, part := range list {
		shape, err := s.mesh(part)
		if err != nil {
			return nil, fmt.Errorf("part %q: %w", part.Name, err)
		}
		material, err := library.Find(part.Material)
		if err != nil {
			return nil, fmt.Errorf("part %q: %w", part.Name, err)
		}
		var data bytes.Buffer
		if err := stl.Encode(&data, shape, stl.Options{}); err != nil {
			return nil, fmt.Errorf("part %q: %w", part.Name, err)
		}
		file := output{fileName(part), data.Bytes()}
		size := r3.Sub(shape.Box().Max, shape.Box().Min)
		out = append(out, piece{part, file, partRecord{
			Name: part.Name, File: file.Name, SHA256: file.written().SHA256,
			Triangles: len(shape.Triangles), Volume: number(shape.Volume()), Mass: number(part.Mass(material.Density.Typical).Grams()),
			Box:      []*float64{number(size.X), number(size.Y), number(size.Z)},
			Material: part.Material, Copies: part.Copies, Orientation: part.Orientation,
		}})
	}
	return out, nil
}

// fileName is the file of a part; lengths in it are in mm.
func fileName(part parts.Part) string {
	return strings.ReplaceAll(part.Name, " ", "-") + "_mm.stl"
}

// mesh returns a part's mesh as it stands on the bed, checked as it will be read.
func (s *session) mesh(part parts.Part) (*mesh.Mesh, error) {
	shape, _, err := solid.Polygonise(s, part.Solid(), solid.Options{Progress: func(done, total int) {
		s.progress.report(part.Name, done, total)
	}})
	if err != nil {
		return nil, err
	}
	return mesh.Gate(shape.OnBed(part.Turn))
}

// printPieces lists parts with their notes; nothing when there are none.
func printPieces(w io.Writer, title string, pieces []piece) {
	if len(pieces) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s\n", title)
	for _, p := range pieces {
		r := p.record
		text := fmt.Sprintf("%s in %s, %s, %s, %s x %s x %s mm", r.Name, r.Material, r.Orientation,
			figure(*r.Mass, "g"), digits(*r.Box[0], 4), digits(*r.Box[1], 4), digits(*r.Box[2], 4))
		if r.Copies > 1 {
			text = fmt.Sprintf("%d times %s", r.Copies, text)
		}
		fmt.Fprint(w, wrap("  "+pad(r.File, 20)+" ", 4, text))
		for _, n := range p.part.Notes {
			fmt.Fprint(w, wrap("", 4, sentence(n)))
		}
	}
}

package build

import (
	"bytes"
	"context"
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

// Piece is a printed part as it is written: its mesh in the print orientation, and what results.json says of it.
type Piece struct {
	Part   parts.Part
	mesh   *mesh.Mesh
	output output
	record partRecord
}

// File is the piece's name in the folder.
func (p Piece) File() string { return p.output.Name }

// partRecord is a part in results.json: the volume of the solid shape, the mass as printed, and the box as it lies on the bed.
type partRecord struct {
	Name        string     `json:"name"`
	File        string     `json:"file"`
	SHA256      string     `json:"sha256"`
	Triangles   int        `json:"triangles"`
	Tolerance   float64    `json:"tolerance_mm"` // the farthest that the mesh was found from the solid
	Volume      float64    `json:"volume_mm3"`
	Mass        float64    `json:"mass_g"`
	Box         [3]float64 `json:"box_mm"`
	Material    string     `json:"material"`
	Copies      int        `json:"copies"`
	Orientation string     `json:"orientation"`
}

// pieces meshes those of the parts that are printed. A part that does not come out as a closed solid is an error; it is never written.
func pieces(ctx context.Context, doc *design.Document, list []parts.Part, progress func(part string, done, total int)) ([]Piece, error) {
	library := doc.Library()
	out := []Piece{}
	for _, part := range list {
		if part.Making != parts.Printed {
			continue
		}
		shape, tolerance, err := bedMesh(ctx, part, progress)
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
		out = append(out, Piece{part, shape, file, partRecord{
			Name: part.Name, File: file.Name, SHA256: file.written().SHA256,
			Triangles: len(shape.Triangles), Tolerance: Rounded(tolerance, 2), Volume: Rounded(shape.Volume(), 6), Mass: Rounded(part.Mass(material.Density.Typical).Grams(), 6),
			Box:      [3]float64{Rounded(size.X, 6), Rounded(size.Y, 6), Rounded(size.Z, 6)},
			Material: part.Material, Copies: part.Copies, Orientation: part.Orientation,
		}})
	}
	return out, nil
}

// fileName is the file of a part; lengths in it are in mm.
func fileName(part parts.Part) string {
	return strings.ReplaceAll(part.Name, " ", "-") + "_mm.stl"
}

// bedMesh returns a part's mesh as it stands on the bed, checked as it will be read, and how far in mm it is from the solid.
func bedMesh(ctx context.Context, part parts.Part, progress func(part string, done, total int)) (*mesh.Mesh, float64, error) {
	o := solid.Options{}
	if progress != nil {
		o.Progress = func(done, total int) { progress(part.Name, done, total) }
	}
	shape, report, err := solid.Polygonise(ctx, part.Solid(), o)
	if err != nil {
		return nil, 0, err
	}
	shape, err = mesh.Gate(shape.OnBed(part.Turn))
	return shape, report.Tolerance, err
}

// printPieces lists parts with their notes; nothing when there are none.
func printPieces(w io.Writer, title string, pieces []Piece) {
	if len(pieces) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s\n", title)
	for _, p := range pieces {
		r := p.record
		text := fmt.Sprintf("%s, %s, %s, %s x %s x %s mm", r.Material, r.Orientation,
			Figure(r.Mass, "g"), Digits(r.Box[0], 4), Digits(r.Box[1], 4), Digits(r.Box[2], 4))
		if r.Copies > 1 {
			text = fmt.Sprintf("%d times %s", r.Copies, text)
		}
		text += fmt.Sprintf("; %d triangles within %s, %s", r.Triangles, Figure(r.Tolerance, "mm"), Figure(r.Volume/1000, "cm3"))
		fmt.Fprint(w, Wrap("  "+Pad(r.File, 20)+" ", 4, text))
		for _, n := range p.Part.Notes {
			fmt.Fprint(w, Wrap("", 4, Sentence(n)))
		}
	}
}

package build

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"io"
	"math"
	"strings"
	"time"
	"unicode"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/mesh"
	"mastwright/mesh/layout"
	"mastwright/mesh/threemf"
	"mastwright/mesh/view"
)

// Stems of the files that hold what is printed together.
const (
	partsStem = "parts"
	fitsStem  = "fit"
)

// bed is what is printed together: copies of printed parts, all of one material, as they lie.
type bed struct {
	name     string // of the file
	material string
	places   []layout.Place // of the parts in the list that it was planned for
}

// bedRecord is a bed in results.json. A part's place is the corner of its box nearest to the bed's own corner.
type bedRecord struct {
	File     string        `json:"file"`
	SHA256   string        `json:"sha256"`
	Material string        `json:"material"`
	Bed      [2]float64    `json:"bed_mm"`
	Parts    []placeRecord `json:"parts"`
}

type placeRecord struct {
	Name   string     `json:"name"`
	At     [2]float64 `json:"at_mm"`
	Turned bool       `json:"turned"` // by a quarter
}

// plan lays the copies of parts out on beds, a material after another. There is one file where one bed is enough, and otherwise
// one a bed. Parts that are not printed are passed over, and what does not fit the bed at all is left out: the check of the printing
// says so.
func plan(stem string, doc *design.Document, list []parts.Part) ([]bed, error) {
	var out []bed
	for k, first := range list {
		if !onBed(first) || sameBefore(list, k) {
			continue
		}
		footprints := make([]layout.Footprint, len(list))
		for i, p := range list {
			if onBed(p) && p.Material == first.Material {
				footprints[i] = layout.Footprint{Name: p.Name, X: p.Box.X, Y: p.Box.Y, Copies: max(1, p.Copies)}
			}
		}
		beds, err := layout.Beds(footprints, bedSize(doc), layout.Options{})
		if err != nil {
			return nil, fmt.Errorf("lay the parts out on the bed: %w", err)
		}
		for _, places := range beds {
			out = append(out, bed{material: first.Material, places: places})
		}
	}
	for i := range out {
		out[i].name = stem + ".3mf"
		if len(out) > 1 {
			out[i].name = fmt.Sprintf("%s_bed%d.3mf", stem, i+1)
		}
	}
	return out, nil
}

func onBed(p parts.Part) bool { return p.Making == parts.Printed && p.Printing.Fits }

func sameBefore(list []parts.Part, k int) bool {
	for _, p := range list[:k] {
		if onBed(p) && p.Material == list[k].Material {
			return true
		}
	}
	return false
}

func bedSize(doc *design.Document) r2.Vec {
	return r2.Vec{X: doc.Print.Bed.X.Millimetres(), Y: doc.Print.Bed.Y.Millimetres()}
}

// bedOutputs writes the pieces as they lie on the beds that were planned for them.
func bedOutputs(beds []bed, doc *design.Document, pieces []Piece, o Options) ([]output, []bedRecord, error) {
	var files []output
	records := []bedRecord{}
	for _, b := range beds {
		model := threemf.Model{Title: title(doc), Application: strings.TrimSpace("Mastwright " + o.Sheet.Version)}
		if _, err := time.Parse(time.DateOnly, o.Sheet.Date); err == nil {
			model.Created = o.Sheet.Date
		}
		record := bedRecord{File: b.name, Material: b.material, Bed: [2]float64{bedSize(doc).X, bedSize(doc).Y}}
		object := map[int]int{}
		for _, place := range b.places {
			p := pieces[place.Footprint]
			if _, known := object[place.Footprint]; !known {
				object[place.Footprint] = len(model.Objects)
				model.Objects = append(model.Objects, threemf.Object{Name: p.Part.Name, Number: doc.Number() + "-" + p.Part.Name, Mesh: p.mesh})
			}
			model.Items = append(model.Items, threemf.Item{Object: object[place.Footprint], Pose: laid(place, p.Part.Box)})
			record.Parts = append(record.Parts, placeRecord{p.Part.Name, [2]float64{Rounded(place.At.X, 6), Rounded(place.At.Y, 6)}, place.Turned})
		}
		var err error
		if model.Thumbnail, err = thumbnail(model); err != nil {
			return nil, nil, fmt.Errorf("%s: %w", b.name, err)
		}
		var data bytes.Buffer
		if err := threemf.Encode(&data, model); err != nil {
			return nil, nil, fmt.Errorf("%s: %w", b.name, err)
		}
		file := output{b.name, data.Bytes()}
		record.SHA256 = file.written().SHA256
		files, records = append(files, file), append(records, record)
	}
	return files, records, nil
}

// title is the design's name and revision in one line that every format keeps.
func title(doc *design.Document) string {
	text := doc.Name
	if doc.Revision != "" {
		text += ", revision " + doc.Revision
	}
	text = strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return ' '
		}
		if !unicode.IsPrint(r) || r == unicode.ReplacementChar {
			return -1
		}
		return r
	}, text)
	return strings.Join(strings.Fields(text), " ")
}

// laid is the way of a part from the corner of the bed to its place.
func laid(place layout.Place, box r3.Vec) mesh.Pose {
	at := r3.Vec{X: place.At.X, Y: place.At.Y}
	if !place.Turned {
		return mesh.Move(at)
	}
	at.X += box.Y
	return mesh.Turn(r3.Vec{Z: 1}, math.Pi/2).Then(mesh.Move(at))
}

// thumbnailSize is the side of a thumbnail in pixels.
const thumbnailSize = 256

// thumbnail is a picture of a bed from the corner.
func thumbnail(m threemf.Model) ([]byte, error) {
	s := &view.Scene{Palette: view.Light(), Ground: view.Ground{Hidden: true}}
	var surfaces []*view.Surface
	for _, o := range m.Objects {
		surfaces = append(surfaces, view.Prepare(o.Mesh))
	}
	for _, item := range m.Items {
		s.Things = append(s.Things, view.Thing{Surface: surfaces[item.Object], Colour: s.Palette.Print, Pose: item.Pose})
	}
	picture := image.NewRGBA(image.Rect(0, 0, thumbnailSize, thumbnailSize))
	camera := s.Fit(view.Camera{Size: picture.Rect.Size()}.From(view.Corner), thumbnailSize/16)
	new(view.Renderer).Draw(picture, s, camera, view.Options{Fine: true})
	var out bytes.Buffer
	err := png.Encode(&out, picture)
	return out.Bytes(), err
}

// printBeds says what lies on each bed, and what on none; nothing when nothing is printed.
func printBeds(w io.Writer, beds []bedRecord, list []Piece) {
	if len(list) == 0 {
		return
	}
	fmt.Fprint(w, "\nLaid out on the bed\n")
	for _, b := range beds {
		count := map[string]int{}
		var names []string
		for _, p := range b.Parts {
			if count[p.Name] == 0 {
				names = append(names, p.Name)
			}
			count[p.Name]++
		}
		for i, name := range names {
			if count[name] > 1 {
				names[i] = fmt.Sprintf("%d times %s", count[name], name)
			}
		}
		fmt.Fprint(w, Wrap("  "+Pad(b.File, 20)+" ", 4, fmt.Sprintf("%s, %s x %s mm: %s", b.Material, Digits(b.Bed[0], 4), Digits(b.Bed[1], 4), strings.Join(names, ", "))))
	}
	for _, p := range list {
		if g := p.Part.Printing; !g.Fits {
			fmt.Fprint(w, Wrap("", 4, Sentence(fmt.Sprintf("%s lies on no bed: it needs one of %s x %s mm and %s mm of height",
				p.Part.Name, Digits(g.Bed.X, 4), Digits(g.Bed.Y, 4), Digits(g.Bed.Z, 4)))))
		}
	}
}

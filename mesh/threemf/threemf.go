// Package threemf writes and reads parts laid out on a print bed as 3MF
// packages, in millimetres.
//
// The format is that of the 3MF Consortium's core specification, version 1.3
// (ISO/IEC 25422): a ZIP archive with the package conventions of ECMA-376 part
// 2, and in it a model in XML. Only the core is written: objects that are
// meshes, and a build of items that place them.
package threemf

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"reflect"
	"strings"
	"unicode"
	"unicode/utf8"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// Model is what a package holds.
type Model struct {
	Title       string
	Application string
	Created     string // date as the file says it; "" for none
	Objects     []Object
	Items       []Item
	Thumbnail   []byte // a PNG; nil for none
}

// Object is a part. Names are unique in a model, and so are numbers.
type Object struct {
	Name   string
	Number string // part number; "" for none
	Mesh   *mesh.Mesh
}

// Item is a copy of an object on the bed.
type Item struct {
	Object int       // its place in Model.Objects
	Pose   mesh.Pose // from the object's axes to the bed's: a rigid motion
}

// Encode writes the model. Coordinates have four decimals; a part that would
// not bound a solid so, because a thin triangle closes up, has as many more, up
// to seven, as it needs. Vertices are welded. Entries of the archive have a
// fixed order and time, so equal models give equal bytes.
//
// The package is read back and compared before anything is written. Refused
// are a model without objects or items, names that are missing, repeated or
// not plain text, a part that does not bound a solid (see mesh.Inspect) or
// reaches beyond 1.6 m, an item that stretches or mirrors its object, and a
// thumbnail that is no PNG.
func Encode(w io.Writer, m Model) error {
	data, err := m.pack()
	if err == nil {
		_, err = w.Write(data)
	}
	if err != nil {
		return fmt.Errorf("write 3mf: %w", err)
	}
	return nil
}

func (m Model) pack() ([]byte, error) {
	rounded, places, err := m.rounded()
	if err != nil {
		return nil, err
	}
	var text bytes.Buffer
	rounded.print(&text, places)
	data, err := archive(text.Bytes(), m.Thumbnail)
	if err != nil {
		return nil, err
	}
	again, err := Decode(bytes.NewReader(data), Limits{Bytes: math.MaxInt64, Model: math.MaxInt64})
	if err != nil {
		return nil, fmt.Errorf("reading the package back: %w", err)
	}
	if !reflect.DeepEqual(again, rounded) {
		return nil, errors.New("the package reads back as another model")
	}
	return data, nil
}

// rounded is the model as the file holds it, and the decimals of each object.
func (m Model) rounded() (out Model, places []int, err error) {
	if len(m.Objects) == 0 || len(m.Items) == 0 {
		return out, nil, fmt.Errorf("%d parts and %d copies of them; a bed holds at least one", len(m.Objects), len(m.Items))
	}
	out = m
	for _, t := range []struct{ what, text string }{{"title", m.Title}, {"application", m.Application}, {"date", m.Created}} {
		if !plain(t.text) {
			return out, nil, fmt.Errorf("the %s %q is not plain text; leave out control characters and spaces at its ends", t.what, t.text)
		}
	}
	if m.Thumbnail != nil && !bytes.HasPrefix(m.Thumbnail, []byte("\x89PNG\r\n\x1a\n")) {
		return out, nil, errors.New("the thumbnail is no PNG")
	}
	out.Objects = nil
	names, numbers := map[string]bool{}, map[string]bool{}
	for i, o := range m.Objects {
		switch {
		case o.Name == "" || !plain(o.Name) || !plain(o.Number):
			return out, nil, fmt.Errorf("part %d is named %q, number %q; use plain text", i, o.Name, o.Number)
		case names[o.Name] || o.Number != "" && numbers[o.Number]:
			return out, nil, fmt.Errorf("there are two parts named %q, or with the number %q; tell them apart", o.Name, o.Number)
		}
		names[o.Name], numbers[o.Number] = true, true
		shape, n, err := round(o.Mesh)
		if err != nil {
			return out, nil, fmt.Errorf("part %q: %w", o.Name, err)
		}
		out.Objects = append(out.Objects, Object{o.Name, o.Number, shape})
		places = append(places, n)
	}
	out.Items = nil
	for i, item := range m.Items {
		if item.Object < 0 || item.Object >= len(m.Objects) {
			return out, nil, fmt.Errorf("copy %d is of part %d of %d", i, item.Object, len(m.Objects))
		}
		if !rigid(item.Pose) {
			return out, nil, fmt.Errorf("copy %d of part %q is stretched, mirrored or out of reach; turn and move it only", i, m.Objects[item.Object].Name)
		}
		out.Items = append(out.Items, Item{item.Object, poseRounded(item.Pose)})
	}
	return out, places, nil
}

// plain is whether XML keeps a text as it is.
func plain(text string) bool {
	return utf8.ValidString(text) && strings.TrimSpace(text) == text &&
		strings.IndexFunc(text, func(r rune) bool { return !unicode.IsPrint(r) }) < 0
}

// rigid is whether a pose turns and moves only, to a billionth.
func rigid(p mesh.Pose) bool {
	const small = 1e-9
	right := r3.Sub(r3.Cross(p.X, p.Y), p.Z)
	return math.Abs(r3.Norm2(p.X)-1) < small && math.Abs(r3.Norm2(p.Y)-1) < small && math.Abs(r3.Dot(p.X, p.Y)) < small &&
		r3.Norm(right) < small && math.Abs(p.At.X) <= mesh.Reach && math.Abs(p.At.Y) <= mesh.Reach && math.Abs(p.At.Z) <= mesh.Reach
}

// poseRounded is a pose whose shift has four decimals, without negative zeros.
func poseRounded(p mesh.Pose) mesh.Pose {
	unsigned := func(v r3.Vec) r3.Vec { return r3.Vec{X: v.X + 0, Y: v.Y + 0, Z: v.Z + 0} }
	four := func(x float64) float64 { return math.Round(x*1e4)/1e4 + 0 }
	return mesh.Pose{X: unsigned(p.X), Y: unsigned(p.Y), Z: unsigned(p.Z), At: r3.Vec{X: four(p.At.X), Y: four(p.At.Y), Z: four(p.At.Z)}}
}

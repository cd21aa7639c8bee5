package threemf

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// model is a model being read.
type model struct {
	*xml.Decoder
	Model
	ids map[uint64]int // places of the objects
}

func decodeModel(text []byte) (Model, error) {
	d := xml.NewDecoder(bytes.NewReader(text))
	m := model{Decoder: d, ids: map[uint64]int{}}
	for {
		token, err := d.Token()
		if err != nil {
			return Model{}, m.at(err)
		}
		switch t := token.(type) {
		case xml.Directive:
			return Model{}, errors.New("it holds a document type; the format has none")
		case xml.StartElement:
			if err := m.readModel(t); err != nil {
				return Model{}, m.at(err)
			}
			return m.Model, nil
		}
	}
}

// at says in which line an error was met.
func (m *model) at(err error) error {
	line, _ := m.InputPos()
	return fmt.Errorf("line %d: %w", line, err)
}

func (m *model) readModel(start xml.StartElement) error {
	if start.Name.Local != "model" || start.Name.Space != coreSpace {
		return fmt.Errorf("%q in %q is no model of the core specification", start.Name.Local, start.Name.Space)
	}
	if unit := attribute(start, "unit"); unit != "" && unit != "millimeter" {
		return fmt.Errorf("the unit is %q; only millimeter is read", unit)
	}
	if more := attribute(start, "requiredextensions"); more != "" {
		return fmt.Errorf("it requires the extension %q; only the core is read", more)
	}
	err := m.core(func(start xml.StartElement) error {
		switch start.Name.Local {
		case "metadata":
			return m.readMetadata(start)
		case "resources":
			return m.core(func(start xml.StartElement) error {
				if start.Name.Local == "object" {
					return m.readObject(start)
				}
				return m.Skip()
			})
		case "build":
			return m.core(func(start xml.StartElement) error {
				if start.Name.Local == "item" {
					return m.readItem(start)
				}
				return m.Skip()
			})
		}
		return m.Skip()
	})
	if err == nil && (len(m.Objects) == 0 || len(m.Items) == 0) {
		err = fmt.Errorf("it holds %d objects and %d items", len(m.Objects), len(m.Items))
	}
	return err
}

// core calls a function for each child of the core's namespace.
func (m *model) core(child func(xml.StartElement) error) error {
	return children(m.Decoder, func(start xml.StartElement) error {
		if start.Name.Space != coreSpace {
			return m.Skip()
		}
		return child(start)
	})
}

func (m *model) readMetadata(start xml.StartElement) error {
	var text string
	if err := m.DecodeElement(&text, &start); err != nil {
		return err
	}
	switch attribute(start, "name") {
	case "Title":
		m.Title = text
	case "Application":
		m.Application = text
	case "CreationDate":
		m.Created = text
	}
	return nil
}

func (m *model) readObject(start xml.StartElement) error {
	id, err := strconv.ParseUint(attribute(start, "id"), 10, 31)
	if _, known := m.ids[id]; err != nil || id == 0 || known {
		return fmt.Errorf("an object's id is %q; it must be a whole number above 0 that no other has", attribute(start, "id"))
	}
	object := Object{Name: attribute(start, "name"), Number: attribute(start, "partnumber")}
	err = m.core(func(start xml.StartElement) error {
		switch start.Name.Local {
		case "mesh":
			object.Mesh, err = m.readMesh()
			return err
		case "components":
			return fmt.Errorf("object %d is put together of components; only meshes are read", id)
		}
		return m.Skip()
	})
	if err != nil {
		return err
	}
	if object.Mesh == nil {
		return fmt.Errorf("object %d has no mesh", id)
	}
	m.ids[id] = len(m.Objects)
	m.Objects = append(m.Objects, object)
	return nil
}

func (m *model) readMesh() (*mesh.Mesh, error) {
	out := &mesh.Mesh{}
	err := m.core(func(start xml.StartElement) error {
		switch start.Name.Local {
		case "vertices":
			return m.core(func(start xml.StartElement) error {
				var x [3]float64
				for k, name := range [3]string{"x", "y", "z"} {
					v, err := strconv.ParseFloat(attribute(start, name), 64)
					if err != nil {
						return fmt.Errorf("vertex %d: %s is %q, no number", len(out.Vertices), name, attribute(start, name))
					}
					x[k] = v
				}
				out.Vertices = append(out.Vertices, r3.Vec{X: x[0], Y: x[1], Z: x[2]})
				return m.Skip()
			})
		case "triangles":
			return m.core(func(start xml.StartElement) error {
				var t [3]int32
				for k, name := range [3]string{"v1", "v2", "v3"} {
					v, err := strconv.ParseInt(attribute(start, name), 10, 32)
					if err != nil || v < 0 || v >= int64(len(out.Vertices)) {
						return fmt.Errorf("triangle %d: %s is %q of %d vertices", len(out.Triangles), name, attribute(start, name), len(out.Vertices))
					}
					t[k] = int32(v)
				}
				if t[0] == t[1] || t[1] == t[2] || t[2] == t[0] {
					return fmt.Errorf("triangle %d names a vertex twice", len(out.Triangles))
				}
				out.Triangles = append(out.Triangles, t)
				return m.Skip()
			})
		}
		return m.Skip()
	})
	if err == nil {
		err = out.Check()
	}
	return out, err
}

func (m *model) readItem(start xml.StartElement) error {
	id, err := strconv.ParseUint(attribute(start, "objectid"), 10, 31)
	object, known := m.ids[id]
	if err != nil || !known {
		return fmt.Errorf("an item is of object %q, which is not there", attribute(start, "objectid"))
	}
	pose := mesh.Move(r3.Vec{})
	if text := attribute(start, "transform"); text != "" {
		words := strings.Fields(text)
		var x [12]float64
		if len(words) != len(x) {
			return fmt.Errorf("a transform has %d numbers, not 12", len(words))
		}
		for k, word := range words {
			v, err := strconv.ParseFloat(word, 64)
			if err != nil || !(math.Abs(v) <= mesh.Reach) {
				return fmt.Errorf("a transform holds %q; use finite numbers within reach", word)
			}
			x[k] = v
		}
		row := func(k int) r3.Vec { return r3.Vec{X: x[3*k], Y: x[3*k+1], Z: x[3*k+2]} }
		pose = mesh.Pose{X: row(0), Y: row(1), Z: row(2), At: row(3)}
	}
	m.Items = append(m.Items, Item{object, pose})
	return m.Skip()
}

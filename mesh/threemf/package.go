package threemf

import (
	"archive/zip"
	"bytes"
	"strconv"
	"strings"
	"time"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// The entries of a package, and what its parts and relationships are called.
const (
	typesName     = "[Content_Types].xml"
	relationsName = "_rels/.rels"
	modelName     = "3D/3dmodel.model"
	thumbnailName = "Metadata/thumbnail.png"

	head = `<?xml version="1.0" encoding="UTF-8"?>` + "\n"

	coreSpace     = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
	modelRelation = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"
	thumbRelation = "http://schemas.openxmlformats.org/package/2006/relationships/metadata/thumbnail"

	relationshipHead = head + `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` + "\n"
	relationshipTail = `</Relationships>` + "\n"

	contentTypes = head + `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
 <Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
 <Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>
 <Default Extension="png" ContentType="image/png"/>
</Types>
`
)

// archive puts a model and its thumbnail into a package.
func archive(model, thumbnail []byte) ([]byte, error) {
	relations := relationshipHead + relationship("model", modelName, modelRelation)
	if thumbnail != nil {
		relations += relationship("thumbnail", thumbnailName, thumbRelation)
	}
	relations += relationshipTail
	entries := []struct {
		name   string
		data   []byte
		method uint16
	}{
		{typesName, []byte(contentTypes), zip.Deflate},
		{relationsName, []byte(relations), zip.Deflate},
		{modelName, model, zip.Deflate},
		{thumbnailName, thumbnail, zip.Store}, // compressed as it is
	}
	if thumbnail == nil {
		entries = entries[:3]
	}
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, e := range entries {
		// the archive's first day: no clock
		w, err := z.CreateHeader(&zip.FileHeader{Name: e.name, Method: e.method, Modified: time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)})
		if err != nil {
			return nil, err
		}
		if _, err := w.Write(e.data); err != nil {
			return nil, err
		}
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func relationship(id, target, kind string) string {
	return ` <Relationship Id="` + id + `" Target="/` + target + `" Type="` + kind + `"/>` + "\n"
}

// print writes the model's XML, each object with its number of decimals.
func (m Model) print(b *bytes.Buffer, places []int) {
	b.WriteString(head + `<model unit="millimeter" xml:lang="en-US" xmlns="` + coreSpace + `">` + "\n")
	for _, t := range []struct{ name, text string }{{"Title", m.Title}, {"Application", m.Application}, {"CreationDate", m.Created}} {
		if t.text != "" {
			b.WriteString(` <metadata name="` + t.name + `">` + escaped(t.text) + "</metadata>\n")
		}
	}
	b.WriteString(" <resources>\n")
	for i, o := range m.Objects {
		b.WriteString(`  <object id="` + strconv.Itoa(i+1) + `" type="model" name="` + escaped(o.Name) + `"`)
		if o.Number != "" {
			b.WriteString(` partnumber="` + escaped(o.Number) + `"`)
		}
		b.WriteString(">\n")
		printMesh(b, o.Mesh, places[i])
		b.WriteString("  </object>\n")
	}
	b.WriteString(" </resources>\n <build>\n")
	for _, item := range m.Items {
		b.WriteString(`  <item objectid="` + strconv.Itoa(item.Object+1) + `"` + transform(item.Pose) + "/>\n")
	}
	b.WriteString(" </build>\n</model>\n")
}

func printMesh(b *bytes.Buffer, m *mesh.Mesh, places int) {
	b.WriteString("   <mesh>\n    <vertices>\n")
	var line []byte
	for _, v := range m.Vertices {
		line = append(line[:0], `     <vertex x="`...)
		line = decimal(line, v.X, places)
		line = append(line, `" y="`...)
		line = decimal(line, v.Y, places)
		line = append(line, `" z="`...)
		line = decimal(line, v.Z, places)
		b.Write(append(line, "\"/>\n"...))
	}
	b.WriteString("    </vertices>\n    <triangles>\n")
	for _, t := range m.Triangles {
		line = append(line[:0], `     <triangle v1="`...)
		line = strconv.AppendInt(line, int64(t[0]), 10)
		line = append(line, `" v2="`...)
		line = strconv.AppendInt(line, int64(t[1]), 10)
		line = append(line, `" v3="`...)
		line = strconv.AppendInt(line, int64(t[2]), 10)
		b.Write(append(line, "\"/>\n"...))
	}
	b.WriteString("    </triangles>\n   </mesh>\n")
}

// decimal appends a number with so many decimals, without noughts at its end.
func decimal(line []byte, x float64, places int) []byte {
	line = strconv.AppendFloat(line, x, 'f', places, 64)
	line = bytes.TrimRight(line, "0")
	return bytes.TrimSuffix(line, []byte("."))
}

// transform is a pose as an attribute: the images of the axes and of the
// origin, row by row (core specification, 3.3); nothing for a pose that leaves
// all in place.
func transform(p mesh.Pose) string {
	if p == mesh.Move(r3.Vec{}) {
		return ""
	}
	var line []byte
	for i, v := range [4]r3.Vec{p.X, p.Y, p.Z, p.At} {
		for _, x := range [3]float64{v.X, v.Y, v.Z} {
			if len(line) > 0 {
				line = append(line, ' ')
			}
			if i == 3 {
				line = decimal(line, x, fewest)
			} else {
				line = strconv.AppendFloat(line, x, 'g', -1, 64)
			}
		}
	}
	return ` transform="` + string(line) + `"`
}

// escaped is a text as an attribute or an element holds it. Some readers know
// the named references only.
func escaped(text string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;").Replace(text)
}

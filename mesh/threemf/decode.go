package threemf

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
)

// Limits bounds what Decode takes in.
type Limits struct {
	Bytes int64 // of the package; 0 means 64 MiB
	Model int64 // bytes of the model, unpacked, and of the thumbnail; 0 means 512 MiB
}

// Decode reads the core of a package: millimetres, objects that are meshes,
// and the items of its build. What the core does not know is passed over,
// unless the file says that it is required. An object in parts
// ("components"), an index without a vertex, a triangle that names a vertex
// twice, coordinates that are not finite or beyond mesh.Reach, and anything
// larger than the limits, are errors. No size in the file is trusted.
func Decode(r io.Reader, limits Limits) (Model, error) {
	m, err := decode(r, limits)
	if err != nil {
		return Model{}, fmt.Errorf("read 3mf: %w", err)
	}
	return m, nil
}

func decode(r io.Reader, limits Limits) (Model, error) {
	if limits.Bytes <= 0 {
		limits.Bytes = 64 << 20
	}
	if limits.Model <= 0 {
		limits.Model = 512 << 20
	}
	data, err := readAll(r, limits.Bytes)
	if err != nil {
		return Model{}, err
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return Model{}, err
	}
	relations, err := entry(z, relationsName, limits.Model)
	if err != nil {
		return Model{}, err
	}
	model, thumbnail, err := targets(relations)
	if err != nil {
		return Model{}, err
	}
	text, err := entry(z, model, limits.Model)
	if err != nil {
		return Model{}, err
	}
	out, err := decodeModel(text)
	if err != nil {
		return Model{}, fmt.Errorf("%s: %w", model, err)
	}
	if thumbnail != "" {
		if out.Thumbnail, err = entry(z, thumbnail, limits.Model); err != nil {
			return Model{}, err
		}
	}
	return out, nil
}

func readAll(r io.Reader, limit int64) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, min(limit, math.MaxInt64-1)+1))
	if err == nil && int64(len(data)) > limit {
		err = fmt.Errorf("more than %d bytes; use a smaller file or a higher limit", limit)
	}
	return data, err
}

// entry unpacks an entry of the archive.
func entry(z *zip.Reader, name string, limit int64) ([]byte, error) {
	for _, f := range z.File {
		if f.Name != name {
			continue
		}
		r, err := f.Open()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		data, err := readAll(r, limit)
		if err = errors.Join(err, r.Close()); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		return data, nil
	}
	return nil, fmt.Errorf("there is no %q in the package", name)
}

// targets returns the entries that hold the model and the thumbnail.
func targets(relations []byte) (model, thumbnail string, err error) {
	d := xml.NewDecoder(bytes.NewReader(relations))
	err = root(d, "Relationships", func(start xml.StartElement) error {
		if target := strings.TrimPrefix(attribute(start, "Target"), "/"); start.Name.Local == "Relationship" {
			switch attribute(start, "Type") {
			case modelRelation:
				model = target
			case thumbRelation:
				thumbnail = target
			}
		}
		return d.Skip()
	})
	if err == nil && model == "" {
		err = errors.New("it names no model")
	}
	if err != nil {
		return "", "", fmt.Errorf("%s: %w", relationsName, err)
	}
	return model, thumbnail, nil
}

// root calls a function for each child of the first element. The function
// reads the child to its end.
func root(d *xml.Decoder, name string, child func(xml.StartElement) error) error {
	for {
		token, err := d.Token()
		if err != nil {
			return err
		}
		switch t := token.(type) {
		case xml.Directive:
			return errors.New("it holds a document type; the format has none")
		case xml.StartElement:
			if t.Name.Local != name {
				return fmt.Errorf("it begins with %q, not %q", t.Name.Local, name)
			}
			return children(d, child)
		}
	}
}

func children(d *xml.Decoder, child func(xml.StartElement) error) error {
	for {
		token, err := d.Token()
		if err != nil {
			return err
		}
		switch t := token.(type) {
		case xml.Directive:
			return errors.New("it holds a document type; the format has none")
		case xml.StartElement:
			if err := child(t); err != nil {
				return err
			}
		case xml.EndElement:
			return nil
		}
	}
}

func attribute(start xml.StartElement, name string) string {
	for _, a := range start.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value
		}
	}
	return ""
}

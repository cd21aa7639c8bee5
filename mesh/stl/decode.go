package stl

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// Limits bounds what Decode takes in.
type Limits struct {
	// Bytes is the largest file in bytes. 0 means 64 MiB, some 1.3 million
	// triangles.
	Bytes int64
}

// Decode reads binary or readable STL, in mm, and joins corners with equal
// coordinates. Normals and attributes are not used; triangles with two equal
// corners are left out. The count in the file is checked, never trusted: a
// file that is cut short or runs on is an error that says by how much, as are
// coordinates that are not finite or beyond mesh.Reach.
func Decode(r io.Reader, limits Limits) (*mesh.Mesh, error) {
	if limits.Bytes <= 0 {
		limits.Bytes = 64 << 20
	}
	data, err := io.ReadAll(io.LimitReader(r, min(limits.Bytes, math.MaxInt64-1)+1))
	if err != nil {
		return nil, fmt.Errorf("read stl: %w", err)
	}
	if int64(len(data)) > limits.Bytes {
		return nil, fmt.Errorf("read stl: more than %d bytes; use a smaller file or a higher limit", limits.Bytes)
	}
	var m *mesh.Mesh
	if readable(data) {
		m, err = decodeText(data)
	} else {
		m, err = decodeBinary(data)
	}
	if err == nil {
		err = m.Check()
	}
	if err != nil {
		return nil, fmt.Errorf("read stl: %w", err)
	}
	return m.Weld(), nil
}

// readable tells the two forms apart: a binary file has the size that its
// count demands, whatever its header says.
func readable(data []byte) bool {
	if !bytes.HasPrefix(bytes.TrimLeft(data, " \t\r\n"), []byte("solid")) {
		return false
	}
	return len(data) < prelude || int64(len(data)) != size(data)
}

// size returns the bytes that the count of a binary file demands.
func size(data []byte) int64 {
	return prelude + recordSize*int64(binary.LittleEndian.Uint32(data[headerSize:]))
}

func decodeBinary(data []byte) (*mesh.Mesh, error) {
	if len(data) < prelude {
		return nil, fmt.Errorf("the file ends after %d of %d bytes before the first triangle; fetch it again", len(data), prelude)
	}
	count, found := binary.LittleEndian.Uint32(data[headerSize:]), (len(data)-prelude)/recordSize
	switch want := size(data); {
	case int64(len(data)) < want:
		return nil, fmt.Errorf("the file ends after %d of %d triangles, %d bytes short; fetch it again", found, count, want-int64(len(data)))
	case int64(len(data)) > want:
		return nil, fmt.Errorf("%d bytes follow the last of %d triangles; the count or the file is wrong", int64(len(data))-want, count)
	}
	m := &mesh.Mesh{Vertices: make([]r3.Vec, 0, 3*found), Triangles: make([][3]int32, 0, found)}
	for record := data[prelude:]; len(record) > 0; record = record[recordSize:] {
		var x [9]float64
		for k := range x {
			x[k] = float64(math.Float32frombits(binary.LittleEndian.Uint32(record[12+4*k:])))
		}
		add(m, x)
	}
	return m, nil
}

// decodeText reads the readable form: "solid name", then for each triangle
// "facet normal x y z, outer loop, vertex x y z three times, endloop,
// endfacet", and "endsolid name". Line breaks count as spaces except behind
// solid and endsolid, whose names run to the end of the line.
func decodeText(data []byte) (*mesh.Mesh, error) {
	m := &mesh.Mesh{}
	var x []float64
	open, line := false, 0
	for text := range strings.Lines(string(data)) {
		line++
		words := strings.Fields(text)
		bad := func() error {
			return fmt.Errorf("line %d: %.40q is out of place; the file is damaged", line, strings.TrimSpace(text))
		}
		if len(words) == 0 {
			continue
		}
		switch words[0] {
		case "solid", "endsolid":
			if len(x) != 0 || open == (words[0] == "solid") {
				return nil, bad()
			}
			open = words[0] == "solid"
		case "facet", "outer", "endloop":
			if !open || (words[0] == "endloop") != (len(x) == 9) {
				return nil, bad()
			}
		case "endfacet":
			if len(x) != 9 {
				return nil, bad()
			}
			add(m, [9]float64(x))
			x = x[:0]
		case "vertex":
			if !open || len(words) != 4 || len(x) == 9 {
				return nil, bad()
			}
			for _, w := range words[1:] {
				v, err := strconv.ParseFloat(w, 32)
				if err != nil {
					return nil, bad()
				}
				x = append(x, v)
			}
		default:
			return nil, bad()
		}
	}
	if open {
		return nil, errors.New("the file ends without endsolid; fetch it again")
	}
	return m, nil
}

func add(m *mesh.Mesh, x [9]float64) {
	k := int32(len(m.Vertices))
	m.Vertices = append(m.Vertices, r3.Vec{X: x[0], Y: x[1], Z: x[2]}, r3.Vec{X: x[3], Y: x[4], Z: x[5]}, r3.Vec{X: x[6], Y: x[7], Z: x[8]})
	m.Triangles = append(m.Triangles, [3]int32{k, k + 1, k + 2})
}

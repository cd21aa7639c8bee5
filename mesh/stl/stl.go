// Package stl writes and reads triangle meshes as STL files, in millimetres.
//
// The format is that of the 3D Systems stereolithography interface
// specification (1989): an 80-byte header, a count, and 50 bytes a triangle,
// little-endian; or its readable form, which is read but not written.
package stl

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"io"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// Options steers Encode.
type Options struct {
	// Name of the part, kept in the header as far as its 80 bytes reach;
	// anything but printable ASCII becomes '?'.
	Name string
}

const (
	headerSize = 80
	recordSize = 50
	prelude    = headerSize + 4 // header and count
)

// Encode writes the mesh as binary STL: coordinates in mm rounded to float32,
// normals from (b-a)×(c-a) of the rounded corners, attributes 0. The header
// never starts with "solid", the mark of the readable form. Equal meshes give
// equal bytes. A mesh that is damaged, empty, or has a triangle without area
// after rounding is refused before anything is written; mesh.Gate returns
// meshes that pass.
func Encode(w io.Writer, m *mesh.Mesh, o Options) error {
	if err := m.Check(); err != nil {
		return fmt.Errorf("write stl: %w", err)
	}
	if len(m.Triangles) == 0 || uint64(len(m.Triangles)) > math.MaxUint32 {
		return fmt.Errorf("write stl: %d triangles; the format holds 1 to %d", len(m.Triangles), uint32(math.MaxUint32))
	}
	for i := range m.Triangles {
		if _, _, err := facet(m, i); err != nil {
			return fmt.Errorf("write stl: %w", err)
		}
	}
	out := bufio.NewWriter(w)
	head := header(o.Name)
	out.Write(head[:])
	out.Write(binary.LittleEndian.AppendUint32(nil, uint32(len(m.Triangles))))
	record := make([]byte, 0, recordSize)
	for i := range m.Triangles {
		corners, normal, err := facet(m, i)
		if err != nil {
			return fmt.Errorf("write stl: %w", err)
		}
		record = record[:0]
		for _, v := range [4]r3.Vec{normal, corners[0], corners[1], corners[2]} {
			for _, x := range [3]float64{v.X, v.Y, v.Z} {
				record = binary.LittleEndian.AppendUint32(record, math.Float32bits(float32(x)))
			}
		}
		out.Write(append(record, 0, 0))
	}
	if err := out.Flush(); err != nil { // of any of the writes
		return fmt.Errorf("write stl: %w", err)
	}
	return nil
}

func header(name string) [headerSize]byte {
	var h [headerSize]byte
	n := copy(h[:], "binary STL in mm ")
	for i := range len(name) {
		if n == headerSize {
			break
		}
		h[n] = name[i]
		if name[i] < ' ' || name[i] > '~' {
			h[n] = '?'
		}
		n++
	}
	return h
}

// facet returns a triangle's corners as the file holds them, and its unit
// normal.
func facet(m *mesh.Mesh, i int) (corners [3]r3.Vec, normal r3.Vec, err error) {
	for k, v := range m.Triangles[i] {
		corners[k] = rounded(m.Vertices[v])
	}
	a, b, c := corners[0], corners[1], corners[2]
	normal = r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
	n := r3.Norm(normal)
	if n == 0 || mesh.Collinear(a, b, c) {
		return corners, normal, fmt.Errorf("triangle %d at (%.6g, %.6g, %.6g) mm has no area in 32-bit coordinates; pass the mesh through the gate first", i, a.X, a.Y, a.Z)
	}
	return corners, r3.Scale(1/n, normal), nil
}

// rounded returns v in float32, without negative zeros.
func rounded(v r3.Vec) r3.Vec {
	return r3.Vec{X: float64(float32(v.X)) + 0, Y: float64(float32(v.Y)) + 0, Z: float64(float32(v.Z)) + 0}
}

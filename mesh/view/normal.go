package view

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// findRegions gathers the triangles of each plane, and tells a plane face from
// a facet of a curve: the face is much larger than its smooth neighbours.
func (b *builder) findRegions() {
	n := len(b.triangles)
	first := make([]int32, n+1)
	for _, d := range b.borders {
		if d.plane {
			first[d.left+1]++
			first[d.right+1]++
		}
	}
	for i := range n {
		first[i+1] += first[i]
	}
	next := make([]int32, first[n])
	fill := append([]int32(nil), first...)
	for _, d := range b.borders {
		if d.plane {
			next[fill[d.left]] = d.right
			next[fill[d.right]] = d.left
			fill[d.left]++
			fill[d.right]++
		}
	}
	b.region = make([]int32, n)
	for i := range b.region {
		b.region[i] = -1
	}
	var size []float64
	var stack []int32
	for seed := range int32(n) {
		if b.region[seed] >= 0 {
			continue
		}
		id, normal := int32(len(b.plane)), b.face[seed]
		var area float64
		var sum r3.Vec
		b.region[seed] = id
		stack = append(stack[:0], seed)
		for len(stack) > 0 {
			t := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			area += b.area[t]
			sum = r3.Add(sum, r3.Scale(b.area[t], b.face[t]))
			for _, o := range next[first[t]:first[t+1]] {
				if b.region[o] < 0 && r3.Dot(normal, b.face[o]) > planeCos {
					b.region[o] = id
					stack = append(stack, o)
				}
			}
		}
		b.plane = append(b.plane, r3.Unit(sum))
		size = append(size, area)
	}
	b.findFlat(size)
}

// findFlat marks the flat regions and breaks the smoothness between two wide
// faces that no curve joins.
func (b *builder) findFlat(size []float64) {
	const larger, least = 6, 2 // times its neighbours; mm²
	around, length := make([]float64, len(size)), make([]float64, len(size))
	for i := range b.borders {
		d := &b.borders[i]
		l, r := b.region[d.left], b.region[d.right]
		if l == r || !d.smooth {
			continue
		}
		t := &b.triangles[d.left].point
		e := r3.Norm(r3.Sub(b.points[t[d.leftAt]], b.points[t[(d.leftAt+1)%3]]))
		wide := 2 * min(b.area[d.left], b.area[d.right]) / max(e, 1e-9)
		if wide*math.Acos(min(d.cos, 1))/8 > curveSagitta {
			d.smooth = false
			continue
		}
		around[l] += e * size[r]
		around[r] += e * size[l]
		length[l] += e
		length[r] += e
	}
	b.flat = make([]bool, len(size))
	for i := range size {
		b.flat[i] = length[i] == 0 || size[i] > least && size[i]*length[i] > larger*around[i]
	}
}

// findNormals gives every corner its normal: that of its plane in a flat
// region or beside one, elsewhere the mean over the smooth fan weighted by the
// angle at the corner.
func (b *builder) findNormals() {
	parent := make([]int32, 3*len(b.triangles))
	for i := range parent {
		parent[i] = int32(i)
	}
	root := func(i int32) int32 {
		for parent[i] != i {
			parent[i] = parent[parent[i]]
			i = parent[i]
		}
		return i
	}
	for _, d := range b.borders {
		if !d.smooth {
			continue
		}
		l, r := 3*d.left, 3*d.right
		la, lb := l+int32(d.leftAt), l+int32(d.leftAt+1)%3
		ra, rb := r+int32(d.rightAt+1)%3, r+int32(d.rightAt)
		parent[root(la)] = root(ra)
		parent[root(lb)] = root(rb)
	}
	const none, several = -1, -2
	fan := make([]int32, len(parent)) // number of the fan at its root, then its normal
	for i := range fan {
		fan[i] = none
	}
	var sum []r3.Vec
	var plane []int32 // the flat region in each fan
	for i := range int32(len(parent)) {
		k := root(i)
		if fan[k] < 0 {
			fan[k] = int32(len(sum))
			sum = append(sum, r3.Vec{})
			plane = append(plane, none)
		}
		f := fan[k]
		if g := b.region[i/3]; b.flat[g] {
			switch plane[f] {
			case none, g:
				plane[f] = g
			default:
				plane[f] = several
			}
		}
		sum[f] = r3.Add(sum[f], r3.Scale(b.angle(i), b.face[i/3]))
	}
	b.normals = append(b.normals, b.plane...)
	for f := range sum {
		n := sum[f]
		if plane[f] >= 0 {
			n = b.plane[plane[f]]
		}
		if size := r3.Norm(n); size > 1e-12 {
			n = r3.Scale(1/size, n)
		}
		b.normals = append(b.normals, n)
	}
	for t := range b.triangles {
		g := b.region[t]
		for k := range int32(3) {
			if b.flat[g] {
				b.triangles[t].normal[k] = g
			} else {
				b.triangles[t].normal[k] = int32(len(b.plane)) + fan[root(int32(3*t)+k)]
			}
		}
	}
}

// angle returns the angle in radians at a corner.
func (b *builder) angle(corner int32) float64 {
	t, k := &b.triangles[corner/3].point, corner%3
	p := b.points[t[k]]
	u, v := r3.Sub(b.points[t[(k+1)%3]], p), r3.Sub(b.points[t[(k+2)%3]], p)
	return math.Atan2(r3.Norm(r3.Cross(u, v)), r3.Dot(u, v))
}

package frame

import (
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/mat"
)

// krylov finds the largest eigenvalues of an operator that is self-adjoint in an inner product, by
// a band Lanczos process with full reorthogonalisation: as block Lanczos, but the block grows and
// shrinks vector by vector, so that multiple eigenvalues up to the band's width come out together.
// Source: Golub & Van Loan, Matrix Computations, 4th ed., section 10.3 (block Lanczos).
type krylov struct {
	inner func(w, v []float64)    // w = B v
	apply func(u, v, w []float64) // u = A v, where w = B v is known

	// settle is how well the vectors are to satisfy the eigenvalue equation; 0 means 1e-8. The values are good to the square of it.
	settle float64

	n    int
	v, w []float64   // rows: the basis, orthonormal in B, and B × basis
	h    [][]float64 // h[j][i] is the part of A v[j] along v[i]
	seed uint64
	part []float64 // room for the parts of one vector
}

const band = 3

// eigenpair is an eigenvalue with its vector, unit in the inner product.
type eigenpair struct {
	value  float64
	vector []float64
}

var errNotConverged = errors.New("eigenvalues did not settle; the stiffnesses of the model differ too widely")

// largest returns the want largest eigenpairs, largest first, or all there are; the last of several is
// rough, to tell where the next one lies. A second call carries on from the first with a fresh start vector.
func (k *krylov) largest(want int) ([]eigenpair, error) {
	first := min(k.n, max(len(k.h)+3, 2*want+4))
	if len(k.h) == 0 {
		k.v, k.w = slices.Grow(k.v, (first+band+8)*k.n), slices.Grow(k.w, (first+band+8)*k.n)
		for range band - k.size() {
			k.start()
		}
	} else {
		k.start()
	}
	for next := first; ; {
		for len(k.h) < next && (len(k.h) < k.size() || k.start()) {
			k.step()
		}
		exhausted := len(k.h) == k.size() && !k.start()
		pairs, settled, err := k.ritz(want)
		if err != nil {
			return nil, err
		}
		if settled || exhausted {
			return pairs, nil
		}
		if len(k.h) >= k.n {
			return nil, errNotConverged
		}
		next = min(k.n, len(k.h)+max(4, want/2))
	}
}

// size returns the number of vectors in the basis.
func (k *krylov) size() int { return len(k.v) / k.n }

// row returns vector i of a basis.
func (k *krylov) row(basis []float64, i int) []float64 { return basis[i*k.n : (i+1)*k.n] }

// next opens a vector after the basis, in v and in w.
func (k *krylov) next() (u, w []float64) {
	i := k.size()
	k.v, k.w = slices.Grow(k.v, k.n)[:(i+1)*k.n], slices.Grow(k.w, k.n)[:(i+1)*k.n]
	return k.row(k.v, i), k.row(k.w, i)
}

// with adds a vector to the basis, of the band that the process starts from.
func (k *krylov) with(x []float64) {
	if k.size() < min(band, k.n) {
		u, w := k.next()
		copy(u, x)
		k.take(u, w)
	}
}

// start adds a random vector to the basis and reports whether there was room for one.
func (k *krylov) start() bool {
	if k.size() >= k.n {
		return false
	}
	random, mass := make([]float64, k.n), make([]float64, k.n)
	for i := range random {
		k.seed = k.seed*6364136223846793005 + 1442695040888963407
		random[i] = float64(int64(k.seed)>>11) / (1 << 52)
	}
	// Through the operator once: smooth, and clear of what the operator annihilates.
	k.inner(mass, random)
	u, w := k.next()
	k.apply(u, random, mass)
	_, rest := k.take(u, w)
	return rest > 0
}

// step applies the operator to the next vector of the basis and adds what is new in the result.
func (k *krylov) step() {
	j := len(k.h)
	u, w := k.next()
	k.apply(u, k.row(k.v, j), k.row(k.w, j))
	parts, rest := k.take(u, w)
	h := make([]float64, len(parts), len(parts)+1)
	copy(h, parts)
	if rest > 0 {
		h = append(h, rest)
	}
	k.h = append(k.h, h)
}

// take makes the last vector u orthonormal to those before it and sets w. It returns the parts of u
// along those, and the length of what was new; where nothing was, 0, and the vector is gone.
func (k *krylov) take(u, w []float64) (parts []float64, rest float64) {
	m := k.size() - 1
	if cap(k.part) < 2*m {
		k.part = make([]float64, 4*m+8)
	}
	parts, again := k.part[:m], k.part[m:2*m]
	clear(parts)
	if m > 0 {
		V := blas64.General{Rows: m, Cols: k.n, Stride: k.n, Data: k.v}
		W := blas64.General{Rows: m, Cols: k.n, Stride: k.n, Data: k.w}
		x, y := blas64.Vector{N: k.n, Inc: 1, Data: u}, blas64.Vector{N: m, Inc: 1, Data: again}
		for range 2 { // twice is enough (Kahan)
			blas64.Gemv(blas.NoTrans, 1, W, x, 0, y)
			blas64.Gemv(blas.Trans, -1, V, y, 1, x)
			axpy(parts, 1, again)
		}
	}
	k.inner(w, u)
	square := math.Max(dot(u, w), 0)
	rest = math.Sqrt(square)
	if whole := math.Sqrt(square + dot(parts, parts)); !(rest > 1e-11*whole) {
		k.v, k.w = k.v[:m*k.n], k.w[:m*k.n]
		return parts, 0
	}
	scale(u, 1/rest)
	scale(w, 1/rest)
	return parts, rest
}

// ritz returns the eigenpairs of the operator on the part of the basis it was applied to, and
// whether the first want of them have settled, the last of several only roughly.
func (k *krylov) ritz(want int) (pairs []eigenpair, settled bool, err error) {
	m := len(k.h)
	sym := mat.NewSymDense(m, nil)
	for j, h := range k.h {
		for i := 0; i <= min(j, len(h)-1); i++ {
			sym.SetSym(i, j, h[i])
		}
	}
	var eig mat.EigenSym
	if !eig.Factorize(sym, true) {
		return nil, false, errNotConverged
	}
	var s mat.Dense
	eig.VectorsTo(&s)
	values := eig.Values(nil)
	settled = m >= want
	for p := range min(want, m) {
		col := m - 1 - p
		var miss float64
		for i := m; i < k.size(); i++ {
			var out float64
			for j := range m {
				if i < len(k.h[j]) {
					out += k.h[j][i] * s.At(j, col)
				}
			}
			miss += out * out
		}
		settle := k.settle
		if settle == 0 {
			settle = 1e-8
		}
		if p > 0 && p == want-1 {
			settle = 1e-3
		}
		if math.Sqrt(miss) > settle*math.Abs(values[col]) {
			return nil, false, nil
		}
	}
	for p := range min(want, m) {
		col := m - 1 - p
		x := make([]float64, k.n)
		for j := range m {
			axpy(x, s.At(j, col), k.row(k.v, j))
		}
		pairs = append(pairs, eigenpair{values[col], x})
	}
	return pairs, settled, nil
}

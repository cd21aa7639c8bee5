package bench

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Plane is what a linear regression on several columns gives.
type Plane struct {
	Terms    []float64 `json:"terms"`    // one a column
	Errors   []float64 `json:"errors"`   // their standard errors
	Residual float64   `json:"residual"` // standard deviation about the plane, in y's unit
	Freedom  int       `json:"freedom"`  // rows without columns
}

// FitPlane returns the factors of the columns that come nearest to y by least squares, by orthogonal triangles on columns
// brought to one length. A constant is a column of ones. There must be more rows than columns; columns that are sums of others
// are refused. Source: Golub & Van Loan, Matrix Computations, 4th edition, section 5.3.
func FitPlane(columns [][]float64, y []float64) (Plane, error) {
	n, k := len(y), len(columns)
	if n <= k {
		return Plane{}, refuse("take more", "%d rows cannot settle %d values", n, k)
	}
	if err := finite("y", y...); err != nil {
		return Plane{}, err
	}
	a, length := mat.NewDense(n, k, nil), make([]float64, k)
	for j, c := range columns {
		if len(c) != n {
			panic("bench: columns of different lengths")
		}
		if err := finite("x", c...); err != nil {
			return Plane{}, err
		}
		length[j] = mat.Norm(mat.NewVecDense(n, c), 2)
		if length[j] == 0 {
			length[j] = 1
		}
		for i, v := range c {
			a.Set(i, j, v/length[j])
		}
	}
	var qr mat.QR
	qr.Factorize(a)
	if c := qr.Cond(); !(c < 1e12) {
		return Plane{}, refuse("vary them on their own", "two of the %d columns rise and fall together", k)
	}
	var x mat.VecDense
	if err := qr.SolveVecTo(&x, false, mat.NewVecDense(n, y)); err != nil {
		return Plane{}, refuse("vary them on their own", "the %d columns cannot be told apart", k)
	}
	var rest mat.VecDense
	rest.MulVec(a, &x)
	rest.SubVec(mat.NewVecDense(n, y), &rest)
	p := Plane{Residual: mat.Norm(&rest, 2) / math.Sqrt(float64(n-k)), Freedom: n - k}
	var r, inverse mat.Dense
	qr.RTo(&r)
	if err := inverse.Inverse(r.Slice(0, k, 0, k)); err != nil {
		return Plane{}, refuse("vary them on their own", "the %d columns cannot be told apart", k)
	}
	for j := range k {
		row := mat.NewVecDense(k, mat.Row(nil, j, &inverse))
		p.Terms = append(p.Terms, x.AtVec(j)/length[j])
		p.Errors = append(p.Errors, p.Residual*mat.Norm(row, 2)/length[j])
	}
	return p, nil
}

// Estimate returns a term with its confidence.
func (p Plane) Estimate(term int) Estimate {
	return Around(p.Terms[term], Student(p.Freedom)*p.Errors[term])
}

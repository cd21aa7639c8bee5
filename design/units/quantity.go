// Package units holds the quantities a design is written in.
//
// Every quantity is a float64 in the unit a design file holds (a [Length] in
// millimetres, a [Mass] in grams). A number enters by a constructor and leaves
// by a method, both named after a unit:
//
//	units.Millimetres(92).Metres() // 0.092
//
// A [Kind] describes one sort of quantity (its name, its file unit, the units
// one may type), so that documents and forms can treat any quantity alike.
package units

// Quantity is any of the quantity types of this package.
type Quantity interface {
	~float64
	Kind() Kind
	String() string
}

// Parse reads a quantity as a person types it; see [Kind.Parse].
func Parse[Q Quantity](text string) (Q, error) {
	var q Q
	value, err := q.Kind().Parse(text)
	return Q(value), err
}

// unmarshal sets *q from text and leaves it alone on an error.
func unmarshal[Q Quantity](q *Q, text []byte) error {
	parsed, err := Parse[Q](string(text))
	if err != nil {
		return err
	}
	*q = parsed
	return nil
}

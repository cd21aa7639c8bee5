package bench

import (
	"fmt"
	"math"
)

// Refusal is the error for measurements that cannot answer.
type Refusal struct {
	Text   string `json:"text"`   // what is wrong, a clause that names place and value
	Remedy string `json:"remedy"` // what to do, an imperative clause
}

// Error is "what is wrong; what to do".
func (r Refusal) Error() string {
	if r.Remedy == "" {
		return r.Text
	}
	return r.Text + "; " + r.Remedy
}

// refuse makes a Refusal of a remedy and a formatted text.
func refuse(remedy, format string, a ...any) error {
	return Refusal{Text: fmt.Sprintf(format, a...), Remedy: remedy}
}

// finite refuses a column that holds NaN or infinity, naming the row from 1.
func finite(what string, values ...float64) error {
	for i, v := range values {
		if !isNumber(v) {
			return refuse("leave that row out or write the number again", "%s of row %d is no number", what, i+1)
		}
	}
	return nil
}

// numbers refuses values of one named thing that hold NaN or infinity.
func numbers(of string, values ...float64) error {
	for _, v := range values {
		if !isNumber(v) {
			return refuse("write it again", "%s: a value is no number", of)
		}
	}
	return nil
}

func isNumber(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

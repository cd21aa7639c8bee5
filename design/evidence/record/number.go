package record

import (
	"bytes"
	"math"
	"strconv"
)

// number reads a field; a comma is a decimal comma when it stands alone.
func number(field []byte, decimalComma bool) (float64, bool) {
	if decimalComma {
		if i := bytes.IndexByte(field, ','); i >= 0 && bytes.IndexByte(field, '.') < 0 {
			var room [64]byte
			if len(field) > len(room) {
				return 0, false
			}
			field = room[:copy(room[:], field)]
			field[i] = '.'
		}
	}
	v, err := strconv.ParseFloat(string(field), 64)
	if err != nil && !math.IsInf(v, 0) { // out of range reads as infinite and is told as that
		return 0, false
	}
	return v, true
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

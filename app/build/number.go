package build

import (
	"math"
	"strconv"
	"strings"
)

// Figure writes a value with its unit as a builder reads it, in three digits and no finer than a ten-thousandth: "84.2 mm",
// "16.1°", "1250 N".
func Figure(value float64, unit string) string {
	text := Digits(math.Round(value*1e4)/1e4, 3)
	switch {
	case unit == "":
		return text
	case strings.HasPrefix(unit, "°"):
		return text + unit
	}
	return text + " " + unit
}

// Digits writes a value in so many digits, without an exponent where it can be read, and without noughts at the end of a fraction;
// "-" for one that is not finite.
func Digits(value float64, n int) string {
	switch {
	case value == 0:
		return "0"
	case math.IsNaN(value) || math.IsInf(value, 0):
		return "-"
	}
	value = Rounded(value, n)
	text := strconv.FormatFloat(value, 'f', -1, 64)
	if math.Abs(value) < 1e-6 || math.Abs(value) >= 1e9 {
		text = strconv.FormatFloat(value, 'g', -1, 64)
	}
	return text
}

// Rounded is the nearest value of so many significant digits.
func Rounded(value float64, n int) float64 {
	near, err := strconv.ParseFloat(strconv.FormatFloat(value, 'e', n-1, 64), 64)
	if err != nil {
		return value
	}
	return near + 0 // a negative nought becomes a plain one
}

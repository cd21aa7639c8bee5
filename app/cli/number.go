package cli

import (
	"math"
	"strconv"
	"strings"
)

// figure writes a value with its unit as a builder reads it, in three digits and no finer than a ten-thousandth: "84.2 mm",
// "16.1°", "1250 N".
func figure(value float64, unit string) string {
	text := digits(math.Round(value*1e4)/1e4, 3)
	switch {
	case unit == "":
		return text
	case strings.HasPrefix(unit, "°"):
		return text + unit
	}
	return text + " " + unit
}

// digits writes a value in so many digits, without an exponent where it can be read, and without noughts at the end of a fraction;
// "-" for one that is not finite.
func digits(value float64, n int) string {
	switch {
	case value == 0:
		return "0"
	case math.IsNaN(value) || math.IsInf(value, 0):
		return "-"
	}
	value = rounded(value, n)
	text := strconv.FormatFloat(value, 'f', -1, 64)
	if math.Abs(value) < 1e-6 || math.Abs(value) >= 1e9 {
		text = strconv.FormatFloat(value, 'g', -1, 64)
	}
	return text
}

// rounded is the nearest value of so many significant digits.
func rounded(value float64, n int) float64 {
	near, err := strconv.ParseFloat(strconv.FormatFloat(value, 'e', n-1, 64), 64)
	if err != nil {
		return value
	}
	return near + 0 // a negative nought becomes a plain one
}

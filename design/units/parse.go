package units

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"
	"unicode/utf8"
)

// minusSign is U+2212.
const minusSign = "\u2212"

// longestText bounds what Parse looks at, in bytes.
const longestText = 80

// Sizes outside these bounds, in the file unit, are typing errors in every kind.
const (
	smallestSize = 1e-18
	largestSize  = 1e18
)

// Parse reads a number and a unit as a person types them and returns the value
// in the file unit, correctly rounded. A bare number is in the file unit. Both
// "." and "," are decimal marks; a comma before exactly three digits, which
// may mean thousands, is refused. "3e-6" and "3×10⁻⁶" are powers of ten; µ, °,
// Ω, ², ·, × and the minus sign − may be typed. An error names the kind, the
// text and the remedy.
func (k Kind) Parse(text string) (float64, error) {
	if k == 0 || k > CountKind {
		return 0, fmt.Errorf("%q has no kind of quantity to be read as", text)
	}
	if len(text) > longestText || !utf8.ValidString(text) {
		return 0, fmt.Errorf("%s %.20q… is not a number; write one like %q", k.Name(), text, k.sample())
	}
	value, err := k.parse(text)
	if err != nil {
		return 0, fmt.Errorf("%s %w", k.Name(), err)
	}
	return value, nil
}

func (k Kind) parse(text string) (float64, error) {
	number, rest, err := k.scan(text)
	if err != nil {
		return 0, err
	}
	u, err := k.unit(text, rest)
	if err != nil {
		return 0, err
	}
	typed, ok := new(big.Rat).SetString(number)
	if !ok {
		return 0, k.notANumber(text)
	}
	exact := u.inFileUnit(typed)
	value, _ := exact.Float64()
	if size := math.Abs(value); exact.Sign() != 0 && !(size >= smallestSize && size <= largestSize) {
		return 0, fmt.Errorf("%q is beyond any sensible size; check the exponent", text)
	}
	if k.entry().whole && !exact.IsInt() {
		return 0, fmt.Errorf("%q is not a whole number; write one like %q", text, k.Format(math.Round(value)))
	}
	return value, nil
}

// scan splits text into a plain decimal for big.Rat and the unit behind it.
func (k Kind) scan(text string) (number, rest string, err error) {
	s := strings.TrimSpace(strings.ReplaceAll(text, minusSign, "-"))
	if s == "" {
		return "", "", fmt.Errorf("is empty; write a number like %q", k.sample())
	}
	sign, s := cutSign(s)
	whole, s := cutDigits(s)
	mark, part := "", ""
	if strings.HasPrefix(s, ".") || strings.HasPrefix(s, ",") {
		mark = s[:1]
		part, s = cutDigits(s[1:])
	}
	if whole+part == "" {
		return "", "", k.notANumber(text)
	}
	exponent, s := cutExponent(s)
	rest = strings.TrimSpace(s)

	switch {
	case len(whole) > 1 && whole[0] == '0':
		return "", "", fmt.Errorf("%q begins with a spare zero; write %s", text, sign+withoutZeros(whole, mark, part))
	case strings.HasPrefix(s, "_"):
		return "", "", fmt.Errorf("%q has an underscore; write the digits without one", text)
	case whole == "0" && mark == "" && (strings.HasPrefix(s, "x") || strings.HasPrefix(s, "X")):
		return "", "", fmt.Errorf("%q looks hexadecimal; write a decimal number", text)
	case strings.HasPrefix(s, ".") || strings.HasPrefix(s, ","):
		return "", "", fmt.Errorf("%q has more than one mark; write the digits together with one decimal mark, like 1234.5", text)
	case rest != "" && strings.ContainsAny(rest[:1], "0123456789+-.,"):
		return "", "", fmt.Errorf("%q holds two numbers; write one, its digits together", text)
	case mark == "," && len(part) == 3 && len(whole) >= 1 && len(whole) <= 3 && whole != "0":
		return "", "", fmt.Errorf("%q can be read two ways; write %s or %s", text, sign+whole+part, sign+withoutZeros(whole, ".", part))
	case len(strings.TrimLeft(exponent, "+-")) > 2:
		return "", "", fmt.Errorf("%q is beyond any sensible size; check the exponent", text)
	}
	number = sign + "0" + whole + "." + part + "0"
	if exponent != "" {
		number += "e" + exponent
	}
	return number, rest, nil
}

// sample is a text Parse would read.
func (k Kind) sample() string {
	if k.entry().whole {
		return k.Format(4)
	}
	return k.Format(12.5)
}

func (k Kind) notANumber(text string) error {
	return fmt.Errorf("%q is not a number; write one like %q", text, k.sample())
}

// unit finds the unit a text ends in.
func (k Kind) unit(text, typed string) (unit, error) {
	units := k.entry().units
	if typed == "" {
		return units[0], nil
	}
	key := unitKey(typed)
	for _, u := range units {
		if u.symbol != "" && unitKey(u.symbol) == key || slices.Contains(u.also, key) {
			return u, nil
		}
	}
	allowed := k.Units()
	if len(allowed) == 0 {
		return unit{}, fmt.Errorf("%q has a unit %q; write a bare number", text, typed)
	}
	return unit{}, fmt.Errorf("%q has an unknown unit %q; write it in %s", text, typed, orList(allowed))
}

// unitKey folds the ways one unit may be typed into one spelling.
func unitKey(typed string) string {
	folded := strings.Join(strings.Fields(asciiUnit.Replace(typed)), "·")
	return strings.NewReplacer("·*·", "·", "*", "·", "·/·", "/").Replace(folded)
}

// asciiUnit knows both micro signs (U+00B5, U+03BC), both ohms (U+03A9,
// U+2126) and three multiplication signs (U+00D7, U+00B7, U+22C5).
var asciiUnit = strings.NewReplacer(
	"\u00b5", "u", "\u03bc", "u", "\u03a9", "ohm", "\u2126", "ohm", "°", "deg", "℃", "degC", "℉", "degF",
	"²", "2", "³", "3", "^2", "2", "^3", "3", "\u00d7", "*", "\u00b7", "*", "\u22c5", "*",
)

func orList(words []string) string {
	if len(words) == 1 {
		return words[0]
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

func cutSign(s string) (sign, rest string) {
	if s != "" && (s[0] == '-' || s[0] == '+') {
		return s[:1], s[1:]
	}
	return "", s
}

func cutDigits(s string) (digits, rest string) {
	end := strings.IndexFunc(s, func(r rune) bool { return r < '0' || r > '9' })
	if end < 0 {
		end = len(s)
	}
	return s[:end], s[end:]
}

// cutExponent takes "e-6", "×10^-6" or "×10⁻⁶" off the front; without digits it takes nothing.
func cutExponent(s string) (exponent, rest string) {
	after, plain := strings.CutPrefix(strings.TrimSpace(s), "×")
	if plain {
		after, plain = strings.CutPrefix(strings.TrimSpace(after), "10")
		raised := strings.TrimLeft(after, "⁻⁺⁰¹²³⁴⁵⁶⁷⁸⁹")
		if power, ok := strings.CutPrefix(after, "^"); ok {
			after = power
		} else if after = superscript.Replace(after[:len(after)-len(raised)]) + raised; len(raised) == len(after) {
			plain = false
		}
	} else if s != "" && (s[0] == 'e' || s[0] == 'E') {
		after, plain = s[1:], true
	}
	sign, after := cutSign(after)
	digits, after := cutDigits(after)
	if !plain || digits == "" {
		return "", s
	}
	return sign + digits, after
}

var superscript = strings.NewReplacer("⁻", "-", "⁺", "+", "⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4",
	"⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9")

// withoutZeros writes digits as a decimal a person would, "1.0" for 1,000.
func withoutZeros(whole, mark, part string) string {
	whole = strings.TrimLeft(whole, "0")
	if whole == "" {
		whole = "0"
	}
	if mark == "" {
		return whole
	}
	part = strings.TrimRight(part, "0")
	if part == "" {
		part = "0"
	}
	return whole + "." + part
}

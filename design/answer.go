package design

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"mastwright/design/units"
)

// Check reports why a text is no answer to the field, or nil. The error begins with the text and ends with the remedy.
func (f Field) Check(text string) error {
	_, err := f.parse(text)
	return err
}

// parse reads an answer: a float64 in the kind's file unit, an int, a string or a bool.
func (f Field) parse(text string) (any, error) {
	if !utf8.ValidString(text) {
		return nil, errors.New("the text is not UTF-8; type it anew")
	}
	switch f.Form {
	case Quantity:
		return f.parseQuantity(text)
	case Count:
		return f.parseCount(text)
	case Flag:
		switch text {
		case "true", "false":
			return text == "true", nil
		}
		return nil, fmt.Errorf("%q is neither true nor false; write one of the two", brief(text))
	case Choice:
		if slices.Contains(f.Choices, text) {
			return text, nil
		}
		return nil, fmt.Errorf("%q is not a choice; %s", brief(text), oneOf(text, f.Choices))
	case Text:
		return f.parseText(text)
	}
	return nil, fmt.Errorf("%q stands where a list belongs; write its entries below it, each after a dash", brief(text))
}

func (f Field) parseQuantity(text string) (any, error) {
	if word := strings.ToLower(strings.Trim(text, " .+-")); word == "nan" || word == "inf" || word == "infinity" {
		return nil, fmt.Errorf("%q is not a finite number; write one like %q", text, f.sample())
	}
	typed := text
	if f.Unit != "" && bare(text) {
		typed = text + " " + f.Unit
	}
	value, err := f.Kind.Parse(typed)
	if err != nil {
		return nil, errors.New(strings.TrimPrefix(err.Error(), f.Kind.Name()+" "))
	}
	if value < f.Low || value > f.High {
		return nil, errors.New(f.outside(text, value))
	}
	return value + 0, nil
}

func (f Field) parseCount(text string) (any, error) {
	value, err := units.CountKind.Parse(text)
	if err != nil {
		return nil, errors.New(strings.TrimPrefix(err.Error(), "count "))
	}
	if value < f.Low || value > f.High {
		return nil, fmt.Errorf("%s is outside %v to %v; write a whole number between", units.CountKind.Format(value), f.Low, f.High)
	}
	return int(value), nil
}

func (f Field) parseText(text string) (any, error) {
	runes := float64(utf8.RuneCountInString(text))
	switch {
	case strings.TrimSpace(text) == "":
		return nil, errors.New("the text is empty; write something or leave the line out")
	case runes < f.Low:
		return nil, fmt.Errorf("%q is short; write at least %v letters", text, f.Low)
	case runes > f.High:
		return nil, fmt.Errorf("%q has %v letters; write at most %v", brief(text), runes, f.High)
	case strings.IndexFunc(text, func(r rune) bool { return !unicode.IsGraphic(r) }) >= 0:
		return nil, fmt.Errorf("%q holds a line break or an invisible character; write plain text on one line", brief(text))
	}
	return text, nil
}

// outside words a number beyond the range, with the likely slip.
func (f Field) outside(typed string, value float64) string {
	shown := f.format(value)
	if spoken := strings.TrimSpace(typed); !bare(spoken) && strings.ReplaceAll(spoken, " ", "") != strings.ReplaceAll(shown, " ", "") {
		shown = spoken + " (" + shown + ")"
	}
	low := strings.TrimSuffix(f.format(f.Low), " "+f.unit())
	said := fmt.Sprintf("%s is outside %s to %s.", shown, low, f.format(f.High))
	if likely, ok := f.likely(value); ok {
		return said + " Did you mean " + likely + "?"
	}
	return said + " Write a value between."
}

// likely is what was probably meant by a number out of range: a mark slipped, a unit mixed up, or a sign.
func (f Field) likely(value float64) (string, bool) {
	if f.Low == -180 && value > 180 && value <= 360 {
		return f.format(value - 360), true
	}
	factors := []float64{0.1, 10}
	switch f.Kind {
	case units.LengthKind:
		factors = append(factors, 25.4, 1/25.4)
	case units.MassKind: // kg without the unit
		factors = []float64{1000, 0.1, 10}
	}
	factors = append(factors, 0.01, 100, 0.001, 1000, -1)
	for _, factor := range factors {
		meant, err := strconv.ParseFloat(strconv.FormatFloat(value*factor, 'g', 4, 64), 64)
		if err == nil && meant != 0 && meant >= f.Low && meant <= f.High {
			return f.format(meant), true
		}
	}
	return "", false
}

// format writes a value in the field's unit such that parse reads back exactly the same number.
func (f Field) format(value float64) string {
	one, err := f.Kind.Parse("1 " + f.Unit)
	if f.Unit == "" || err != nil {
		return f.Kind.Format(value)
	}
	for digits := 1; digits <= 17; digits++ {
		scaled, _ := strconv.ParseFloat(strconv.FormatFloat(value/one, 'g', digits, 64), 64)
		text := strconv.FormatFloat(scaled, 'f', -1, 64) + " " + f.Unit
		if back, err := f.Kind.Parse(text); err == nil && back == value {
			return text
		}
	}
	return f.Kind.Format(value)
}

func (f Field) unit() string {
	if f.Unit != "" {
		return f.Unit
	}
	return f.Kind.Unit()
}

// sample is an answer the field would take.
func (f Field) sample() string {
	if f.Default != "" {
		return f.Default
	}
	return f.format(math.Round(f.Low + (f.High-f.Low)/4))
}

var bareNumber = regexp.MustCompile(`^[-+\x{2212}]?[0-9.,]+(?i:e[-+]?[0-9]+)?$`)

// bare reports whether a text is a number without a unit.
func bare(text string) bool { return bareNumber.MatchString(strings.TrimSpace(text)) }

// brief is a text as a message quotes it: at most 60 letters.
func brief(text string) string {
	if runes := []rune(text); len(runes) > 60 {
		return string(runes[:60]) + "…"
	}
	return text
}

// oneOf lists choices, the nearest first when one is near.
func oneOf(word string, choices []string) string {
	if near, ok := nearest(word, choices); ok {
		return fmt.Sprintf("did you mean %q?", near)
	}
	if len(choices) == 0 {
		return "there is none to choose from"
	}
	return "write " + strings.Join(choices[:len(choices)-1], ", ") + map[bool]string{true: " or "}[len(choices) > 1] + choices[len(choices)-1]
}

// nearest finds the choice within two slips of a word, or a third of its length.
func nearest(word string, choices []string) (string, bool) {
	best, least := "", max(2, len(word)/3)+1
	for _, c := range choices {
		if d := slips(strings.ToLower(word), strings.ToLower(c)); d < least && d < len(c) {
			best, least = c, d
		}
	}
	return best, best != ""
}

// slips counts the letters inserted, lost or changed between two words (Levenshtein), at most 100 letters of each.
func slips(a, b string) int {
	a, b = a[:min(len(a), 100)], b[:min(len(b), 100)]
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := diagonal
			if a[i] != b[j] {
				cost++
			}
			diagonal = row[j+1]
			row[j+1] = min(cost, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}

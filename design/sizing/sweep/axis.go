package sweep

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"mastwright/design"
	"mastwright/materials"
)

// MostPoints is the largest number of designs in a sweep.
const MostPoints = 2000

// Axis is a field with the values that it takes in turn.
type Axis struct {
	Path, Title string
	Unit        string    // of the numbers; "" for a ratio, a count or a choice
	Texts       []string  // the values as a file holds them
	Numbers     []float64 // the same in the unit; nil where the field takes a choice
}

// Range is what an axis covers. The texts are as a person types them: "60", "6 cm".
type Range struct {
	From, To string // "" means the least and the most the field takes
	Step     string // "" means what Steps says
	Steps    int    // from the first value to the last; 0 means 20, and of a whole number every one
}

const usualSteps = 20

// NewAxis lays the values of a field out. A field with choices takes each of them, a material each that can be printed; a range is for
// numbers. The error names the field or the end that is wrong.
func NewAxis(doc *design.Document, path string, r Range) (Axis, error) {
	f, known := design.FieldOf(path)
	if !known || !slices.Contains(doc.Paths(), path) {
		return Axis{}, unknown(doc, path)
	}
	a := Axis{Path: path, Title: f.Title}
	switch {
	case f.Form == design.Quantity || f.Form == design.Count:
		a.Unit = f.Kind.Unit()
		return a.numbers(f, r)
	case f.Form == design.Choice:
		a.Texts = f.Choices
	case f.Form == design.Flag:
		a.Texts = []string{"false", "true"}
	case strings.HasPrefix(path, "materials.") && path != "materials.from":
		a.Texts = doc.Library().Of(materials.Print).IDs()
	default:
		return Axis{}, fmt.Errorf("%s is neither a number nor a choice; write a field such as mast.height or mast.section", path)
	}
	if r != (Range{}) {
		return Axis{}, fmt.Errorf("%s takes choices, not a range; leave its ends and steps out", path)
	}
	return a, nil
}

// unknown is the error of a path that leads nowhere, with the nearest that does.
func unknown(doc *design.Document, path string) error {
	text := ""
	if err := doc.Clone().Set(path, ""); err != nil {
		_, text, _ = strings.Cut(err.Error(), "; ")
	}
	return fmt.Errorf("%s is no field of this design; %s", path, text)
}

// numbers lays out the values of a field that takes numbers.
func (a Axis) numbers(f design.Field, r Range) (Axis, error) {
	from, to, step := f.Low, f.High, 0.0
	for _, end := range []struct {
		name, text string
		into       *float64
	}{{"from", r.From, &from}, {"to", r.To, &to}, {"step", r.Step, &step}} {
		if end.text == "" {
			continue
		}
		value, err := f.Kind.Parse(withUnit(f, end.text))
		if err != nil {
			return Axis{}, fmt.Errorf("%s, %s: %w", a.Path, end.name, err)
		}
		if *end.into = value; end.name == "step" {
			continue
		}
		if err := f.Check(f.Kind.Format(value)); err != nil {
			return Axis{}, fmt.Errorf("%s, %s: %w", a.Path, end.name, err)
		}
	}
	steps := r.Steps
	if steps == 0 {
		steps = usualSteps
	}
	switch {
	case from > to:
		return Axis{}, fmt.Errorf("%s: from %s is above to %s; turn them round", a.Path, f.Kind.Format(from), f.Kind.Format(to))
	case r.Step != "" && r.Steps != 0:
		return Axis{}, fmt.Errorf("%s: a step and a number of steps say the same; leave one out", a.Path)
	case r.Step != "" && step <= 0:
		return Axis{}, fmt.Errorf("%s: a step of %s does not go up; write one above 0", a.Path, f.Kind.Format(step))
	case steps < 1:
		return Axis{}, fmt.Errorf("%s: %d steps go nowhere; write 1 or more", a.Path, steps)
	case step == 0 && f.Form == design.Count && (r.Steps == 0 || to-from < float64(steps)):
		step = 1
	case step == 0:
		step = (to - from) / float64(steps)
	}
	if from < to && (to-from)/step >= MostPoints {
		return Axis{}, fmt.Errorf("%s: a step of %s makes more than %d points; write a larger one", a.Path, f.Kind.Format(step), MostPoints)
	}
	for i := 0; ; i++ {
		value := rounded(from + float64(i)*step)
		if i > 0 && (from == to || value > to+step*1e-9) {
			return a, nil
		}
		if f.Form == design.Count {
			value = float64(int(value))
		}
		a.Numbers, a.Texts = append(a.Numbers, value), append(a.Texts, f.Kind.Format(value))
	}
}

// withUnit gives a bare number the unit that the field is written in.
func withUnit(f design.Field, text string) string {
	if text = strings.TrimSpace(text); text == "" || f.Unit == "" {
		return text
	}
	if last := text[len(text)-1]; last >= '0' && last <= '9' || last == '.' {
		return text + " " + f.Unit
	}
	return text
}

// rounded takes the last digits away, in which sums of steps differ from what a person would type.
func rounded(value float64) float64 {
	near, err := strconv.ParseFloat(strconv.FormatFloat(value, 'e', 11, 64), 64)
	if err != nil {
		return value
	}
	return near
}

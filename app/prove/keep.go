package prove

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"mastwright/design"
	"mastwright/materials"
)

// Kept returns the plastic of which findings hold a modulus or a density as a material of its own, for a file of one's own
// materials: the figures of the design's library with what was measured of it, under a new ID. An empty ID is made of the
// material's and the spool's. Findings of no material, and of more than one, are refused.
func Kept(doc *design.Document, findings []design.Finding, id string) (materials.Material, error) {
	var about []design.Measured
	next := doc.Clone()
	for _, f := range findings {
		if f.Value.What != design.MeasuredModulus && f.Value.What != design.MeasuredDensity {
			continue
		}
		if len(about) > 0 && about[0].Of != f.Value.Of {
			return materials.Material{}, refuse(fmt.Sprintf("The test measured %s and %s: test the parts of one material alone to keep it.", about[0].Of, f.Value.Of))
		}
		if err := next.Use(f.Value, f.Answer); err != nil {
			return materials.Material{}, refuse(err.Error())
		}
		about = append(about, f.Value)
	}
	if len(about) == 0 {
		return materials.Material{}, refuse("The test measured no material: a tap or hang test on a solid block gives its modulus, a weighing its density.")
	}
	of := about[0].Of
	m, err := next.Library().Find(of)
	if err != nil {
		return materials.Material{}, refuse(err.Error())
	}
	if id == "" {
		id = of + "-measured"
		if spool := slug(about[0].Spool); spool != "" {
			id = of + "-" + spool
		}
	}
	if !identifier.MatchString(id) {
		return materials.Material{}, refuse(fmt.Sprintf("%q is no ID: use lower-case letters, digits and dashes.", id))
	}
	if slices.Contains(doc.Library().IDs(), id) {
		return materials.Material{}, refuse(fmt.Sprintf("The material %q is there already: give another ID.", id))
	}
	m.ID = id
	words := []string{m.Title + ", measured"}
	for _, more := range []string{about[0].Spool, about[0].Printer} {
		if more != "" {
			words = append(words, more)
		}
	}
	m.Title = strings.Join(words, ", ")
	return m, nil
}

var identifier = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// slug is a text in the letters of an ID.
func slug(text string) string {
	fields := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return (r < 'a' || r > 'z') && (r < '0' || r > '9') })
	return strings.Join(fields, "-")
}

package revision

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"mastwright/design"
)

// Carried is a mount on another aircraft.
type Carried struct {
	Document *design.Document // nil where it cannot be read back
	Measure  []design.Answer  // what must be found out on the new aircraft
	Dropped  []string         // what held for the old aircraft alone and is left behind, a sentence each
}

// Of the sections, the receiver, the printer, the materials and what is wished of the mount stay; the aircraft's come from the other
// design. Single fields go against their section.
var (
	kept       = []string{"receiver", "mast", "foot", "tray", "print", "materials", "loads", "assume", "limits"}
	taken      = []string{"airframe", "motors", "leads", "cable", "site"}
	ofAircraft = []string{"mast.place", "loads.axial", "assume.thrust_coefficient"}
	ofPattern  = []string{"foot.size"} // follows from the holes
)

// Carry puts the mount of one design onto the aircraft of another. Shelf files of the receiver, the printer and the materials stay named, and
// are read by o.Open; what the other design has from shelf files is written out. The problems are those of the design that comes
// out, such as a foot that the new holes do not leave room for; with them the document is there to be worked on.
func Carry(mount, aircraft *design.Document, o design.Options) (Carried, []design.Problem) {
	doc := design.New()
	name := mount.Name
	if on := aircraft.Airframe.Name; on != "" {
		name += ", " + on
	}
	if doc.Set("name", name) != nil {
		if err := doc.Set("name", mount.Name); err != nil {
			return Carried{}, asProblems(err)
		}
	}
	err := copied(doc, mount, design.Given, func(path string) bool {
		return slices.Contains(kept, section(path)) && !under(path, ofAircraft) && !under(path, ofPattern)
	})
	if err == nil {
		err = copied(doc, aircraft, design.Shelved, func(path string) bool {
			return path != section(path)+".from" && slices.Contains(taken, section(path)) || under(path, ofAircraft)
		})
	}
	if err == nil {
		err = carryMeasured(doc, mount)
	}
	if err != nil {
		return Carried{}, asProblems(err)
	}
	var b bytes.Buffer
	if err := design.Encode(&b, doc); err != nil {
		return Carried{}, asProblems(err)
	}
	c := Carried{Dropped: dropped(mount)}
	var problems []design.Problem
	if c.Document, problems = design.Decode(b.Bytes(), o); c.Document != nil {
		c.Measure = c.Document.Missing()
	}
	return c, problems
}

// copied answers the chosen leaves as another design does, where its answers are from so near at least.
func copied(doc, from *design.Document, origin design.Origin, chosen func(path string) bool) error {
	for _, path := range from.Paths() {
		if !chosen(path) || from.Origin(path) < origin {
			continue
		}
		if f, _ := design.FieldOf(path); f.Form != design.List {
			if err := doc.Set(path, from.Get(path)); err != nil {
				return err
			}
			continue
		}
		for i := range from.Len(path) {
			if err := doc.Insert(path, i); err != nil {
				return err
			}
		}
	}
	return nil
}

// carryMeasured takes over what was measured of materials and of fields that stay.
func carryMeasured(doc, from *design.Document) error {
	for _, m := range from.Measured {
		if !stays(m) {
			continue
		}
		answer := ""
		if m.What == design.MeasuredAnswer {
			answer = from.Get(m.Of)
		}
		if err := doc.Use(m, answer); err != nil {
			return err
		}
		before := fmt.Sprintf("measured[%d].before", doc.Len("measured")-1)
		if m.Before == "" {
			doc.Clear(before)
		} else if err := doc.Set(before, m.Before); err != nil {
			return err
		}
	}
	return nil
}

// stays reports whether a measured value holds on another aircraft.
func stays(m design.Measured) bool {
	switch m.What {
	case design.MeasuredModulus, design.MeasuredDensity:
		return true
	case design.MeasuredAnswer:
		return slices.Contains(kept, section(m.Of)) && !under(m.Of, ofAircraft) && !under(m.Of, ofPattern)
	}
	return false
}

// dropped tells what is left behind with the old aircraft.
func dropped(mount *design.Document) []string {
	var said []string
	for _, m := range mount.Measured {
		if stays(m) {
			continue
		}
		what := m.What
		if m.Of != "" {
			what += " of " + m.Of
		}
		said = append(said, fmt.Sprintf("The measured %s (%s) holds for the old aircraft; measure it again.", what, m.Source()))
	}
	for _, a := range mount.Accepted {
		said = append(said, fmt.Sprintf("The %s was accepted on the old aircraft (%s); look at it again.", a.Check, a.Reason))
	}
	return said
}

// section is the first word of a path.
func section(path string) string {
	if i := strings.IndexAny(path, ".["); i >= 0 {
		return path[:i]
	}
	return path
}

// under reports whether a path is one of some or below it.
func under(path string, some []string) bool {
	return slices.ContainsFunc(some, func(s string) bool { return path == s || strings.HasPrefix(path, s+".") })
}

func asProblems(err error) []design.Problem {
	if p, ok := err.(design.Problem); ok {
		return []design.Problem{p}
	}
	return []design.Problem{{Text: err.Error()}}
}

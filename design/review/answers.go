package review

import (
	"fmt"
	"strings"

	"mastwright/design"
)

// lacks returns the paths, of those named, that the builder still has to answer; nil when none. A path through a list stands for every entry
// of it, and for the list itself when it is empty.
func (s *subject) lacks(paths ...string) []string {
	var missing []string
	for _, path := range paths {
		unanswered, asked := s.missing[path]
		if !asked {
			unanswered = s.unanswered(path)
			s.missing[path] = unanswered
		}
		missing = append(missing, unanswered...)
	}
	return missing
}

func (s *subject) unanswered(path string) []string {
	list, leaf, through := strings.Cut(path, "[].")
	if !through {
		if field, ok := design.FieldOf(path); ok && field.Form == design.List {
			if s.doc.Len(path) == 0 && !s.doc.Has(path) {
				return []string{path}
			}
			return nil
		}
		if s.doc.Get(path) == "" {
			return []string{path}
		}
		return nil
	}
	if s.doc.Len(list) == 0 {
		return []string{list}
	}
	var missing []string
	for i := range s.doc.Len(list) {
		missing = append(missing, s.unanswered(fmt.Sprintf("%s[%d].%s", list, i, leaf))...)
	}
	return missing
}

// lacksMount returns what the weight on the mast depends on and is not answered.
func (s *subject) lacksMount() []string {
	paths := []string{"receiver.mass", "receiver.size.x", "receiver.size.z"}
	if s.doc.Receiver.Shape != "round" {
		paths = append(paths, "receiver.size.y")
	}
	if s.doc.Receiver.Fixing == "tape" {
		paths = append(paths, "receiver.tape.size.x", "receiver.tape.thickness", "receiver.tape.shear_typical")
	}
	return s.lacks(paths...)
}

// lacksAircraft returns what the aircraft as a rigid body depends on and is not answered.
func (s *subject) lacksAircraft() []string {
	paths := []string{"airframe.mass"}
	if s.doc.Len("motors.at") == 0 {
		paths = append(paths, "airframe.motor_diagonal")
	}
	return append(s.lacksMount(), s.lacks(paths...)...)
}

// lacksStructure returns what the vibrating aircraft depends on and is not answered.
func (s *subject) lacksStructure() []string {
	paths := []string{"motors.propeller", "motors.blades"}
	if !s.doc.Has("motors.full_speed") {
		paths = append(paths, "motors.kv", "motors.cells")
	}
	return append(s.lacksAircraft(), s.lacks(paths...)...)
}

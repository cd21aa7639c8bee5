package vibration

import (
	"fmt"
	"math"
	"strings"

	"mastwright/design/evidence/record"
)

const (
	gravity  = 9.80665 // m/s², standard
	levelLow = 5.      // Hz; below it the aircraft is steered, not shaken
)

// level fills in the vibration level when the record is an acceleration whose unit is written or shown by gravity.
func (r *Turning) level(s record.Series, d density) {
	if s.Kind != record.Acceleration {
		return
	}
	unit, note := unitOf(s)
	r.Notes = append(r.Notes, record.Note{About: "level", Text: note})
	if unit == 0 {
		return
	}
	r.HasLevel, r.LevelFrom, r.LevelTo = true, levelLow, s.Rate/2
	for _, p := range d.axes {
		v := unit * d.rms(p, r.LevelFrom, r.LevelTo)
		r.Levels = append(r.Levels, v)
		r.Level = math.Hypot(r.Level, v)
	}
	if len(d.axes) < 3 {
		r.Notes = append(r.Notes, record.Note{About: "level", Text: fmt.Sprintf("from %d of three axes; the whole is larger", len(d.axes))})
	}
}

// unitOf returns m/s² for one unit of the record, 0 when that cannot be told, and a sentence on how it is known.
func unitOf(s record.Series) (float64, string) {
	plain := strings.NewReplacer(" ", "", "²", "2", "^", "", "*", "", "·", "").Replace(strings.ToLower(s.Unit))
	switch plain {
	case "m/s2", "m/s/s", "ms-2", "m/ss":
		return 1, "in m/s², as the header says"
	case "g", "gn":
		return gravity, "in g, as the header says"
	case "mg":
		return gravity / 1000, "in thousandths of g, as the header says"
	}
	length := 0.
	for _, x := range s.Axes {
		mean := 0.
		for _, v := range x {
			mean += v / float64(len(x))
		}
		length = math.Hypot(length, mean)
	}
	switch {
	case len(s.Axes) == 3 && math.Abs(length/gravity-1) < .1:
		return 1, fmt.Sprintf("taken as m/s²: the mean is %.4g, as gravity would be", length)
	case len(s.Axes) == 3 && math.Abs(length-1) < .1:
		return gravity, fmt.Sprintf("taken as g: the mean is %.4g, as gravity would be", length)
	case len(s.Axes) == 3 && length > 100:
		return gravity / length, fmt.Sprintf("scaled so that the mean, %.5g, is gravity", length)
	}
	return 0, "no level: the unit is not written and gravity does not show; write the unit, m/s² or g, behind the column's name"
}

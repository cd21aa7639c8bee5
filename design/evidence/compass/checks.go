package compass

import (
	"math"

	"mastwright/design/evidence/record"
)

// sound refuses axes of unequal lengths, too few rows, numbers that are none, an axis without life and one driven past its
// range.
func sound(axes [3][]float64, least int) error {
	n := len(axes[0])
	if len(axes[1]) != n || len(axes[2]) != n {
		return refuse("log all three", "the three axes have %d, %d and %d rows", n, len(axes[1]), len(axes[2]))
	}
	if n < least {
		return refuse("log for longer", "%d rows are too few; %d are needed", n, least)
	}
	for a, values := range axes {
		alive := false
		for i, v := range values {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return refuse("leave that row out", "axis %s of row %d is no number", axisNames[a], i+1)
			}
			alive = alive || v != 0
		}
		if !alive {
			return refuse("look whether the compass is connected and logged", "axis %s is zero in every row", axisNames[a])
		}
		if run, is := record.Saturated(values); is {
			return refuse("choose a wider range of the sensor, or move it away from what magnetises it",
				"axis %s is driven past its range: it stands at %.6g for %d rows together", axisNames[a], run.Value, run.Longest)
		}
	}
	return nil
}

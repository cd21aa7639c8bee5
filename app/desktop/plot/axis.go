package plot

import (
	"math"
	"strconv"
	"strings"
)

// scale turns figures into pixels.
type scale struct {
	axis
	from, to float64
}

func (s scale) at(v float64) float64 {
	low, high := s.low, s.high
	if s.log {
		low, high, v = math.Log(low), math.Log(high), math.Log(max(v, 1e-9))
	}
	if high == low {
		return s.from
	}
	return s.from + (v-low)/(high-low)*(s.to-s.from)
}

// ticks returns round figures within the axis, at most so many.
func (a axis) ticks(most int) []float64 {
	most = max(most, 2)
	if a.log {
		return a.logTicks(most)
	}
	span := a.high - a.low
	if !(span > 0) {
		return nil
	}
	power := math.Pow(10, math.Floor(math.Log10(span/float64(most))))
	step := power
	for _, k := range []float64{1, 2, 5, 10} {
		if step = k * power; span/step <= float64(most) {
			break
		}
	}
	var list []float64
	for i := math.Ceil(a.low/step - 1e-9); i*step <= a.high*(1+1e-12)+1e-12; i++ {
		list = append(list, i*step+0)
	}
	return list
}

// logTicks returns 1, 2 and 5 of every decade, or only its beginning where there is no room.
func (a axis) logTicks(most int) []float64 {
	for _, steps := range [][]float64{{1, 2, 5}, {1, 3}, {1}} {
		var list []float64
		for decade := math.Pow(10, math.Floor(math.Log10(a.low))); decade <= a.high; decade *= 10 {
			for _, k := range steps {
				if v := k * decade; v >= a.low && v <= a.high {
					list = append(list, v)
				}
			}
		}
		if len(list) <= most {
			return list
		}
	}
	return nil
}

// figure writes a tick: thousands with a comma, as rotor speeds are written.
func figure(v float64) string {
	text := strconv.FormatFloat(math.Round(v*1e6)/1e6, 'f', -1, 64)
	whole, part, _ := strings.Cut(text, ".")
	if len(strings.TrimPrefix(whole, "-")) > 3 {
		whole = whole[:len(whole)-3] + "," + whole[len(whole)-3:]
	}
	if part != "" {
		return whole + "." + part
	}
	return whole
}

package record

import "fmt"

func (t *reading) limit() int {
	if t.o.Rows > 0 {
		return max(t.o.Rows&^1, 2)
	}
	return kept
}

// keep takes a row into the record, averaged with its neighbours when the record is being thinned.
func (t *reading) keep(values []float64, line int) {
	if t.summed == 0 {
		t.first = line
		clear(t.sum)
	}
	for i, v := range values {
		t.sum[i] += v / float64(t.fold)
	}
	if t.summed++; t.summed < t.fold {
		return
	}
	t.summed = 0
	if len(t.rec.Lines) >= t.limit() {
		t.summed = t.fold
		t.halve()
		for i := range t.sum {
			t.sum[i] /= 2
		}
		return
	}
	t.rec.Lines = append(t.rec.Lines, t.first)
	c := 0
	for i, p := range t.places {
		switch {
		case p.Role == Time:
			if t.timed {
				t.rec.Time = append(t.rec.Time, t.sum[i])
			}
			continue
		case p.Words:
			t.rec.Columns[c].Words = append(t.rec.Columns[c].Words, t.words[i])
		default:
			t.rec.Columns[c].Values = append(t.rec.Columns[c].Values, t.sum[i])
		}
		c++
	}
}

// halve averages the kept rows two by two.
func (t *reading) halve() {
	t.fold *= 2
	n := len(t.rec.Lines) / 2
	half := func(v []float64) []float64 {
		if v == nil {
			return nil
		}
		for i := range n {
			v[i] = v[2*i]/2 + v[2*i+1]/2
		}
		return v[:n]
	}
	for i := range n {
		t.rec.Lines[i] = t.rec.Lines[2*i]
	}
	t.rec.Lines = t.rec.Lines[:n]
	t.rec.Time = half(t.rec.Time)
	for c := range t.rec.Columns {
		k := &t.rec.Columns[c]
		k.Values = half(k.Values)
		for i := range min(n, len(k.Words)) {
			k.Words[i] = k.Words[2*i]
		}
		k.Words = k.Words[:min(n, len(k.Words))]
	}
}

// finish settles the unit of time, tells what was left out and judges the whole.
func (t *reading) finish() {
	r := &t.rec
	n := len(r.Lines)
	if t.skipped > 0 {
		t.note("rows", "%d rows with a problem are left out", t.skipped)
	}
	if t.bare > 0 {
		t.note("rows", "%d rows without a value in a wanted column are left out", t.bare)
	}
	switch {
	case t.same > 0 && t.same*10 > n+t.same && !t.o.Skip:
		t.faults.add("repeated stamps", Problem{Line: t.firstDup, Column: t.places[0].name,
			Text: fmt.Sprintf("%d of %d rows repeat the stamp of the row before; export the time with more digits, or give the rate in rows a second",
				t.same, n+t.same)})
	case t.same > 0:
		t.note(string(Time), "%d rows repeat the stamp of the row before and are left out, the first in line %d", t.same, t.firstDup)
	}
	least := t.o.Least
	if least == 0 {
		least = 8
	}
	if n < least {
		if len(t.faults.told) == 0 {
			t.faults.add("too few rows", Problem{Text: fmt.Sprintf("%d usable rows are too few; record at least %d", n, least)})
		}
		return
	}
	if len(t.faults.told) > 0 {
		return
	}
	switch {
	case t.timed && n > 1:
		t.scaleTime()
	case t.o.Rate > 0:
		r.Time = make([]float64, n)
		for i := range r.Time {
			r.Time[i] = float64(i*t.fold) / t.o.Rate
		}
	case t.timed:
		r.Time = []float64{0}
	}
	switch {
	case t.beyond > 0:
		t.note("rows", "the first %d rows%s are kept and %d left out; cut the file, or ask for more rows", n, t.until(), t.beyond)
	case t.fold > 1:
		t.note("rows", "%d rows are averaged %d by %d into %d", r.Rows, t.fold, t.fold, n)
	}
	for _, c := range r.Columns {
		if run, ok := Saturated(c.Values); ok && moving(c.Role) {
			t.note(string(c.Role), "stands at its %s value, %.6g, for up to %d rows together: the sensor was driven past its range",
				map[bool]string{true: "lowest", false: "highest"}[run.Low], run.Value, run.Longest)
		}
	}
}

func (t *reading) until() string {
	if n := len(t.rec.Time); n > 0 {
		return fmt.Sprintf(" (%.4g s)", t.rec.Time[n-1])
	}
	return ""
}

func (t *reading) scaleTime() {
	raw := t.rec.Time
	unit, note, err := 1., "read as times of day", error(nil)
	if !t.ofDay {
		unit, note, err = unitOfTime(raw, t.places[0].unitOrName(), t.o.TimeUnit)
	}
	if err != nil {
		t.faults.add("unit of time", Problem{Column: t.places[0].name, Text: err.Error()})
		return
	}
	if note != "" {
		t.note(string(Time), "%s", note)
	}
	start := raw[0]
	for i := range raw {
		raw[i] = (raw[i] - start) * unit
		if !finite(raw[i]) || i > 0 && raw[i] <= raw[i-1] {
			t.faults.add("unit of time", Problem{Line: t.rec.Lines[i], Column: t.places[0].name, Value: fmt.Sprint(raw[i]),
				Text: fmt.Sprintf("the stamps from %v to here are too far apart to be told from one another; start the time near 0", start)})
			return
		}
	}
}

// unitOrName is the unit of the header, or its name where the name is a unit.
func (p place) unitOrName() string {
	if p.unit != "" {
		return p.unit
	}
	return p.name
}

// moving says whether a role is a sensor's axis, for which equal extremes mean a clipped record.
func moving(r Role) bool {
	switch r {
	case AccX, AccY, AccZ, GyroX, GyroY, GyroZ, MagX, MagY, MagZ, Sound:
		return true
	}
	return false
}

package bench

import (
	"fmt"
	"math"
	"slices"
)

// words says what the hang test found.
func (h *Hung) words(forces []float64) {
	say := func(format string, a ...any) { h.Words = append(h.Words, fmt.Sprintf(format, a...)) }
	per, size := "N per mm", 1e-3
	if h.Unit == "N/rad" {
		per, size = "N per degree", degree
	}
	say("stiffness %.3g %s (%.3g to %.3g)", h.Stiffness.Value*size, per, h.Stiffness.Low*size, h.Stiffness.High*size)
	if h.Agreement.Words != "" {
		say("%s", h.Agreement.Words)
	}
	if h.TakeUp > 0 {
		say("the base gives way by %s before it bears: tighten its screws, or lay paper under a rocking foot", h.move(h.TakeUp))
	}
	switch {
	case h.Drifts && h.Drift.Value > 0:
		say("at equal load the movement grew by %s during the test: the plastic creeps or a screw slips; hang the masses for a shorter time and tighten", h.move(h.Drift.Value))
	case h.Drifts:
		say("at equal load the movement shrank by %s during the test: the gauge or the base settled; repeat", h.move(-h.Drift.Value))
	case !h.DriftSeen:
		say("the masses were hung in rising order only: creep cannot be told; take them off again in steps and read each")
	}
	if slices.Min(forces) > .01*slices.Max(forces) {
		say("nothing was read with no mass: play in the base cannot be seen")
	}
	if s := h.Stiffness.Spread(); s > .3 {
		say("the readings scatter: the stiffness is known to %s only", percent(s))
	}
}

// move is a movement in words.
func (h *Hung) move(by float64) string {
	if h.Unit == "N/rad" {
		return fmt.Sprintf("%.3g°", by/degree)
	}
	return fmt.Sprintf("%.3g mm", 1000*by)
}

// plot draws movement over force, in mm or degrees.
func (h *Hung) plot(forces, moves []float64, used []bool, line Line, o HangOptions) {
	size := 1e-3
	h.Plot = Plot{X: "force (N)", Y: "movement (mm)"}
	if h.Unit == "N/rad" {
		size, h.Plot.Y = degree, "movement (deg)"
	}
	for i := range forces {
		h.Plot.Points = append(h.Plot.Points, Point{X: forces[i], Y: moves[i] / size, Used: used[i]})
	}
	most, middle := slices.Max(forces), mean(kept(forces, used))
	fit := func(f float64) float64 { return (line.At(middle) + (f-middle)/h.Stiffness.Value) / size }
	h.Plot.Lines = append(h.Plot.Lines, Span("fit", 0, most, 2, fit))
	if h.TakeUp > 0 {
		h.Plot.Lines = append(h.Plot.Lines, Trace{Name: "base take-up", X: []float64{0, 0}, Y: []float64{fit(0) - h.TakeUp/size, fit(0)}})
	}
	if k := o.Predicted.Value; k > 0 {
		h.Plot.Lines = append(h.Plot.Lines, Span("predicted", 0, most, 2, func(f float64) float64 { return fit(0) + f/k/size }))
	}
}

const degree = math.Pi / 180

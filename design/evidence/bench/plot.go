package bench

// Plot is what a test shows as a picture, in the units that its labels name.
type Plot struct {
	X      string  `json:"x"` // label with unit: "force (N)"
	Y      string  `json:"y"`
	Points []Point `json:"points"`
	Lines  []Trace `json:"lines"`
}

// Point is one measured point.
type Point struct {
	X    float64 `json:"x"`
	Y    float64 `json:"y"`
	Used bool    `json:"used"`           // in the fit
	Name string  `json:"name,omitempty"` // "nose north", "x"; points of one name belong together
}

// Trace is a polyline.
type Trace struct {
	Name string    `json:"name"` // "fit", "predicted", "base take-up"
	X    []float64 `json:"x"`
	Y    []float64 `json:"y"`
}

// Span returns the trace of a function at count places from low to high.
func Span(name string, low, high float64, count int, f func(x float64) float64) Trace {
	t := Trace{Name: name}
	for i := range count {
		x := low + (high-low)*float64(i)/float64(max(count-1, 1))
		t.X, t.Y = append(t.X, x), append(t.Y, f(x))
	}
	return t
}

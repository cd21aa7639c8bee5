package record

// Series is one to several signals sampled at even times.
type Series struct {
	Name     string
	Rate     float64     // Hz
	Axes     [][]float64 // equal lengths, in Unit
	Names    []string    // of the axes: "acc x", "sound", "sound right"
	Kind     Kind
	Unit     string // as the record has it, "" when it does not say; sound is in parts of full scale
	Invented bool
	Notes    []Note
}

// Kind is what a series measures.
type Kind int

// The kinds of series.
const (
	Acceleration Kind = iota
	Rotation          // gyro
	Audio
	Other
)

// String is the kind in words.
func (k Kind) String() string {
	return [...]string{"acceleration", "gyro", "sound", "other"}[k]
}

// Len returns the number of samples of each axis.
func (s Series) Len() int {
	if len(s.Axes) == 0 {
		return 0
	}
	return len(s.Axes[0])
}

// Seconds returns the length of the series.
func (s Series) Seconds() float64 {
	if s.Rate == 0 {
		return 0
	}
	return float64(s.Len()) / s.Rate
}

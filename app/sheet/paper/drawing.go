package paper

// Drawing is a picture of lines, words and shaded images.
type Drawing struct {
	Width, Height float64 // mm
	Exact         bool    // its size must not be changed: it is measured on
	Marks         []Mark  // in the order they are laid down
}

// Mark is something on a drawing: Stroke, Label or Image.
type Mark interface{ mark() }

// Point is a place on a drawing, in mm.
type Point struct{ X, Y float64 }

// Stroke is a chain of straight lines, or an area.
type Stroke struct {
	Points []Point
	Closed bool
	Width  float64 // mm; 0 for no line
	Line   Colour
	Dash   float64 // mm of a dash and of a gap; 0 for an unbroken line
	Filled bool
	Fill   Colour
}

// Label is a line of words.
type Label struct {
	At     Point // on the baseline
	Text   string
	Size   float64 // mm, of the letter's body
	Weight Weight
	Anchor Anchor
	Turn   float64 // degrees, counter-clockwise
	Ink    Colour
}

// Image is a PNG of red, green and blue without transparency.
type Image struct {
	At            Point // its top left corner
	Width, Height float64
	PNG           []byte
}

func (Stroke) mark() {}
func (Label) mark()  {}
func (Image) mark()  {}

// Weight is a cut of the letters.
type Weight int

// The weights.
const (
	Regular Weight = iota
	Medium
	Mono
)

// Anchor is which part of a label stands at its place.
type Anchor int

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

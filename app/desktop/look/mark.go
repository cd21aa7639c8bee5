package look

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
	"golang.org/x/image/vector"

	"mastwright/design/review"
)

// Sign is what a mark says. Its shape says it as well as its colour.
type Sign int

// The signs: a disc with a tick, a triangle with a stroke, a square with a cross, a hollow ring with a question mark, and an empty ring
// for what has not been begun.
const (
	Passes Sign = iota
	IsMarginal
	Fails
	HasNoData
	NotBegun
)

// SignOf returns the sign of a verdict's state.
func SignOf(state review.State) Sign {
	return [...]Sign{review.Pass: Passes, review.Marginal: IsMarginal, review.Fail: Fails, review.NoData: HasNoData}[state]
}

// WordRole returns the colour of a state's words.
func WordRole(state review.State) Role {
	return [...]Role{PassWord, MarginalWord, FailWord, NoDataWord}[state]
}

// BarRole returns the colour of a state's bar.
func BarRole(state review.State) Role {
	return [...]Role{PassBar, MarginalBar, FailBar, NoDataWord}[state]
}

// Mark is a sign, 14 px in rows and 16 in titles.
type Mark struct {
	widget.BaseWidget

	Sign   Sign
	Side   float32
	raster *canvas.Raster
}

// NewMark returns a mark of a side in pixels.
func NewMark(sign Sign, side float32) *Mark {
	m := &Mark{Sign: sign, Side: side}
	m.ExtendBaseWidget(m)
	return m
}

// Set changes the sign.
func (m *Mark) Set(sign Sign) {
	if m.Sign != sign {
		m.Sign = sign
		m.Refresh()
	}
}

// MinSize is the mark's side.
func (m *Mark) MinSize() fyne.Size { return fyne.NewSquareSize(m.Side) }

// CreateRenderer is the toolkit's.
func (m *Mark) CreateRenderer() fyne.WidgetRenderer {
	m.raster = canvas.NewRaster(func(width, height int) image.Image {
		return Signed(m.Sign, min(width, height), Variant())
	})
	return &markRenderer{mark: m}
}

type markRenderer struct {
	still
	mark *Mark
}

func (r *markRenderer) Layout(size fyne.Size) {
	side := r.mark.Side
	r.mark.raster.Resize(fyne.NewSquareSize(side))
	r.mark.raster.Move(fyne.NewPos(Whole(r.mark, (size.Width-side)/2), Whole(r.mark, (size.Height-side)/2)))
}
func (r *markRenderer) MinSize() fyne.Size           { return r.mark.MinSize() }
func (r *markRenderer) Refresh()                     { r.mark.raster.Refresh() }
func (r *markRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.mark.raster} }

// Signed draws a sign into a square picture of a side in device pixels.
func Signed(sign Sign, side int, variant fyne.ThemeVariant) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, side, side))
	pen := pen{img: img, unit: float64(side) / 14}
	panel := Shade(Panel, variant)
	switch sign {
	case Passes:
		pen.disc(Shade(PassBar, variant), 7, 7, 7)
		pen.line(panel, 1.8, 3.9, 7.3, 6.2, 9.6, 10.3, 4.9)
	case IsMarginal:
		pen.fill(Shade(MarginalBar, variant), 7, .4, 14, 13.2, 0, 13.2)
		pen.line(panel, 1.8, 7, 4.8, 7, 9)
		pen.disc(panel, 7, 11.1, 1)
	case Fails:
		pen.fill(Shade(FailBar, variant), .5, .5, 13.5, .5, 13.5, 13.5, .5, 13.5)
		pen.line(panel, 1.9, 4, 4, 10, 10)
		pen.line(panel, 1.9, 10, 4, 4, 10)
	case HasNoData:
		pen.ring(Shade(NoDataWord, variant), 7, 7, 6.3, 1.4)
		ink := Shade(NoDataWord, variant)
		pen.line(ink, 1.4, 4.9, 5.3, 5.3, 4.2, 6.3, 3.5, 7.6, 3.5, 8.7, 4.2, 9.0, 5.3, 8.5, 6.3, 7.4, 7.1, 7, 7.8, 7, 8.7)
		pen.disc(ink, 7, 10.7, .95)
	case NotBegun:
		pen.ring(Shade(NoDataWord, variant), 7, 7, 6.1, 1.7)
	}
	return img
}

// pen draws smooth shapes; its lengths are fourteenths of the side.
type pen struct {
	img  *image.RGBA
	unit float64
}

func (p pen) fill(c color.Color, points ...float64) {
	p.paint(c, func(r *vector.Rasterizer) { p.loop(r, points) })
}

// line strokes a path with round joints and ends.
func (p pen) line(c color.Color, width float64, points ...float64) {
	for i := 0; i+3 < len(points); i += 2 {
		x0, y0, x1, y1 := points[i], points[i+1], points[i+2], points[i+3]
		length := math.Hypot(x1-x0, y1-y0)
		nx, ny := -(y1-y0)/length*width/2, (x1-x0)/length*width/2
		p.fill(c, x0+nx, y0+ny, x1+nx, y1+ny, x1-nx, y1-ny, x0-nx, y0-ny)
	}
	for i := 0; i+1 < len(points); i += 2 {
		p.disc(c, points[i], points[i+1], width/2)
	}
}

func (p pen) disc(c color.Color, x, y, radius float64) {
	p.fill(c, circle(x, y, radius, 1)...)
}

func (p pen) ring(c color.Color, x, y, radius, width float64) {
	p.paint(c, func(r *vector.Rasterizer) {
		p.loop(r, circle(x, y, radius+width/2, 1))
		p.loop(r, circle(x, y, radius-width/2, -1))
	})
}

func (p pen) paint(c color.Color, shape func(*vector.Rasterizer)) {
	size := p.img.Bounds().Dx()
	r := vector.NewRasterizer(size, size)
	shape(r)
	r.Draw(p.img, p.img.Bounds(), image.NewUniform(c), image.Point{})
}

func (p pen) loop(r *vector.Rasterizer, points []float64) {
	for i := 0; i+1 < len(points); i += 2 {
		x, y := float32(points[i]*p.unit), float32(points[i+1]*p.unit)
		if i == 0 {
			r.MoveTo(x, y)
		} else {
			r.LineTo(x, y)
		}
	}
	r.ClosePath()
}

// circle is a polygon fine enough for a mark, running one way round or the other.
func circle(x, y, radius, turn float64) []float64 {
	const corners = 48
	points := make([]float64, 0, 2*corners)
	for i := range corners {
		sin, cos := math.Sincos(turn * 2 * math.Pi * float64(i) / corners)
		points = append(points, x+radius*cos, y+radius*sin)
	}
	return points
}

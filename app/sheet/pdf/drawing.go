package pdf

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/png"

	"codeberg.org/go-pdf/fpdf"

	"mastwright/app/sheet/face"
	"mastwright/app/sheet/paper"
)

const (
	captionSize = 8.5 * face.Point
	besideGap   = 4.0
)

// shrunk is how much a drawing is made smaller to fit into a width.
func shrunk(d paper.Drawing, width float64) float64 {
	if d.Exact || d.Width <= width {
		return 1
	}
	return width / d.Width
}

func (w *writer) captionHeight(f paper.Figure, width float64) float64 {
	if f.Caption == "" {
		return 0
	}
	return float64(len(w.ruler.Lines(f.Caption, paper.Regular, captionSize, width)))*captionSize*leading + 1
}

func (w *writer) figureHeight(f paper.Figure, width float64) float64 {
	return f.Drawing.Height*shrunk(f.Drawing, width) + w.captionHeight(f, width)
}

// shares are the widths of figures that stand side by side.
func (w *writer) shares(b paper.Beside) []float64 {
	room := w.column() - besideGap*float64(len(b)-1)
	sum := 0.0
	for _, f := range b {
		sum += f.Drawing.Width
	}
	out := make([]float64, len(b))
	for i, f := range b {
		out[i] = f.Drawing.Width
		if sum > room {
			out[i] *= room / sum
		}
	}
	return out
}

func (w *writer) besideHeight(b paper.Beside) float64 {
	high := 0.0
	for i, width := range w.shares(b) {
		high = max(high, w.figureHeight(b[i], width))
	}
	return high
}

func (w *writer) beside(b paper.Beside) {
	widths := w.shares(b)
	w.keep(w.besideHeight(b))
	top, lowest := w.y, w.y
	drawn := 0.0 // captions stand at one height
	for i, f := range b {
		drawn = max(drawn, f.Drawing.Height*shrunk(f.Drawing, widths[i]))
	}
	x := side
	for i, f := range b {
		scale := shrunk(f.Drawing, widths[i])
		w.marks(f.Drawing.Marks, x, top, scale)
		y := top + drawn + 1
		if f.Caption != "" {
			for _, l := range w.ruler.Lines(f.Caption, paper.Regular, captionSize, widths[i]) {
				y += captionSize * leading
				w.words(l, x, y-captionSize*(leading-0.95), paper.Regular, captionSize, paper.Second)
			}
		}
		lowest = max(lowest, y)
		x += widths[i] + besideGap
	}
	w.y = lowest + after + 1
}

// marks draws what is on a drawing, its corner at x, y, at a scale.
func (w *writer) marks(list []paper.Mark, x, y, scale float64) {
	at := func(p paper.Point) (float64, float64) { return x + p.X*scale, y + p.Y*scale }
	for _, m := range list {
		switch m := m.(type) {
		case paper.Stroke:
			w.stroke(m, at, scale)
		case paper.Label:
			w.label(m, at, scale)
		case paper.Image:
			w.image(m, at, scale)
		}
	}
}

func (w *writer) stroke(s paper.Stroke, at func(paper.Point) (float64, float64), scale float64) {
	if len(s.Points) < 2 {
		return
	}
	style := ""
	if s.Filled {
		r, g, b := s.Fill.RGB()
		w.pdf.SetFillColor(int(r), int(g), int(b))
		style += "F"
	}
	if s.Width > 0 {
		r, g, b := s.Line.RGB()
		w.pdf.SetDrawColor(int(r), int(g), int(b))
		w.pdf.SetLineWidth(s.Width * scale)
		style += "D"
	}
	if style == "" {
		return
	}
	if s.Dash > 0 {
		w.pdf.SetDashPattern([]float64{s.Dash * scale, s.Dash * scale}, 0)
		defer w.pdf.SetDashPattern([]float64{}, 0)
	}
	if len(s.Points) == 2 && !s.Filled {
		ax, ay := at(s.Points[0])
		bx, by := at(s.Points[1])
		w.pdf.Line(ax, ay, bx, by)
		return
	}
	px, py := at(s.Points[0])
	w.pdf.MoveTo(px, py)
	for _, p := range s.Points[1:] {
		px, py = at(p)
		w.pdf.LineTo(px, py)
	}
	if s.Closed {
		w.pdf.ClosePath()
	}
	w.pdf.DrawPath(style)
}

func (w *writer) label(l paper.Label, at func(paper.Point) (float64, float64), scale float64) {
	text := w.ruler.Legible(l.Text)
	size := l.Size * scale
	x, y := at(l.At)
	wide := w.ruler.Width(text, l.Weight, size)
	back := 0.0
	switch l.Anchor {
	case paper.Middle:
		back = wide / 2
	case paper.End:
		back = wide
	}
	if l.Turn == 0 {
		w.words(text, x-back, y, l.Weight, size, l.Ink)
		return
	}
	w.pdf.TransformBegin()
	w.pdf.TransformRotate(l.Turn, x, y)
	w.words(text, x-back, y, l.Weight, size, l.Ink)
	w.pdf.TransformEnd()
}

// image lays a picture down. The library orders the pictures of a file by their width alone, so that two of one width would come out
// in either order: each is given a width of its own by columns of white, which are clipped away.
func (w *writer) image(m paper.Image, at func(paper.Point) (float64, float64), scale float64) {
	if w.pages == 0 {
		return // only counting
	}
	config, err := png.DecodeConfig(bytes.NewReader(m.PNG))
	if err != nil {
		w.pdf.SetError(fmt.Errorf("picture on page %d: %w", w.pdf.PageNo(), err))
		return
	}
	wide := config.Width
	for w.images[wide] {
		wide++
	}
	w.images[wide] = true
	data, err := widened(m.PNG, wide-config.Width)
	if err != nil {
		w.pdf.SetError(fmt.Errorf("picture on page %d: %w", w.pdf.PageNo(), err))
		return
	}
	name := fmt.Sprintf("image %03d", len(w.images))
	w.pdf.RegisterImageOptionsReader(name, fpdf.ImageOptions{ImageType: "PNG"}, bytes.NewReader(data))
	x, y := at(m.At)
	w.pdf.ClipRect(x, y, m.Width*scale, m.Height*scale, false)
	w.pdf.ImageOptions(name, x, y, m.Width*scale*float64(wide)/float64(config.Width), m.Height*scale, false, fpdf.ImageOptions{}, 0, "")
	w.pdf.ClipEnd()
}

// widened is a picture with some columns of white at its right.
func widened(data []byte, columns int) ([]byte, error) {
	if columns == 0 {
		return data, nil
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	box := img.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, box.Dx()+columns, box.Dy()))
	draw.Draw(out, out.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(out, box.Sub(box.Min), img, box.Min, draw.Src)
	var b bytes.Buffer
	if err := png.Encode(&b, out); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

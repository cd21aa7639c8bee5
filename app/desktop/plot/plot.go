package plot

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot/pen"
)

// Plot is the widget that shows a chart.
type Plot struct {
	widget.BaseWidget

	chart  Chart
	raster *canvas.Raster
	pen    pen.Raster
	drawn  bool
}

// New returns an empty plot.
func New() *Plot {
	p := &Plot{}
	p.raster = canvas.NewRaster(p.paint)
	p.ExtendBaseWidget(p)
	return p
}

// SetChart shows a chart.
func (p *Plot) SetChart(c Chart) {
	p.chart = c
	p.Refresh()
}

// Chart returns what is shown.
func (p *Plot) Chart() Chart { return p.chart }

// MinSize leaves room for the axes.
func (p *Plot) MinSize() fyne.Size { return fyne.NewSize(200, 140) }

// Refresh draws anew: another chart, or another palette.
func (p *Plot) Refresh() {
	p.drawn = false
	p.BaseWidget.Refresh()
}

// paint draws the chart in the screen's pixels.
func (p *Plot) paint(w, h int) image.Image {
	size := image.Rect(0, 0, max(w, 1), max(h, 1))
	if p.pen.Image == nil || p.pen.Image.Rect != size {
		p.pen.Image, p.drawn = image.NewRGBA(size), false
	}
	if !p.drawn {
		at := p.Size()
		p.pen.Scale = 1
		if at.Width > 0 {
			p.pen.Scale = float64(w) / float64(at.Width)
		}
		p.chart.Draw(&p.pen, float64(w)/p.pen.Scale, float64(h)/p.pen.Scale, Colours{Dark: look.Dark()})
		p.drawn = true
	}
	return p.pen.Image
}

// CreateRenderer is the toolkit's.
func (p *Plot) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.raster) }

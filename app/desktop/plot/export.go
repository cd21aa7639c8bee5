package plot

import (
	"image"
	"image/png"
	"io"

	"mastwright/app/desktop/plot/pen"
)

// Image draws the chart on white, width by height pixels at scale 1, times the scale.
func (c Chart) Image(width, height int, scale float64) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, int(float64(width)*scale+0.5), int(float64(height)*scale+0.5)))
	c.Draw(&pen.Raster{Image: img, Scale: scale}, float64(width), float64(height), Colours{Paper: true})
	return img
}

// PNG writes the chart on white.
func (c Chart) PNG(w io.Writer, width, height int, scale float64) error {
	return png.Encode(w, c.Image(width, height, scale))
}

// SVG writes the chart on white.
func (c Chart) SVG(w io.Writer, width, height int) error {
	sheet := &pen.SVG{Title: c.title, Sheet: pen.Spot{X: float64(width), Y: float64(height)}}
	c.Draw(sheet, float64(width), float64(height), Colours{Paper: true})
	return sheet.Encode(w)
}

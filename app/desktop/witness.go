package desktop

import (
	"image"
	"sync"

	"fyne.io/fyne/v2/canvas"
)

// newWitness returns a picture of nothing that tells when the toolkit asks for it: only then is there a window to see.
func newWitness(asked chan<- struct{}) *canvas.Raster {
	var once sync.Once
	return canvas.NewRaster(func(width, height int) image.Image {
		once.Do(func() { close(asked) })
		return image.NewRGBA(image.Rect(0, 0, max(1, width), max(1, height)))
	})
}

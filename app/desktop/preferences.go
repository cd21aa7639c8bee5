package desktop

import (
	"fyne.io/fyne/v2"

	"mastwright/app/desktop/look"
)

// What is kept between two starts is how the window looks, nothing of a design: the toolkit does not write it safely.
const (
	widthKey      = "window.width"
	heightKey     = "window.height"
	leftSeamKey   = "seam.left"
	rightSeamKey  = "seam.right"
	paletteKey    = "palette"
	scaleKey      = "scale"
	folderKey     = "folder.designs"
	makeFolderKey = "folder.make"
)

// sizeOf is the size of the window's inside as it was left, or as it begins.
func sizeOf(p fyne.Preferences) fyne.Size {
	width, height := p.FloatWithFallback(widthKey, 1280), p.FloatWithFallback(heightKey, 778)
	return fyne.NewSize(float32(min(max(width, 1024), 6000)), float32(min(max(height, 660), 4000)))
}

func keepSize(p fyne.Preferences, size fyne.Size) {
	if p.Float(widthKey) != float64(size.Width) || p.Float(heightKey) != float64(size.Height) {
		p.SetFloat(widthKey, float64(size.Width))
		p.SetFloat(heightKey, float64(size.Height))
	}
}

// seamsOf are the outer columns' widths as they were dragged, 0 where they were not.
func seamsOf(p fyne.Preferences) (left, right float32) {
	return float32(p.Float(leftSeamKey)), float32(p.Float(rightSeamKey))
}

func keepSeams(p fyne.Preferences, c *columns) {
	p.SetFloat(leftSeamKey, float64(c.ownLeft))
	p.SetFloat(rightSeamKey, float64(c.ownRight))
}

// Scale is how large the person wants everything to be written, 0.8 to 2; 1 is the size that is drawn for.
func Scale(p fyne.Preferences) float64 {
	return min(max(p.FloatWithFallback(scaleKey, 1), 0.8), 2)
}

func choiceOf(p fyne.Preferences) look.Choice {
	switch choice := look.Choice(p.String(paletteKey)); choice {
	case look.Light, look.Night:
		return choice
	}
	return look.System
}

package view

import (
	"image"

	raster "mastwright/mesh/view"
)

// Moving draws as while the scene moves, coarsely, and leaves the drawing to Frame.
func Moving(p *Picture) { p.options.AtOnce, p.painter.busy = false, true }

// Frame draws what is shown into an image, as the goroutine beside the window does.
func Frame(p *Picture, dst *image.RGBA) {
	d := &p.painter
	d.settled = false
	if d.front == nil {
		p.resized(dst.Rect)
	}
	d.load()
	d.frame.draw(dst)
}

// CameraOf returns the camera.
func CameraOf(p *Picture) raster.Camera { return p.camera }

// ChipTexts returns what is written on the chips, with a star behind those that are picked.
func ChipTexts(p *Picture) []string {
	var list []string
	add := func(text string, picked bool) {
		if picked {
			text += "*"
		}
		list = append(list, text)
	}
	for _, c := range p.turns {
		add(c.Text, c.Picked)
	}
	add(p.fit.Text, p.fit.Picked)
	for _, c := range p.lays {
		add(c.Text, c.Picked)
	}
	return list
}

// ChipsRight returns where the last switch ends.
func ChipsRight(p *Picture) float32 {
	last := p.lays[len(p.lays)-1]
	return last.Position().X + last.Size().Width
}

// Landings tells of every picture that comes to the front, and whether it was drawn finely. Nothing else may be asked of the picture
// before a fine one has landed.
func Landings(p *Picture) <-chan bool {
	told := make(chan bool, 100)
	land := p.painter.land
	p.painter.land = func() {
		fine := p.painter.frame.fine
		land()
		told <- fine
	}
	return told
}

// Swings reports whether the mode shape is moving.
func Swings(p *Picture) bool { return p.motion != nil }

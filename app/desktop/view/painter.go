package view

import (
	"image"
	"math"
	"sync"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot/pen"
)

// painter draws the picture beside the window's thread: what is on the screen stays until the next one is ready, and only the latest wish
// is drawn. Its fields belong to the window's thread; the frame and the image at the back belong to the goroutine while it draws.
type painter struct {
	picture *Picture
	scale   float64 // screen pixels per pixel at scale 1
	colours colours

	front, back *image.RGBA
	frame       *frame
	stale       bool // what is wished for is newer than what was begun last
	busy        bool
	late        bool // what is being drawn was overtaken by a picture of another size
	drawing     sync.WaitGroup
	draw, land  func() // kept, so that a picture makes no garbage
	refine      *time.Timer
	settled     bool // nothing moved lately: draw finely
}

// rest is how long the picture stands still before it is drawn finely.
const rest = 160 * time.Millisecond

func (d *painter) start(p *Picture) {
	d.picture, d.scale, d.frame = p, 1, newFrame()
	d.colours = coloursOf(look.Variant())
	d.draw, d.land = d.drawBehind, d.landed
}

// ask wishes for a picture of what is shown now.
func (d *painter) ask() {
	d.stale, d.settled = true, false
	if d.picture.options.AtOnce {
		canvas.Refresh(d.picture.raster)
		return
	}
	d.begin()
}

func (d *painter) begin() {
	if d.busy || d.front == nil {
		return
	}
	d.busy, d.stale = true, false
	d.load()
	d.drawing.Add(1)
	go d.draw()
}

// load hands the frame what is shown now.
func (d *painter) load() {
	p, f := d.picture, d.frame
	f.shown, f.camera, f.scale, f.colours = p.shown, p.camera, d.scale, d.colours
	f.fine = (d.settled || p.options.AtOnce) && d.scale < 2
	for i := range f.overlays {
		f.overlays[i] = f.overlays[i] && p.shown.model.offers(Overlay(i))
	}
	f.still = f.overlays[Shape] && p.motion == nil
	f.taken = p.chipBoxes(f.taken[:0])
	f.word = pen.Rect{}
	if at, size := p.word.Position(), p.word.Size(); p.chips && size.Width > 0 {
		f.word = pen.Rect{X: float64(at.X) - 4, Y: float64(at.Y), W: float64(size.Width) + 6, H: float64(size.Height)}
	}
}

func (d *painter) drawBehind() {
	d.frame.draw(d.back)
	d.drawing.Done()
	fyne.Do(d.land)
}

// landed brings the finished picture to the front.
func (d *painter) landed() {
	late := d.late
	d.busy, d.late = false, false
	if d.back.Rect == d.front.Rect && !late {
		d.front, d.back = d.back, d.front
		canvas.Refresh(d.picture.raster)
	} else {
		d.back = image.NewRGBA(d.front.Rect)
		d.stale = true
	}
	switch {
	case d.stale:
		d.begin()
	case !d.settled && d.picture.motion == nil:
		if d.refine == nil {
			d.refine = time.AfterFunc(rest, func() { fyne.Do(d.rested) })
		} else {
			d.refine.Reset(rest)
		}
	}
}

// rested draws the picture once more, finely, if nothing has moved since.
func (d *painter) rested() {
	if !d.stale && !d.busy && d.picture.motion == nil {
		d.settled = true
		d.begin()
	}
}

// paint gives the toolkit the picture in the screen's pixels. The first one, and the first of another size, are drawn at once.
func (p *Picture) paint(w, h int) image.Image {
	d := &p.painter
	size := image.Rect(0, 0, max(w, 1), max(h, 1))
	if d.front != nil && d.front.Rect == size && !(p.options.AtOnce && d.stale) {
		return d.front
	}
	d.drawing.Wait()
	d.late = d.busy
	if d.front == nil || d.front.Rect != size {
		p.resized(size)
	}
	d.load()
	d.frame.draw(d.front)
	d.stale = false
	return d.front
}

// resized takes images of a new size; the mount keeps its share of the picture.
func (p *Picture) resized(size image.Rectangle) {
	d := &p.painter
	if width := p.Size().Width; width > 0 {
		d.scale = float64(size.Dx()) / float64(width)
	}
	old := p.camera.Size
	p.camera.Size = size.Size()
	if d.front == nil || p.aim != byHand {
		p.aimAt()
	} else if old.X > 0 && old.Y > 0 {
		p.camera.Scale *= math.Min(float64(size.Dx())/float64(old.X), float64(size.Dy())/float64(old.Y))
	}
	d.front = image.NewRGBA(size)
	if !d.busy {
		d.back = image.NewRGBA(size)
	}
}

// chipBoxes appends where the chips stand: no label goes there.
func (p *Picture) chipBoxes(list []pen.Rect) []pen.Rect {
	add := func(o fyne.CanvasObject) {
		if at, size := o.Position(), o.Size(); o.Visible() && size.Width > 0 {
			list = append(list, pen.Rect{X: float64(at.X), Y: float64(at.Y), W: float64(size.Width), H: float64(size.Height)})
		}
	}
	for _, c := range p.turns {
		add(c)
	}
	add(p.fit)
	for _, c := range p.lays {
		add(c)
	}
	add(p.word)
	return list
}

// Image draws what is shown into a picture of its own, without chips: for a sheet or a file.
func (p *Picture) Image(width, height int, scale float64, variant fyne.ThemeVariant) *image.RGBA {
	f := newFrame()
	f.shown, f.camera, f.scale, f.colours, f.fine = p.shown, p.camera, scale, coloursOf(variant), true
	for i := range f.overlays {
		f.overlays[i] = f.overlays[i] && p.shown.model.offers(Overlay(i))
	}
	f.still = true
	if old := p.camera.Size; old.X > 1 && old.Y > 1 {
		f.camera.Scale *= math.Min(float64(width)/float64(old.X), float64(height)/float64(old.Y))
	}
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	f.draw(img)
	return img
}

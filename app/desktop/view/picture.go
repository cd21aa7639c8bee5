package view

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	raster "mastwright/mesh/view"
)

// Options steers a picture. The zero value draws in a goroutine and tells nobody what is picked.
type Options struct {
	// OnPick is told what was clicked: "mast", "receiver", "leads[0]", "airframe.neighbours[2]"; "" is nothing.
	OnPick func(path string)
	// OnMove is told how far the picked lead or neighbour has been pulled along the frame since the pointer took it, mm forward and left,
	// and whether it was let go there. Without it nothing can be pulled.
	OnMove func(path string, x, y float64, done bool)
	// AtOnce draws on the calling thread, as a capture needs it.
	AtOnce bool
}

// Picture shows a model. Its methods are for the window's thread.
type Picture struct {
	widget.BaseWidget

	options  Options
	shown    shown
	camera   raster.Camera // its scale and size in the screen's pixels
	aim      aim
	wide     bool // the whole aircraft is fitted, not only the mount
	chips    bool // of the overlays
	asleep   bool
	checked  Overlay // that the picked verdict put on
	checking bool

	raster *canvas.Raster
	rim    *look.Rim
	turns  [aims]*look.Chip
	fit    *look.Chip
	lays   [overlayCount]*look.Chip
	word   *look.Label

	painter painter
	motion  *fyne.Animation
	hand    hand
}

// New returns an empty picture.
func New(o Options) *Picture {
	p := &Picture{options: o, chips: true}
	p.camera = raster.Camera{Scale: 1, Size: image.Pt(1, 1)}.From(raster.Corner)
	p.raster = canvas.NewRaster(p.paint)
	p.painter.start(p)
	p.rim = look.NewRim(look.Bare)
	p.word = look.NewLabel("shown", look.Caption, look.Second)
	for i, name := range [aims]string{"corner", "front", "side", "top"} {
		p.turns[i] = look.NewChip(name, func() { p.turn(aim(i)) })
	}
	p.fit = look.NewChip("fit", p.Fit)
	for i := range p.lays {
		o := Overlay(i)
		p.lays[i] = look.NewChip(o.String(), func() { p.SetOverlay(o, !p.shown.overlays[o]) })
	}
	p.ExtendBaseWidget(p)
	return p
}

// SetModel shows a model. The camera stays, except for the first one.
func (p *Picture) SetModel(m *Model) {
	first := p.shown.model == nil
	p.shown.model = m
	if first {
		p.aimAt()
	}
	p.offer()
	p.changed()
}

// SetFocus shows the dimension line of a field; none for "".
func (p *Picture) SetFocus(path string) {
	if p.shown.focus != path {
		p.shown.focus = path
		p.aimAt()
		p.changed()
	}
}

// SetPicked outlines a part in the colour of what is picked, by the path OnPick gave; "" none.
func (p *Picture) SetPicked(path string) {
	if p.shown.picked != path {
		p.shown.picked = path
		p.changed()
	}
}

// SetChecked puts on what belongs to a check and takes off what an earlier check put on. "" only takes off.
func (p *Picture) SetChecked(check string) {
	o, ok := overlayOf(check)
	if p.checking && (!ok || o != p.checked) {
		p.shown.overlays[p.checked] = false
	}
	p.checking = ok && !p.shown.overlays[o] || p.checking && ok && o == p.checked
	if ok {
		p.checked = o
		p.shown.overlays[o] = true
	}
	p.aimAt()
	p.offer()
	p.changed()
}

// SetOverlay switches an overlay. One the model has nothing for draws nothing.
func (p *Picture) SetOverlay(o Overlay, on bool) {
	if p.shown.overlays[o] == on {
		return
	}
	p.shown.overlays[o] = on
	if o == p.checked {
		p.checking = false
	}
	p.aimAt()
	p.offer()
	p.changed()
}

// Overlays returns what is switched on and can be drawn.
func (p *Picture) Overlays() []Overlay {
	var list []Overlay
	for i, on := range p.shown.overlays {
		if on && p.shown.model.offers(Overlay(i)) {
			list = append(list, Overlay(i))
		}
	}
	return list
}

// SetOverlayChips shows or hides the row of switches at the bottom left.
func (p *Picture) SetOverlayChips(shown bool) {
	if p.chips != shown {
		p.chips = shown
		p.offer()
		p.Refresh()
	}
}

// SetMode chooses the flying mode that swings, 0 for the lowest.
func (p *Picture) SetMode(index int) {
	if p.shown.mode != index {
		p.shown.mode = index
		p.changed()
	}
}

// SetBare shows the mount only as a ghost, so that the frame's face with its numbered holes is seen.
func (p *Picture) SetBare(bare bool) {
	if p.shown.bare != bare {
		p.shown.bare = bare
		p.changed()
	}
}

// SetBefore lays the outline of another model's mount over this one; nil takes it off.
func (p *Picture) SetBefore(m *Model) {
	if p.shown.before != m {
		p.shown.before = m
		p.changed()
	}
}

// SetAwake is told whether the picture can be seen: nothing swings out of sight.
func (p *Picture) SetAwake(awake bool) {
	if p.asleep == awake {
		p.asleep = !awake
		p.changed()
	}
}

// offer sets the switches to what the model has.
func (p *Picture) offer() {
	for i, c := range p.lays {
		has := p.shown.model.offers(Overlay(i))
		c.SetOff(!has)
		c.SetPicked(has && p.shown.overlays[i])
		if p.chips {
			c.Show()
		} else {
			c.Hide()
		}
	}
	if p.chips {
		p.word.Show()
	} else {
		p.word.Hide()
	}
}

// swings reports whether the mode shape is to move.
func (p *Picture) swings() bool {
	return p.shown.overlays[Shape] && p.shown.model.offers(Shape) && !p.asleep && p.Visible() && fyne.CurrentApp().Settings().ShowAnimations()
}

// changed asks for a picture of what is shown now.
func (p *Picture) changed() {
	p.move()
	p.painter.ask()
}

// Refresh follows the palette.
func (p *Picture) Refresh() {
	p.painter.colours = coloursOf(look.Variant())
	p.changed()
	p.BaseWidget.Refresh()
}

// Hide stops what swings.
func (p *Picture) Hide() {
	p.BaseWidget.Hide()
	p.move()
}

// Show goes on with what swings.
func (p *Picture) Show() {
	p.BaseWidget.Show()
	p.move()
}

// MinSize leaves room for a mast.
func (p *Picture) MinSize() fyne.Size {
	p.ExtendBaseWidget(p)
	return fyne.NewSize(160, 120)
}

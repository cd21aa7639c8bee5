package view

import (
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"mastwright/app/desktop/look"
	raster "mastwright/mesh/view"
)

// hand is what the pointer and the keys are about.
type hand struct {
	focused bool
	shift   bool // on the keyboard
	pans    bool // the drag under way moves the picture sideways
	right   bool // the right button is down
	last    fyne.Position
	pulls   string     // path of what the drag under way pulls along the frame
	pulled  [2]float64 // mm, forward and left
}

const (
	keyTurn  = 5 * math.Pi / 180 // an arrow key
	keyPan   = 24.0              // pixels at scale 1
	keyZoom  = 1.15
	pickNear = 4.0 // pixels at scale 1 around the pointer
)

// turnedByHand says that the view is no standard one any more.
func (p *Picture) turnedByHand() {
	p.aim = byHand
	for _, c := range p.turns {
		c.SetPicked(false)
	}
	p.painter.ask()
}

func (p *Picture) orbit(azimuth, elevation float64) {
	p.camera = p.camera.Orbit(azimuth, elevation)
	p.turnedByHand()
}

func (p *Picture) pan(dx, dy float64) {
	k := p.painter.scale
	p.camera = p.camera.Pan(dx*k, dy*k)
	p.turnedByHand()
}

func (p *Picture) zoom(factor float64, at fyne.Position) {
	k := p.painter.scale
	p.camera = p.camera.Zoom(factor, float64(at.X)*k, float64(at.Y)*k)
	p.turnedByHand()
}

func (p *Picture) middle() fyne.Position {
	size := p.Size()
	return fyne.NewPos(size.Width/2, size.Height/2)
}

// MouseDown takes the focus and notes what a drag will do.
func (p *Picture) MouseDown(e *desktop.MouseEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(p); c != nil {
		c.Focus(p)
	}
	p.hand.right = e.Button == desktop.MouseButtonSecondary
	p.hand.pans = e.Button != desktop.MouseButtonPrimary || e.Modifier&fyne.KeyModifierShift != 0
	p.hand.last = e.Position
	p.hand.pulls, p.hand.pulled = "", [2]float64{}
	if path := p.shown.picked; !p.hand.pans && p.options.OnMove != nil && p.shown.model != nil && movable(path) && p.pick(e.Position) == path {
		p.hand.pulls = path
	}
}

// movable says what can be pulled along the frame.
func movable(path string) bool {
	return strings.HasPrefix(path, "leads[") || strings.HasPrefix(path, "airframe.neighbours[")
}

// MouseUp ends a drag with the right button.
func (p *Picture) MouseUp(*desktop.MouseEvent) { p.hand.right = false }

// MouseIn does nothing.
func (p *Picture) MouseIn(*desktop.MouseEvent) {}

// MouseMoved pans with the right button: the toolkit sends no drag for it.
func (p *Picture) MouseMoved(e *desktop.MouseEvent) {
	if !p.hand.right || e.Button != desktop.MouseButtonSecondary {
		p.hand.right = false
		return
	}
	p.pan(float64(e.Position.X-p.hand.last.X), float64(e.Position.Y-p.hand.last.Y))
	p.hand.last = e.Position
}

// MouseOut does nothing.
func (p *Picture) MouseOut() {}

// Dragged turns the scene, or moves it sideways with Shift or another button.
func (p *Picture) Dragged(e *fyne.DragEvent) {
	dx, dy := float64(e.Dragged.DX), float64(e.Dragged.DY)
	if p.hand.pans {
		p.pan(dx, dy)
		return
	}
	k := p.painter.scale
	if p.hand.pulls != "" {
		x, y := along(p.camera, dx*k, dy*k)
		p.hand.pulled[0] += x
		p.hand.pulled[1] += y
		p.options.OnMove(p.hand.pulls, p.hand.pulled[0], p.hand.pulled[1], false)
		return
	}
	p.camera = p.camera.Drag(dx*k, dy*k)
	p.turnedByHand()
}

// along returns how far a point of a level plane goes, in mm forward and left, that follows the pointer by pixels. Where the plane is seen from
// its edge it only goes sideways in the picture.
func along(c raster.Camera, dx, dy float64) (x, y float64) {
	sinA, cosA := math.Sincos(c.Azimuth)
	right := dx / c.Scale
	x, y = -sinA*right, cosA*right
	if depth := math.Sin(c.Elevation); math.Abs(depth) > 0.15 {
		away := -dy / c.Scale / depth
		x, y = x-cosA*away, y-sinA*away
	}
	return x, y
}

// DragEnd lets go of what was pulled.
func (p *Picture) DragEnd() {
	if path := p.hand.pulls; path != "" {
		p.hand.pulls = ""
		p.options.OnMove(path, p.hand.pulled[0], p.hand.pulled[1], true)
	}
}

// Scrolled zooms at the pointer.
func (p *Picture) Scrolled(e *fyne.ScrollEvent) {
	p.zoom(math.Exp(float64(e.Scrolled.DY)*0.006), e.Position)
}

// Tapped picks what is under the pointer.
func (p *Picture) Tapped(e *fyne.PointEvent) {
	if p.options.OnPick != nil && p.shown.model != nil {
		p.options.OnPick(p.pick(e.Position))
	}
}

// pick returns the path of what is at a place of the picture.
func (p *Picture) pick(at fyne.Position) string {
	m, k := p.shown.model, p.painter.scale
	scene := m.scene()
	hit, ok := scene.Pick(p.camera, float64(at.X)*k, float64(at.Y)*k, pickNear*k)
	if !ok {
		return ""
	}
	return m.bodies[hit.Thing].path
}

// FocusGained shows the rim.
func (p *Picture) FocusGained() {
	p.hand.focused = true
	p.rim.Set(look.Focused)
}

// FocusLost takes the rim off.
func (p *Picture) FocusLost() {
	p.hand.focused, p.hand.shift = false, false
	p.rim.Set(look.Bare)
}

// KeyDown notes Shift.
func (p *Picture) KeyDown(e *fyne.KeyEvent) {
	if e.Name == desktop.KeyShiftLeft || e.Name == desktop.KeyShiftRight {
		p.hand.shift = true
	}
}

// KeyUp forgets Shift.
func (p *Picture) KeyUp(e *fyne.KeyEvent) {
	if e.Name == desktop.KeyShiftLeft || e.Name == desktop.KeyShiftRight {
		p.hand.shift = false
	}
}

// TypedKey turns with the arrows, or moves with Shift and the arrows.
func (p *Picture) TypedKey(e *fyne.KeyEvent) {
	var x, y float64
	switch e.Name {
	case fyne.KeyLeft:
		x = -1
	case fyne.KeyRight:
		x = 1
	case fyne.KeyUp:
		y = 1
	case fyne.KeyDown:
		y = -1
	default:
		return
	}
	if p.hand.shift {
		p.pan(x*keyPan, -y*keyPan)
	} else {
		p.orbit(x*keyTurn, y*keyTurn)
	}
}

// TypedRune zooms with + and -, fits with 0, and turns to a standard view with C, F, S and T.
func (p *Picture) TypedRune(r rune) {
	switch r {
	case '+', '=':
		p.zoom(keyZoom, p.middle())
	case '-':
		p.zoom(1/keyZoom, p.middle())
	case '0':
		p.Fit()
	case 'c', 'C':
		p.turn(corner)
	case 'f', 'F':
		p.turn(front)
	case 's', 'S':
		p.turn(side)
	case 't', 'T':
		p.turn(top)
	}
}

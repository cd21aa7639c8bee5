package verdicts

import (
	"math"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/design/review"
)

// Band is a range of heights, in mm, with the worst verdict there and the check that gives it.
type Band struct {
	From, To float64
	State    review.State
	Label    string // "heading"; may be empty
}

// Reading is what the staff shows, in mm.
type Reading struct {
	From, To float64 // of the staff; 30 to 180 when both are 0
	Height   float64
	Bands    []Band // from below, without gaps; none: a plain ruler
	Stale    bool   // the bands are of an earlier design: no states are shown
}

// Staff is a levelling staff beside the view: the present height as a mark that slides, and beside the ticks the worst verdict at every
// height with the check that binds at each change.
type Staff struct {
	widget.BaseWidget

	OnBegin   func()           // the mark was taken
	OnDrag    func(mm float64) // it was moved
	OnEnd     func()           // it was let go
	OnFocus   func()           // it has the keyboard
	OnAbandon func()           // instead of OnEnd: Escape, it is back where it was taken

	reading Reading
	shown   float64 // height under the hand while the mark is dragged
	taken   float64 // height where the drag began
	held    bool
	given   bool    // the drag was given up, but the button is still down
	offset  float32 // of the mark's middle below the pointer
	focused bool
	bands   *canvas.Raster
	scale   span
}

// span is where the staff's two ends are drawn.
type span struct{ top, bottom float32 }

// NewStaff returns a plain ruler from 30 to 180 mm.
func NewStaff() *Staff {
	s := &Staff{}
	s.Set(Reading{})
	s.bands = newInk(s.drawBands)
	s.ExtendBaseWidget(s)
	return s
}

// Set shows a height. While the mark is held it stays under the hand.
func (s *Staff) Set(r Reading) {
	if r.From == 0 && r.To == 0 {
		r.From, r.To = 30, 180
	}
	r.From, r.To = min(r.From, r.Height), max(r.To, r.Height)
	if s.held { // the scale stands still under the hand
		r.From, r.To = min(r.From, s.reading.From), max(r.To, s.reading.To)
	}
	s.reading = r
	if !s.held {
		s.shown = r.Height
	}
	if s.bands != nil {
		s.Refresh()
	}
}

// Height returns the height where the mark is, in mm.
func (s *Staff) Height() float64 { return s.shown }

// Measures of the staff, in pixels from its left.
const (
	staffWidth  = 106
	staffAir    = 14 // over the highest and under the lowest height
	numberRight = 25
	tickRight   = 39
	stripLeft   = 41
	plateRight  = 40
	plateHeight = 20
)

// MinSize is that of a staff that can still be read.
func (s *Staff) MinSize() fyne.Size {
	s.ExtendBaseWidget(s)
	return fyne.NewSize(staffWidth, 160)
}

// at is where a height is drawn.
func (s *Staff) at(mm float64) float32 {
	part := (mm - s.reading.From) / (s.reading.To - s.reading.From)
	return s.scale.bottom - float32(part)*(s.scale.bottom-s.scale.top)
}

// heightAt is the height at a place, in whole mm and on the staff.
func (s *Staff) heightAt(y float32) float64 {
	part := float64((s.scale.bottom - y) / (s.scale.bottom - s.scale.top))
	return s.onStaff(math.Round(s.reading.From + part*(s.reading.To-s.reading.From)))
}

func (s *Staff) onStaff(mm float64) float64 { return min(max(mm, s.reading.From), s.reading.To) }

// Dragged slides the mark in whole mm.
func (s *Staff) Dragged(e *fyne.DragEvent) {
	if s.given {
		return
	}
	if !s.held {
		s.take(e.Position.Y - e.Dragged.DY)
	}
	s.slide(s.heightAt(e.Position.Y + s.offset))
}

// DragEnd lets the mark go.
func (s *Staff) DragEnd() {
	if s.given {
		s.given = false
		return
	}
	s.release()
}

// Tapped brings the mark to the pointer and gives the staff the keyboard.
func (s *Staff) Tapped(e *fyne.PointEvent) {
	s.focus()
	if y := s.at(s.shown); e.Position.Y > y-plateHeight/2 && e.Position.Y < y+plateHeight/2 && e.Position.X < stripLeft {
		return // on the mark itself
	}
	s.step(s.heightAt(e.Position.Y))
}

func (s *Staff) focus() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil {
		c.Focus(s)
	}
}

// take begins a drag at a pointer: on the mark it keeps its distance, elsewhere the mark comes to the pointer.
func (s *Staff) take(y float32) {
	s.focus()
	s.held, s.taken, s.offset = true, s.shown, 0
	if d := s.at(s.shown) - y; d > -plateHeight/2 && d < plateHeight/2 {
		s.offset = d
	}
	if s.OnBegin != nil {
		s.OnBegin()
	}
}

func (s *Staff) slide(mm float64) {
	if mm == s.shown {
		return
	}
	s.shown = mm
	s.Refresh()
	if s.OnDrag != nil {
		s.OnDrag(mm)
	}
}

func (s *Staff) release() {
	s.held = false
	if s.OnEnd != nil {
		s.OnEnd()
	}
	s.Refresh()
}

// abandon brings the mark back to where it was taken.
func (s *Staff) abandon() {
	s.held, s.given, s.shown = false, true, s.taken
	if s.OnAbandon != nil {
		s.OnAbandon()
	}
	s.Refresh()
}

// step is a whole drag at once.
func (s *Staff) step(mm float64) {
	if mm == s.shown {
		return
	}
	s.held = true
	if s.OnBegin != nil {
		s.OnBegin()
	}
	s.slide(mm)
	s.release()
}

// TypedKey moves the mark by 1 mm with Up and Down, by 10 mm with the Page keys, to the ends with Home and End. Escape gives a drag up.
func (s *Staff) TypedKey(key *fyne.KeyEvent) {
	if s.held {
		if key.Name == fyne.KeyEscape {
			s.abandon()
		}
		return
	}
	switch key.Name {
	case fyne.KeyUp:
		s.step(s.onStaff(s.shown + 1))
	case fyne.KeyDown:
		s.step(s.onStaff(s.shown - 1))
	case fyne.KeyPageUp:
		s.step(s.onStaff(s.shown + 10))
	case fyne.KeyPageDown:
		s.step(s.onStaff(s.shown - 10))
	case fyne.KeyHome:
		s.step(s.reading.To)
	case fyne.KeyEnd:
		s.step(s.reading.From)
	}
}

// TypedRune does nothing.
func (s *Staff) TypedRune(rune) {}

// FocusGained shows where the keyboard is.
func (s *Staff) FocusGained() {
	s.focused = true
	s.Refresh()
	if s.OnFocus != nil {
		s.OnFocus()
	}
}

// FocusLost is the other end of FocusGained.
func (s *Staff) FocusLost() { s.focused = false; s.Refresh() }

// Cursor shows that the mark slides up and down.
func (s *Staff) Cursor() desktop.Cursor { return desktop.VResizeCursor }

// CreateRenderer is the toolkit's.
func (s *Staff) CreateRenderer() fyne.WidgetRenderer {
	s.ExtendBaseWidget(s)
	sh := &sheet{widget: s, least: s.MinSize}
	sh.draw = func(size fyne.Size) { s.draw(sh, size) }
	return sh
}

func (s *Staff) draw(sh *sheet, size fyne.Size) {
	s.scale = span{top: 22 + staffAir, bottom: size.Height - staffAir}
	sh.words("height mm", look.Caption, look.Second, fyne.TextAlignLeading, 8, 6, 18)
	s.drawTicks(sh)
	sh.put(s.bands, stripLeft, 0, stripMost+4, size.Height)
	s.drawChanges(sh, size)
	s.drawMark(sh)
}

// drawTicks draws a tick every 5 or 10 mm, a long one with its number where there is room for one.
func (s *Staff) drawTicks(sh *sheet) {
	perMM := (s.scale.bottom - s.scale.top) / float32(s.reading.To-s.reading.From)
	number := 10
	for _, step := range []int{20, 50, 100} {
		if float32(number)*perMM < 28 {
			number = step
		}
	}
	tick := 5
	if 5*perMM < 4 {
		tick = 10
	}
	covered := s.at(s.shown)
	first := int(math.Ceil(s.reading.From/float64(tick))) * tick
	for mm := first; mm <= int(s.reading.To); mm += tick {
		y := look.Whole(s, s.at(float64(mm)))
		long := mm%number == 0
		length, thick := float32(5), float32(1)
		if mm%10 == 0 {
			length = 7
		}
		if long {
			length, thick = 10, 2
		}
		sh.box(look.Second, tickRight-length, y-thick/2, length, thick)
		if long && math.Abs(float64(y-covered)) > plateHeight/2+7 {
			sh.words(strconv.Itoa(mm), look.Caption, look.Second, fyne.TextAlignTrailing, numberRight, y-8, 16)
		}
	}
}

// The strip is wider the better the state, so that it can be read without its colour.
const stripMost = 11

var stripWidths = map[review.State]float32{review.Pass: stripMost, review.Marginal: 7, review.Fail: 4, review.NoData: 4}

func (s *Staff) drawBands(k *ink, width, height float32) {
	if len(s.reading.Bands) == 0 {
		k.box(look.Color(look.Edge), 0, s.scale.top, 2, s.scale.bottom-s.scale.top)
		return
	}
	const least = 2 // a single height that passes is seen too
	ends := func(b Band) (top, bottom float32) {
		return k.whole(s.at(s.onStaff(b.To))), k.whole(s.at(s.onStaff(b.From)))
	}
	band := func(b Band, top, bottom float32) {
		if b.State == review.NoData || s.reading.Stale {
			k.outline(look.Color(look.Edge), 0, top, stripWidths[b.State], bottom-top, 1)
			return
		}
		k.box(look.Color(look.BarRole(b.State)), 0, top, stripWidths[b.State], bottom-top)
	}
	for _, b := range s.reading.Bands {
		if top, bottom := ends(b); bottom-top >= least {
			band(b, top, bottom)
		}
	}
	for _, b := range s.reading.Bands {
		if top, bottom := ends(b); bottom-top < least {
			band(b, top-least/2, top+least/2)
		}
	}
}

// drawMark draws the present height: a plate with the number and a pointer to the strip.
func (s *Staff) drawMark(sh *sheet) {
	y := look.Whole(s, s.at(s.shown))
	sh.box(look.Act, plateRight-1, y-1, stripLeft+stripMost-plateRight+3, 2)
	top, width := y-plateHeight/2, float32(plateRight)
	sh.box(look.Act, 0, top, width, plateHeight).CornerRadius = 3
	if s.focused {
		ring := sh.box(look.Act, 1, top+1, width-2, plateHeight-2)
		ring.StrokeColor, ring.StrokeWidth, ring.CornerRadius = look.Color(look.OnAct), 1, 2
	}
	sh.words(strconv.FormatFloat(s.shown, 'f', 1, 64), look.Strong, look.OnAct, fyne.TextAlignCenter, width/2, top, plateHeight)
}

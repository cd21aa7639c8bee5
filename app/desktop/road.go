package desktop

import (
	"fmt"
	"image/color"
	"regexp"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/app/session"
	"mastwright/design/review"
)

// roadHeight is that of the road with its seam.
const roadHeight = 54

// road is the line of the five stages across the top, each with a mark and a few words on how it stands.
type road struct {
	widget.BaseWidget

	stations []*station
}

func newRoad(onPick func(stage int)) *road {
	r := &road{}
	for i := range stageNames {
		s := &station{index: i, name: stageNames[i], mark: look.NewMark(look.NotBegun, 16), onPick: onPick}
		s.ExtendBaseWidget(s)
		r.stations = append(r.stations, s)
	}
	r.ExtendBaseWidget(r)
	return r
}

// show tells how the stages stand and which one is open.
func (r *road) show(stages []session.Stage, open int) {
	for i, s := range r.stations {
		sign := look.SignOf(stages[i].State)
		if i >= Make && stages[i].State == review.NoData {
			sign = look.NotBegun
		}
		s.say(sign, unbracketed(stages[i].Text), i == open)
	}
}

// unbracketed leaves out what stands in brackets: a material's short names are enough on the road.
func unbracketed(text string) string { return brackets.ReplaceAllString(text, "") }

var brackets = regexp.MustCompile(` \([^)]*\)`)

// MinSize is the road's height.
func (r *road) MinSize() fyne.Size { return fyne.NewSize(5*120, roadHeight) }

// CreateRenderer is the toolkit's.
func (r *road) CreateRenderer() fyne.WidgetRenderer {
	objects := []fyne.CanvasObject{look.Surface(look.Panel)}
	for _, s := range r.stations {
		objects = append(objects, s)
	}
	return &roadRenderer{road: r, objects: append(objects, look.Surface(look.Seam))}
}

type roadRenderer struct {
	road    *road
	objects []fyne.CanvasObject
}

func (r *roadRenderer) Layout(size fyne.Size) {
	r.objects[0].Resize(size)
	share := size.Width / float32(len(r.road.stations))
	for i, s := range r.road.stations {
		x, end := look.Whole(r.road, float32(i)*share), look.Whole(r.road, float32(i+1)*share)
		s.Move(fyne.NewPos(x, 0))
		s.Resize(fyne.NewSize(end-x, size.Height-1))
	}
	seam := r.objects[len(r.objects)-1]
	seam.Move(fyne.NewPos(0, size.Height-1))
	seam.Resize(fyne.NewSize(size.Width, 1))
}
func (r *roadRenderer) MinSize() fyne.Size           { return r.road.MinSize() }
func (r *roadRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *roadRenderer) Destroy()                     {}
func (r *roadRenderer) Refresh()                     { canvas.Refresh(r.road) }

// station is one stage of the road. Enter or Space opens it; Left and Right go to its neighbours.
type station struct {
	widget.BaseWidget

	index  int
	name   string
	text   string
	mark   *look.Mark
	open   bool
	onPick func(int)

	focused, hovered bool
}

func (s *station) say(sign look.Sign, text string, open bool) {
	s.mark.Set(sign)
	if s.text != text || s.open != open {
		s.text, s.open = text, open
		s.Refresh()
	}
}

// Tapped opens the stage.
func (s *station) Tapped(*fyne.PointEvent) { s.onPick(s.index) }

// TypedKey opens the stage.
func (s *station) TypedKey(key *fyne.KeyEvent) {
	switch key.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		s.onPick(s.index)
	}
}

// TypedRune does nothing.
func (s *station) TypedRune(rune) {}

// FocusGained shows the rim.
func (s *station) FocusGained() { s.focused = true; s.Refresh() }

// FocusLost takes it away.
func (s *station) FocusLost() { s.focused = false; s.Refresh() }

// MouseIn shows that the stage can be opened.
func (s *station) MouseIn(*desktop.MouseEvent) { s.hovered = true; s.Refresh() }

// MouseMoved does nothing.
func (s *station) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is the other end of MouseIn.
func (s *station) MouseOut() { s.hovered = false; s.Refresh() }

// String tells the station as a line of text.
func (s *station) String() string { return fmt.Sprintf("%s: %s", s.name, s.text) }

// CreateRenderer is the toolkit's.
func (s *station) CreateRenderer() fyne.WidgetRenderer {
	r := &stationRenderer{s: s, ground: &canvas.Rectangle{}, under: &canvas.Rectangle{}, line: &canvas.Rectangle{},
		rim: look.NewRim(look.Bare), name: look.Words(s.name, look.Body, look.Ink), text: look.Words("", look.Caption, look.Second)}
	r.name.TextSize = 14
	r.dress()
	return r
}

type stationRenderer struct {
	s                   *station
	ground, under, line *canvas.Rectangle
	rim                 *look.Rim
	name, text          *canvas.Text
}

func (r *stationRenderer) Layout(size fyne.Size) {
	r.ground.Resize(size)
	r.under.Move(fyne.NewPos(0, size.Height-3))
	r.under.Resize(fyne.NewSize(size.Width, 3))
	r.rim.Resize(size)
	r.s.mark.Move(fyne.NewPos(15, 9))
	r.s.mark.Resize(fyne.NewSquareSize(16))
	const left = 39
	look.Lay(r.name, fyne.TextAlignLeading, left, 8, 18)
	r.text.Text = look.Shortened(r.s.text, look.Caption, size.Width-left-8)
	look.Lay(r.text, fyne.TextAlignLeading, left, 28, 16)
	from := left + r.name.MinSize().Width + 12
	r.line.Hidden = r.s.index == len(stageNames)-1
	r.line.Move(fyne.NewPos(look.Whole(r.s, from), 16))
	r.line.Resize(fyne.NewSize(max(0, size.Width-from+8), 2))
}
func (r *stationRenderer) MinSize() fyne.Size { return fyne.NewSize(120, roadHeight-1) }
func (r *stationRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ground, r.line, r.under, r.s.mark, r.name, r.text, r.rim}
}
func (r *stationRenderer) Destroy() {}
func (r *stationRenderer) Refresh() {
	r.dress()
	r.Layout(r.s.Size())
	canvas.Refresh(r.s)
}

func (r *stationRenderer) dress() {
	r.ground.FillColor, r.under.FillColor = color.Transparent, color.Transparent
	r.name.TextStyle, r.name.Color = look.Body.Style(), look.Color(look.Ink)
	r.text.Color = look.Color(look.Second)
	r.line.FillColor = look.Color(look.Edge)
	if r.s.hovered {
		r.ground.FillColor = look.Color(look.Ground)
	}
	if r.s.open {
		r.ground.FillColor, r.under.FillColor = look.Color(look.ActSoft), look.Color(look.Act)
		r.name.TextStyle = look.Strong.Style()
		r.text.Color = look.Color(look.Ink)
	}
	edging := look.Bare
	if r.s.focused {
		edging = look.Focused
	}
	r.rim.Set(edging)
}

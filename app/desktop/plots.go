package desktop

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"mastwright/app/desktop/look"
	"mastwright/app/desktop/plot"
)

// plotPair is the plot of the picked check, and in a wide window a second one beside it.
type plotPair struct {
	widget.BaseWidget

	first, second *plot.Plot
	seam          *look.Plain
}

// pairFrom is the width that has room for two plots.
const pairFrom = 660

func newPlotPair() *plotPair {
	p := &plotPair{first: plot.New(), second: plot.New(), seam: look.Surface(look.Seam)}
	p.ExtendBaseWidget(p)
	return p
}

// CreateRenderer is the toolkit's.
func (p *plotPair) CreateRenderer() fyne.WidgetRenderer { return &pairRenderer{p} }

type pairRenderer struct{ p *plotPair }

func (r *pairRenderer) Layout(size fyne.Size) {
	both := size.Width >= pairFrom
	r.p.second.Hidden, r.p.seam.Hidden = !both, !both
	width := size.Width
	if both {
		width = look.Whole(r.p, (size.Width-1)/2)
		r.p.seam.Move(fyne.NewPos(width, 0))
		r.p.seam.Resize(fyne.NewSize(1, size.Height))
		r.p.second.Move(fyne.NewPos(width+1, 0))
		r.p.second.Resize(fyne.NewSize(size.Width-width-1, size.Height))
	}
	r.p.first.Resize(fyne.NewSize(width, size.Height))
}
func (r *pairRenderer) MinSize() fyne.Size { return fyne.NewSize(200, 140) }
func (r *pairRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.p.first, r.p.seam, r.p.second}
}
func (r *pairRenderer) Destroy() {}
func (r *pairRenderer) Refresh() {
	r.Layout(r.p.Size())
	canvas.Refresh(r.p)
}

// The size of a plot in a file, in pixels at scale 1, and the scale of its pixels.
const (
	plotWidth     = 640
	plotHeightOut = 360
	plotScale     = 2
)

// savePlot writes the plot of the picked check into a file, as SVG or PNG by its name.
func (w *Window) savePlot() {
	check := w.picked()
	chart, has := w.pictures.chart(w.shown, check)
	if !has {
		w.hint.say("This check has no plot; pick Heading, Modes, Shake or Tip-over.")
		return
	}
	w.choose(chooser{title: "Save the plot as", act: "Save", folder: w.folder(), name: check + ".svg", suffix: ".svg", making: true,
		done: func(path string) {
			draw := func(out io.Writer) error { return chart.SVG(out, plotWidth, plotHeightOut) }
			switch strings.ToLower(filepath.Ext(path)) {
			case ".svg":
			case ".png":
				draw = func(out io.Writer) error { return chart.PNG(out, plotWidth, plotHeightOut, plotScale) }
			default:
				path += ".svg"
			}
			w.replacing(path, draw)
		}})
}

// replacing writes a file, after the question where one of the name is there.
func (w *Window) replacing(path string, encode func(io.Writer) error) {
	write := func() {
		if err := writeWhole(path, encode); err != nil {
			w.tellPerson("Not written", capital(err.Error()))
			return
		}
		w.hint.say(fmt.Sprintf("Written: %s", path))
	}
	if !exists(path) {
		write()
		return
	}
	w.put("Replace "+filepath.Base(path)+"?", path+" is there already.", 440, nil, answer{"Replace", write}, answer{label: "Cancel"})
}

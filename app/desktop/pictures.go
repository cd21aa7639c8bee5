package desktop

import (
	"fyne.io/fyne/v2"

	"mastwright/app/desktop/plot"
	picture "mastwright/app/desktop/view"
	"mastwright/app/session"
	"mastwright/design"
	"mastwright/design/review"
	"mastwright/mesh/view"
)

// pictures are the mount in the middle of the window and the plot below it. Their models are made beside the toolkit's goroutine, the
// newest one only.
type pictures struct {
	w       *Window
	picture *picture.Picture
	pair    *plotPair

	model  *picture.Model
	before *picture.Model // of the design before the last edit
	above  bool
	ghost  bool   // it is shown as an outline
	made   source // what the model shows
	making bool
}

// source is what a picture is made of: a review with the preview of the same document, or a document that cannot be built.
type source struct {
	review  *session.Review
	preview *session.Preview
	doc     *design.Document
}

// sourceOf returns what the picture of a snapshot is made of; false while a part of it is still being made.
func sourceOf(n *session.Snapshot) (source, bool) {
	switch {
	case len(n.Problems) > 0:
		return source{doc: n.Document}, true
	case n.Review == nil:
		return source{}, false
	case n.PreviewReason != "":
		return source{review: n.Review}, true
	case n.Preview == nil || n.Preview.Serial != n.Review.Serial:
		return source{}, false
	}
	return source{review: n.Review, preview: n.Preview}, true
}

func newPictures(w *Window) *pictures {
	return &pictures{w: w, picture: picture.New(picture.Options{OnPick: w.pointed, OnMove: w.pulled, AtOnce: w.options.AtOnce}), pair: newPlotPair()}
}

func (p *pictures) view() fyne.CanvasObject { return p.picture }

// plots returns the plots of the picked check, nil where it has none.
func (p *pictures) plots() fyne.CanvasObject {
	if _, has := beside[p.w.picked()]; has {
		return p.pair
	}
	return nil
}

// stage suits the picture to what is being done.
func (p *pictures) stage(stage int) {
	p.picture.SetOverlayChips(stage == Check)
	p.picture.SetBare(stage == Measure)
	if stage != Measure {
		p.picture.SetPicked("")
	}
	if above := stage == Measure; above != p.above { // the frame is measured from above, the mount is looked at from the corner
		p.above = above
		turn := view.Corner
		if above {
			turn = view.Top
		}
		p.picture.Turn(turn)
	}
	if stage == Check {
		p.picture.SetChecked(p.w.picked())
	} else {
		p.picture.SetChecked("")
	}
}

// show makes the picture of a snapshot, if it is not made already.
func (p *pictures) show(n *session.Snapshot) {
	p.plotted(n)
	s, whole := sourceOf(n)
	if !whole || p.making || s == p.made {
		return
	}
	p.making = true
	before := p.model
	make := func() {
		model := s.build(before)
		p.w.options.Post(func() {
			if p.model != nil && p.made.edited(s) && !p.w.shown.Grouping {
				p.before = p.model
			}
			p.making, p.model, p.made = false, model, s
			p.picture.SetModel(model)
			p.showBefore(p.ghost)
			p.show(p.w.shown)
		})
	}
	if p.w.options.AtOnce {
		make()
		return
	}
	go make()
}

// edited reports whether another source is of another document.
func (s source) edited(other source) bool {
	return s.doc != other.doc || (s.review == nil) != (other.review == nil) || s.review != nil && s.review.Serial != other.review.Serial
}

func (s source) build(before *picture.Model) *picture.Model {
	if s.doc != nil {
		return picture.Build(s.doc, review.Result{}, nil, before)
	}
	var printed []picture.Part
	if s.preview != nil {
		for _, piece := range s.preview.Pieces {
			printed = append(printed, picture.Part{Name: piece.Part.Name, Mesh: piece.Mesh, Places: piece.Part.Places})
		}
	}
	return picture.Build(s.review.Document, s.review.Result, printed, before)
}

// showBefore shows the mount as it was before the last edit, as an outline over this one.
func (p *pictures) showBefore(shown bool) {
	p.ghost = shown
	if shown {
		p.picture.SetBefore(p.before)
	} else {
		p.picture.SetBefore(nil)
	}
}

// pick shows the overlay and the plot of a check.
func (p *pictures) pick(n *session.Snapshot) {
	if p.w.open == Check {
		p.picture.SetChecked(p.w.picked())
	}
	if p.w.open == Check {
		p.w.compose()
	}
	p.plotted(n)
}

// plotted draws the plot of the picked check and the one that goes with it.
func (p *pictures) plotted(n *session.Snapshot) {
	first, has := p.chart(n, p.w.picked())
	if !has || p.w.open != Check {
		return
	}
	p.pair.first.SetChart(first)
	if second, also := p.chart(n, beside[p.w.picked()]); also {
		p.pair.second.SetChart(second)
	}
}

// beside are the checks that have a plot, each with the check whose plot says most besides its own: a higher mast is magnetically cleaner
// but rings lower.
var beside = map[string]string{"heading": "modes", "modes": "shake", "shake": "modes", "tipover": "modes"}

func (p *pictures) chart(n *session.Snapshot, check string) (plot.Chart, bool) {
	if n.Review == nil || len(n.Problems) > 0 { // a plot of an earlier document would look like this one's
		_, has := beside[check]
		return plot.Chart{}, has
	}
	var materials []review.Candidate
	if n.Comparison != nil {
		materials = n.Comparison.Candidates
	}
	return plot.For(check, n.Review.Document, n.Review.Result, materials)
}

func (p *pictures) focus(path string)    { p.picture.SetFocus(path) }
func (p *pictures) turn(s view.Standard) { p.picture.Turn(s) }
func (p *pictures) fit()                 { p.picture.Fit() }

// pointed leads to what was clicked in the picture while it is being measured or shaped. In Measure it can be pulled along the frame then.
func (w *Window) pointed(path string) {
	w.pictures.picture.SetPicked("")
	if w.open == Measure {
		w.pictures.picture.SetPicked(path)
	}
	if path == "" {
		return
	}
	switch w.open {
	case Measure:
		w.lead(first(path))
	case Shape:
		if path == "mast" {
			w.lead("mast.height")
		}
	}
}

// first is the first question about a thing.
func first(path string) string {
	switch path {
	case "mast":
		return "mast.height"
	case "receiver":
		return "receiver.mass"
	}
	return path + ".name"
}

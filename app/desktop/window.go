// Package desktop is the window: the road of five stages across the top, what is being worked on at the left, the mount in the middle, how
// it stands at the right, and the menus, dialogs and keys round them. The session holds the design; the window shows its snapshots and
// sends intents.
package desktop

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"mastwright/app/desktop/form"
	"mastwright/app/desktop/look"
	"mastwright/app/desktop/verdicts"
	"mastwright/app/session"
	"mastwright/design/review"
	"mastwright/materials"
)

// The stages, in the road's order.
const (
	Measure = iota
	Shape
	Check
	Make
	Prove
)

var stageNames = [...]string{"Measure", "Shape", "Check", "Make", "Prove"}

// busyAfter is how long the figures may be of the design before the last edit without a word.
const busyAfter = 150 * time.Millisecond

// Options are a window's surroundings. The zero value keeps nothing between two starts.
type Options struct {
	State   string       // folder of the session's unsaved work and recent files
	Version string       // said in About
	Post    func(func()) // runs a function on the toolkit's goroutine; nil for the toolkit's own
	AtOnce  bool         // pictures are drawn on the calling goroutine: tests
}

// Window is the desktop's one window.
type Window struct {
	app     fyne.App
	window  fyne.Window
	session *session.Session
	options Options

	shown   *session.Snapshot
	open    int // stage
	busy    bool
	seeking bool // for repairs, and long enough to say so

	road    *road
	columns *columns
	hint    *hint
	frame   *frame

	desk     *form.Desk
	measure  *form.Form
	shape    *form.Form
	terms    *form.Form // limits, loads and assumptions
	judging  *termsColumn
	termed   bool // Check shows them instead of the account
	account  *verdicts.Account
	left     *look.Column // the account's
	list     *verdicts.List
	staff    *verdicts.Staff
	stand    *stand // of the staff
	shaping  *rightStack
	missing  *missingColumn
	material *verdicts.Materials
	maker    *maker
	prover   *prover
	pictures *pictures

	painted chan struct{}
	asked   *question // the one that is open
	menued  string    // what the menu says
	noticed string    // file that another program has changed, as the person knows
	pull    pull
}

// New returns the window of a session that begins with the finished example. It panics where the toolkit cannot make a window.
func New(app fyne.App, o Options) *Window {
	if o.Post == nil {
		o.Post = fyne.Do
	}
	app.Settings().SetTheme(look.Theme{Choice: choiceOf(app.Preferences())})
	w := &Window{app: app, options: o, open: Check, painted: make(chan struct{})}
	w.window = app.NewWindow("Mastwright")
	w.window.SetPadded(false)
	w.window.SetMaster()
	w.session = session.New(session.Options{State: o.State, Changed: func() { o.Post(w.refresh) }})
	w.shown = w.session.Snapshot()
	w.build()
	w.window.SetMainMenu(w.menu())
	w.window.SetContent(w.frame)
	w.window.Resize(sizeOf(app.Preferences()))
	w.window.SetCloseIntercept(w.Quit)
	w.window.SetOnDropped(w.dropped)
	w.Stage(Check)
	w.refresh()
	return w
}

// Window returns the toolkit's window.
func (w *Window) Window() fyne.Window { return w.window }

// Painted is closed when the toolkit asks for the first picture. Where there is no OpenGL it never does.
func (w *Window) Painted() <-chan struct{} { return w.painted }

// Begin says what there is to say at the start: unsaved work of a session that ended badly, or the design named on the command line.
func (w *Window) Begin(file string) {
	if file != "" {
		w.openFile(file)
	}
	w.offerRecoveries()
	w.app.Lifecycle().SetOnEnteredForeground(func() { w.pictures.picture.SetAwake(true); w.noticeChange() })
	w.app.Lifecycle().SetOnExitedForeground(func() { w.pictures.picture.SetAwake(false) })
}

func (w *Window) build() {
	w.desk = form.NewDesk(w.session, form.Options{OnFocus: w.focused, Choices: w.choices, Named: w.named, Refused: w.refused, Post: w.options.Post})
	w.desk.Show(w.shown.Document, w.shown.Error)
	w.measure = form.New(w.desk, "measure", "Measure")
	w.shape = form.New(w.desk, "shape", "Shape")
	w.terms = form.New(w.desk, "check", "Limits and assumptions")

	w.list = verdicts.NewList()
	w.list.OnPick = w.pick
	w.list.OnOpen = func(id string) { w.pick(id); w.Stage(Check) }
	w.account = verdicts.NewAccount()
	w.account.OnTry = w.try
	w.account.OnAnswer = w.lead
	w.account.OnCopy = w.copy
	w.account.OnDoubt = w.doubt
	terms := look.NewChip("Limits and assumptions", func() { w.showTerms(true) })
	w.left = look.NewColumn(w.account, look.Space(12), newChipRow(terms))
	terms.OnFocus = func() { w.left.Reveal(terms) }
	w.account.OnReflow = w.left.Reflow
	w.account.OnReveal = w.left.Reveal
	w.staff = verdicts.NewStaff()
	w.staff.OnBegin = func() { w.session.Begin("Height") }
	w.staff.OnDrag = func(mm float64) { _ = w.session.Set("mast.height", fmt.Sprintf("%.4g mm", mm)) } // an error stands in the snapshot
	w.staff.OnEnd = w.session.End
	w.staff.OnAbandon = w.session.Abandon
	w.staff.OnFocus = w.overHeights
	w.stand = newStand(w.staff, w.unshut)
	w.missing = newMissingColumn(w.lead)
	w.material = verdicts.NewMaterials()
	w.material.OnPick = func(name string) { w.complain(w.session.ApplyMaterial(name)) }
	w.shaping = newRightStack(w.list, w.material)
	w.judging = newTermsColumn(w.terms, func() { w.showTerms(false) })
	w.maker = newMaker(w)
	w.prover = newProver(w)
	w.pictures = newPictures(w)

	w.road = newRoad(w.Stage)
	w.columns = newColumns()
	w.columns.ownLeft, w.columns.ownRight = seamsOf(w.app.Preferences())
	w.columns.onDragged = func() { keepSeams(w.app.Preferences(), w.columns) }
	w.hint = newHint()
	w.frame = newFrame(w)
	w.list.Pick("heading")
}

// Stage opens a stage of the road.
func (w *Window) Stage(stage int) {
	w.desk.Settle()
	w.open = stage
	w.session.Compare(stage == Shape || stage == Check && w.picked() == "tipover")
	w.study()
	w.compose()
	w.hint.say(questions[stage])
	w.refresh()
}

// compose puts the stage's parts into the columns.
func (w *Window) compose() {
	c := w.columns
	w.shaping.hold(w.open == Shape)
	switch w.open {
	case Measure:
		c.set(content{left: w.measure, staff: w.stand, picture: w.pictures.view(), right: w.missing})
	case Shape:
		c.set(content{left: w.shape, staff: w.stand, picture: w.pictures.view(), right: w.shaping})
	case Check:
		left := fyne.CanvasObject(w.left)
		if w.termed {
			left = w.judging
		}
		c.set(content{left: left, staff: w.stand, picture: w.pictures.view(), plot: w.pictures.plots(), right: w.list})
	case Make:
		c.set(content{left: w.maker.form, picture: w.maker.sheet, right: w.maker.right})
	case Prove:
		c.set(content{left: w.prover.left, picture: w.prover.middle(), right: w.prover.right})
	}
	w.pictures.stage(w.open)
}

func (w *Window) showTerms(shown bool) {
	w.termed = shown
	w.Stage(Check)
}

// refresh shows the newest snapshot. It is the one way from results to the window.
func (w *Window) refresh() {
	n := w.session.Snapshot()
	w.shown = n
	w.window.SetTitle(title(n))
	w.desk.Show(n.Document, n.Error)
	switch w.open {
	case Measure:
		w.measure.Follow()
	case Shape:
		w.shape.Follow()
	case Check:
		if w.termed {
			w.terms.Follow()
		}
	}
	w.wait(n)
	w.seek(n)
	w.road.show(n.Stages, w.open)
	w.hint.tell(n, w.busy)
	w.missing.show(n)
	w.staff.Set(reading(n))
	w.stand.follow(n.Heights)
	w.showReview(n)
	w.pictures.show(n)
	w.maker.show(n)
	w.prover.show(n)
	w.syncMenu()
}

// showReview shows the newest review, which may be of an earlier document.
func (w *Window) showReview(n *session.Snapshot) {
	w.list.SetNotice(notice(n))
	if n.Grouping || n.Review == nil {
		w.list.Follow(resultOf(n))
	} else {
		w.list.Set(n.Review.Result)
	}
	w.tell()
	old := w.busy || len(n.Problems) > 0 || len(n.Errors) > 0
	w.list.SetStale(old)
	w.account.SetStale(old)
	if c := n.Comparison; c != nil {
		w.material.Set(c.Candidates, ofOneMaterial(n.Document))
		w.material.SetStale(c.Serial != n.Serial)
	}
}

// tell tells the account of the picked check.
func (w *Window) tell() {
	result := resultOf(w.shown)
	v, known := result.Verdict(w.picked())
	if !known {
		return
	}
	changed := w.account.Story().Verdict.ID != v.ID
	w.account.Set(w.story(v, result.Compass))
	if check, found := review.Find(v.ID); found {
		var rows []fyne.CanvasObject
		for _, row := range w.desk.Rows("account", append(check.Moves, check.Limits...)) {
			row.OnReflow = w.left.Reflow
			row.OnScroll = w.left.Scrolled
			row.OnReveal = func(row *form.Row) { w.left.Reveal(row) }
			rows = append(rows, row)
		}
		w.account.SetMoves(rows...)
	}
	if changed {
		w.left.ToTop()
	}
}

// wait notices, after a while, that the figures are not yet those of the design.
func (w *Window) wait(n *session.Snapshot) {
	if !n.Checking {
		w.busy = false
		return
	}
	serial := n.Serial
	time.AfterFunc(busyAfter, func() {
		w.options.Post(func() {
			if w.shown.Checking && w.shown.Serial >= serial && !w.busy {
				w.busy = true
				w.refresh()
			}
		})
	})
}

func (w *Window) picked() string { return w.list.Picked() }

// pick shows the account, the plot and the overlay of a check.
func (w *Window) pick(id string) {
	w.list.Pick(id)
	w.session.Compare(w.open == Shape || w.open == Check && id == "tipover")
	w.study()
	w.tell()
	w.pictures.pick(w.shown)
}

// lead goes to the field of a path, whatever stage it is in.
func (w *Window) lead(path string) {
	w.desk.Settle()
	for _, to := range []struct {
		stage int
		form  *form.Form
		key   string
	}{{Measure, w.measure, "measure"}, {Shape, w.shape, "shape"}, {Check, w.terms, "check"}} {
		if w.desk.Stage(path) != to.key {
			continue
		}
		if to.stage == Check {
			w.termed = true
		}
		w.Stage(to.stage)
		to.form.Lead(path)
		return
	}
	w.Stage(Make)
	w.maker.form.Lead(path)
}

func (w *Window) copy(text string) {
	w.app.Clipboard().SetContent(text)
	w.hint.say("Copied: " + text)
}

// focused follows the field with the keyboard: its help at the foot, its dimension in the picture.
func (w *Window) focused(path string) {
	w.pictures.focus(path)
	if path == "" {
		w.hint.say(questions[w.open])
		return
	}
	w.hint.say(help(w.shown, path))
}

func (w *Window) refused(sentence string) { w.hint.say(sentence) }

// choices are what a text field may be: a material, a place.
func (w *Window) choices(path string) []string {
	doc := w.shown.Document
	var names []string
	switch {
	case path == "mast.place":
		for _, place := range doc.Airframe.Places {
			names = append(names, place.Name)
		}
	case path == "materials.tube":
		names = doc.Library().Of(materials.Tube).IDs()
	case path == "materials.sheet" || path == "materials.legs" && doc.Mast.Legs.Made == "cut":
		names = doc.Library().Of(materials.Sheet).IDs()
	case strings.HasPrefix(path, "materials."):
		names = doc.Library().Of(materials.Print).IDs()
	case strings.HasSuffix(path, "plate.material"):
		names = doc.Library().Of(materials.Sheet).IDs()
	default:
		return nil
	}
	if now := doc.Get(path); now != "" && !slices.Contains(names, now) {
		names = append(names, now)
	}
	return names
}

// named is how a choice is called: a material by its title.
func (w *Window) named(path, choice string) string {
	if !strings.HasPrefix(path, "materials.") && !strings.HasSuffix(path, "plate.material") {
		return choice
	}
	if m, err := w.shown.Document.Library().Find(choice); err == nil {
		return unbracketed(m.Title)
	}
	return choice
}

// complain says an error at the foot.
func (w *Window) complain(err error) {
	if err != nil {
		w.hint.say(capital(err.Error()))
	}
}

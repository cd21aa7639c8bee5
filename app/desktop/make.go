package desktop

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/build"
	"mastwright/app/desktop/form"
	"mastwright/app/desktop/look"
	"mastwright/app/session"
	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/design/review"
	"mastwright/materials/hardware"
)

// maker is the stage Make: what to write and where, the parts as they are printed, and their list.
type maker struct {
	w     *Window
	form  *form.Form
	right *look.Column
	sheet *bedSheet

	ticks   *tickList // of the parts
	paper   *widget.Check
	fit     *widget.Check
	where   *look.Prose
	write   *look.Chip
	gauge   *gauge
	written *look.Prose
	reveal  *look.Chip
	sheetOf *look.Chip // opens the written build sheet

	parts, screws *facts
	wires         *facts
	cable         *look.Prose
	warning       *look.Prose
	read          *look.Chip
	air           fyne.CanvasObject // below them
	drawn         *session.Preview
	cancel        context.CancelFunc // while files are written
}

func newMaker(w *Window) *maker {
	m := &maker{w: w, sheet: newBedSheet(), parts: newFacts("Parts"), screws: newFacts("Screws"), wires: newFacts("Wires, from the receiver to the controller"), cable: look.NewProse("", look.Caption, look.Second), ticks: newTickList(), gauge: newGauge()}
	m.form = form.New(w.desk, "make", "Make")
	m.paper = widget.NewCheck("build sheet: drawings, steps, every verdict", nil)
	m.paper.SetChecked(true)
	m.fit = widget.NewCheck("fit pieces: small prints that settle the play", nil)
	m.where = look.NewProse("", look.Body, look.Ink)
	m.write = look.NewChip("Write files", w.writeFiles)
	m.written = look.NewProse("", look.Body, look.Second)
	m.reveal = look.NewChip("Open the folder", w.reveal)
	m.sheetOf = look.NewChip("Read the build sheet", w.readSheet)
	m.gauge.onCancel = func() {
		if m.cancel != nil {
			m.cancel()
		}
	}
	m.gauge.Hide()
	m.form.SetTail(look.Space(8), look.NewLabel("What to write", look.Strong, look.Ink), look.Space(4), m.ticks, newTick(m.paper), newTick(m.fit), look.Space(4), newChipRow(look.NewChip("Look at the build sheet", w.previewSheet)), look.Space(8),
		look.NewLabel("Folder", look.Strong, look.Ink), look.Space(4), m.where, look.Space(4),
		newChipRow(m.write, look.NewChip("Another folder", w.chooseFolder)), m.gauge, look.Space(8), m.written, newChipRow(m.reveal, m.sheetOf),
		look.Space(8), look.NewProse(cautions, look.Caption, look.Second))

	m.warning = look.NewProse("", look.Body, look.FailWord)
	m.read = look.NewChip("Read it", func() { w.next(1); w.Stage(Check) })
	m.air = look.Space(12)
	m.right = look.NewColumn(m.warning, newChipRow(m.read), m.air, m.parts, look.Space(16), m.screws, look.Space(16), m.wires, look.Space(4), m.cable)
	return m
}

// selection is what is ticked.
func (m *maker) selection() session.Selection {
	return session.Selection{Parts: m.ticks.picked(), Fit: m.fit.Checked, Sheet: build.Sheet{PDF: m.paper.Checked, Version: m.w.options.Version}}
}

func (m *maker) began(cancel context.CancelFunc) {
	m.cancel = cancel
	m.gauge.say("", 0)
	m.gauge.Show()
	m.write.SetOff(true)
	m.form.Reflow()
}

func (m *maker) progress(part string, done, total int) {
	if m.cancel != nil && total > 0 {
		m.gauge.say(part, float64(done)/float64(total))
	}
}

func (m *maker) ended() {
	m.cancel = nil
	m.gauge.Hide()
	m.write.SetOff(false)
	m.form.Reflow()
}

// tell says what was written last.
func (m *maker) tell(n *session.Snapshot) {
	m.where.SetText(m.w.makeFolder())
	m.reveal.Hidden = n.Written == nil
	m.sheetOf.Hidden = n.Written == nil || !slices.Contains(n.Written.Files, build.SheetPDF)
	if n.Written == nil {
		m.written.SetText("")
		return
	}
	said := fmt.Sprintf("Written at %s: %s.", n.Written.At.Format("15:04"), strings.Join(n.Written.Files, ", "))
	if len(n.Written.Removed) > 0 {
		said += " Taken away: " + strings.Join(n.Written.Removed, ", ") + "."
	}
	if !n.Written.Current {
		said = "The design was changed since. " + said
	}
	m.written.SetText(said)
}

// show tells the parts of a snapshot.
func (m *maker) show(n *session.Snapshot) {
	m.form.Follow()
	m.tell(n)
	m.write.SetOff(m.cancel != nil || len(n.Problems) > 0)
	if n.Review == nil {
		m.nothing(n)
		return
	}
	var names []string
	for _, part := range n.Review.Assembly.Parts {
		names = append(names, part.Name)
	}
	m.ticks.set(names)
	doc := n.Review.Document
	var list []fact
	all, total := "All parts", 0.0
	for i, part := range n.Review.Assembly.Parts {
		name := part.Name
		if part.Copies > part.Count {
			all = "All parts, spares too"
		}
		if part.Copies > 1 {
			name = fmt.Sprintf("%s × %d", part.Name, part.Copies)
		}
		f := fact{what: fmt.Sprintf("%d  %s, %s", i+1, name, strings.ToUpper(part.Material)), origin: madeOf(part)}
		if material, err := doc.Library().Find(part.Material); err == nil {
			mass := part.Mass(material.Density.Typical).Grams() * float64(max(1, part.Copies))
			total += mass
			f.value = fmt.Sprintf("%.1f g", mass)
			f.what = fmt.Sprintf("%d  %s, %s", i+1, name, unbracketed(material.Title))
		}
		list = append(list, f)
	}
	list = append(list, fact{all, fmt.Sprintf("%.1f g", total), ""})
	m.parts.set(list)
	m.screws.set(screwList(n.Review))
	m.wire(doc)
	fails := n.Review.Result.Count(review.Fail)
	m.read.Hidden = fails == 0
	if m.air.Hide(); fails > 0 {
		m.air.Show()
	}
	switch fails {
	case 0:
		m.warning.SetText("")
	case 1:
		m.warning.SetText("1 check fails. The files can be written all the same; read why first.")
	default:
		m.warning.SetText(fmt.Sprintf("%d checks fail. The files can be written all the same; read why first.", fails))
	}
	m.right.Reflow()
	m.form.Reflow()
	m.draw(n)
}

// wire tells the cable.
func (m *maker) wire(doc *design.Document) {
	what, wired := build.Cable(doc)
	var list []fact
	for _, w := range wired {
		list = append(list, fact{what: capital(w[0]), value: w[1]})
	}
	m.wires.set(list)
	m.cable.SetText(capital(strings.Replace(what, "mm2", "mm²", 1)) + ".")
}

// madeOf is how a part is made, in a word or two.
func madeOf(p parts.Part) string {
	switch p.Making {
	case parts.Printed:
		return p.Orientation
	case parts.Cut:
		return fmt.Sprintf("cut, %.3g mm", p.Thickness)
	}
	return fmt.Sprintf("%.1f mm long", p.Length)
}

// nothing says that there are no parts, and why.
func (m *maker) nothing(n *session.Snapshot) {
	why := "The parts are being computed."
	if len(n.Problems) > 0 {
		why = "Nothing can be made yet. " + dotted(n.Problems[0].Sentence())
	}
	m.drawn = nil
	m.sheet.set(m.sheet.bed, 0, nil, why)
	m.ticks.set(nil)
	m.parts.set(nil)
	m.screws.set(nil)
	m.wires.set(nil)
	m.cable.SetText("")
	m.warning.SetText("")
	m.read.Hide()
	m.air.Hide()
	m.right.Reflow()
	m.form.Reflow()
}

// draw lays the preview's parts on the bed.
func (m *maker) draw(n *session.Snapshot) {
	bed := n.Document.Print.Bed
	size := r3.Vec{X: bed.X.Millimetres(), Y: bed.Y.Millimetres(), Z: bed.Z.Millimetres()}
	if n.Preview == nil || m.w.open != Make {
		return
	}
	if m.drawn == n.Preview && m.sheet.bed == size {
		return
	}
	m.drawn = n.Preview
	var laid []bedPart
	for i, piece := range n.Preview.Pieces {
		part := bedPart{number: i + 1, name: piece.Part.Name, copies: piece.Part.Copies, cut: piece.Part.Making != parts.Printed}
		switch piece.Part.Making {
		case parts.Printed:
			part.mesh = piece.Mesh.OnBed(piece.Part.Turn)
			part.said = fmt.Sprintf("%.1f high", piece.Part.Box.Z)
		case parts.Cut:
			part.mesh, part.said = facing(piece.Mesh), fmt.Sprintf("cut, %.3g thick", piece.Part.Thickness)
		default:
			part.mesh, part.said = piece.Mesh, fmt.Sprintf("%.1f long", piece.Part.Length)
		}
		laid = append(laid, part)
	}
	m.sheet.set(size, n.Document.Print.Layer.Millimetres(), laid, n.PreviewReason)
}

// screwList are the screws of an assembly, with what they hold.
func screwList(r *session.Review) []fact {
	var list []fact
	for _, use := range r.Assembly.Screws {
		what := fmt.Sprintf("%d × %s", use.Count, use.Size)
		if use.Length > 0 {
			what += fmt.Sprintf(" × %.3g mm", use.Length.Millimetres())
		}
		material := use.Material
		if m, err := hardware.FindMaterial(use.Material); err == nil {
			material = unbracketed(m.Title)
		}
		list = append(list, fact{what, material, use.For})
	}
	return list
}

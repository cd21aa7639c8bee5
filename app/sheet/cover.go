package sheet

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/app/sheet/draft"
	"mastwright/app/sheet/paper"
	"mastwright/design/review"
	"mastwright/mesh/view"
)

// cover is the first page: what fails, the cautions, the mount, and how it stands.
func (b *builder) cover() paper.Section {
	blocks := append(b.fatal(), paper.Notice{Tone: paper.Caution, Title: "Before anything else", Lines: b.Cautions})
	blocks = append(blocks, b.notices()...)
	blocks = append(blocks,
		paper.Beside{b.portrait(68, 84, 0), lanes(b.Result.Verdicts, 106)},
		paper.Table{
			Columns: []paper.Column{{Title: "This mount", Share: 15}, {Share: 46}, {Title: "For", Share: 13}, {Share: 38}},
			Rows:    b.facts(),
		},
	)
	return paper.Section{Blocks: blocks}
}

// fatal says what fails; nothing when nothing does.
func (b *builder) fatal() []paper.Block {
	if n := b.Result.Count(review.Fail); n > 0 {
		return []paper.Block{b.accounts(review.Fail, counted(n, "check fails", "checks fail")+". Do not fly this mount before you have read why.")}
	}
	return nil
}

// accounts say why verdicts are in a state.
func (b *builder) accounts(state review.State, title string) paper.Notice {
	n := paper.Notice{Tone: tone(state), Title: title}
	for _, v := range b.Result.Verdicts {
		if v.State == state {
			n.Lines = append(n.Lines, account(v))
		}
	}
	return n
}

// notices say what is not known and what is marginal, or that all is well.
func (b *builder) notices() []paper.Block {
	var out []paper.Block
	r := b.Result
	if n := r.Count(review.NoData); n > 0 {
		out = append(out, b.accounts(review.NoData, counted(n, "check has", "checks have")+" no data"))
	}
	if n := r.Count(review.Marginal); n > 0 {
		out = append(out, b.accounts(review.Marginal, counted(n, "check is", "checks are")+" marginal"))
	}
	if n := len(r.Verdicts); n > 0 && n == r.Count(review.Pass) {
		out = append(out, paper.Notice{Tone: paper.Good, Title: fmt.Sprintf("All %d checks pass", n)})
	}
	return out
}

// account says why a verdict is what it is, with its deciding figure and limits.
func account(v review.Verdict) string {
	said := []string{v.Title + ":"}
	if v.State == review.NoData {
		said = append(said, "no data.", sentence(v.Because))
		if len(v.Missing) > 0 {
			said = append(said, "Still to be answered: "+asked(v.Missing)+".")
		}
	} else {
		f := v.Figure
		if f.Name != "" {
			text := fmt.Sprintf("%s %s", f.Name, value(f, f.Value))
			if f.Limit != nil {
				text += fmt.Sprintf(" (good: %s, fails: %s)", passes(f), fails(f))
			}
			said = append(said, sentence(text))
		}
		said = append(said, sentence(v.Because))
	}
	if v.Accepted != "" && v.State != review.Pass {
		said = append(said, "Accepted: "+sentence(v.Accepted))
	}
	return strings.Join(said, " ")
}

// portrait is the shaded picture of the whole mount from a corner, walked round it by an angle in radians.
func (b *builder) portrait(w, h, turn float64) paper.Figure {
	p := draft.New(w, h)
	s := scene()
	b.stand(s, still)
	b.receiver(s, r3.Vec{})
	for _, u := range b.assembly.Screws {
		screws(s, u, 0, r3.Vec{})
	}
	b.frame(s)
	c := s.Fit(view.Camera{Size: pixels(w, h)}.From(view.Corner).Orbit(turn, 0), 2*density)
	shaded(p, s, c, 0, 0)
	return paper.Figure{Drawing: p.Drawing, Words: "The mount on the frame's plate with the receiver on its tray, seen from the front right."}
}

// frame puts the frame's plate under the mount, where its size is known and it does not hide the mount.
func (b *builder) frame(s *view.Scene) {
	place := b.place()
	size := place.PlateSize()
	x, y, z := size.X.Millimetres(), size.Y.Millimetres(), place.Plate.Thickness.Millimetres()
	if !(x > 0 && y > 0 && z > 0) || max(x, y) > 4*b.assembly.Seat.Z {
		return
	}
	half := r3.Vec{X: x / 2, Y: y / 2}
	pose := b.face()
	box := view.Box(r3.Box{Min: r3.Vec{X: -half.X, Y: -half.Y, Z: -z}, Max: half})
	s.Things = append(s.Things, view.Thing{Surface: view.Prepare(box), Colour: s.Palette.Frame, Pose: pose})
}

// facts are the mount in a few words and what it was made for, side by side.
func (b *builder) facts() []paper.Row {
	doc, r := b.Doc, b.Result
	name, shape := b.shape()
	left := [][2]string{
		{"Build", b.build()},
		{"Height", millimetres(doc.Mast.Height.Millimetres()) + " mm, from the frame's face to the tray's seat"},
		{name, shape},
		{"Mass", quantity(r.Mass, "g") + " of parts and screws"},
		{"Made of", strings.Join(b.plastics(), ", ")},
		{"First mode", firstMode(r) + b.onMeasured()},
	}
	right := [][2]string{
		{"Aircraft", known(doc.Airframe.Name)},
		{"Place", b.placeName()},
		{"Receiver", known(doc.Receiver.Name)},
		{"Held by", doc.Receiver.Fixing},
		{"Site", b.site()},
		{"Checks", tally(r)},
	}
	var rows []paper.Row
	for i := range left {
		rows = append(rows, paper.Row{Cells: paper.Words(left[i][0], left[i][1], right[i][0], right[i][1])})
	}
	if len(b.Window.Checks) > 0 {
		rows = append(rows, paper.Row{Cells: paper.Words("Height window", b.Window.Words()[0], "Measured", b.tested())})
	} else if len(doc.Measured) > 0 {
		rows = append(rows, paper.Row{Cells: paper.Words("", "", "Measured", b.tested())})
	}
	return rows
}

// tested says how much of the design was measured.
func (b *builder) tested() string {
	if n := len(b.Doc.Measured); n > 0 {
		return counted(n, "value", "values") + ", see under Measured"
	}
	return "nothing yet"
}

// placeName is the place with the turn of its pattern.
func (b *builder) placeName() string {
	name := known(b.Doc.Mast.Place)
	if turn := b.place().Turn.Degrees(); turn != 0 {
		name += fmt.Sprintf(", pattern turned %s to the left", quantity(turn, "°"))
	}
	return name
}

// known is an answer, cut where it is very long, or that there is none.
func known(text string) string {
	const most = 72
	if text == "" {
		return "not answered"
	}
	if letters := []rune(text); len(letters) > most {
		return string(letters[:most]) + "…"
	}
	return text
}

// plastics are the titles of the materials, each once.
func (b *builder) plastics() []string {
	var out []string
	seen := map[string]bool{}
	for _, p := range b.assembly.Parts {
		if !seen[p.Material] {
			seen[p.Material] = true
			out = append(out, b.materialOf(p.Material).Title)
		}
	}
	return out
}

func firstMode(r review.Result) string {
	if len(r.Flying) == 0 {
		return "no data"
	}
	m := r.Flying[0]
	return fmt.Sprintf("%s flying, %s", quantity(m.Hz, "Hz"), m.Shape)
}

func (b *builder) site() string {
	if !b.Doc.Has("site.latitude") || !b.Doc.Has("site.longitude") {
		return "not answered"
	}
	s := b.Doc.Site
	return fmt.Sprintf("latitude %.1f°, longitude %.1f°, %.1f", s.Latitude.Degrees(), s.Longitude.Degrees(), float64(s.Year))
}

// tally is "10 pass, 2 marginal, 1 fail, 1 no data".
func tally(r review.Result) string {
	var out []string
	for s := review.Pass; s <= review.NoData; s++ {
		if n := r.Count(s); n > 0 {
			out = append(out, fmt.Sprintf("%d %s", n, s))
		}
	}
	return strings.Join(out, ", ")
}

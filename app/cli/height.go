package cli

import (
	"fmt"
	"io"
	"math"
	"strings"

	"mastwright/app/build"
	"mastwright/design/review"
	"mastwright/design/sizing"
)

type heightCommand struct {
	File string `arg:"" help:"Design file."`
	JSON bool   `help:"Print one JSON object instead of the table."`
}

func (c heightCommand) Run(s *session) error {
	from, err := readDesign(c.File)
	if err != nil {
		return err
	}
	w, err := sizing.Heights(s, from.doc, sizing.HeightOptions{Opening: true,
		Options: sizing.Options{Progress: func(done, total int) { s.progress.report("heights", done, total) }}})
	s.progress.clear()
	if err != nil {
		return from.sizingError(err)
	}
	if c.JSON {
		err = build.EncodeJSON(s.out, newWindowRecord(w))
	} else {
		printWindow(s.out, from.doc.Name, w)
	}
	if err == nil && !w.Open {
		err = exit(Failing)
	}
	return err
}

// strip is how many columns the heights have.
const strip = 60

// printWindow prints every check over height, from left to right, and what they have in common.
func printWindow(out io.Writer, name string, w sizing.Window) {
	const title = 12
	mark := func(mm float64) int {
		return int(math.Round((mm - w.From) / (w.To - w.From) * (strip - 1)))
	}
	high := fmt.Sprintf("%g mm", w.To)
	fmt.Fprintf(out, "%s\n\n%s%s%s\n", name, build.Pad("", title), build.Pad(fmt.Sprint(w.From), strip-len(high)), high)
	for _, check := range w.Checks {
		fmt.Fprintf(out, "%s%s\n", build.Pad(check.Title, title), line(check.Bands, w))
	}
	fmt.Fprintf(out, "%s%s^ %g mm\n", build.Pad("", title), strings.Repeat(" ", mark(w.Height)), w.Height)
	fmt.Fprintf(out, "\n# fails, m is marginal, . passes; blank: it cannot be built.\n\n")
	for _, text := range w.Words() {
		fmt.Fprint(out, build.Wrap("", 2, text)[2:])
	}
	if !w.Open && w.Opening == nil && len(w.Exclude) > 0 {
		fmt.Fprint(out, build.Wrap("", 2, "mastwright repair looks for what helps "+strings.Join(w.Exclude, " and ")+".")[2:])
	}
	if len(w.Missing) > 0 {
		fmt.Fprint(out, build.Wrap("", 2, "Without data and left out: "+strings.Join(w.Missing, ", ")+".")[2:])
	}
}

// line draws a check's bands. A column shows the worst of its heights.
func line(bands []sizing.Band, w sizing.Window) string {
	letters := []byte(strings.Repeat(".", strip))
	rank := func(c byte) int { return strings.IndexByte(".m# ", c) }
	for _, b := range bands {
		letter := map[review.State]byte{review.Pass: '.', review.Marginal: 'm', review.Fail: '#', review.NoData: ' '}[b.State]
		if b.Unbuildable != "" {
			letter = ' '
		}
		wide := (w.To - w.From) / strip
		for i := range letters {
			from, to := w.From+float64(i)*wide, w.From+float64(i+1)*wide
			if b.From < to && b.To > from && rank(letter) > rank(letters[i]) {
				letters[i] = letter
			}
		}
	}
	return strings.TrimRight(string(letters), " ")
}

// windowRecord is the window as JSON. Heights are in mm.
type windowRecord struct {
	From     float64           `json:"from_mm"`
	To       float64           `json:"to_mm"`
	Height   float64           `json:"height_mm"`
	Open     bool              `json:"open"`
	Window   *intervalRecord   `json:"window"`
	State    string            `json:"state"`
	Below    string            `json:"binds_below"`
	Above    string            `json:"binds_above"`
	Pass     []intervalRecord  `json:"pass"`
	Marginal []intervalRecord  `json:"marginal"`
	Exclude  []string          `json:"exclude"`
	Opening  *repairRecord     `json:"opening"`
	Checks   []heightsRecord   `json:"checks"`
	Staff    []staffBandRecord `json:"staff"`
	Missing  []string          `json:"missing"`
	Words    []string          `json:"words"`
	Reviews  int               `json:"reviews"`
}

type intervalRecord struct {
	From float64 `json:"from_mm"`
	To   float64 `json:"to_mm"`
}

type heightsRecord struct {
	Check string       `json:"check"`
	Bands []bandRecord `json:"bands"`
}

type bandRecord struct {
	intervalRecord
	State       string `json:"state"`
	Unbuildable string `json:"unbuildable,omitempty"`
}

type staffBandRecord struct {
	intervalRecord
	State string `json:"state"`
	Check string `json:"check"`
	Label string `json:"label"`
}

func newWindowRecord(w sizing.Window) windowRecord {
	r := windowRecord{From: w.From, To: w.To, Height: w.Height, Open: w.Open, Below: w.Below, Above: w.Above,
		Pass: intervals(w.Pass), Marginal: intervals(w.Marginal), Exclude: orNone(w.Exclude), Missing: orNone(w.Missing), Words: w.Words(), Reviews: w.Reviews}
	if w.Open {
		r.Window, r.State = &intervalRecord{w.Main.From, w.Main.To}, w.MainState.String()
	}
	if w.Opening != nil {
		opening := newRepairRecord(*w.Opening)
		r.Opening = &opening
	}
	for _, check := range w.Checks {
		h := heightsRecord{Check: check.Check}
		for _, b := range check.Bands {
			band := bandRecord{intervalRecord: intervalRecord{b.From, b.To}, State: b.State.String(), Unbuildable: b.Unbuildable}
			if b.Unbuildable != "" {
				band.State = ""
			}
			h.Bands = append(h.Bands, band)
		}
		r.Checks = append(r.Checks, h)
	}
	for _, b := range w.Staff {
		r.Staff = append(r.Staff, staffBandRecord{intervalRecord{b.From, b.To}, b.State.String(), b.Check, b.Label})
	}
	return r
}

func intervals(list []sizing.Interval) []intervalRecord {
	out := []intervalRecord{}
	for _, i := range list {
		out = append(out, intervalRecord{i.From, i.To})
	}
	return out
}

// orNone is a list that JSON writes as empty, not as null.
func orNone(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}

package cli

import (
	"fmt"
	"io"
	"math"
	"strings"

	"mastwright/app/build"
	"mastwright/design/sizing/certainty"
)

type certaintyCommand struct {
	File    string `arg:"" help:"Design file."`
	Samples int    `default:"200" placeholder:"N" help:"Number of designs drawn from the spread of plastic, leads and assumptions. Default: 200."`
	JSON    bool   `help:"Print one JSON object instead of the table."`
}

func (c certaintyCommand) Run(s *session) error {
	from, err := readDesign(c.File)
	if err != nil {
		return err
	}
	if c.Samples == 0 {
		return fmt.Errorf("--samples 0 draws nothing; leave it out for 200")
	}
	r, err := certainty.Study(s, from.doc, certainty.Options{Samples: c.Samples, Progress: func(done, total int) { s.progress.report("samples", done, total) }})
	s.progress.clear()
	if err != nil {
		return from.sizingError(err)
	}
	if c.JSON {
		return build.EncodeJSON(s.out, newCertaintyRecord(from.doc.Name, r))
	}
	printCertainty(s.out, from.doc.Name, r)
	return nil
}

// printCertainty prints how likely each check says what, and what it hangs on.
func printCertainty(out io.Writer, name string, r certainty.Result) {
	const row = "%s%6s%10s%6s   %s\n"
	const title = 13
	fmt.Fprintf(out, "%s\n\n", name)
	fmt.Fprintf(out, row, build.Pad("", title), "pass", "marginal", "fail", "hangs most on")
	for _, c := range r.Chances {
		if !c.Known {
			fmt.Fprintf(out, "%s no data\n", build.Pad(c.Title, title))
			continue
		}
		line := fmt.Sprintf(row, build.Pad(c.Title, title), percent(c.Pass.Value), percent(c.Marginal.Value), percent(c.Fail.Value), hanging(c))
		fmt.Fprintln(out, strings.TrimRight(line, " \n"))
	}
	fmt.Fprintln(out)
	for _, text := range []string{
		fmt.Sprintf("Nothing fails in %s, everything passes in %s.", interval(r.NoneFails), interval(r.AllPass)),
		fmt.Sprintf("Of %d designs drawn from what is not known for sure, with 95 %% confidence; verdicts that the design accepts are left out.", r.Samples),
	} {
		fmt.Fprint(out, build.Wrap("", 2, text)[2:])
	}
	fmt.Fprint(out, "\nDrawn, least, likeliest and most:\n")
	for _, p := range r.Properties {
		text := fmt.Sprintf("%s: %s, %s, %s; %s", p.Name, build.Digits(p.Law.Low, 3), build.Digits(p.Law.Typical, 3), build.Figure(p.Law.High, p.Unit), p.Source)
		fmt.Fprint(out, build.Wrap("", 4, text))
	}
}

// hanging names what a verdict hangs on most; nothing where the verdict is the same however it turns out.
func hanging(c certainty.Chance) string {
	if len(c.Influences) == 0 || max(c.Pass.Value, c.Marginal.Value, c.Fail.Value) == 1 {
		return ""
	}
	const room = 40
	name := []rune(c.Influences[0].Name)
	if len(name) > room {
		return string(name[:room-1]) + "…"
	}
	return string(name)
}

// percent is a share in whole hundredths; what is not quite none or all does not read so.
func percent(share float64) string {
	switch p := 100 * share; {
	case p > 0 && p < 1:
		return "<1 %"
	case p > 99 && p < 100:
		return ">99 %"
	default:
		return fmt.Sprintf("%.0f %%", p)
	}
}

func interval(s certainty.Share) string {
	return fmt.Sprintf("%s (%.0f to %.0f)", percent(s.Value), math.Floor(100*s.Low), math.Ceil(100*s.High))
}

type certaintyRecord struct {
	Design     string           `json:"design"`
	Samples    int              `json:"samples"`
	NoneFails  shareRecord      `json:"none_fails"`
	AllPass    shareRecord      `json:"all_pass"`
	Checks     []chanceRecord   `json:"checks"`
	Properties []propertyRecord `json:"properties"`
}

type shareRecord struct {
	Value float64 `json:"value"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
}

type chanceRecord struct {
	Check      string            `json:"check"`
	State      string            `json:"state"` // of the design as it stands
	Pass       *shareRecord      `json:"pass"`
	Marginal   *shareRecord      `json:"marginal"`
	Fail       *shareRecord      `json:"fail"`
	Places     []float64         `json:"places"` // below which 5, 50 and 95 % are
	Influences []influenceRecord `json:"influences"`
}

type influenceRecord struct {
	Property string  `json:"property"`
	Rank     float64 `json:"rank_correlation"`
}

type propertyRecord struct {
	Name        string  `json:"name"`
	Low         float64 `json:"low"`
	Typical     float64 `json:"typical"`
	High        float64 `json:"high"`
	Logarithmic bool    `json:"logarithmic"`
	Unit        string  `json:"unit"`
	Source      string  `json:"source"`
}

func newCertaintyRecord(name string, r certainty.Result) certaintyRecord {
	share := func(s certainty.Share) shareRecord {
		return shareRecord{build.Rounded(s.Value, 6), build.Rounded(s.Low, 6), build.Rounded(s.High, 6)}
	}
	out := certaintyRecord{Design: name, Samples: r.Samples, NoneFails: share(r.NoneFails), AllPass: share(r.AllPass), Properties: []propertyRecord{}}
	for _, c := range r.Chances {
		record := chanceRecord{Check: c.Check, State: c.State.String(), Places: []float64{}, Influences: []influenceRecord{}}
		if c.Known {
			pass, marginal, fail := share(c.Pass), share(c.Marginal), share(c.Fail)
			record.Pass, record.Marginal, record.Fail = &pass, &marginal, &fail
			record.Places = []float64{build.Rounded(c.Low, 6), build.Rounded(c.Middle, 6), build.Rounded(c.High, 6)}
		}
		for _, i := range c.Influences {
			record.Influences = append(record.Influences, influenceRecord{i.Name, build.Rounded(i.Rank, 6)})
		}
		out.Checks = append(out.Checks, record)
	}
	for _, p := range r.Properties {
		out.Properties = append(out.Properties, propertyRecord{p.Name, build.Rounded(p.Law.Low, 6), build.Rounded(p.Law.Typical, 6), build.Rounded(p.Law.High, 6), p.Law.Logarithmic, p.Unit, p.Source})
	}
	return out
}

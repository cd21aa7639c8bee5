package session

import (
	"fmt"
	"strings"

	"mastwright/design"
	"mastwright/design/review"
)

// Stage is a station of the road: how it stands, in a word and a mark.
type Stage struct {
	Name  string // "Measure"
	State review.State
	Text  string // "1 answer missing"
}

func (s *Snapshot) stages() []Stage {
	return []Stage{s.measureStage(), s.shapeStage(), s.checkStage(), s.makeStage(),
		s.proveStage()}
}

func (s *Snapshot) measureStage() Stage {
	if st, wrong := s.mistyped("Measure"); wrong {
		return st
	}
	if n := len(s.Missing); n > 0 {
		return Stage{"Measure", review.NoData, plural(n, "answer", "answers") + " missing"}
	}
	return Stage{"Measure", review.Pass, "all answered"}
}

func (s *Snapshot) shapeStage() Stage {
	if st, wrong := s.mistyped("Shape"); wrong {
		return st
	}
	d := s.Document
	material := strings.ToUpper(d.Bearing())
	if m, err := d.Library().Find(d.Bearing()); err == nil {
		material = m.Title
	}
	st := Stage{"Shape", review.Pass, fmt.Sprintf("%s %.4g mm, %s", d.Mast.Build, d.Mast.Height.Millimetres(), material)}
	switch {
	case len(s.Problems) > 0 && len(s.Missing) > 0:
		st.State, st.Text = review.NoData, "cannot be built yet"
	case len(s.Problems) > 0:
		st.State, st.Text = review.Fail, "cannot be built"
	}
	return st
}

// mistyped is a stage with fields that are not understood.
func (s *Snapshot) mistyped(name string) (Stage, bool) {
	n := 0
	for _, e := range s.Errors {
		if f, _ := design.FieldOf(e.Path); strings.EqualFold(f.Stage, name) {
			n++
		}
	}
	return Stage{name, review.Fail, plural(n, "field is", "fields are") + " not understood"}, n > 0
}

func (s *Snapshot) checkStage() Stage {
	switch {
	case s.Checking:
		return Stage{"Check", review.NoData, "checking"}
	case len(s.Problems) > 0 || s.Review == nil:
		return Stage{"Check", review.NoData, "cannot be checked"}
	}
	r := s.Review.Result
	fails, marginals, open := r.Count(review.Fail), r.Count(review.Marginal), r.Count(review.NoData)
	var said []string
	if fails > 0 {
		said = append(said, plural(fails, "fails", "fail"))
	}
	if marginals > 0 {
		said = append(said, fmt.Sprintf("%d marginal", marginals))
	}
	switch {
	case fails > 0:
		return Stage{"Check", review.Fail, strings.Join(said, ", ")}
	case open > 0:
		return Stage{"Check", review.NoData, strings.Join(append(said, fmt.Sprintf("%d without data", open)), ", ")}
	case marginals > 0:
		return Stage{"Check", review.Marginal, strings.Join(said, ", ")}
	}
	return Stage{"Check", review.Pass, fmt.Sprintf("all %d pass", len(r.Verdicts))}
}

func (s *Snapshot) makeStage() Stage {
	if len(s.Problems) > 0 || s.Review == nil {
		return Stage{"Make", review.NoData, "no parts yet"}
	}
	parts := plural(len(s.Review.Assembly.Parts), "part", "parts")
	switch {
	case s.Written == nil:
		return Stage{"Make", review.NoData, parts + ", not written"}
	case !s.Written.Current:
		return Stage{"Make", review.Marginal, parts + ", changed since written"}
	}
	return Stage{"Make", review.Pass, parts + ", written"}
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

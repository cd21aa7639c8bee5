package cli

import (
	"mastwright/app/build"
	"mastwright/design/review"
)

type checkCommand struct {
	File         string `arg:"" help:"Design file."`
	JSON         bool   `help:"Print one JSON object instead of the table."`
	AllowMissing bool   `help:"Exit 0, not 3, when a check has no data."`
}

func (c checkCommand) Run(s *session) error {
	design, err := readDesign(c.File)
	if err != nil {
		return err
	}
	result, err := design.review()
	if err != nil {
		return err
	}
	if c.JSON {
		if err := build.EncodeJSON(s.out, build.NewRecord(result)); err != nil {
			return err
		}
	} else {
		build.PrintTable(s.out, result)
		build.PrintAccounts(s.out, result, design.doc.Notes())
		build.PrintCount(s.out, result)
	}
	return verdictExit(result, c.AllowMissing)
}

// verdictExit is the exit code of a review: 1 when a check fails that the design does not accept, 3 when none does but one has
// no data.
func verdictExit(r review.Result, allowMissing bool) error {
	for _, v := range r.Verdicts {
		if v.State == review.Fail && v.Accepted == "" {
			return exit(Failing)
		}
	}
	if r.Count(review.NoData) > 0 && !allowMissing {
		return exit(Incomplete)
	}
	return nil
}

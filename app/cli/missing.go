package cli

import (
	"fmt"
	"strings"

	"mastwright/app/build"
)

type missingCommand struct {
	File string `arg:"" help:"Design file."`
}

func (c missingCommand) Run(s *session) error {
	design, err := readDesign(c.File)
	if err != nil {
		return err
	}
	answers := design.doc.Missing()
	switch len(answers) {
	case 0:
		fmt.Fprintln(s.out, "Nothing is missing: every check has its data.")
		return nil
	case 1:
		fmt.Fprintln(s.out, "1 answer is missing.")
	default:
		fmt.Fprintf(s.out, "%d answers are missing, the most useful first.\n", len(answers))
	}
	for _, a := range answers {
		fmt.Fprintf(s.out, "\n%s  (%s)\n", a.Title, a.Path)
		if len(a.Checks) > 0 {
			fmt.Fprint(s.out, build.Wrap("", 4, "Completes "+strings.Join(a.Checks, ", ")+"."))
		}
		if a.Measure != "" {
			fmt.Fprint(s.out, build.Wrap("", 4, a.Measure))
		}
	}
	return nil
}

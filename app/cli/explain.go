package cli

import (
	"fmt"
	"strings"

	"mastwright/app/build"
	"mastwright/design"
	"mastwright/design/review"
)

type explainCommand struct {
	Check string `arg:"" help:"Id of a check, such as heading."`
	File  string `arg:"" optional:"" help:"Design file; with it, all that the check finds there is printed too."`
}

func (c explainCommand) Run(s *session) error {
	check, ok := review.Find(c.Check)
	if !ok {
		return fmt.Errorf("%q is no check; the checks are %s", c.Check, strings.Join(design.Checks(), ", "))
	}
	const indent = 11
	fmt.Fprintf(s.out, "%s: %s\n\n", check.Title, check.Question)
	fmt.Fprint(s.out, build.Wrap("Formula", indent, check.Formula))
	fmt.Fprint(s.out, build.Wrap("Source", indent, check.Source))
	lead := "Limits"
	for _, line := range defaultLimits(check.Limits) {
		fmt.Fprint(s.out, build.Wrap(lead, indent, line))
		lead = ""
	}
	lead = "Moved by"
	for _, path := range check.Moves {
		title := ""
		if f, ok := design.FieldOf(path); ok {
			title = f.Title
		}
		fmt.Fprint(s.out, build.Wrap(build.Pad(lead, indent)+build.Pad(path, 32), indent+32, title))
		lead = ""
	}
	if c.File == "" {
		return nil
	}
	return c.found(s)
}

// found prints what the check finds in a design.
func (c explainCommand) found(s *session) error {
	design, err := readDesign(c.File)
	if err != nil {
		return err
	}
	result, err := design.review()
	if err != nil {
		return err
	}
	fmt.Fprintf(s.out, "\n%s\n\n", result.Design)
	if v, ok := result.Verdict(c.Check); ok {
		build.PrintVerdict(s.out, v)
	}
	switch c.Check {
	case "hardware":
		build.PrintScrews(s.out, result.Screws)
	case "sway", "modes":
		build.PrintShares(s.out, result.Shares)
	}
	return nil
}

// defaultLimits says for each limit what it is when the design does not set it.
func defaultLimits(paths []string) []string {
	var lines []string
	for _, path := range paths {
		if f, ok := design.FieldOf(path); ok {
			lines = append(lines, fmt.Sprintf("%s: %s (%s)", f.Title, f.Default, path))
			continue
		}
		pass, ok := design.FieldOf(path + ".pass")
		if !ok {
			continue
		}
		line := fmt.Sprintf("%s: passes to %s", strings.TrimSuffix(pass.Title, ", pass"), pass.Default)
		if marginal, ok := design.FieldOf(path + ".marginal"); ok {
			line += ", marginal to " + marginal.Default
		}
		lines = append(lines, line+" ("+path+")")
	}
	return lines
}

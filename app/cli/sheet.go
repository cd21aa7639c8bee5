package cli

import (
	"fmt"
	"runtime/debug"
	"slices"
	"time"

	"mastwright/app/build"
)

// paperFlags are the flags of what is printed.
type paperFlags struct {
	Paper string `default:"a4" enum:"a4,letter" help:"Paper of the PDF: a4 or letter."`
	Date  string `placeholder:"DAY" help:"Day printed on the paper, such as 2026-07-14; none when not given."`
}

// sheetFlags are the flags of the build sheet.
type sheetFlags struct {
	Sheet []string `default:"pdf" enum:"pdf,html,markdown,none" help:"Build sheet as pdf, html or markdown, several with commas between, or none."`
	paperFlags
}

// sheet is the build sheet that was asked for.
func (f sheetFlags) sheet() (build.Sheet, error) {
	if err := f.check(); err != nil {
		return build.Sheet{}, err
	}
	asked := func(form string) bool { return slices.Contains(f.Sheet, form) && !slices.Contains(f.Sheet, "none") }
	return build.Sheet{PDF: asked("pdf"), HTML: asked("html"), Markdown: asked("markdown"), Letter: f.Paper == "letter", Date: f.Date, Version: version()}, nil
}

// check refuses a date that is no day.
func (f paperFlags) check() error {
	if _, err := time.Parse(time.DateOnly, f.Date); err != nil && f.Date != "" {
		return fmt.Errorf("--date %q is no day; write it as 2026-07-14", f.Date)
	}
	return nil
}

// version is the program's as its builder stamped it; "" for one built from a working copy.
func version() string {
	if info, known := debug.ReadBuildInfo(); known && info.Main.Version != "(devel)" {
		return info.Main.Version
	}
	return ""
}

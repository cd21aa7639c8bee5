package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"mastwright/app/build"
	"mastwright/app/sheet"
	"mastwright/app/sheet/pdf"
)

type cardCommand struct {
	File  string `arg:"" help:"PDF to write."`
	Force bool   `help:"Replace the file when it is there."`
	paperFlags
}

// Run writes the measuring card: one page to take to an aircraft that has no design yet.
func (c cardCommand) Run(s *session) error {
	if err := c.check(); err != nil {
		return err
	}
	if _, err := os.Lstat(c.File); !c.Force && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s exists; choose another name, or replace it with --force", c.File)
	}
	o := pdf.Options{}
	if c.Paper == "letter" {
		o.Size = pdf.Letter
	}
	var data bytes.Buffer
	if err := pdf.Encode(&data, sheet.Card(sheet.CardOptions{Date: c.Date, Version: version()}), o); err != nil {
		return err
	}
	if err := build.WriteFile(c.File, data.Bytes()); err != nil {
		return err
	}
	fmt.Fprintf(s.out, "The measuring card is in %s. Print it at 100 %%.\n", filepath.ToSlash(c.File))
	return nil
}

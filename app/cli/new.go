package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"mastwright/app/build"
	"mastwright/design"
)

type newCommand struct {
	Example string `placeholder:"NAME" help:"Begin with an example design; see mastwright examples."`
	File    string `arg:"" help:"Design file to write. An existing one is left alone."`
}

func (c newCommand) Run(s *session) error {
	data, err := c.content()
	if err != nil {
		return err
	}
	if _, err := os.Lstat(c.File); !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s exists already; give another name", c.File)
	}
	if err := build.WriteFile(c.File, data); err != nil {
		return err
	}
	fmt.Fprintf(s.out, "%s is written. Next:\n  mastwright missing %s\n  mastwright check %s\n", c.File, c.File, c.File)
	return nil
}

func (c newCommand) content() ([]byte, error) {
	if c.Example != "" {
		e, err := example(c.Example)
		return e.Data, err
	}
	return blank()
}

// blank is a design without answers, with the questions as comments.
func blank() ([]byte, error) {
	doc := design.New()
	if err := doc.Set("name", "New mount"); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := design.Encode(&b, doc); err != nil {
		return nil, err
	}
	fmt.Fprint(&b, "\n# Still to be answered, the most useful first; mastwright missing asks on as answers come.\n")
	for _, a := range doc.Missing() {
		fmt.Fprintf(&b, "#\n# %s: %s\n", a.Path, a.Title)
		if a.Measure != "" {
			fmt.Fprintf(&b, "#   %s\n", a.Measure)
		}
	}
	return b.Bytes(), nil
}

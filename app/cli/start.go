package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"mastwright/app/build"
	"mastwright/assets"
)

type startCommand struct {
	Out string `default:"first-mount" placeholder:"DIR" help:"Folder to write into where there is no window."`
}

// Run opens the window. Where there is none it does the main job on the first example.
func (c startCommand) Run(s *session) error {
	reason, err := s.openWindow()
	if reason == "" || err != nil {
		return err
	}
	return c.headless(s, reason)
}

// headless makes the first example: its design file, its parts and its papers in one folder. A design file that is there already is
// the builder's own and is made as it stands.
func (c startCommand) headless(s *session, reason string) error {
	e, err := example(assets.FirstStart)
	if err != nil {
		return err
	}
	file := filepath.Join(c.Out, e.Name+".yaml")
	if _, err := os.Lstat(file); errors.Is(err, fs.ErrNotExist) {
		made, err := build.MakeFolders(c.Out)
		if err != nil {
			return fmt.Errorf("write into %s: %w", c.Out, err)
		}
		if err := build.WriteFile(file, e.Data); err != nil {
			build.RemoveAll(made)
			return err
		}
	}
	err = s.make(file, build.Folder{Path: c.Out, How: force}, build.Options{Sheet: build.Sheet{PDF: true, Version: version()}}, false, true)
	var code exit
	if err != nil && !errors.As(err, &code) {
		return err
	}
	shown := filepath.ToSlash(c.Out)
	fmt.Fprintln(s.out)
	fmt.Fprint(s.out, build.Wrap("", 0, fmt.Sprintf("No window: %s. So the first mount was made without one; it is in %s.", reason, shown)))
	fmt.Fprintf(s.out, "\nNext: build the command, measure your own aircraft, and make its mount.\n"+
		"  go build ./cmd/mastwright\n"+
		"  ./mastwright new my-mount.yaml\n"+
		"  ./mastwright missing my-mount.yaml\n"+
		"  ./mastwright make my-mount.yaml --out my-mount\n")
	return err
}

package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"mastwright/app/build"
	"mastwright/design"
	"mastwright/design/revision"
)

type carryCommand struct {
	Old      string `arg:"" help:"Design file of the mount, its receiver and its printer."`
	Airframe string `required:"" placeholder:"FILE" help:"Design file of the aircraft that it goes on."`
	Out      string `required:"" placeholder:"FILE" help:"Design file to write. An existing one is left alone."`
}

func (c carryCommand) Run(s *session) error {
	if err := absent(c.Out); err != nil {
		return err
	}
	old, err := readDesign(c.Old)
	if err != nil {
		return err
	}
	aircraft, err := readDesign(c.Airframe)
	if err != nil {
		return err
	}
	carried, wrong := revision.Carry(old.doc, aircraft.doc, design.Options{Name: c.Out, Open: beside(c.Out)})
	if carried.Document == nil {
		return problems(wrong)
	}
	text, err := carried.Text(old.text, aircraft.text)
	if err != nil {
		return err
	}
	if err := writeNew(c.Out, text); err != nil {
		return err
	}
	fmt.Fprintf(s.out, "%s is written: receiver, printer, materials and mount of %s on the aircraft of %s.\n", c.Out, c.Old, c.Airframe)
	if len(carried.Dropped) > 0 {
		fmt.Fprintln(s.out)
	}
	for _, text := range carried.Dropped {
		fmt.Fprint(s.out, build.Wrap("", 2, text)[2:])
	}
	if len(carried.Measure) > 0 {
		fmt.Fprint(s.out, "\nStill to be measured:\n")
	}
	for _, a := range carried.Measure {
		text := fmt.Sprintf("%s (%s)", a.Title, a.Path)
		if a.Measure != "" {
			text += ": " + a.Measure
		}
		fmt.Fprint(s.out, build.Wrap("", 4, text))
	}
	if len(carried.Measure)+len(wrong) == 0 {
		fmt.Fprintf(s.out, "Every question about the aircraft is answered. Next:\n  mastwright check %s\n", c.Out)
	}
	if len(wrong) > 0 {
		fmt.Fprintln(s.err, problems(wrong))
		return exit(Unusable)
	}
	return nil
}

// absent refuses a name that is there already.
func absent(name string) error {
	if _, err := os.Lstat(name); !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s exists already; give another name", name)
	}
	return nil
}

// writeNew writes a file that is not there yet.
func writeNew(name string, data []byte) error {
	if err := absent(name); err != nil {
		return err
	}
	return build.WriteFile(name, data)
}
